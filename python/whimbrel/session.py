"""A table of strikes answered: how good, did it change, what drives the scatter, what to aim at."""

from __future__ import annotations

import os
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any

import numpy as np

from .aim import Target, TargetPlay, target_play
from .ball import Ball
from .change import Comparison, compare
from .errors import InputError
from .optional import import_stats
from .quantities import System
from .scatter import Scatter, drives_scatter
from .setting import Air, Terrain, Weather, Wind
from .shot import play
from .spread import Spread, spread_of
from .strikes import CONDITIONS, DELIVERED, STRIKE_FIELDS, Reading, Strikes, in_si, load_reading, read_strikes
from .swing import Club, Delivery, clubs
from .tables import WEATHER, Defaults
from .values import Array

if TYPE_CHECKING:
    import pandas as pd

#: The landing, asked about even where it had to be played.
LANDING = ("carry", "offline")


@dataclass(frozen=True)
class Group:
    """The strikes of one player with one club in one block, warm-ups left out. spreads: by quantity, SI. played:
    which of carry and offline were played from delivery or launch, not measured."""

    player: str
    club: str
    block: str
    n: int
    spreads: Mapping[str, Spread]
    played: tuple[str, ...]


@dataclass(frozen=True)
class Before:
    """A player's two blocks with one club, compared."""

    player: str
    club: str
    before: str
    after: str
    comparison: Comparison


@dataclass(frozen=True)
class Driven:
    """What drives the scatter of a player's last block with one club, or why that cannot be said."""

    player: str
    club: str
    block: str
    scatter: Scatter | None
    why_not: str = ""


@dataclass(frozen=True)
class Aimed:
    """A player's strikes with one club in one block against a target."""

    player: str
    club: str
    block: str
    name: str
    play: TargetPlay


