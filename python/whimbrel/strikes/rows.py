"""A table of strikes, read for statistics: numbers in SI, who struck what, and where each ball came down."""

from __future__ import annotations

import copy
import os
from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np

from .. import _core
from ..core.files import import_pandas, read, refuse_twice
from ..core.quantity import column
from ..core.value import Array
from ..errors import InputError
from ..row.arc import assumed_plane, masked_arc
from ..row.shot import Shot
from ..row.swing import Club, Delivery
from .play_table import WAYS, WEATHER, WIND, Defaults, Rows
from .reading import STRIKE_FIELDS

if TYPE_CHECKING:
    import pandas as pd

#: Conditions of a strike, not results of it.
CONDITIONS = (*WEATHER, *WIND, "tee_height")
RANGES = {
    **{name: (low, high) for kind in ("Delivery", "Launch", "SwingArc", "Weather", "Terrain")
       for name, _, low, high in _core.fields[kind]},
    **{name: (low, high) for name, (_, _, low, high) in zip(WIND, _core.fields["Wind"], strict=False)},
    **{name: (low, high) for name, _, low, high in _core.fields["Presentation"] if name == "shaft_lean"},
    "altitude": (-500.0, 10_000.0),
}  # fmt: skip
NEVER_NEGATIVE = ("carry", "apex", "flight_time")
LABELS = ("player", "club", "block", "target")
YES, NO = {"1", "1.0", "true", "yes", "y", "x"}, {"", "0", "0.0", "false", "no", "n"}
LAUNCHED, DELIVERED = (tuple(way for way in WAYS if way.struck is struck) for struck in (False, True))


