"""One shot explained: why the ball did that, from replays of the physics."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any

import numpy as np

from .. import _core
from ..core.quantity import System
from ..core.result import Result
from ..core.value import from_table, table_of
from ..errors import InputError
from ..row.arc import GroundStrike, SwingArc, arc_of, ground_strike
from ..row.flight import STATUS_WORDS
from ..row.impact import is_rigid
from ..row.setting import Weather, air
from ..row.shot import Shot, world_of
from ..row.swing import Club, Delivery, Hand
from ..units import deg, mm, mph
from .bag import pace_of, usual_delivery
from .swing_plane import PLANE_RANGE, Look, look_of
from .what_if import what_if

if TYPE_CHECKING:
    from matplotlib.figure import Figure

CAUSES: tuple[str, ...] = tuple(_core.causes)
#: Smaller contributions are reported as none, m.
NOTICED = 0.05


@dataclass(frozen=True)
class Share:
    """What one cause adds to carry or to offline, m.

    Attributes
    ----------
    cause : str
        The cause.
    share : float
        Mean over all orders in which the causes can be added, m (Shapley 1953, from memory).
    least, most : float
        Smallest and largest over those orders, m.
    partner : str or None
        The cause it interacts with most; None if it acts alone.
    """

    cause: str
    share: float
    least: float
    most: float
    partner: str | None

    @property
    def together(self) -> bool:
        """Whether the order matters more than the share: then it is shared with another cause."""
        return self.partner is not None and self.most - self.least > max(abs(self.share), NOTICED)


@dataclass(frozen=True)
class Sideways:
    """Where a sideways distance comes from, m, positive right, added in this order.

    Attributes
    ----------
    square : float
        What a square, centred strike of the same speed, attack and loft does along the body's aim.
    strike_and_stance : float
        What strike point, stance and lie add.
    face : float
        What the face adds: the mean of adding it before and after the path.
    path : float
        What the path adds, likewise.
    """

    square: float
    strike_and_stance: float
    face: float
    path: float

    @property
    def total(self) -> float:
        """Sum of the four, m."""
        return self.square + self.strike_and_stance + self.face + self.path


@dataclass(frozen=True)
class Nudge:
    """What one change alone does to carry and offline.

    Attributes
    ----------
    change : str
        The change, in words.
    carry : float
        Change of carry, m; NaN where it would miss the face.
    offline : float
        Change of offline, m; NaN where it would miss the face.
    """

    change: str
    carry: float
    offline: float


@dataclass(frozen=True, repr=False)
class Explained(Result, view="explain"):
    """Why a shot went where it went; ``print`` gives it in words.

    Attributes
    ----------
    shot : Shot
        The shot.
    reference : Delivery
        The delivery it is compared with, in still standard air on level ground, square to the body's aim.
    reference_carry, reference_offline : float
        Where the reference's ball lands, m.
    carry, offline : tuple of Share
        The shares of the causes, m; they add up from the reference to the shot.
    start, curve, wind : Sideways
        Offline by start line, by curve and by wind; their totals add up to the shot's offline.
    level : Delivery
        The delivery without its stance and lie.
    nudges : tuple of Nudge
        Single changes.
    look : Look or None
        What the eye sees, if a plane was given.
    arc : SwingArc or None
        The arc, if a plane was given.
    ground : GroundStrike or None
        What the club meets first, if a height was given.
    aim, uphill : float
        As given, rad.
    replays : int
        Number of replays for the causes.
    grounded : int
        Replays that never left the ground; they count with a carry of 0.
    """

    shot: Shot
    reference: Delivery
    reference_carry: float
    reference_offline: float
    carry: tuple[Share, ...]
    offline: tuple[Share, ...]
    start: Sideways
    curve: Sideways
    wind: Sideways
    level: Delivery
    nudges: tuple[Nudge, ...]
    look: Look | None
    arc: SwingArc | None
    ground: GroundStrike | None
    aim: float
    uphill: float
    replays: int
    grounded: int

    def in_words(self, units: System = "yards") -> str:
        """Explain the shot as a player understands it, a paragraph for each question.

        Parameters
        ----------
        units : {"yards", "metric"}
            Units of the text.

        Returns
        -------
        str
            The explanation.
        """
        return str(self._words().of_shot(self, units))

    def __str__(self) -> str:
        return self.in_words()

    def __repr__(self) -> str:
        return f"Explained: {self.in_words()}"

    def _repr_html_(self) -> str:
        return str(self._words().as_html(self))

    def plot(self, units: System = "yards") -> Figure:
        """Draw the shares of carry and offline as bars; needs the ``plots`` extra.

        Parameters
        ----------
        units : {"yards", "metric"}
            Units of the labels.

        Returns
        -------
        Figure
            A matplotlib figure.
        """
        figure: Figure = self._plots().ledgers(self, units)
        return figure


def explain(
    shot: Shot,
    reference: Delivery | None = None,
    *,
    driver_speed: float | None = None,
    aim: float = 0.0,
    uphill: float = 0.0,
    plane_inclination: float | None = None,
    plane_range: float = PLANE_RANGE,
    radius: float = 1.5,
    height: float | None = None,
    sole_depth: float = 0.0,
    threads: int = 0,
) -> Explained:
    """Explain one shot that was played from a delivery.

    Parameters
    ----------
    shot : Shot
        One shot.
    reference : Delivery, optional
        The delivery to compare it with; by default the club's usual one.
    driver_speed : float, optional
        The player's driver speed, m/s, for the usual delivery; by default that of a player who usually swings this
        club as fast as this shot.
    aim : float
        Where the body aims, rad; positive right of the target. The reference is square to it, so that aiming does
        not read as a swing fault.
    uphill : float
        Slope along the target line that the player stood on, rad.
    plane_inclination : float, optional
        Inclination of the swing plane, rad, measured or assumed: adds what the eye sees of the swing.
    plane_range : float
        How far the plane may be off, rad.
    radius : float
        Radius of the arc, m.
    height : float, optional
        Height of the leading edge above the turf at the ball, m: adds what the club meets first. Needs the plane.
    sole_depth : float
        Depth of the sole below the leading edge, m.
    threads : int
        Threads; 0 uses all cores.

    Returns
    -------
    Explained
        The shares of the causes.

    Raises
    ------
    InputError
        For a shot without a delivery or a flight, for numbers out of range, and if the reference cannot be played
        with some of the shot's causes.

    Notes
    -----
    Shares are Shapley values (A value for n-person games, 1953; for sensitivity Owen & Prieur 2017; both from
    memory) over up to 256 replays.
    """
    hit, club = explainable(shot)
    _refuse_angle(aim, "aim", 45)
    if reference is None:
        pace = pace_of(club, float(hit.clubhead_speed)) if driver_speed is None else driver_speed
        reference = usual_delivery(club, pace)
    elif driver_speed is not None:
        raise InputError("give reference or driver_speed, not both")
    compared = reference
    if compared.shape != ():
        raise InputError("reference is an array; it takes one delivery")
    compared = replace(compared, club_path=compared.club_path + aim, face_angle=compared.face_angle + aim)
    found = _core.explain(
        table_of(hit, ()),
        float(uphill),
        table_of(compared, ()),
        table_of(air(Weather()), ()),
        table_of(club, ()),
        club.hand == "left",
        is_rigid(shot.impact_model),
        world_of(shot),
        threads,
    )
    if isinstance(found, str):
        raise InputError(found)
    arc, look = _look(hit, club.hand, float(aim), plane_inclination, plane_range, radius, height or 0.0)
    if height is not None and arc is None:
        raise InputError("height needs plane_inclination")
    tee = float(np.asarray(shot.terrain.tee_height))
    ground = None
    if arc is not None and height is not None:
        ground = ground_strike(
            arc, club, dynamic_loft=hit.dynamic_loft, tee_height=tee, sole_depth=sole_depth, ball=shot.ball
        )
    return Explained(
        shot=shot,
        reference=compared,
        reference_carry=found["reference_carry"],
        reference_offline=found["reference_offline"],
        carry=_shares(found["of_carry"]),
        offline=_shares(found["of_offline"]),
        start=Sideways(*found["start"]),
        curve=Sideways(*found["curve"]),
        wind=Sideways(*found["wind"]),
        level=from_table(Delivery, found["level"], ()),
        nudges=nudges(shot),
        look=look,
        arc=arc,
        ground=ground,
        aim=float(aim),
        uphill=float(uphill),
        replays=found["replays"],
        grounded=found["grounded"],
    )


#: One change at a time: what is changed, by how much, in words.
NUDGES: tuple[tuple[str, float, str], ...] = (
    ("face_angle", 1 * deg, "face 1° more to the right"),
    ("club_path", 1 * deg, "path 1° more to the right"),
    ("attack_angle", 1 * deg, "attack 1° more upward, loft kept"),
    ("dynamic_loft", 1 * deg, "1° more loft"),
    ("clubhead_speed", 1 * mph, "1 mph more clubhead speed"),
    ("strike_toe", 5 * mm, "strike 5 mm nearer the toe"),
    ("strike_high", 5 * mm, "strike 5 mm higher"),
)


def nudges(shot: Shot) -> tuple[Nudge, ...]:
    """What 1° of face, path, attack and loft, 1 mph and 5 mm of strike would each have changed, by replays."""
    hit, _ = explainable(shot)
    found = []
    for name, step, words in NUDGES:
        carry = offline = float("nan")
        try:
            moved = what_if(shot, delivery={name: getattr(hit, name) + step})
            if moved.status == "ok":
                carry, offline = moved.carry - shot.carry, moved.offline - shot.offline
        except InputError:  # off the face, or centred strikes only
            pass
        found.append(Nudge(words, carry, offline))
    return tuple(found)


def explainable(shot: Shot) -> tuple[Delivery, Club]:
    """Delivery and club of one shot that flew; raises InputError for others."""
    if shot.delivery is None or shot.club is None:
        raise InputError("explain takes a shot with a delivery: a measured launch does not say what the club did")
    if shot.shape != ():
        raise InputError(f"explain takes one shot, not an array of shape {shot.shape}")
    if shot.status != "ok":
        raise InputError(f"there is no flight to explain: {STATUS_WORDS[shot.status]}")
    return shot.delivery, shot.club


def _refuse_angle(x: float, name: str, limit: float) -> None:
    if not abs(x) <= limit * deg:
        raise InputError(f"{name} is {x / deg:.4g} deg; accepted: -{limit:g} deg to {limit:g} deg")


def _shares(found: dict[str, Any]) -> tuple[Share, ...]:
    together = np.abs(np.asarray(found["interaction"]))
    partners = [CAUSES[int(np.argmax(row))] if row.max() > 0.0 else None for row in together]
    return tuple(
        Share(*line) for line in zip(CAUSES, found["share"], found["least"], found["most"], partners, strict=True)
    )


def _look(
    hit: Delivery,
    hand: Hand,
    aim: float,
    plane: float | None,
    plane_range: float,
    radius: float,
    height: float,
) -> tuple[SwingArc | None, Look | None]:
    """The arc behind path and attack, and what the eye sees of it; nothing without a plane."""
    if plane is None:
        return None, None
    look = look_of(hit, plane_inclination=plane, plane_range=plane_range, hand=hand, aim=aim)
    return arc_of(hit, plane_inclination=plane, radius=radius, height=height, hand=hand), look
