"""A table of strikes, read for statistics: numbers in SI, who struck what, and where each ball came down."""

from __future__ import annotations

import copy
import os
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, Any

import numpy as np

from . import _core
from .aim import SHAPES, Target
from .errors import InputError
from .files import import_pandas, read
from .quantities import assign, column
from .shot import Shot
from .swing import Club
from .tables import FIELDS, WAYS, WEATHER, WIND, Defaults, Rows
from .values import Array, columns_of

if TYPE_CHECKING:
    import pandas as pd

#: What is asked about, beside what a table that is played may have: the measured flight, smash factor, swing arc.
STRUCK = {**columns_of("Flight"), "smash_factor": "1", **columns_of("SwingArc")}
STRIKE_FIELDS = {**FIELDS, **STRUCK}
#: Conditions of a strike, not results of it.
CONDITIONS = (*WEATHER, *WIND, "tee_height")
RANGES = {name: (si, low, high) for kind in ("Delivery", "Launch") for name, si, low, high in _core.fields[kind]}
LABELS = ("player", "club", "block", "target")
YES, NO = {"1", "1.0", "true", "yes", "y", "x"}, {"", "0", "0.0", "false", "no", "n"}
LAUNCHED, DELIVERED = (tuple(way for way in WAYS if way.struck is struck) for struck in (False, True))


@dataclass(frozen=True)
class Reading:
    """How to read a table of strikes, as a TOML file says it.

    columns: other names of columns, to the names that are known. noise: the standard deviation of each quantity's
    measurement; smallest: the smallest change of it worth having; both SI. targets: by name.
    """

    columns: Mapping[str, str] = field(default_factory=dict)
    noise: Mapping[str, float] = field(default_factory=dict)
    smallest: Mapping[str, float] = field(default_factory=dict)
    targets: Mapping[str, Target] = field(default_factory=dict)


@dataclass(frozen=True)
class Strikes:
    """Strikes in the order of the table. Arrays of shape (strikes,), SI, NaN where there is no number.

    labels: what the table calls each. numbers: the measured quantities. who: player, club, block and target of each,
    "" where not said. warm_up: strikes to leave out. carry, offline, downrange: of the landing; landed_by:
    ``"measured"``, ``"launch"`` or ``"delivery"``, what it was played from, or "". bad: label and reason of what
    could not be read or played. unread: columns not used. rows: the table behind them.
    """

    labels: Array
    numbers: dict[str, Array]
    who: dict[str, Any]
    warm_up: Any
    carry: Array
    offline: Array
    downrange: Array
    landed_by: Any
    bad: list[tuple[Any, str]]
    unread: list[str]
    rows: Rows


def load_reading(path: str | os.PathLike[str]) -> Reading:
    """Reads the TOML file of a table's names, units, noise, smallest changes and targets.

    ::

        [columns]
        "Head Speed" = "clubhead_speed_mph"
        "Session" = "block"

        [noise]                      # standard deviation of the measurement
        face_angle_deg = 0.3

        [smallest]                   # the smallest change worth having
        carry_yd = 5

        [target.middle]              # circle: distance, radius; green: distance, width, depth; corridor: width
        shape = "circle"
        distance_yd = 145
        radius_yd = 8
    """
    try:
        entries = tomllib.loads(Path(path).read_text(encoding="utf-8"))
    except (tomllib.TOMLDecodeError, UnicodeDecodeError) as error:
        raise InputError(f"{path}: not a TOML file: {error}") from None
    known = ("columns", "noise", "smallest", "target")
    for key, part in entries.items():
        if key not in known or not isinstance(part, dict):
            raise InputError(f"{path}: {key!r} is no table that is known; known: {', '.join(known)}")
    try:
        return Reading(
            columns={str(k): str(v) for k, v in entries.get("columns", {}).items()},
            noise=in_si(entries.get("noise", {}), "noise"),
            smallest=in_si(entries.get("smallest", {}), "smallest"),
            targets={name: _target(name, entry) for name, entry in entries.get("target", {}).items()},
        )
    except InputError as error:
        raise InputError(f"{path}: {error}") from None


