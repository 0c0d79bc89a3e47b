"""What happens between club and ball."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np

from . import _core
from .ball import Ball
from .errors import bad_rows
from .flight import Launch
from .swing import Club, Delivery
from .values import Shape, Value, common_shape, table_of


@dataclass(frozen=True, repr=False)
class Impact(Value, kind="Impact"):
    """What happened between club and ball. SI, read-only.

    smash_factor: ball speed over clubhead speed. start_fraction: where the start direction lies from the
    path (0) to the face (1). energy_lost: J. launch: how the ball leaves. head_velocity_after: m/s, of the
    head's centre of mass, shape (…, 3).
    """

    smash_factor: Any
    start_fraction: Any
    energy_lost: Any
    launch: Launch
    head_velocity_after: Any

    @classmethod
    def _from_tables(cls, tables: Any, shape: Shape) -> Impact:
        return cls._from_table(
            tables["impact"],
            shape,
            launch=Launch._from_table(tables["launch"], shape),
            head_velocity_after=tables["head_velocity"].reshape((*shape, 3)),
        )


def strike(delivery: Delivery, club: Club, *, ball: Ball | None = None) -> Impact:
    """Strikes a ball with a club; scalars or arrays, broadcast together.

    The rigid-body model: the ball rolls on the face as it leaves, the head is free and does not turn.
    Its known bias against contact calculations: about a quarter too much spin with a driver, an eighth too
    little with a mid-iron, a quarter too little with a short iron; ball speed within 1 %. Raises InputError
    for numbers out of range or a face that does not approach the ball.
    """
    ball = ball or Ball()
    shape = common_shape([delivery, club, ball])
    rows = int(np.prod(shape))
    tables, mistakes = _core.strike(
        table_of(delivery, shape), table_of(club, shape), table_of(ball, shape), rows
    )
    if mistakes:
        raise bad_rows(mistakes, rows)
    return Impact._from_tables(tables, shape)
