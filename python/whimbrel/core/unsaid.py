"""Missing numbers of a start that are played as 0, with a warning, as this is seldom meant."""

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
    "spin_rate": "the ball flies without spin, as no struck ball does; give spin_rate, or 0 if you mean it",
    "dynamic_loft": "the face has no loft and the ball hardly leaves the ground; give dynamic_loft, or 0 if "
    "you mean it (usual_delivery(club) gives a usual one)",
}


def fill_unsaid(start: S, but: Collection[str] = ()) -> S:
    """The start with 0 for its missing numbers, with a warning; ``but``: numbers that come from elsewhere."""
    missing = [name for name in _missing(start) if name not in but]
    for name in missing:
        warn(f"{name} is not given: {MEANS[name]}")
    return replace(start, **dict.fromkeys(missing, 0.0)) if missing else start  # type: ignore[type-var]


def refuse_unsaid(start: Value, name: str, but: Collection[str]) -> None:
    """Refuses a start with a missing number that does not come from elsewhere."""
    if name not in but and name in _missing(start):
        raise InputError(f"{name} is not given: {MEANS[name]}, or sweep it as an axis")


def _missing(start: Value) -> list[str]:
    return [name for name in MEANS if type(getattr(start, name, None)) is Unsaid]