def in_si(given: Mapping[str, Any], what: str) -> dict[str, float]:
    """Numbers by quantity and unit, such as ``{"face_angle_deg": 0.3}``, by quantity in SI; none below 0."""
    found = assign(given, STRIKE_FIELDS)
    unknown = [name for name in given if name not in {key for key, _ in found.values()}]
    if unknown:
        raise InputError(f"{what}: {unknown[0]!r} is no quantity with its unit, such as face_angle_deg or carry_yd")
    for name, x in given.items():
        if isinstance(x, bool) or not isinstance(x, int | float) or not (np.isfinite(x) and x >= 0):
            raise InputError(f"{what}: {name} is {x!r}; it must be a number of at least 0")
    return {quantity: float(given[key] * unit.factor) for quantity, (key, unit) in found.items()}


def _target(name: str, entry: Any) -> Target:
    shape = entry.get("shape") if isinstance(entry, dict) else None
    if shape not in SHAPES:
        raise InputError(f"target {name}: shape is {shape!r}; accepted: {', '.join(SHAPES)}")
    sizes = dict.fromkeys(SHAPES[shape].__dataclass_fields__, "m")
    given = {key: x for key, x in entry.items() if key != "shape"}
    found = assign(given, sizes)
    if set(found) != set(sizes) or len(given) != len(sizes):
        raise InputError(f"target {name}: a {shape} takes {', '.join(f'{size}_yd' for size in sizes)}, or in m")
    for key, x in given.items():
        if isinstance(x, bool) or not isinstance(x, int | float):
            raise InputError(f"target {name}: {key} is {x!r}, not a number")
    return SHAPES[shape](**{size: unit.to_si(given[key]) for size, (key, unit) in found.items()})


def read_strikes(
    source: pd.DataFrame | str | os.PathLike[str],
    *,
    columns: Mapping[str, str],
    club: str | None,
    club_set: Mapping[str, Club],
    defaults: Defaults,
) -> Strikes:
    """Reads a DataFrame, CSV or Parquet file of strikes and plays what was not measured to the ground."""
    import_pandas()
    if club is not None:
        club_set[club]  # an unknown name is an error before any work
    named = f"{source}: " if isinstance(source, str | os.PathLike) else ""
    frame, reasons = read(source) if isinstance(source, str | os.PathLike) else (source.copy(), {})
    try:
        frame = _renamed(frame, columns)
        rows = Rows(frame, reasons, STRIKE_FIELDS)
        if not set(rows.columns) - set(CONDITIONS):
            there = ", ".join(map(str, frame.columns)) or "none"
            raise InputError(
                "no column of a strike is there: name columns by quantity and unit, such as clubhead_speed_mph, "
                f"face_angle_deg or carry_yd, or map other names in a TOML file; there are: {there}"
            )
    except InputError as error:
        raise InputError(f"{named}{error}") from None
    shapeless = np.array([line in reasons for line in frame.index], dtype=bool)
    bad = [(line, why) for line, why in zip(frame.index, rows.reasons, strict=True) if why]
    bad += _out_of_range(rows, shapeless)
    who = {label: _text(frame, label) for label in LABELS}
    if club is not None:
        who["club"] = np.where(who["club"] == "", club, who["club"])
    warm_up = _warm_up(frame, bad)
    landing = _Landing(rows)
    landing.play(shapeless | warm_up, who["club"], club_set, defaults, bad)
    used = {name for name, _ in rows.columns.values()} | {*LABELS, "warm_up"}
    return Strikes(
        labels=frame.index.to_numpy(),
        numbers={name: x for name, x in rows.numbers.items() if name not in CONDITIONS},
        who=who,
        warm_up=warm_up,
        carry=landing.carry,
        offline=landing.offline,
        downrange=landing.downrange,
        landed_by=landing.by,
        bad=bad,
        unread=[str(name) for name in frame.columns if name not in used],
        rows=rows,
    )


def _renamed(frame: pd.DataFrame, columns: Mapping[str, str]) -> pd.DataFrame:
    """The frame with other names replaced by known ones."""
    for other, ours in columns.items():
        if other not in frame.columns:
            raise InputError(
                f"columns: {other!r} is not in the table; there are: {', '.join(map(str, frame.columns))}"
            )
        if ours not in (*LABELS, "warm_up") and column(ours, STRIKE_FIELDS) is None:
            raise InputError(f"columns: {other!r} is to be {ours!r}, which is no quantity with its unit")
    frame = frame.rename(columns=dict(columns))
    names = list(frame.columns)
    twice = sorted({str(name) for name in names if names.count(name) > 1})
    if twice:
        raise InputError(f"column {', '.join(map(repr, twice))} is there more than once")
    return frame


