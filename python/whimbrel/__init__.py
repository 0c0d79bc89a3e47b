"""Golf ball flight: from how the clubhead is delivered to where the ball rests, and why.

SI everywhere: metres, seconds, kilograms, radians, kelvin, pascal. Trade units enter and leave by factors::

    import whimbrel as wb
    from whimbrel.units import mph, deg, yd

    hit = wb.Delivery(clubhead_speed=84 * mph, attack_angle=-6 * deg, club_path=4 * deg,
                      face_angle=-1 * deg, dynamic_loft=24 * deg)
    shot = wb.play(hit, wb.clubs["7 iron"], wind=wb.Wind.head(4))
    shot.carry / yd

Predictions are for teaching, fitting and study, not for the safety of people or property.
"""

from importlib.metadata import version as _version
from pathlib import Path as _Path

from . import units
from .clouds.dispersion import dispersion, dispersion_of_strikes
from .core import cautions
from .errors import InputError, InputWarning, MissingPackage
from .inverse.doubt import doubt
from .pages.lesson import lesson
from .plots.sweep import plot_sweep
from .questions import conditions, holding_green, swing_plane
from .questions.bag import typical_bag, usual_bag, usual_delivery
from .questions.compare_clubs import compare
from .questions.course import choose_club, level_distance
from .questions.explain import explain
from .questions.global_sensitivity import global_sensitivity
from .questions.sensitivity import sensitivity
from .questions.what_if import what_if
from .row import aero, setting
from .row import arc as arcs
from .row.arc import SwingArc
from .row.ball import Ball, balls
from .row.flight import Launch
from .row.ground import Landing, Turf, green, load_turfs, turfs
from .row.impact import strike
from .row.play import at_standard_conditions, fly, play
from .row.setting import Terrain, Weather, Wind
from .row.swing import Club, Delivery, clubs, d_plane, load_clubs, present
from .row.trajectories import trajectories
from .sessions.session import session
from .statistics import targets
from .strikes.play_table import table
from .sweeps.sweep import sweep

__version__ = _version("whimbrel")


def include_dir() -> str:
    """The folder of the C++ headers that came with this package."""
    return str(_Path(__file__).parent / "include")


__all__ = [
    "Ball", "Club", "Delivery", "InputError", "InputWarning", "Landing", "Launch", "MissingPackage", "SwingArc",
    "Terrain", "Turf", "Weather", "Wind", "aero", "arcs", "at_standard_conditions", "balls", "cautions",
    "choose_club", "clubs", "compare", "conditions", "d_plane", "dispersion", "dispersion_of_strikes", "doubt",
    "explain", "fly", "global_sensitivity", "green", "holding_green", "include_dir", "lesson", "level_distance",
    "load_clubs", "load_turfs", "play", "plot_sweep", "present", "sensitivity", "session", "setting", "strike",
    "sweep", "swing_plane", "table", "targets", "trajectories", "turfs", "typical_bag", "units", "usual_bag",
    "usual_delivery", "what_if",
]  # fmt: skip


def __dir__() -> list[str]:
    return sorted(__all__)
