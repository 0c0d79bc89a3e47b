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
from .clouds.cloud import Dispersion
from .clouds.dispersion import dispersion, dispersion_of_strikes
from .core import cautions
from .errors import InputError, InputWarning, MissingPackage
from .pages.lesson import lesson
from .plots.sweep import plot_sweep
from .questions.bag import Bag, typical_bag, usual_bag, usual_delivery
from .questions.compare_clubs import Compared, compare
from .questions.conditions import AirTable, WindTable, carry_by_air, carry_by_wind
from .questions.course import Choice, CourseShot, choose_club, level_distance
from .questions.explain import Explained, explain
from .questions.global_sensitivity import GlobalSensitivity, global_sensitivity
from .questions.holding_green import descent_to_hold, spin_to_hold
from .questions.sensitivity import Sensitivity, sensitivity
from .questions.swing_plane import BallMoved, Look, ball_moved, look_of
from .questions.what_if import what_if
from .row.arc import (
    ArcAtBall,
    GroundStrike,
    SwingArc,
    arc_of,
    assumed_plane,
    carried_along,
    delivered_on,
    ground_strike,
    on_uphill_stance,
)
from .row.ball import (
    AeroModel,
    AeroTable,
    Ball,
    ConstantCoefficients,
    MultiLayer,
    SmitsSmith,
    SquareRootLift,
    balls,
)
from .row.flight import Flight, Launch
from .row.ground import Landing, Run, Turf, green, load_turfs, turfs
from .row.impact import Impact, strike
from .row.play import at_standard_conditions, fly, play
from .row.setting import Air, Terrain, Weather, Wind, air
from .row.shot import Shot
from .row.swing import Club, Clubs, Delivery, DPlane, clubs, d_plane, load_clubs, present
from .row.trajectories import trajectories
from .sessions.change import Change, Comparison
from .sessions.drivers import Scatter
from .sessions.session import Session, session
from .statistics.best_aim import TargetPlay
from .statistics.center_and_spread import Spread
from .statistics.targets import Circle, Corridor, Polygon, Rectangle
from .strikes.play_table import table
from .strikes.reading import Reading, load_reading
from .sweeps.sweep import sweep

__version__ = _version("whimbrel")


def include_dir() -> str:
    """The folder of the C++ headers that came with this package."""
    return str(_Path(__file__).parent / "include")


__all__ = [
    "AeroModel", "AeroTable", "Air", "AirTable", "ArcAtBall", "Bag", "Ball", "BallMoved", "Change", "Choice",
    "Circle", "Club", "Clubs", "Compared", "Comparison", "ConstantCoefficients", "Corridor", "CourseShot",
    "DPlane", "Delivery", "Dispersion", "Explained", "Flight", "GlobalSensitivity", "GroundStrike", "Impact",
    "InputError", "InputWarning", "Landing", "Launch", "Look", "MissingPackage", "MultiLayer", "Polygon", "Reading",
    "Rectangle", "Run", "Scatter", "Sensitivity", "Session", "Shot", "SmitsSmith", "Spread", "SquareRootLift",
    "SwingArc", "Target", "TargetPlay", "Terrain", "Turf", "Weather", "Wind", "WindTable", "air", "arc_of",
    "assumed_plane",
    "at_standard_conditions", "ball_moved", "balls", "carried_along", "carry_by_air", "carry_by_wind", "cautions",
    "choose_club", "clubs", "compare", "d_plane", "delivered_on", "descent_to_hold", "dispersion",
    "dispersion_of_strikes", "explain", "fly", "global_sensitivity", "green", "ground_strike", "include_dir",
    "lesson", "level_distance", "load_clubs", "load_reading", "load_turfs", "look_of", "on_uphill_stance", "play",
    "plot_sweep", "present", "sensitivity", "session", "spin_to_hold", "strike", "sweep", "table", "trajectories",
    "turfs", "typical_bag", "units", "usual_bag", "usual_delivery", "what_if",
]  # fmt: skip
