"""Golf ball flight: from how the clubhead is delivered to where the ball lands, and why.

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
from .ball import (
    AeroModel,
    AeroTable,
    Ball,
    ConstantCoefficients,
    MultiLayer,
    SmitsSmith,
    SquareRootLift,
    balls,
)
from .compared import Compared, assumed_plane, compare
from .errors import InputError, MissingPackage
from .explain import Explained, explain, what_if
from .flight import Flight, Launch
from .impact import Impact, strike
from .setting import Air, Terrain, Weather, Wind, air
from .shot import Shot, at_standard_conditions, fly, play
from .swing import Club, Clubs, Delivery, DPlane, clubs, d_plane, load_clubs, present
from .swing_arc import (
    ArcAtBall,
    GroundStrike,
    SwingArc,
    arc_of,
    carried_along,
    delivered_on,
    ground_strike,
    on_uphill_stance,
)
from .swing_seen import BallMoved, Look, ball_moved, look_of
from .tables import table

__version__ = _version("whimbrel")


def include_dir() -> str:
    """The folder of the C++ headers that came with this package."""
    return str(_Path(__file__).parent / "include")


__all__ = [
    "AeroModel", "AeroTable", "Air", "ArcAtBall", "Ball", "BallMoved", "Club", "Clubs", "Compared",
    "ConstantCoefficients", "DPlane", "Delivery", "Explained", "Flight", "GroundStrike", "Impact", "InputError",
    "Launch", "Look", "MissingPackage", "MultiLayer", "Shot", "SmitsSmith", "SquareRootLift", "SwingArc",
    "Terrain", "Weather", "Wind", "air", "arc_of", "assumed_plane", "at_standard_conditions", "ball_moved",
    "balls", "carried_along", "clubs", "compare", "d_plane", "delivered_on", "explain", "fly", "ground_strike",
    "include_dir", "load_clubs", "look_of", "on_uphill_stance", "play", "present", "strike", "table", "units",
    "what_if",
]  # fmt: skip
