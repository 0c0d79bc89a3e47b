"""A table of strikes answered: how good, did it change, what drives the scatter, what to aim at."""

from __future__ import annotations

import os
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING, Any

from ..core.optional import import_stats
from ..core.quantity import System
from ..core.result import Result
from ..row.ball import Ball
from ..row.setting import Air, Weather, Wind
from ..row.swing import Club, clubs
from ..statistics.random_numbers import generator
from ..statistics.targets import Target, check_target
from ..strikes.play_table import Defaults
from ..strikes.reading import Reading, in_si, load_reading
from ..strikes.rows import Strikes, read_strikes
from . import answers, frames
from .answers import Aimed, Before, Driven, Group

if TYPE_CHECKING:
    import pandas as pd


@dataclass(frozen=True)
class Session(Result, view="session"):
    """What a table of strikes says. Numbers are SI; tables and words are in trade or metric units.

    strikes: rows of the table; warm_ups: of them left out; bad: label and reason of each that could not be read or
    played in full (its other numbers count); unread: columns not used. groups, changes, scatters, targets: the
    answers; notes: what to know about them. read: the table as it was read; club_set, defaults: what it was played
    with.
    """

    strikes: int
    warm_ups: int
    bad: tuple[tuple[Any, str], ...]
    unread: tuple[str, ...]
    groups: tuple[Group, ...]
    changes: tuple[Before, ...]
    scatters: tuple[Driven, ...]
    targets: tuple[Aimed, ...]
    notes: tuple[str, ...]
    read: Strikes = field(repr=False, compare=False)
    club_set: Mapping[str, Club] = field(repr=False, compare=False)
    defaults: Defaults = field(repr=False, compare=False)

    def spreads_table(self, units: System = "yards") -> pd.DataFrame:
        """Centre and spread, a row a quantity of a group."""
        return frames.spreads(self.groups, units)

    def changes_table(self, units: System = "yards") -> pd.DataFrame:
        """Did it change, a row a question."""
        return frames.changes(self.changes, units)

    def scatter_table(self, units: System = "yards") -> pd.DataFrame:
        """What drives the scatter, a row an input, what to work on first on top."""
        return frames.scatters(self.scatters, units)

    def targets_table(self, units: System = "yards") -> pd.DataFrame:
        """Target play, a row a group."""
        return frames.targets(self.targets, units)

    def side_by_side(self, units: System = "yards") -> pd.DataFrame:
        """The clubs of each player beside each other, mean and standard deviation, from each club's last block."""
        return frames.side_by_side(self.groups, units)

    def in_words(self, units: System = "yards") -> str:
        """The whole session as plain text, a paragraph an answer."""
        return str(self._words().of_session(self, units))


def session(
    source: pd.DataFrame | str | os.PathLike[str],
    *,
    reading: Reading | str | os.PathLike[str] | None = None,
    before: str | None = None,
    after: str | None = None,
    quantities: Iterable[str] | None = None,
    target: Target | None = None,
    noise: Mapping[str, float] | None = None,
    smallest: Mapping[str, float] | None = None,
    club: str | None = None,
    club_set: Mapping[str, Club] = clubs,
    ball: Ball | None = None,
    weather: Weather | Air | None = None,
    wind: Wind | None = None,
    seed: int = 0,
) -> Session:
    """Answers a table of strikes; needs the ``tables`` and ``statistics`` extras. Deterministic for a seed.

    source: a DataFrame, CSV or Parquet file, a row a strike in the order they were struck. Any of the columns that
    ``table`` reads, of the flight (``carry_yd``, ``offline_yd`` …), smash_factor and swing arc, named by quantity
    and unit; missing values are fine. Text columns player, club, block, target and the flag warm_up, where there.
    reading: other names, noise, smallest changes and targets, or the TOML file of them (``load_reading``).
    before, after: the blocks to compare; the first and the last of each club if not given. quantities: what to ask
    about, all if not given: fewer questions need fewer strikes. target: for every strike, where the column target
    names none. noise: the standard deviation of the measurement, and smallest: the smallest change worth having, by
    quantity and unit (``{"face_angle_deg": 0.5}``), before those of ``reading``. The rest is as in ``table``: a
    landing that was not measured is played. Raises InputError where nothing can be read.
    """
    import_stats()
    generator(seed)  # a bad one is an error before any work
    if reading is None or not isinstance(reading, Reading):
        reading = Reading() if reading is None else load_reading(reading)
    reading = replace(
        reading,
        noise={**reading.noise, **in_si(noise or {}, "noise")},
        smallest={**reading.smallest, **in_si(smallest or {}, "smallest")},
    )
    if target is not None:
        check_target(target)
    defaults = Defaults(ball, weather, wind)
    strikes = read_strikes(source, columns=reading.columns, club=club, club_set=club_set, defaults=defaults)
    wanted = answers.choose_quantities(strikes, quantities)
    groups = answers.group_rows(strikes)
    notes: list[str] = []
    every_group = tuple(answers.group(key, rows, wanted, strikes) for key, rows in groups.items())
    return Session(
        strikes=len(strikes.labels),
        warm_ups=int(strikes.warm_up.sum()),
        bad=tuple(strikes.bad),
        unread=tuple(strikes.unread),
        groups=every_group,
        changes=tuple(answers.changes(groups, wanted, reading, before, after, seed, notes)),
        scatters=tuple(answers.scatters(groups, strikes, reading, club_set, defaults, seed)),
        targets=tuple(answers.targets(groups, strikes, reading, target, seed, notes)),
        notes=tuple(notes),
        read=strikes,
        club_set=club_set,
        defaults=defaults,
    )
