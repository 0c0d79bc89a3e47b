"""A table of strikes analysed: how good, what changed, what drives the scatter, where to aim."""

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
    """The answers to a table of strikes.

    Attributes
    ----------
    strikes : int
        Rows of the table.
    warm_ups : int
        Rows left out as warm-ups.
    bad : tuple of (label, str)
        Rows that could not be read or played in full, and why; their other numbers count.
    unread : tuple of str
        Columns not used.
    groups : tuple of Group
        Centre and spread.
    changes : tuple of Before
        What changed.
    scatters : tuple of Driven
        What drives the scatter.
    targets : tuple of Aimed
        Target play.
    notes : tuple of str
        What to know about the answers.
    read : Strikes
        The table as it was read.
    club_set : mapping of str to Club
        The clubs it was played with.
    defaults : Defaults
        The conditions it was played in.
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
        """List centre and spread.

        Parameters
        ----------
        units : {"yards", "metric"}
            Units of the table.

        Returns
        -------
        DataFrame
            A row for each quantity of a group.
        """
        return frames.spreads(self.groups, units)

    def changes_table(self, units: System = "yards") -> pd.DataFrame:
        """List what changed.

        Parameters
        ----------
        units : {"yards", "metric"}
            Units of the table.

        Returns
        -------
        DataFrame
            A row for each test.
        """
        return frames.changes(self.changes, units)

    def scatter_table(self, units: System = "yards") -> pd.DataFrame:
        """List what drives the scatter.

        Parameters
        ----------
        units : {"yards", "metric"}
            Units of the table.

        Returns
        -------
        DataFrame
            A row for each input; the one to work on first is on top.
        """
        return frames.scatters(self.scatters, units)

    def targets_table(self, units: System = "yards") -> pd.DataFrame:
        """List target play.

        Parameters
        ----------
        units : {"yards", "metric"}
            Units of the table.

        Returns
        -------
        DataFrame
            A row for each group.
        """
        return frames.targets(self.targets, units)

    def side_by_side(self, units: System = "yards") -> pd.DataFrame:
        """Compare each player's clubs by their last blocks.

        Parameters
        ----------
        units : {"yards", "metric"}
            Units of the table.

        Returns
        -------
        DataFrame
            Mean and standard deviation of each club.
        """
        return frames.side_by_side(self.groups, units)

    def in_words(self, units: System = "yards") -> str:
        """Describe the whole session, a paragraph for each answer.

        Parameters
        ----------
        units : {"yards", "metric"}
            Units of the text.

        Returns
        -------
        str
            Plain text.
        """
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
    """Analyse a table of strikes; needs the ``tables`` and ``statistics`` extras.

    Parameters
    ----------
    source : DataFrame, str or Path
        A DataFrame, CSV or Parquet file, a row for each strike in order. Number columns are those that ``table``
        reads, those of the flight (``carry_yd``, ``offline_yd`` …), smash_factor and the swing arc, named by
        quantity and unit; missing values are fine. Text columns, all optional: player, club, block, target and the
        flag warm_up.
    reading : Reading, str or Path, optional
        Other column names, noise, smallest changes and targets, or the TOML file with them (``load_reading``).
    before : str, optional
        The block to compare; by default each club's first.
    after : str, optional
        The block to compare it with; by default each club's last.
    quantities : iterable of str, optional
        Quantities to test; all by default. Fewer need fewer strikes.
    target : Target, optional
        The target of strikes that name none in the column target.
    noise : mapping of str to float, optional
        Standard deviation of the measurement by quantity and unit, such as ``{"face_angle_deg": 0.5}``; replaces
        that of ``reading``.
    smallest : mapping of str to float, optional
        The smallest change worth having by quantity and unit; replaces that of ``reading``.
    club : str, optional
        The club of rows that name none.
    club_set : mapping of str to Club
        The clubs by name; the shipped ones by default.
    ball : Ball, optional
        The ball; the standard one by default.
    weather : Weather or Air, optional
        The weather of rows without their own.
    wind : Wind, optional
        The wind of rows without their own.
    seed : int
        Seed of the resampling; the same seed gives the same answers.

    Returns
    -------
    Session
        The answers. A landing that was not measured is computed.

    Raises
    ------
    InputError
        If nothing can be read.
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
