"""How sure numbers are, in words."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any

import numpy as np

from ..core import cautions
from ..core.quantity import Said, System, said, said_difference
from ..inverse.doubt import Doubt, World, doubt, in_every_world
from ..questions.bag import Bag, Swing
from ..row.aero import MultiLayer
from ..row.impact import is_rigid

if TYPE_CHECKING:
    from ..row.ball import Ball
    from ..row.shot import Shot


def is_known(shot: Shot) -> bool:
    """Whether the doubt of a shot is: for the default model of a ball, and not for the rigid impact."""
    return isinstance(shot.ball.aero, MultiLayer) and (shot.impact is None or not is_rigid(shot.impact_model))


def doubt_if_known(shot: Shot) -> Doubt | None:
    """The doubt of a shot, or nothing."""
    return doubt(shot) if is_known(shot) else None


def how_sure(ball: Ball | None) -> list[str]:
    """What to know of every carry of a ball, None for the standard one: nothing where it is not known."""
    return [cautions.HOW_SURE] if ball is None or isinstance(ball.aero, MultiLayer) else []


def with_doubt(x: float, name: str, si: str, units: System, doubts: Doubt | None) -> str:
    """A number without its sign: ``168.2 ± 4.2 yd``; without ± where that is not known."""
    amount = abs(said(x, name, si, units))
    return amount.text if doubts is None else plus_minus(amount, doubts.sd(name), name, si, units)


def plus_minus(amount: Said, sd: float, name: str, si: str, units: System, sign: bool = False) -> str:
    """An amount with its unit, and how sure it is; alone where it is too sure to see.

    sign: whether a number above zero has its sign.
    """
    alone = amount.with_sign if sign else amount.text
    if sd != sd:
        return f"{alone} (unsure: it only just gets there)"
    sure = said_difference(sd, name, si, units)
    return alone if sure.is_zero else f"{amount.bare_with_sign if sign else amount.bare} ± {sure}"


def difference(
    amount: Said, name: str, si: str, units: System, first: Shot, second: Shot, sign: bool = False
) -> str:
    """How far a number of two shots is apart, as an amount with its unit, and how sure that is."""
    if not (is_known(first) and is_known(second)) or first.ball.aero != second.ball.aero:
        return amount.with_sign if sign else amount.text
    return plus_minus(amount, (doubt(first) - doubt(second)).sd(name), name, si, units, sign)


def of_changes(carries: Callable[[Ball, Bag], Any], ball: Ball, bag: Bag, units: System) -> list[str]:
    """How sure what conditions change of a bag's carries is; nothing where that is not known.

    carries: of every club of a bag with a ball, m, the club along the first axis, the conditions along the others.
    """
    if not isinstance(ball.aero, MultiLayer):
        return []

    def changes(world: World | None) -> dict[str, Any]:
        if world is None:
            table = carries(ball, bag)
        else:
            swung = {name: Swing(world.club(swing.club), swing.delivery) for name, swing in bag.items()}
            table = carries(world.ball(ball), Bag(swung))
        flat = table.reshape(len(table), -1)
        return {"carry": flat - flat[:, :1]}

    matter = ("contact", "flight_constants", "flight_law", "ball")
    sd = in_every_world(changes, ball, sources=matter).sd("carry")
    most = said_difference(float(np.nanmax(sd)), "carry", "m", units)
    return [] if most.is_zero else [f"What these conditions change of a club's carry is ± {most} at most."]