def _text(frame: pd.DataFrame, name: str) -> Any:
    if name not in frame.columns:
        return np.full(len(frame), "", dtype=object)
    return frame[name].astype("string").str.strip().fillna("").to_numpy(object)


def _warm_up(frame: pd.DataFrame, bad: list[tuple[Any, str]]) -> Any:
    cells = np.array([str(x).lower() for x in _text(frame, "warm_up")], dtype=object)
    for line, cell in zip(frame.index, cells, strict=True):
        if cell not in YES | NO:
            bad.append((line, f"warm_up is {cell!r}; accepted: yes, no; taken as no"))
    return np.isin(cells, list(YES))


def _out_of_range(rows: Rows, shapeless: Any) -> list[tuple[Any, str]]:
    """Takes out numbers that no strike can have, and says which."""
    found = []
    for name, numbers in rows.numbers.items():
        si, low, high = RANGES.get(name, (STRIKE_FIELDS[name], -np.inf, np.inf))
        wrong = np.isinf(numbers) | (numbers < low) | (numbers > high)
        if name in ("carry", "apex", "flight_time"):
            wrong |= numbers < 0
        header, unit = rows.columns[name]
        for i in np.flatnonzero(wrong & ~shapeless):
            span = f"{unit.from_si(low):.4g} to {unit.from_si(high):.4g}" if np.isfinite(low) else "a finite number"
            span = "at least 0" if name in ("carry", "apex", "flight_time") else span
            found.append((rows.frame.index[i], f"{header} is {unit.from_si(numbers[i]):g}; accepted: {span}"))
        rows.numbers[name] = np.where(wrong | shapeless, np.nan, numbers)
        rows.given[name] = rows.given[name] & np.isfinite(rows.numbers[name])
    return found


class _Landing:
    """Where each ball came down: measured, else played from the launch, else from the delivery."""

    def __init__(self, rows: Rows) -> None:
        n = len(rows.frame)
        nothing = np.full(n, np.nan)
        self.rows = rows
        self.carry, self.offline, self.downrange = (
            rows.numbers.get(name, nothing).copy() for name in ("carry", "offline", "downrange")
        )
        along = np.sqrt(np.maximum(self.carry**2 - self.offline**2, 0.0))
        self.downrange = np.where(np.isnan(self.downrange), along, self.downrange)
        self.carry = np.where(np.isnan(self.carry), np.hypot(self.offline, self.downrange), self.carry)
        self.by = np.where(np.isfinite(self.offline + self.downrange), "measured", "").astype(object)
        self.now = ""

    def play(
        self,
        left_out: Any,
        clubs: Any,
        club_set: Mapping[str, Club],
        defaults: Defaults,
        bad: list[tuple[Any, str]],
    ) -> None:
        """Plays what was not measured; what cannot be is told in ``bad``."""
        why = np.full(len(self.by), None, dtype=object)
        for self.now, ways in (("launch", LAUNCHED), ("delivery", DELIVERED)):
            if not any(set(way.needs) <= set(self.rows.columns) for way in ways):
                continue
            turn = copy.copy(self.rows)
            turn.reasons = np.where(left_out | (self.by != ""), "not now", None).astype(object)
            names = np.where(clubs == "", None, clubs)
            turn.play(names, club_set, defaults, self, ways)
            why = np.where(self.by == "", turn.reasons, None)
        told = {line for line, _ in bad}
        for line, reason, here in zip(self.rows.frame.index, why, ~left_out, strict=True):
            if reason and here and line not in told:
                bad.append((line, f"not played: {reason}"))

    def keep(self, rows: Any, shot: Shot) -> None:
        flown = shot.status == "ok"
        self.by[rows[flown]] = self.now
        at = rows[flown]
        self.carry[at], self.offline[at] = shot.carry[flown], shot.offline[flown]
        self.downrange[at] = shot.flight.downrange[flown]
