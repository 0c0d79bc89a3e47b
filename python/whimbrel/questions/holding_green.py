"""How a ball stops, and what it takes to hold a green."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import numpy as np

from .. import _core
from ..core.by_labels import by_labels
from ..core.value import Number, Value, common_shape, table_of, unpack, value_or_default
from ..errors import refuse
from ..row.ball import Ball
from ..row.engine import Conditions, compiled_world
from ..row.ground import Landing, Turf, turfs
from ..row.setting import Terrain, Weather, Wind, air
from ..row.shot import place


@dataclass(frozen=True, repr=False)
class _Room(Value, kind="Room"):
    depth: Number


@by_labels
def spin_to_hold(
    depth: Number,
    *,
    landing_speed: Number,
    descent_angle: Number,
    turf: Turf | None = None,
    terrain: Terrain | None = None,
    ball: Ball | None = None,
) -> Any:
    """Find the least backspin that stops a ball within a distance of its pitch mark.

    Parameters
    ----------
    depth : float or array
        How far past its pitch mark the ball may run, m, 0 to 200. All numbers broadcast together.
    landing_speed : float or array
        Landing speed, m/s.
    descent_angle : float or array
        Descent angle, rad.
    turf : Turf, optional
        The turf; a medium green by default.
    terrain : Terrain, optional
        The slope of the green; level by default.
    ball : Ball, optional
        The ball; the standard one by default.

    Returns
    -------
    float or array
        Backspin, rad/s, of the common shape; NaN if none up to 1500 rad/s (14,300 rpm) holds. From the answer up to
        there the ball holds.

    Raises
    ------
    InputError
        For bad input.
    """
    landing = Landing(landing_speed, descent_angle)
    return _to_hold(_core.spin_to_hold, landing, depth, turf, terrain, ball)


@by_labels
def descent_to_hold(
    depth: Number,
    *,
    landing_speed: Number,
    landing_spin_rate: Number,
    turf: Turf | None = None,
    terrain: Terrain | None = None,
    ball: Ball | None = None,
) -> Any:
    """Find the least descent angle that stops a ball within a distance of its pitch mark.

    Parameters
    ----------
    depth : float or array
        How far past its pitch mark the ball may run, m, 0 to 200. All numbers broadcast together.
    landing_speed : float or array
        Landing speed, m/s.
    landing_spin_rate : float or array
        Backspin at the landing, rad/s.
    turf : Turf, optional
        The turf; a medium green by default.
    terrain : Terrain, optional
        The slope of the green; level by default.
    ball : Ball, optional
        The ball; the standard one by default.

    Returns
    -------
    float or array
        Descent angle, rad, of the common shape; NaN if none holds.

    Raises
    ------
    InputError
        For bad input.
    """
    landing = Landing(landing_speed, 0.0, 0.0, landing_spin_rate)
    return _to_hold(_core.descent_to_hold, landing, depth, turf, terrain, ball)


def _to_hold(
    solve: Callable[..., Any],
    landing: Landing,
    depth: Number,
    turf: Turf | None,
    terrain: Terrain | None,
    ball: Ball | None,
) -> Any:
    room = _Room(depth)
    ball = value_or_default(ball, "ball", Ball)
    terrain = value_or_default(terrain, "terrain", Terrain)
    turf = value_or_default(turfs["medium green"] if turf is None else turf, "turf", Turf)
    conditions = Conditions(ball, air(Weather()), Wind(), terrain, turf)
    shape = common_shape([landing, room, *conditions])
    rows = int(np.prod(shape))
    world = compiled_world(conditions, shape)
    result, mistakes = solve(table_of(landing, shape), table_of(room, shape), world, rows, 0)
    refuse([(place(row, shape), message) for row, message in mistakes], rows)
    return unpack(result, shape)
