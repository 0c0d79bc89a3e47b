"""How sure numbers are, in words."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any

import numpy as np

from ..core.quantity import Said, System, said, said_difference
from ..inverse.doubt import Doubt, World, doubt, in_every_world
from ..row.aero import MultiLayer

if TYPE_CHECKING:
    from ..row.ball import Ball
    from ..row.shot import Shot


def doubt_if_known(shot: Shot) -> Doubt | None:
    """The doubt of a shot, nothing for a ball of whose model it is not known."""
    return doubt(shot) if isinstance(shot.ball.aero, MultiLayer) else None


def with_doubt(x: float, name: str, si: str, units: System, doubts: Doubt | None) -> str:
    """A number without its sign: ``168.2 ± 4.2 yd``; without ± where that is not known."""
    amount = abs(said(x, name, si, units))
    return amount.text if doubts is None else plus_minus(amount, doubts.sd(name), name, si, units)


def plus_minus(amount: Said, sd: float, name: str, si: str, units: System, sign: bool = False) -> str:
    """An amount with its unit, and how sure it is; alone where that is not known, or too sure to see.

    sign: whether a number above zero has its sign.
    """
    sure = said_difference(sd, name, si, units)
    if not sure.value > 0.0:
        return amount.with_sign if sign else amount.text
    return f"{amount.bare_with_sign if sign else amount.bare} ± {sure}"


def difference(
    amount: Said, name: str, si: str, units: System, first: Shot, second: Shot, sign: bool = False
) -> str:
    """How far a number of two shots is apart, as an amount with its unit, and how sure that is."""
    if not isinstance(first.ball.aero, MultiLayer) or first.ball.aero != second.ball.aero:
        return amount.with_sign if sign else amount.text
    return plus_minus(amount, (doubt(first) - doubt(second)).sd(name), name, si, units, sign)


def of_changes(carries: Callable[[Ball], Any], ball: Ball, units: System) -> str:
    """How sure the differences in a table of carries are, a row a club, against each club's first.

    carries: the table for a ball, m, the club along the first axis. Empty for a ball of whose model nothing is
    known.
    """
    if not isinstance(ball.aero, MultiLayer):
        return ""

    def changes(world: World | None) -> dict[str, Any]:
        table = carries(ball if world is None else world.ball(ball))
        flat = table.reshape(len(table), -1)
        return {"carry": flat - flat[:, :1]}

    sd = in_every_world(changes, ball, ("flight_constants", "flight_law", "ball")).sd("carry")
    within = said_difference(float(np.nanmax(sd)), "carry", "m", units)
    return f"What the conditions change, with one club and one ball, is sure to {within} or better."
