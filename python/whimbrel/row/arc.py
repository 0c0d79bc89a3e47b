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

    beta: rad along the arc from its low point, negative on the way down. attack_angle, club_path: rad.
    edge_height: m, of the leading edge above the turf.
    """

    beta: Any
    attack_angle: Any
    club_path: Any
    edge_height: Any


@dataclass(frozen=True, repr=False)
class SwingArc(Value, kind="SwingArc"):
    """The planar arc of the leading edge near impact, and where the ball lies on it. Scalars or arrays.

    radius: m, near the low point. plane_inclination: rad, of the swing plane to the ground. base_direction: rad,
    of the line in which the plane cuts the ground, positive right: what the eye sees of the swing.
    low_point_ahead: m, of the ball along that line. low_point_height: m, above the turf; negative: below it.

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
        """Attack angle, path and height where the clubhead meets the ball."""
        table, shape = self._checked()
        return from_table(ArcAtBall, _core.at_ball(table, _is_left(hand)), shape)

    @by_labels
    def ball_moved(self, forward: Number) -> SwingArc:
        """The same swing with the ball moved along the base line by ``forward`` metres (negative: back)."""
        ahead = np.asarray(self.low_point_ahead) - as_numbers(forward, "forward", "m")
        return replace(self, low_point_ahead=ahead[()])

    def points(self, span: float = 0.4, count: int = 121) -> Array:
        """The arc within ``span`` metres of the ball: along the base line from the ball, and height above the
        turf, m, shape (count, 2); one arc only."""
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
    """The arc behind a measured path and attack angle.

    plane_inclination: rad, measured or assumed (give an array, such as 62° ± 4°, to see what the assumption does to
    base direction and low point). radius: m. height: m, of the leading edge above the turf at the ball. Raises
    InputError where the attack is steeper than the plane.
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
    """``arc_of``, NaN in bad rows, and what is wrong with each of those."""
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
    """A delivery on one arc, carried to another place of the same arc, as when the ball is moved.

    Path and attack are those of the new place. face: ``"turning"``, face and shaft turn with the arc about the
    plane's normal, as a club that is not re-aimed; ``"held"``, the hands keep face angle and dynamic loft.
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
    """A delivery made on a slope along the target line, the body set to it: path and face turn with the slope.

    uphill: rad, positive uphill. (Across the slope, ball above the feet: add the angle to ``present``'s lie_tilt.)
    """
    slopes = _in_range(as_numbers(uphill, "uphill", "rad"), "uphill", -45, 45, "deg", deg)
    shape = common_shape([delivery], uphill=slopes)
    rows = int(np.prod(shape))
    flat = np.broadcast_to(slopes, shape).ravel().tolist()
    table, _ = _core.on_uphill_stance(table_of(delivery, shape), flat, rows)
    return from_table(Delivery, table, shape)


@dataclass(frozen=True, repr=False)
class GroundStrike(Value, kind="GroundStrike"):
    """What the club meets first, and where on the face the ball is.

    strike_high: m, of the strike above the face centre. turf_entry: m, where the sole enters the turf, ahead of the
    ball along the base line; NaN where it never does. divot_depth: m. contact: ``"clean"``, ``"fat"`` (the ground
    more than 5 mm before the ball) or ``"thin"`` (the ball within a third of the way from leading edge to face
    centre); both limits are this project's choice.
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
    """Where a club on an arc meets ball and ground; scalars or arrays.

    tee_height: m, of the ball's bottom. sole_depth: m, the sole below the leading edge. What the turf does to the
    head is not modelled: play a fat strike with the speed it has left.
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
    """What one arc delivers with a club, the ball moved forward on it and put on a tee.

    Path and attack come from the arc, the face from how the hands present it, the strike's height on the face from
    the heights of arc and ball. The same arc with an iron and with a driver gives two deliveries: down on a ball on
    the ground, up on a teed ball farther forward.
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
    """The swing plane's inclination, rad, where it was not measured: 62° with a 7 iron of 37 in, 48° with a driver
    of 45.5 in, by length between and beyond (common practice, no source; take it as within 4°)."""
    return float(62 * deg + (float(np.asarray(club.length)) / inch - 37.0) * (48 - 62) / 8.5 * deg)
