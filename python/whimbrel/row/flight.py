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
    """How the ball leaves the face.

    Parameters
    ----------
    ball_speed : float or array
        Ball speed, m/s. All numbers broadcast together.
    launch_angle : float or array
        Elevation, rad.
    launch_direction : float or array
        Direction, rad; positive right of the target line.
    spin_rate : float or array
        Total spin, rad/s. Give 0 for a ball without spin: a missing spin is played as 0, with a warning.
    spin_axis_tilt : float or array
        Tilt of the spin axis, rad; positive curves right, 0 is pure backspin.
    axial_spin_rate : float or array
        Spin about the launch direction, rad/s; 0 after an impact.

    Examples
    --------
    >>> Launch(70 * mph, 20 * deg, spin_rate=6000 * rpm)
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
        """Build a launch from backspin and sidespin.

        Parameters
        ----------
        ball_speed : float or array
            Ball speed, m/s. All numbers broadcast together.
        launch_angle : float or array
            Elevation, rad.
        launch_direction : float or array
            Direction, rad; positive right of the target line.
        backspin_rate : float or array
            Backspin, rad/s.
        sidespin_rate : float or array
            Sidespin, rad/s; positive curves right.

        Returns
        -------
        Launch
            The launch with total spin and the tilt of its axis.
        """
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
    """From launch to landing, where the ball's bottom first meets the ground from above.

    Attributes
    ----------
    carry : float or array
        Horizontal distance from the start, m.
    downrange : float or array
        Distance along the target line, m.
    offline : float or array
        Distance right of the target line, m.
    curve : float or array
        Sideways distance from the start line, m; positive right.
    apex : float or array
        Greatest height of the ball's bottom above the ground at the origin, m.
    apex_distance : float or array
        Horizontal distance of the apex from the start, m.
    flight_time : float or array
        Time in the air, s.
    descent_angle : float or array
        Angle of the path below the horizontal, rad.
    landing_speed : float or array
        Speed at the landing, m/s.
    landing_spin_rate : float or array
        Spin at the landing, rad/s.
    status : str or array of str
        ``"ok"``, ``"not_airborne"`` (carry 0), ``"no_landing"``, ``"numerical_failure"`` or ``"bad_input"``; only
        the first two have numbers.
    out_of_range : dict of str to float or array
        How far spin ratio and Reynolds number left the ball model's stated range: 0 inside, negative below,
        positive above. Outside it the model holds its value at the edge.
    replay : callable or None
        Looks up positions; None for a flight that was put together by hand.
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
        """Compute where the ball's centre is.

        Parameters
        ----------
        time : float or array
            Time after launch, s. Before launch and after landing the ball is where it started and landed.

        Returns
        -------
        array
            Position: x right, y downrange and z up, m. Shape: the flight's, then the time's, then 3.

        Raises
        ------
        ValueError
            For times that are not finite, and for a flight without a replay.
        """
        return sample(self, self.replay, time)

    def path(self, points: int = 200) -> Array:
        """Compute the positions of one flight at evenly spaced times.

        Parameters
        ----------
        points : int
            Number of positions.

        Returns
        -------
        array
            Positions from launch to landing, m, shape (points, 3).

        Raises
        ------
        ValueError
            For an array of flights.
        """
        if self.shape != ():
            raise ValueError("path() is for one flight; for arrays use position_at(times)")
        return self.position_at(np.linspace(0.0, self.flight_time, points))


STATUSES = ("ok", "not_airborne", "no_landing", "numerical_failure", "bad_input", "no_rest", "out_of_reach")
STATUS_WORDS: dict[str, str] = dict(zip(STATUSES, _core.status_words, strict=True))
