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
#: Smaller angles are reported as none, rad.
SEEN = 0.05 * deg


def planes_around(plane_inclination: float, plane_range: float = PLANE_RANGE) -> Array:
    """List a plane's inclination with the flattest and the steepest it may have.

    Parameters
    ----------
    plane_inclination : float
        Inclination, rad.
    plane_range : float
        How far it may be off, rad.

    Returns
    -------
    array
        Inclination, flattest and steepest, rad, shape (3,). None is steeper than vertical.

    Raises
    ------
    InputError
        For a range below 0.
    """
    if not 0.0 <= plane_range < np.inf:
        raise InputError(f"plane_range is {plane_range / deg:.4g} deg; accepted: 0 deg or more")
    steepest = min(plane_inclination + plane_range, max(plane_inclination, 90 * deg))
    return np.array([plane_inclination, plane_inclination - plane_range, steepest])


def over_the_top_in_to_out(path: float, down_hit: float, away: float) -> bool:
    """Tell whether a swing can look over the top and measure in-to-out.

    Its path then lies between the body's line and what the downward hit adds to it.

    Parameters
    ----------
    path : float
        Club path against the body's line, rad.
    down_hit : float
        What the downward hit adds to the path, rad.
    away : float
        +1 where away from the player is to the right, −1 where it is to the left.

    Returns
    -------
    bool
        Whether it can.
    """
    return SEEN <= away * path <= away * down_hit - SEEN


@dataclass(frozen=True)
class Look(Result, view="swing_plane"):
    """Where the swing plane points, and whether the swing looks over the top but measures in-to-out.

    Attributes
    ----------
    plane_inclination : float
        Inclination of the plane, rad.
    plane_range : float
        How far it may be off, rad.
    base_direction : float
        Direction of the plane's base line, rad, positive right of the target: what the eye sees.
    base_range : tuple of float
        Its range over that of the plane, rad.
    down_hit : float
        What the attack angle adds to the path, rad.
    down_hit_range : tuple of float
        Its range over that of the plane, rad.
    path : float
        Club path, rad.
    attack_angle : float
        Attack angle, rad.
    aim : float
        Direction of the body, rad.
    hand : {"right", "left"}
        The side the player swings from.
    supported : {"yes", "no", "in part"}
        Whether the path lies between the body's line and what the downward hit adds to it, over the plane's range.
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
        """+1 if away from the player is to the right (a right-hander), else −1."""
        return 1.0 if self.hand == "right" else -1.0

    def in_words(self) -> str:
        """Describe the look, what makes it, the condition for it, and how sure that is.

        Returns
        -------
        str
            Plain sentences.
        """
        return str(self._words().of_look(self))


def look_of(
    delivery: Delivery,
    *,
    plane_inclination: float,
    plane_range: float = PLANE_RANGE,
    hand: Hand = "right",
    aim: float = 0.0,
) -> Look:
    """Compute what the eye sees of a swing, and whether it can look over the top.

    Parameters
    ----------
    delivery : Delivery
        Path and attack angle of one swing.
    plane_inclination : float
        Inclination of the swing plane, rad.
    plane_range : float
        How far it may be off, rad; 0 if it was measured.
    hand : {"right", "left"}
        The side the player swings from.
    aim : float
        Direction of the body, rad; positive right of the target.

    Returns
    -------
    Look
        What the eye sees.

    Raises
    ------
    InputError
        For angles out of range.

    Notes
    -----
    The path of a downward hit lies off the plane's base line, away from the player. With base line, body line and
    path in that order the swing looks over the top and measures in-to-out.
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

    Attributes
    ----------
    forward : float
        How far toward the target the ball was moved, m.
    shot : Shot
        The shot before.
    turning : Shot
        With face and shaft turning with the arc.
    held : Shot
        With the hands holding face angle and loft.
    before, turning_met, held_met : GroundStrike
        What the club meets first in each.
    """

    forward: float
    shot: Shot
    turning: Shot
    held: Shot
    before: GroundStrike
    turning_met: GroundStrike
    held_met: GroundStrike

    def in_words(self, units: System = "yards") -> str:
        """Describe what moving the ball did to delivery, strike and flight, both ways.

        Parameters
        ----------
        units : {"yards", "metric"}
            Units of the text.

        Returns
        -------
        str
            Plain sentences.
        """
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
    """Play the same swing twice more with the ball moved along its arc.

    Parameters
    ----------
    shot : Shot
        One shot that was played from a delivery.
    forward : float
        How far toward the target to move the ball, m; negative moves it back.
    plane_inclination : float
        Inclination of the swing plane, rad.
    radius : float
        Radius of the arc, m.
    height : float
        Height of the leading edge above the turf where the ball was, m.
    sole_depth : float
        Depth of the sole below the leading edge, m.

    Returns
    -------
    BallMoved
        The shot before, and two after. Each strikes as much higher or lower on the face as the arc's height
        differs.

    Raises
    ------
    InputError
        For a shot without a delivery, and if the ball would miss the face.
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