@dataclass(frozen=True)
class Session:
    """What a table of strikes says. Numbers are SI; tables and words are in trade or metric units.

    strikes: rows of the table; warm_ups: of them left out; bad: label and reason of each that could not be read or
    played in full (its other numbers count); unread: columns not used. groups, changes, scatters, targets: the
    answers; notes: what to know about them.
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

    def spreads_table(self, units: System = "yards") -> pd.DataFrame:
        """Centre and spread, a row a quantity of a group."""
        from .session_tables import spreads

        return spreads(self, units)

    def changes_table(self, units: System = "yards") -> pd.DataFrame:
        """Did it change, a row a question."""
        from .session_tables import changes

        return changes(self, units)

    def scatter_table(self, units: System = "yards") -> pd.DataFrame:
        """What drives the scatter, a row an input, what to work on first on top."""
        from .session_tables import scatters

        return scatters(self, units)

    def targets_table(self, units: System = "yards") -> pd.DataFrame:
        """Target play, a row a group."""
        from .session_tables import targets

        return targets(self, units)

    def side_by_side(self, units: System = "yards") -> pd.DataFrame:
        """The clubs of each player beside each other, mean and standard deviation, from each club's last block."""
        from .session_tables import side_by_side

        return side_by_side(self, units)

    def in_words(self, units: System = "yards") -> str:
        """The whole session as plain text, a paragraph an answer."""
        from .session_words import of_session

        return of_session(self, units)


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
    ``table`` reads, of the flight (``carry_yd``, ``offline_yd`` …), smash_factor and swing arc, named by quantity and
    unit; missing values are fine. Text columns player, club, block, target and the flag warm_up, where there.
    reading: other names, noise, smallest changes and targets, or the TOML file of them (``load_reading``).
    before, after: the blocks to compare; the first and the last of each club if not given. quantities: what to ask
    about, all if not given: fewer questions need fewer strikes. target: for every strike, where the column target
    names none. noise: the standard deviation of the measurement, and smallest: the smallest change worth having, by
    quantity and unit (``{"face_angle_deg": 0.5}``), before those of ``reading``. The rest is as in ``table``: a
    landing that was not measured is played. Raises InputError where nothing can be read.
    """
    import_stats()
    if reading is None or not isinstance(reading, Reading):
        reading = Reading() if reading is None else load_reading(reading)
    reading = replace(
        reading,
        noise={**reading.noise, **in_si(noise or {}, "noise")},
        smallest={**reading.smallest, **in_si(smallest or {}, "smallest")},
    )
    defaults = Defaults(ball, weather, wind)
    strikes = read_strikes(source, columns=reading.columns, club=club, club_set=club_set, defaults=defaults)
    wanted = _wanted(strikes, quantities)
    groups = {key: rows for key, rows in _grouped(strikes).items()}
    notes: list[str] = []
    told = tuple(_group(key, rows, wanted, strikes) for key, rows in groups.items())
    return Session(
        strikes=len(strikes.labels),
        warm_ups=int(strikes.warm_up.sum()),
        bad=tuple(strikes.bad),
        unread=tuple(strikes.unread),
        groups=told,
        changes=tuple(_changes(groups, wanted, reading, before, after, seed, notes)),
        scatters=tuple(_scatters(groups, strikes, reading, club_set, defaults, seed)),
        targets=tuple(_targets(groups, strikes, reading, target, seed, notes)),
        notes=tuple(notes),
    )


Key = tuple[str, str, str]


def _wanted(strikes: Strikes, quantities: Iterable[str] | None) -> dict[str, Array]:
    """The numbers to ask about; carry and offline as played where they were not measured."""
    there = dict(strikes.numbers)
    for name, played in zip(LANDING, (strikes.carry, strikes.offline), strict=True):
        if name not in there and np.isfinite(played).any():
            there[name] = played
    if quantities is None:
        return there
    chosen = list(quantities)
    for name in chosen:
        if name not in there:
            raise InputError(f"quantities: {name!r} is not in the table; there are: {', '.join(there)}")
    return {name: there[name] for name in chosen}


def _grouped(strikes: Strikes) -> dict[Key, Any]:
    """The rows of each player, club and block, in order of appearance, without warm-ups."""
    groups: dict[Key, list[int]] = {}
    for i, key in enumerate(zip(*(strikes.who[label] for label in ("player", "club", "block")), strict=True)):
        if not strikes.warm_up[i]:
            groups.setdefault(key, []).append(i)
    return {key: np.array(rows) for key, rows in groups.items()}


def _group(key: Key, rows: Any, wanted: Mapping[str, Array], strikes: Strikes) -> Group:
    spreads = {name: spread_of(x[rows], strikes.labels[rows]) for name, x in wanted.items()}
    played = tuple(name for name in LANDING if name in wanted and name not in strikes.numbers)
    return Group(*key, len(rows), {name: s for name, s in spreads.items() if s.n}, played)


def _by_player_and_club(groups: Mapping[Key, Any]) -> dict[tuple[str, str], list[str]]:
    """The blocks of each player with each club, in order of appearance."""
    blocks: dict[tuple[str, str], list[str]] = {}
    for player, club, block in groups:
        blocks.setdefault((player, club), []).append(block)
    return blocks


def _changes(
    groups: Mapping[Key, Any], wanted: Mapping[str, Array], reading: Reading, before: str | None, after: str | None,
    seed: int, notes: list[str],
) -> Iterable[Before]:  # fmt: skip
    known = {block for _, _, block in groups}
    for side, block in (("before", before), ("after", after)):
        if block is not None and block not in known:
            raise InputError(f"{side}: no block is called {block!r}; there are: {', '.join(map(repr, known))}")
    for (player, club), blocks in _by_player_and_club(groups).items():
        early = blocks[0] if before is None else before
        late = blocks[-1] if after is None else after
        if early == late or early not in blocks or late not in blocks:
            continue
        if len(blocks) > 2 and before is None and after is None:
            notes.append(
                f"{_called(player, club)}: {len(blocks)} blocks; the first and the last are compared. Choose others "
                "with before and after."
            )
        sides = [{name: x[groups[player, club, block]] for name, x in wanted.items()} for block in (early, late)]
        comparison = compare(*sides, STRIKE_FIELDS, smallest=reading.smallest, seed=seed)
        yield Before(player, club, early, late, comparison)


def _called(player: str, club: str) -> str:
    return ", ".join(part for part in (player, club) if part) or "all strikes"


def _scatters(
    groups: Mapping[Key, Any], strikes: Strikes, reading: Reading, club_set: Mapping[str, Club], defaults: Defaults,
    seed: int,
) -> Iterable[Driven]:  # fmt: skip
    way = next((way for way in DELIVERED if set(way.needs) <= set(strikes.rows.columns)), None)
    if way is None:
        return
    for (player, club), blocks in _by_player_and_club(groups).items():
        where, rows = (player, club, blocks[-1]), groups[player, club, blocks[-1]]
        if club not in club_set:
            yield Driven(*where, None, "the club is not known" if club else "no club is named")
            continue
        rows, delivery = _delivered(rows, strikes, way, club_set[club])
        at = strikes.landed_by[rows]
        ball = None
        if np.isin(at, ("measured", "launch")).any():
            seen = np.isin(at, ("measured", "launch"))
            ball = tuple(np.where(seen, x[rows], np.nan) for x in (strikes.carry, strikes.offline))
        played = _player(rows, strikes, club_set[club], defaults)
        try:
            scatter = drives_scatter(delivery, played, noise=dict(reading.noise), measured=ball, seed=seed)  # type: ignore[arg-type]
        except InputError as error:
            yield Driven(*where, None, str(error))
        else:
            yield Driven(*where, scatter)


def _delivered(rows: Any, strikes: Strikes, way: Any, club: Club) -> tuple[Any, Delivery]:
    """The rows of a group whose delivery is complete, and that delivery."""
    numbers, given = strikes.rows.numbers, strikes.rows.given
    names = [name for name in (*way.needs, *way.may) if name in strikes.rows.columns and given[name][rows].any()]
    rows = rows[np.logical_and.reduce([np.isfinite(numbers[name][rows]) for name in names])] if names else rows
    values = {
        name: numbers[name][rows] if name in names else np.zeros(len(rows)) for name in (*way.needs, *way.may)
    }
    delivery, mistakes = way.start(values, club)
    wrong = [i for i, _ in mistakes]
    kept = np.setdiff1d(np.arange(len(rows)), wrong)
    return rows[kept], Delivery(**{k: np.broadcast_to(x, len(rows))[kept] for k, x in delivery._numbers().items()})


def _player(rows: Any, strikes: Strikes, club: Club, defaults: Defaults) -> Any:
    """Plays deliveries under the median conditions of the group."""
    numbers = strikes.rows.numbers
    typical = {
        name: float(np.nanmedian(numbers[name][rows]))
        for name in CONDITIONS
        if name in numbers and np.isfinite(numbers[name][rows]).any()
    }
    weather: Any = defaults.weather
    own: dict[str, Any] = {name: typical[name] for name in WEATHER if name in typical}
    if own and not isinstance(weather, Air):
        if {"pressure", "altitude"} & set(own):
            own = {"pressure": None, "altitude": None, **own}
        weather = replace(weather or Weather(), **own)
    wind = defaults.wind or Wind()
    wind = replace(
        wind,
        speed=typical.get("wind_speed", wind.speed),
        from_direction=typical.get("wind_from", wind.from_direction),
    )
    terrain = Terrain(typical.get("tee_height", 0.0))

    def played(delivery: Delivery) -> tuple[Array, Array]:
        shot = play(delivery, club, ball=defaults.ball, weather=weather, wind=wind, terrain=terrain, errors="mask")
        flown = shot.status == "ok"
        return np.where(flown, shot.carry, np.nan), np.where(flown, shot.offline, np.nan)

    return played


def _targets(
    groups: Mapping[Key, Any],
    strikes: Strikes,
    reading: Reading,
    target: Target | None,
    seed: int,
    notes: list[str],
) -> Iterable[Aimed]:
    named = strikes.who["target"]
    targets: dict[str, Target] = dict(reading.targets)
    alone = target if target is not None else next(iter(targets.values())) if len(targets) == 1 else None
    for name in sorted(set(named) - {""} - set(targets)):
        notes.append(
            f"No target is called {name!r}: its strikes count against none. There are: {', '.join(targets) or 'none'}."
        )
    for key, rows in groups.items():
        for name in dict.fromkeys(named[rows]):
            aimed_at = targets.get(name) if name else alone
            if aimed_at is None:
                continue
            some = rows[named[rows] == name]
            result = target_play(strikes.offline[some], strikes.downrange[some], aimed_at, seed=seed)
            if result is None:
                notes.append(f"{_called(*key[:2])}: no landing is known, so no target play.")
            else:
                yield Aimed(*key, name, result)
