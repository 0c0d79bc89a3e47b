"""What a start leaves unsaid: numbers that are played as 0, which is seldom meant, and told."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import replace
from typing import TypeVar

from ..errors import InputError, warn
from .given_numbers import Unsaid
from .value import Value

S = TypeVar("S", bound=Value)
#: What a number that is not given makes of a shot, and how to give it.
MEANS = {
    "spin_rate": "the ball flies without spin, as none does that is struck; give spin_rate, 0 if that is meant",
    "dynamic_loft": "the face looks level at the ball, which hardly leaves the ground; give dynamic_loft, 0 if "
    "that is meant (usual_delivery(club) has a usual one)",
}


def fill_unsaid(start: S, but: Collection[str] = ()) -> S:
    """The start with 0 for what it leaves unsaid, with a warning; ``but``: what comes from elsewhere."""
    missing = [name for name in _missing(start) if name not in but]
    for name in missing:
        warn(f"{name} is not given: {MEANS[name]}")
    return replace(start, **dict.fromkeys(missing, 0.0)) if missing else start  # type: ignore[type-var]


def refuse_unsaid(start: Value, name: str, but: Collection[str]) -> None:
    """Refuses a start that leaves a number unsaid which does not come from elsewhere."""
    if name not in but and name in _missing(start):
        raise InputError(f"{name} is not given: {MEANS[name]}, or sweep it as an axis")


def _missing(start: Value) -> list[str]:
    return [name for name in MEANS if type(getattr(start, name, None)) is Unsaid]