@dataclass(frozen=True)
class Strikes:
    """Strikes in the order of the table; arrays have the shape (strikes,), NaN for a missing number.

    Attributes
    ----------
    labels : array
        What the table calls each strike.
    numbers : dict of str to array
        The measured quantities, SI.
    who : dict of str to array of str
        Player, club, block and target of each strike; empty if the table does not say.
    warm_up : array of bool
        Strikes to leave out.
    carry, offline, downrange : array
        The landing, m.
    landed_by : array of str
        What the landing comes from: ``"measured"``, ``"launch"``, ``"delivery"`` or empty.
    bad : list of (label, str)
        What could not be read or played, and why.
    unread : list of str
        Columns not used.
    rows : Rows
        The table behind them.
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
        frame = _rename(frame, columns)
        rows = Rows(frame, reasons, STRIKE_FIELDS)
        if not set(rows.columns) - set(CONDITIONS):
            there = ", ".join(map(str, frame.columns)) or "none"
            raise InputError(
                "it has no column of a strike: name columns by quantity and unit, such as clubhead_speed_mph, "
                f"face_angle_deg or carry_yd, or map other names in a TOML file; there are: {there}"
            )
    except InputError as error:
        raise InputError(f"{named}{error}") from None
    shapeless = np.array([line in reasons for line in frame.index], dtype=bool)
    bad = [(line, why) for line, why in zip(frame.index, rows.reasons, strict=True) if why]
    bad += _out_of_range(rows, shapeless)
    warm_up = _warm_up(frame, bad)
    who = {label: _text(frame, label) for label in LABELS}
    if club is not None:
        who["club"] = np.where(who["club"] == "", club, who["club"])
    bad += _never_struck(rows, shapeless, who["club"], club_set)
    bad += _off_any_arc(rows, who["club"], club_set)
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


def _rename(frame: pd.DataFrame, columns: Mapping[str, str]) -> pd.DataFrame:
    """The frame with other names replaced by known ones."""
    for other, ours in columns.items():
        if other not in frame.columns:
            raise InputError(
                f"columns: {other!r} is not in the table; there are: {', '.join(map(str, frame.columns))}"
            )
        if ours not in (*LABELS, "warm_up") and column(ours, STRIKE_FIELDS) is None:
            raise InputError(f"columns: {other!r} is mapped to {ours!r}, which is not a quantity with its unit")
    frame = frame.rename(columns=dict(columns))
    refuse_twice(frame.columns)
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
        low, high = RANGES.get(name, (0.0 if name in NEVER_NEGATIVE else -np.inf, np.inf))
        wrong = np.isinf(numbers) | (numbers < low) | (numbers > high)
        _, unit = rows.columns[name]
        span = "a finite number" if np.isinf(low) else f"{unit.from_si(low):.4g} to {unit.from_si(high):.4g}"
        for i in np.flatnonzero(wrong & ~shapeless).tolist():
            found.append((rows.frame.index[i], rows.in_cells(i, [name], f"accepted: {span}")))
        rows.numbers[name] = np.where(wrong | shapeless, np.nan, numbers)
        rows.given[name] = rows.given[name] & np.isfinite(rows.numbers[name])
    return found


def _never_struck(rows: Rows, shapeless: Any, clubs: Any, club_set: Mapping[str, Club]) -> list[tuple[Any, str]]:
    """Takes out deliveries that cannot have met the ball, and says so."""
    tried = _turn(rows, shapeless)
    names = np.array([name if name in club_set else None for name in clubs], dtype=object)
    tried.deliveries(names, club_set, DELIVERED)
    for row, fields in tried.refused.items():
        rows.take_out(row, fields)
    return [(rows.frame.index[row], tried.reasons[row]) for row in sorted(tried.refused)]


def _off_any_arc(rows: Rows, clubs: Any, club_set: Mapping[str, Club]) -> list[tuple[Any, str]]:
    """Says which strikes swing on no arc; takes out path, attack and plane where the plane was measured too."""
    if "attack_angle" not in rows.columns:
        return []
    nothing = np.full(len(rows.frame), np.nan)
    attack, path, plane, low_point = (
        rows.numbers.get(name, nothing)
        for name in ("attack_angle", "club_path", "plane_inclination", "low_point_ahead")
    )
    found = []
    for name in dict.fromkeys(clubs):
        member = club_set[name] if name in club_set else None
        assumed = np.nan if member is None else assumed_plane(member)
        planes = np.where(np.isnan(plane) & np.isnan(low_point), assumed, plane)
        some = np.flatnonzero((clubs == name) & np.isfinite(attack + planes))
        hit = Delivery(1.0, np.nan_to_num(path[some]), attack[some])
        hand = "right" if member is None else member.hand
        for i, message in masked_arc(hit, plane_inclination=planes[some], hand=hand)[1]:
            row = int(some[i])
            fields = rows.behind(("club_path", "attack_angle") if message.startswith("base") else ("attack_angle",))
            if np.isfinite(plane[row]):
                fields = (*fields, "plane_inclination")
                found.append((row, rows.in_cells(row, fields, message)))
                rows.take_out(row, fields)
            else:
                found.append((row, rows.in_cells(row, fields, f"no low point can be told: {message} (assumed)")))
    return [(rows.frame.index[row], why) for row, why in sorted(found)]


def _turn(rows: Rows, left_out: Any) -> Rows:
    """The same rows to be tried once, but for some."""
    turn = copy.copy(rows)
    turn.refused = {}
    turn.reasons = np.full(len(rows.frame), None, dtype=object)
    turn.reasons[left_out] = "not now"
    return turn


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
        """Plays what was not measured; ``bad`` lists what cannot be played."""
        why = np.full(len(self.by), None, dtype=object)
        for self.now, ways in (("launch", LAUNCHED), ("delivery", DELIVERED)):
            if not any(set(way.needs) <= set(self.rows.columns) for way in ways):
                continue
            turn = _turn(self.rows, left_out | (self.by != ""))
            names = clubs.copy()
            names[clubs == ""] = None
            turn.play(names, club_set, defaults, self, ways)
            why = turn.reasons.copy()
            why[self.by != ""] = None
        named = {line for line, _ in bad}
        for line, reason, here in zip(self.rows.frame.index, why, ~left_out, strict=True):
            if reason and here and line not in named:
                bad.append((line, f"not played: {reason}"))

    def keep(self, rows: Any, shot: Shot) -> None:
        flown = shot.status == "ok"
        self.by[rows[flown]] = self.now
        at = rows[flown]
        self.carry[at], self.offline[at] = shot.carry[flown], shot.offline[flown]
        self.downrange[at] = shot.flight.downrange[flown]
