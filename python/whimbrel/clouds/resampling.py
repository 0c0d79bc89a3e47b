"""The strikes of a table, to be drawn again."""

from __future__ import annotations

import os
from collections.abc import Mapping
from typing import TYPE_CHECKING, Any, NamedTuple

import numpy as np

from ..core.value import Array, numbers_of
from ..errors import InputError
from ..row.flight import Launch
from ..row.swing import Club, Delivery
from ..strikes.play_table import NEEDED, Defaults, in_place
from ..strikes.replay import read_starts
from ..strikes.rows import DELIVERED, LAUNCHED, Strikes, read_strikes
from .draws import DRAWN_CONDITIONS, Resampled

if TYPE_CHECKING:
    import pandas as pd


class OfTable(NamedTuple):
    """The rows of a table that are not drawn from: how many, and what was wrong with them."""

    left_out: int = 0
    wrong: tuple[str, ...] = ()


def resample(
    source: pd.DataFrame | str | os.PathLike[str],
    club: str | None,
    club_set: Mapping[str, Club],
    columns: Mapping[str, str],
    conditions: Mapping[str, Any],
) -> tuple[Delivery | Launch, Club | None, Resampled, OfTable]:
    """A start for the drawn numbers, the club, the rows to draw from, and what of the table is left out."""
    given: dict[str, Any] = {name: conditions.get(name) for name in ("ball", "weather", "wind", "turf")}
    defaults = Defaults(**given)
    strikes = read_strikes(source, columns=columns, club=club, club_set=club_set, defaults=defaults)
    name = _club(strikes, club)
    rows = np.flatnonzero((strikes.who["club"] == name) & ~strikes.warm_up)
    found: list[tuple[Array, Delivery | Launch, bool]] = []
    for way in (*LAUNCHED, *DELIVERED):
        if set(way.needs) <= set(strikes.rows.columns) and (not way.struck or name in club_set):
            found.append((*read_starts(rows, strikes, way, club_set.get(name)), way.struck))
    whole = [(_with_conditions(kept, start, strikes), start, struck) for kept, start, struck in found]
    if not whole or not any(len(draws.rows) for draws, *_ in whole):
        file = f"{source}: " if isinstance(source, str | os.PathLike) else ""
        raise InputError(
            f"{file}no strike{f' of the {name}' if name else ''} can be played: {_why(strikes, name, club_set)}"
        )
    draws, start, struck = max(whole, key=lambda way: len(way[0].rows))
    wrong = tuple(in_place(strikes.rows.frame, line, why) for line, why in strikes.bad)
    table = OfTable(len(rows) - len(draws.rows), wrong)
    return type(start)(0.0, 0.0), club_set[name] if struck else None, draws, table


def _club(strikes: Strikes, club: str | None) -> str:
    """The club whose strikes are drawn."""
    there = list(dict.fromkeys(strikes.who["club"]))
    if club is None and len(there) > 1:
        raise InputError(
            f"club: the table has strikes of {', '.join(name or '(none)' for name in there)}; choose one"
        )
    name = there[0] if club is None and there else club or ""
    if there and name not in there:
        raise InputError(f"club: the table has no strike of the {name}; there are: {', '.join(there)}")
    return str(name)


def _with_conditions(rows: Array, start: Delivery | Launch, strikes: Strikes) -> Resampled:
    """The started rows with their own conditions, those that have all."""
    columns = {name: np.broadcast_to(x, len(rows)) for name, x in numbers_of(start).items()}
    numbers = strikes.rows.numbers
    columns |= {name: numbers[name][rows] for name in DRAWN_CONDITIONS if name in numbers}
    table = np.stack(list(columns.values()), axis=1)
    return Resampled(tuple(columns), table[np.isfinite(table).all(1)])


def _why(strikes: Strikes, name: str, club_set: Mapping[str, Club]) -> str:
    if not len(strikes.labels):
        return "the table has no rows"
    if name and name not in club_set:
        return f"the club is not known; known: {', '.join(club_set)}"
    return next((why for _, why in strikes.bad), f"a row needs {NEEDED}, and a delivery its club")
