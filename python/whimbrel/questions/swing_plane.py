"""What the eye sees of a swing and what the numbers say of it; the ball moved on the same arc."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal

import numpy as np

from ..core.quantity import System
from ..core.result import Result
from ..core.value import Array, units_of
from ..errors import InputError
from ..row.arc import FaceOnArc, GroundStrike, SwingArc, arc_of, carried_along, ground_strike
from ..row.shot import Shot
from ..row.swing import Delivery, Hand
from ..units import deg
from .what_if import what_if

#: How far a plane that was assumed, not measured, may be off: this project's choice.
PLANE_RANGE = 4 * deg
#: Angles under this are told as none, rad.
SEEN = 0.05 * deg


def planes_around(plane_inclination: float, plane_range: float = PLANE_RANGE) -> Array:
    """A plane's inclination, and how flat and how steep it may be, shape (3,), rad: a vertical one is the steepest.

    Raises InputError for a range below 0.
    """
    if not 0.0 <= plane_range < np.inf:
        raise InputError(f"plane_range is {plane_range / deg:.4g} deg; accepted: 0 deg or more")
    steepest = min(plane_inclination + plane_range, max(plane_inclination, 90 * deg))
    return np.array([plane_inclination, plane_inclination - plane_range, steepest])


def over_the_top_in_to_out(path: float, down_hit: float, away: float) -> bool:
    """Whether a swing can look over the top and measure in-to-out: its path lies between the body's line and what
    the downward hit adds to it.

    path: rad, against the body's line. down_hit: rad. away: +1 where away from the player is to the right, else −1.
    """
    return SEEN <= away * path <= away * down_hit - SEEN


@dataclass(frozen=True)
class Look(Result, view="swing_plane"):
    """Where the swing plane points, and whether the numbers support a swing that looks over the top and measures
    in-to-out.

    base_direction: rad, of the plane's base line, positive right of the target: what the eye sees. down_hit: rad,
    what the attack angle adds to the path. Each has its range over ``plane_inclination ± plane_range``. aim: rad,
    of the body. supported: whether, over that range, the path lies between the body's line and what the downward
    hit adds to it: ``"yes"``, ``"no"``, or ``"in part"`` of the range.
    """

    plane_inclination: float
    plane_range: float
    base_direction: float
    base_range: tuple[float, float]
    down_hit: float
    down_hit_range: tuple[float, float]
    path: float
    attack_angle: float
    aim: float
    hand: Hand
    supported: Literal["yes", "no", "in part"]

    @property
    def away(self) -> float:
        """+1 where away from the player is to the right (a right-hander), else −1."""
        return 1.0 if self.hand == "right" else -1.0

    def in_words(self) -> str:
        """The look, what makes it, the condition for it, and how sure that is."""
        return str(self._words().of_look(self))


def look_of(
    delivery: Delivery,
    *,
    plane_inclination: float,
    plane_range: float = PLANE_RANGE,
    hand: Hand = "right",
    aim: float = 0.0,
) -> Look:
    """What the eye sees of a swing with this path and attack, and whether it can look over the top.

    plane_inclination: rad; plane_range: rad, how far it may be off, 0 where it was measured. aim: rad, of the body.
    The path of a downward hit lies off the plane's base line, away from the player: with base line, path and body
    line in that order the swing looks over the top and measures in-to-out. Raises InputError for angles out of
    range.
    """
    planes = planes_around(plane_inclination, plane_range)
    arcs = arc_of(delivery, plane_inclination=planes, hand=hand)
    path, away = float(delivery.club_path), 1.0 if hand == "right" else -1.0
    bases: list[float] = np.asarray(arcs.base_direction).tolist()
    hits = [path - base for base in bases]
    holds = [over_the_top_in_to_out(path - aim, down, away) for down in hits]
    return Look(
        plane_inclination=float(plane_inclination),
        plane_range=float(plane_range),
        base_direction=bases[0],
        base_range=(min(bases), max(bases)),
        down_hit=hits[0],
        down_hit_range=(min(hits), max(hits)),
        path=path,
        attack_angle=float(delivery.attack_angle),
        aim=float(aim),
        hand=hand,
        supported="yes" if all(holds) else "in part" if any(holds) else "no",
    )


@dataclass(frozen=True)
class BallMoved(Result, view="swing_plane"):
    """A shot, and the same swing with the ball moved along its arc.

    forward: m, toward the target. turning: with face and shaft turning with the arc; held: with the hands holding
    face angle and loft. before, turning_met, held_met: what the club meets first in each.
    """

    forward: float
    shot: Shot
    turning: Shot
    held: Shot
    before: GroundStrike
    turning_met: GroundStrike
    held_met: GroundStrike

    def in_words(self, units: System = "yards") -> str:
        """What moving the ball did to the delivery, the strike and the flight, both ways."""
        return str(self._words().of_ball_moved(self, units))


def ball_moved(
    shot: Shot,
    forward: float,
    *,
    plane_inclination: float,
    radius: float = 1.5,
    height: float = 0.0,
    sole_depth: float = 0.0,
) -> BallMoved:
    """The same swing with the ball ``forward`` metres nearer the target on it (negative: back), played twice.

    height: m, of the leading edge above the turf where the ball was. The ball is struck where the arc's height
    there puts it, as far from the shot's own strike as the heights differ. Raises InputError for a shot without a
    delivery, and where the ball would miss the face.
    """
    if shot.delivery is None or shot.club is None:
        raise InputError("ball_moved takes a shot with a delivery; a measured launch says nothing of the swing")
    club, tee = shot.club, shot.terrain.tee_height
    start = arc_of(shot.delivery, plane_inclination=plane_inclination, radius=radius, height=height, hand=club.hand)
    end = start.ball_moved(forward)

    def meets(arc: SwingArc, hit: Delivery) -> GroundStrike:
        return ground_strike(
            arc, club, dynamic_loft=hit.dynamic_loft, tee_height=tee, sole_depth=sole_depth, ball=shot.ball
        )

    before = meets(start, shot.delivery)
    played, met = [], []
    faces: tuple[FaceOnArc, ...] = ("turning", "held")
    for face in faces:
        hit = carried_along(shot.delivery, start, end, hand=club.hand, face=face)
        met.append(meets(end, hit))
        higher = float(met[-1].strike_high - before.strike_high)
        hit = replace(hit, strike_high=float(hit.strike_high) + higher)
        played.append(what_if(shot, delivery={name: getattr(hit, name) for name in units_of(Delivery)}))
    return BallMoved(float(forward), shot, played[0], played[1], before, met[0], met[1])
