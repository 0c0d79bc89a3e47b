"""The single answers to a table of strikes, player by player, club by club."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np

from ..core.value import Array
from ..errors import InputError
from ..row.swing import Club
from ..statistics.best_aim import TargetPlay, target_play
from ..statistics.center_and_spread import Spread, spread_of
from ..statistics.targets import Target
from ..strikes.play_table import Defaults
from ..strikes.reading import STRIKE_FIELDS, Reading
from ..strikes.replay import player_of, read_deliveries
from ..strikes.rows import DELIVERED, Strikes
from .change import Comparison, compare
from .drivers import Scatter, drives_scatter

#: The landing, asked about even where it had to be played.
LANDING = ("carry", "offline")


@dataclass(frozen=True)
class Group:
    """The strikes of one player with one club in one block, without warm-ups.

    Attributes
    ----------
    player, club, block : str
        Whose, with what and when.
    n : int
        Number of strikes.
    spreads : mapping of str to Spread
        Centre and spread by quantity, SI.
    played : tuple of str
        Which of carry and offline were computed from delivery or launch, not measured.
    """

    player: str
    club: str
    block: str
    n: int
    spreads: Mapping[str, Spread]
    played: tuple[str, ...]


@dataclass(frozen=True)
class Before:
    """Two blocks of a player with one club, compared.

    Attributes
    ----------
    player, club : str
        Whose, with what.
    before, after : str
        The blocks.
    comparison : Comparison
        What changed.
    """

    player: str
    club: str
    before: str
    after: str
    comparison: Comparison


@dataclass(frozen=True)
class Driven:
    """What drives the scatter of a player's last block with one club.

    Attributes
    ----------
    player, club, block : str
        Whose, with what and when.
    scatter : Scatter or None
        The answer.
    why_not : str
        Why there is none.
    """

    player: str
    club: str
    block: str
    scatter: Scatter | None
    why_not: str = ""


@dataclass(frozen=True)
class Aimed:
    """A player's strikes with one club in one block against a target.

    Attributes
    ----------
    player, club, block : str
        Whose, with what and when.
    name : str
        Name of the target.
    play : TargetPlay
        The answer.
    """

    player: str
    club: str
    block: str
    name: str
    play: TargetPlay


Key = tuple[str, str, str]


def group_name(player: str, club: str, block: str = "") -> str:
    """What a player's strikes with a club in a block are called."""
    return ", ".join(part for part in (player, club, f"block {block}" if block else "") if part) or "All strikes"


def choose_quantities(strikes: Strikes, quantities: Iterable[str] | None) -> dict[str, Array]:
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


def group_rows(strikes: Strikes) -> dict[Key, Any]:
    """The rows of each player, club and block, in order of appearance, without warm-ups."""
    groups: dict[Key, list[int]] = {}
    for i, key in enumerate(zip(*(strikes.who[label] for label in ("player", "club", "block")), strict=True)):
        if not strikes.warm_up[i]:
            groups.setdefault(key, []).append(i)
    return {key: np.array(rows) for key, rows in groups.items()}


def group(key: Key, rows: Any, wanted: Mapping[str, Array], strikes: Strikes) -> Group:
    spreads = {name: spread_of(x[rows], strikes.labels[rows]) for name, x in wanted.items()}
    played = tuple(name for name in LANDING if name in wanted and name not in strikes.numbers)
    return Group(*key, len(rows), {name: s for name, s in spreads.items() if s.n}, played)


def by_player_and_club(groups: Mapping[Key, Any]) -> dict[tuple[str, str], list[str]]:
    """The blocks of each player with each club, in order of appearance."""
    blocks: dict[tuple[str, str], list[str]] = {}
    for player, club, block in groups:
        blocks.setdefault((player, club), []).append(block)
    return blocks


def changes(
    groups: Mapping[Key, Any], wanted: Mapping[str, Array], reading: Reading, before: str | None, after: str | None,
    seed: int, notes: list[str],
) -> Iterable[Before]:  # fmt: skip
    known = dict.fromkeys(block for _, _, block in groups)
    for side, block in (("before", before), ("after", after)):
        if block is not None and block not in known:
            raise InputError(f"{side}: no block is called {block!r}; there are: {', '.join(map(repr, known))}")
    for (player, club), blocks in by_player_and_club(groups).items():
        early = blocks[0] if before is None else before
        late = blocks[-1] if after is None else after
        if early == late or early not in blocks or late not in blocks:
            continue
        if len(blocks) > 2 and before is None and after is None:
            notes.append(
                f"{group_name(player, club)}: {len(blocks)} blocks; the first and the last are compared. Choose "
                "others with before and after."
            )
        was, now = ({name: x[groups[player, club, block]] for name, x in wanted.items()} for block in (early, late))
        comparison = compare(was, now, STRIKE_FIELDS, smallest=reading.smallest, seed=seed)
        yield Before(player, club, early, late, comparison)


def scatters(
    groups: Mapping[Key, Any], strikes: Strikes, reading: Reading, club_set: Mapping[str, Club], defaults: Defaults,
    seed: int,
) -> Iterable[Driven]:  # fmt: skip
    way = next((way for way in DELIVERED if set(way.needs) <= set(strikes.rows.columns)), None)
    if way is None:
        return
    for (player, club), blocks in by_player_and_club(groups).items():
        where = player, club, blocks[-1]
        rows = groups[where]
        if club not in club_set:
            yield Driven(*where, None, "the club is not known" if club else "no club is named")
            continue
        rows, delivery = read_deliveries(rows, strikes, way, club_set[club])
        seen = np.isin(strikes.landed_by[rows], ("measured", "launch"))
        carry, offline = (np.where(seen, x[rows], np.nan) for x in (strikes.carry, strikes.offline))
        measured = (carry, offline) if seen.any() else None
        played = player_of(rows, strikes, club_set[club], defaults)
        try:
            scatter = drives_scatter(delivery, played, noise=reading.noise, measured=measured, seed=seed)
        except InputError as error:
            yield Driven(*where, None, str(error))
        else:
            yield Driven(*where, scatter)


def targets(
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
        there = ", ".join(targets) or "none"
        notes.append(f"No target is called {name!r}: its strikes count against none. There are: {there}.")
    for key, rows in groups.items():
        for name in dict.fromkeys(named[rows]):
            aimed_at = targets.get(name) if name else alone
            if aimed_at is None:
                continue
            some = rows[named[rows] == name]
            result = target_play(strikes.offline[some], strikes.downrange[some], aimed_at, seed=seed)
            if result is None:
                notes.append(f"{group_name(*key[:2])}: no landing is known, so no target play.")
            else:
                yield Aimed(*key, name, result)
