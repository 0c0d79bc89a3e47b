"""Launch and flight."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

import numpy as np

from .. import _core
from ..core.by_labels import by_labels
from ..core.given_numbers import UNSAID, own
from ..core.value import Array, Number, Value, as_numbers


@dataclass(frozen=True, repr=False)
class Launch(Value, kind="Launch"):
    """How the ball leaves the face. Scalars or arrays, broadcast together.

    ball_speed: m/s. launch_angle: rad, elevation. launch_direction: rad, positive right of the target
    line. spin_rate: rad/s, total; give 0 for a ball that does not spin: one that is left out is played as 0 with a
    warning. spin_axis_tilt: rad, positive when the ball curves right; 0 is pure
    backspin. axial_spin_rate: rad/s, the part along the launch direction (0 after an impact).
    """

    ball_speed: Number
    launch_angle: Number
    launch_direction: Number = 0.0
    spin_rate: Number = UNSAID
    spin_axis_tilt: Number = 0.0
    axial_spin_rate: Number = 0.0

    @classmethod
    @by_labels
    def from_backspin(
        cls,
        ball_speed: Number,
        launch_angle: Number,
        launch_direction: Number = 0.0,
        *,
        backspin_rate: Number,
        sidespin_rate: Number = 0.0,
    ) -> Launch:
        """A launch measured as backspin and sidespin (rad/s; sidespin positive curves right)."""
        back = own(backspin_rate, "backspin_rate", "rad/s")
        side = own(sidespin_rate, "sidespin_rate", "rad/s")
        spin, tilt = np.hypot(back, side)[()], np.arctan2(side, back)[()]
        return cls(ball_speed, launch_angle, launch_direction, spin, tilt)


def sample(value: Value, positions: Callable[[list[float]], Array] | None, time: Number) -> Array:
    """Positions of a flight or run at times: the value's shape, then the times', then 3."""
    if positions is None:
        raise ValueError("this was put together by hand: it has no trajectory")
    times = as_numbers(time, "time", "s")
    if not np.isfinite(times).all():
        raise ValueError("time: every value must be a finite number of seconds")
    return positions(times.ravel().tolist()).reshape(value.shape + times.shape + (3,))


@dataclass(frozen=True, repr=False)
class Flight(Value, kind="Flight"):
    """From launch to landing, the first time the ball's bottom meets the ground from above. SI, read-only.

    carry: m, horizontal distance from the start. downrange, offline: m, along and right of the target line.
    curve: m, sideways from the start line, positive right. apex: m, greatest height of the ball's bottom
    above the ground at the origin. apex_distance: m. flight_time: s. descent_angle: rad below the
    horizontal. landing_speed: m/s. landing_spin_rate: rad/s. status: ``"ok"``, ``"not_airborne"`` (carry 0),
    ``"no_landing"``, ``"numerical_failure"`` or ``"bad_input"``; only the first two have numbers.
    out_of_range: how far spin ratio and Reynolds number left the ball model's stated range, where it
    holds its edge value (0 inside, negative below, positive above). replay: looks up positions; None where the
    flight was put together by hand.
    """

    carry: Any
    downrange: Any
    offline: Any
    curve: Any
    apex: Any
    apex_distance: Any
    flight_time: Any
    descent_angle: Any
    landing_speed: Any
    landing_spin_rate: Any
    status: Any = "ok"
    out_of_range: dict[str, Any] = field(default_factory=dict)
    replay: Callable[[list[float]], Array] | None = field(default=None, repr=False, compare=False)

    def position_at(self, time: Number) -> Array:
        """Position of the ball's centre, m, at times after launch, s.

        Shape: the flight's, then the time's, then 3 (x right, y downrange, z up). Before launch and after
        landing the ball is where it started and landed.
        """
        return sample(self, self.replay, time)

    def path(self, points: int = 200) -> Array:
        """Positions from launch to landing at evenly spaced times, m, shape (points, 3); one flight only."""
        if self.shape != ():
            raise ValueError("path() is for one flight; for arrays use position_at(times)")
        return self.position_at(np.linspace(0.0, self.flight_time, points))


STATUSES = ("ok", "not_airborne", "no_landing", "numerical_failure", "bad_input", "no_rest", "out_of_reach")
STATUS_WORDS: dict[str, str] = dict(zip(STATUSES, _core.status_words, strict=True))
