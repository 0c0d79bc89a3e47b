"""The arc the clubhead swings on: what the eye sees of a swing, and what the numbers say of it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any, Literal

import numpy as np

from .. import _core
from ..core.by_labels import by_labels
from ..core.value import (
    Array,
    Number,
    Value,
    as_numbers,
    common_shape,
    from_table,
    table_of,
    unpack,
    value_or_default,
)
from ..errors import InputError, refuse
from ..units import deg, inch
from .ball import Ball
from .swing import Club, Delivery, Hand, Presentation, warn_if_fast

#: What face and shaft do when the ball is moved on the same arc.
FaceOnArc = Literal["turning", "held"]
CONTACTS = np.array(["clean", "fat", "thin"])


def _is_left(hand: Hand) -> bool:
    if hand not in ("right", "left"):
        raise InputError(f"hand is {hand!r}; accepted: right, left")
    return hand == "left"


def _is_held(face: FaceOnArc) -> bool:
    if face not in ("turning", "held"):
        raise InputError(f"face is {face!r}; accepted: turning, held")
    return face == "held"


def _in_range(x: Array, name: str, lower: float, upper: float, unit: str, factor: float = 1.0) -> Array:
    """Refuses the first number outside a range, NaN too, by its name."""
    outside = ~((x >= lower * factor) & (x <= upper * factor))
    if np.any(outside):
        worst = float(x[outside].flat[0]) / factor
        raise InputError(f"{name} is {worst:.4g} {unit}; accepted: {lower:g} {unit} to {upper:g} {unit}")
    return x


@dataclass(frozen=True, repr=False)
class ArcAtBall(Value, kind="ArcAtBall"):
    """The arc where the clubhead meets the ball.

    Attributes
    ----------
    beta : float or array
        Angle along the arc from its low point, rad; negative on the way down.
    attack_angle : float or array
        Attack angle there, rad.
    club_path : float or array
        Club path there, rad.
    edge_height : float or array
        Height of the leading edge above the turf, m.
    """

    beta: Any
    attack_angle: Any
    club_path: Any
    edge_height: Any


@dataclass(frozen=True, repr=False)
class SwingArc(Value, kind="SwingArc"):
    """The planar arc of the leading edge near impact, and the ball's place on it.

    Parameters
    ----------
    radius : float or array
        Radius near the low point, m. All numbers broadcast together.
    plane_inclination : float or array
        Inclination of the swing plane to the ground, rad.
    base_direction : float or array
        Direction of the base line, where the plane cuts the ground, rad; positive right. This is what the eye sees
        of a swing.
    low_point_ahead : float or array
        Distance of the low point beyond the ball along the base line, m.
    low_point_height : float or array
        Height of the low point above the turf, m; negative below it.

    Notes
    -----
    Near impact the clubhead stays in a plane: Morrison, McGrath, Wallace, J. Sports Sci. 2018 (abstract).
    """

    radius: Number = 1.5
    plane_inclination: Number = 60 * deg
    base_direction: Number = 0.0
    low_point_ahead: Number = 0.0
    low_point_height: Number = 0.0

    def _checked(self) -> tuple[Array, tuple[int, ...]]:
        shape = self.shape
        table = table_of(self, shape)
        mistakes = _core.arc_mistakes(table)
        refuse(mistakes, len(table))
        return table, shape

    @by_labels
    def at_ball(self, hand: Hand = "right") -> ArcAtBall:
        """Compute attack angle, path and height where the clubhead meets the ball.

        Parameters
        ----------
        hand : {"right", "left"}
            The side the player swings from.

        Returns
        -------
        ArcAtBall
            The arc there, of the arc's shape.

        Raises
        ------
        InputError
            For numbers out of range, and for a ball beyond the arc's reach.
        """
        table, shape = self._checked()
        return from_table(ArcAtBall, _core.at_ball(table, _is_left(hand)), shape)

    @by_labels
    def ball_moved(self, forward: Number) -> SwingArc:
        """Move the ball along the base line of the same swing.

        Parameters
        ----------
        forward : float or array
            How far toward the target, m; negative moves it back.

        Returns
        -------
        SwingArc
            The same arc, seen from the new place of the ball.
        """
        ahead = np.asarray(self.low_point_ahead) - as_numbers(forward, "forward", "m")
        return replace(self, low_point_ahead=ahead[()])

    def points(self, span: float = 0.4, count: int = 121) -> Array:
        """Compute points of one arc near the ball.

        Parameters
        ----------
        span : float
            How far to either side of the ball, m.
        count : int
            Number of points.

        Returns
        -------
        array
            Distance along the base line from the ball and height above the turf, m, shape (count, 2).
        """
        along = np.linspace(-span, span, count)
        rise = self.radius - np.sqrt(np.square(self.radius) - (along - self.low_point_ahead) ** 2)
        return np.column_stack([along, self.low_point_height + rise * np.sin(self.plane_inclination)])


@by_labels
def arc_of(
    delivery: Delivery,
    *,
    plane_inclination: Number,
    radius: Number = 1.5,
    height: Number = 0.0,
    hand: Hand = "right",
) -> SwingArc:
    """Compute the arc from a measured path and attack angle.

    Parameters
    ----------
    delivery : Delivery
        Path and attack angle; scalars or arrays. All numbers broadcast together.
    plane_inclination : float or array
        Inclination of the swing plane, rad, measured or assumed. An array, such as 62° ± 4°, shows what the
        assumption does to base direction and low point.
    radius : float or array
        Radius of the arc, m.
    height : float or array
        Height of the leading edge above the turf at the ball, m.
    hand : {"right", "left"}
        The side the player swings from.

    Returns
    -------
    SwingArc
        The arc, of the common shape.

    Raises
    ------
    InputError
        For an attack steeper than the plane, and for numbers out of range.
    """
    arc, mistakes = masked_arc(
        delivery, plane_inclination=plane_inclination, radius=radius, height=height, hand=hand
    )
    refuse(mistakes, int(np.prod(arc.shape)))
    return arc


def masked_arc(
    delivery: Delivery,
    *,
    plane_inclination: Number,
    radius: Number = 1.5,
    height: Number = 0.0,
    hand: Hand = "right",
) -> tuple[SwingArc, list[tuple[int, str]]]:
    """Compute ``arc_of``, with NaN in bad rows.

    Parameters
    ----------
    delivery : Delivery
        Path and attack angle.
    plane_inclination : float or array
        Inclination of the swing plane, rad.
    radius : float or array
        Radius of the arc, m.
    height : float or array
        Height of the leading edge above the turf at the ball, m.
    hand : {"right", "left"}
        The side the player swings from.

    Returns
    -------
    arc : SwingArc
        The arc, of the common shape.
    mistakes : list of (int, str)
        The bad rows, and what is wrong with each.
    """
    shaped = SwingArc(radius=radius, plane_inclination=plane_inclination)
    heights = as_numbers(height, "height", "m")
    shape = common_shape([delivery, shaped], height=heights)
    rows = int(np.prod(shape))
    flat = np.broadcast_to(heights, shape).ravel().tolist()
    table, mistakes = _core.arc_of(table_of(delivery, shape), table_of(shaped, shape), flat, _is_left(hand), rows)
    return from_table(SwingArc, table, shape), mistakes


@by_labels
def carried_along(
    delivery: Delivery, start: SwingArc, end: SwingArc, *, hand: Hand = "right", face: FaceOnArc = "turning"
) -> Delivery:
    """Carry a delivery to another place of its arc, as when the ball is moved.

    Parameters
    ----------
    delivery : Delivery
        The delivery at ``start``; scalars or arrays. All numbers broadcast together.
    start : SwingArc
        The arc with the ball where the delivery was made.
    end : SwingArc
        The same arc with the ball in its new place.
    hand : {"right", "left"}
        The side the player swings from.
    face : {"turning", "held"}
        ``"turning"``: face and shaft turn with the arc, as with a club that is not re-aimed. ``"held"``: the hands
        keep face angle and dynamic loft.

    Returns
    -------
    Delivery
        Path and attack angle of the new place, of the common shape.

    Raises
    ------
    InputError
        For numbers out of range.
    """
    start._checked()
    end._checked()
    shape = common_shape([delivery, start, end])
    rows = int(np.prod(shape))
    table, mistakes = _core.carried_along(
        table_of(delivery, shape),
        table_of(start, shape),
        table_of(end, shape),
        _is_left(hand),
        _is_held(face),
        rows,
    )
    refuse(mistakes, rows)
    return from_table(Delivery, table, shape)


@by_labels
def on_uphill_stance(delivery: Delivery, uphill: Number) -> Delivery:
    """Turn a delivery with a slope along the target line, the body set to the slope.

    Parameters
    ----------
    delivery : Delivery
        The delivery on level ground; scalars or arrays.
    uphill : float or array
        Slope along the target line, rad, −45° to 45°; positive uphill. For a ball above or below the feet, add the
        angle to the ``lie_tilt`` of ``present``.

    Returns
    -------
    Delivery
        The delivery with path and face turned, of the common shape.

    Raises
    ------
    InputError
        For a slope out of range.
    """
    slopes = _in_range(as_numbers(uphill, "uphill", "rad"), "uphill", -45, 45, "deg", deg)
    shape = common_shape([delivery], uphill=slopes)
    rows = int(np.prod(shape))
    flat = np.broadcast_to(slopes, shape).ravel().tolist()
    table, _ = _core.on_uphill_stance(table_of(delivery, shape), flat, rows)
    return from_table(Delivery, table, shape)


@dataclass(frozen=True, repr=False)
class GroundStrike(Value, kind="GroundStrike"):
    """What the club meets first, and where on the face it meets the ball.

    Attributes
    ----------
    strike_high : float or array
        Strike above the face centre, m.
    turf_entry : float or array
        Where the sole enters the turf, m ahead of the ball along the base line; NaN if it never does.
    divot_depth : float or array
        Greatest depth of the sole below the turf, m.
    contact : str or array of str
        ``"clean"``; ``"fat"``: the ground more than 5 mm before the ball; ``"thin"``: the ball within a third of
        the way from leading edge to face centre. Both limits are this project's choice.
    """

    strike_high: Any
    turf_entry: Any
    divot_depth: Any
    contact: Any


@by_labels
def ground_strike(
    arc: SwingArc,
    club: Club,
    *,
    dynamic_loft: Number,
    tee_height: Number = 0.0,
    sole_depth: Number = 0.0,
    ball: Ball | None = None,
) -> GroundStrike:
    """Compute where a club on an arc meets ball and ground.

    Parameters
    ----------
    arc : SwingArc
        The arc; scalars or arrays. All numbers broadcast together.
    club : Club
        The club.
    dynamic_loft : float or array
        Loft at impact, rad, −30° to 80°.
    tee_height : float or array
        Height of the ball's bottom, m, 0 to 0.2.
    sole_depth : float or array
        Depth of the sole below the leading edge, m, 0 to 0.05.
    ball : Ball, optional
        The ball; the standard one by default.

    Returns
    -------
    GroundStrike
        Of the common shape.

    Raises
    ------
    InputError
        For numbers out of range.

    Notes
    -----
    What the turf does to the head is not modelled: play a fat strike with the speed that is left.
    """
    radius = value_or_default(ball, "ball", Ball).radius
    lofts = as_numbers(dynamic_loft, "dynamic_loft", "rad")
    numbers = {
        "dynamic_loft": _in_range(lofts, "dynamic_loft", -30, 80, "deg", deg),
        "tee_height": _in_range(as_numbers(tee_height, "tee_height", "m"), "tee_height", 0.0, 0.2, "m"),
        "ball_radius": as_numbers(radius, "ball_radius"),
        "sole_depth": _in_range(as_numbers(sole_depth, "sole_depth", "m"), "sole_depth", 0.0, 0.05, "m"),
    }
    arc._checked()
    shape = common_shape([arc, club], **numbers)
    flat = [np.broadcast_to(x, shape).ravel().tolist() for x in numbers.values()]
    rows = int(np.prod(shape))
    table, contacts = _core.ground_strike(
        table_of(arc, shape), table_of(club, shape), club.hand == "left", flat, rows
    )
    return from_table(GroundStrike, table, shape, contact=unpack(CONTACTS[np.asarray(contacts)], shape))


@dataclass(frozen=True, repr=False)
class _BallPlace(Value, kind="BallPlace"):
    ball_forward: Number
    tee_height: Number


@by_labels
def delivered_on(
    arc: SwingArc,
    club: Club,
    *,
    clubhead_speed: Number,
    shaft_lean: Number = 0.0,
    face_angle: Number = 0.0,
    lie_tilt: Number = 0.0,
    ball_forward: Number = 0.0,
    tee_height: Number = 0.0,
) -> Delivery:
    """Compute what an arc delivers with a club to a ball moved along it or teed.

    Parameters
    ----------
    arc : SwingArc
        The arc, which gives path and attack angle; scalars or arrays. All numbers broadcast together.
    club : Club
        The club.
    clubhead_speed : float or array
        Clubhead speed, m/s.
    shaft_lean : float or array
        Shaft lean, rad; forward is positive.
    face_angle : float or array
        Direction the face is turned to, rad.
    lie_tilt : float or array
        Tilt of the club, rad; toe up is positive.
    ball_forward : float or array
        How far the ball is moved forward on the arc, m.
    tee_height : float or array
        Height of the ball's bottom, m. With the arc's height it gives the height of the strike on the face.

    Returns
    -------
    Delivery
        Of the common shape.

    Raises
    ------
    InputError
        For numbers out of range.

    Notes
    -----
    One arc gives two deliveries with an iron and with a driver: down on a ball on the ground, up on a teed ball
    farther forward.
    """
    hands = Presentation(shaft_lean, face_angle, lie_tilt)
    place = _BallPlace(ball_forward, tee_height)
    speeds = as_numbers(clubhead_speed, "clubhead_speed", "m/s")
    warn_if_fast(speeds)
    shape = common_shape([arc, club, hands, place], clubhead_speed=speeds)
    rows = int(np.prod(shape))
    table, mistakes = _core.delivered_on(
        table_of(arc, shape),
        table_of(club, shape),
        club.hand == "left",
        table_of(hands, shape),
        np.broadcast_to(speeds, shape).ravel().tolist(),
        table_of(place, shape),
        float(Ball().radius),
        rows,
    )
    refuse(mistakes, rows)
    return from_table(Delivery, table, shape)


def assumed_plane(club: Club) -> float:
    """Estimate the inclination of a swing plane that was not measured.

    Parameters
    ----------
    club : Club
        The club; its length decides.

    Returns
    -------
    float
        Inclination, rad: 62° for a 7 iron of 37 in, 48° for a driver of 45.5 in, linear in length. Common practice,
        no source; good to about 4°.
    """
    return float(62 * deg + (float(np.asarray(club.length)) / inch - 37.0) * (48 - 62) / 8.5 * deg)
