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
from .aim import Circle, Corridor, Green, TargetPlay
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
from .change import Change, Comparison
from .errors import InputError, MissingPackage
from .flight import Flight, Launch
from .impact import Impact, strike
from .reading import Reading, load_reading
from .scatter import Scatter
from .session import Session, session
from .setting import Air, Terrain, Weather, Wind, air
from .shot import Shot, at_standard_conditions, fly, play
from .spread import Spread
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
from .tables import table

__version__ = _version("whimbrel")


def include_dir() -> str:
    """The folder of the C++ headers that came with this package."""
    return str(_Path(__file__).parent / "include")


__all__ = [
    "AeroModel", "AeroTable", "Air", "ArcAtBall", "Ball", "Change", "Circle", "Club", "Clubs", "Comparison",
    "ConstantCoefficients", "Corridor", "DPlane", "Delivery", "Flight", "Green", "GroundStrike", "Impact",
    "InputError", "Launch", "MissingPackage", "MultiLayer", "Reading", "Scatter", "Session", "Shot", "SmitsSmith",
    "Spread", "SquareRootLift", "SwingArc", "TargetPlay", "Terrain", "Weather", "Wind", "air", "arc_of",
    "at_standard_conditions", "balls", "carried_along", "clubs", "d_plane", "delivered_on", "fly", "ground_strike",
    "include_dir", "load_clubs", "load_reading", "on_uphill_stance", "play", "present", "session", "strike",
    "table", "units",
]  # fmt: skip
