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
    """The least backspin, rad/s, with which a ball runs no more than ``depth`` past its pitch mark; NaN: none.

    depth: m, 0 to 200. landing_speed: m/s. descent_angle: rad. turf: a medium green if not given. terrain: the
    slope of the green. Scalars or arrays; they broadcast. Looked for up to 1500 rad/s (14,300 rpm); from the answer
    up to there the ball holds. Raises InputError for bad input.
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
    """The least descent angle, rad, at which a ball runs no more than ``depth`` past its pitch mark; NaN: none.

    landing_spin_rate: rad/s of backspin. The rest as for ``spin_to_hold``.
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
