"""Tables of deliveries or launches, played row by row."""

from __future__ import annotations

import os
import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING, Any, Protocol

import numpy as np

from ..core.files import import_pandas, read
from ..core.quantity import System, Unit, assign, display_unit, near_misses
from ..core.value import Array, columns_of, from_table, table_of, units_of, value_or_default
from ..errors import InputError, warn
from ..row.ball import Ball
from ..row.engine import Accuracy
from ..row.flight import Flight, Launch
from ..row.ground import Run, Turf
from ..row.impact import Impact, strike_mistakes
from ..row.play import at_standard_conditions, play
from ..row.setting import Air, Terrain, Weather, Wind
from ..row.shot import Shot
from ..row.swing import Club, Delivery, clubs, masked_present

if TYPE_CHECKING:
    import pandas as pd

COMPUTED = "computed_"
Numbers = dict[str, Array]
Mistakes = list[tuple[int, str]]


@dataclass(frozen=True)
class Way:
    """One way to start a shot from a row: the columns it needs, those it may have (else 0), and how."""

    needs: tuple[str, ...]
    may: tuple[str, ...]
    start: Callable[[Numbers, Any], tuple[Delivery | Launch, Mistakes]]

    @property
    def struck(self) -> bool:
        return "clubhead_speed" in self.needs


def _as_backspin(n: Numbers, _: None) -> tuple[Launch, Mistakes]:
    spin = {"backspin_rate": n["backspin_rate"], "sidespin_rate": n["sidespin_rate"]}
    return Launch.from_backspin(n["ball_speed"], n["launch_angle"], n["launch_direction"], **spin), []


def _present(n: Numbers, club: Club) -> tuple[Delivery, Mistakes]:
    face, mistakes = masked_present(club, n["shaft_lean"], n["face_angle"], n["lie_tilt"])
    presented = ("shaft_lean", "face_angle", "lie_tilt")
    return replace(face, **{name: x for name, x in n.items() if name not in presented}), mistakes


SWUNG = ("club_path", "attack_angle", "face_angle", "strike_toe", "strike_high", "closure_rate")
#: A row is played in the first way for which it has all the numbers.
WAYS = (
    Way(
        ("ball_speed", "launch_angle", "spin_rate"),
        ("launch_direction", "spin_axis_tilt"),
        lambda n, _: (Launch(**n), []),
    ),
    Way(("ball_speed", "launch_angle", "backspin_rate"), ("launch_direction", "sidespin_rate"), _as_backspin),
    Way(
        ("clubhead_speed", "dynamic_loft"),
        (*SWUNG, "lie_tilt"),
        lambda n, _: (Delivery(**n), []),
    ),
    Way(
        ("clubhead_speed", "shaft_lean"),
        (*SWUNG, "lie_tilt"),
        _present,
    ),
)
NEEDED = "; or ".join(", ".join(way.needs) for way in WAYS)
#: A launch as it is measured: without the spin along its direction, which no impact gives.
MEASURED = {name: si for name, si in columns_of("Launch").items() if name != "axial_spin_rate"}
WEATHER = ("temperature", "pressure", "altitude", "relative_humidity")
WIND = ("wind_speed", "wind_from")
FIELDS = {
    **MEASURED,
    "backspin_rate": "rad/s",
    "sidespin_rate": "rad/s",
    **columns_of("Delivery"),
    "shaft_lean": "rad",
    **columns_of("Weather"),
    "altitude": "m",
    "wind_speed": "m/s",
    "wind_from": "rad",
    "tee_height": "m",
}


#: Columns behind mistakes that do not begin with a column's own field, by what they begin with.
BEHIND = {
    "spin loft": ("club_path", "attack_angle", "face_angle", "dynamic_loft", "shaft_lean"),
    "strike": SWUNG,
    "wind speed": ("wind_speed",),
    "from_direction": ("wind_from",),
    "spin_rate": ("backspin_rate", "sidespin_rate"),
    "base_direction": ("club_path", "attack_angle", "plane_inclination"),
}
#: A longer cell is shortened in messages.
LONGEST_CELL = 60


def short_cell(cell: object) -> str:
    """A cell as it is written, short enough for a message."""
    text = str(cell).strip()
    return text if len(text) <= LONGEST_CELL else f"{text[:LONGEST_CELL]}…"


@dataclass(frozen=True)
class Defaults:
    """Defaults for missing values of a table.

    Parameters
    ----------
    ball : Ball, optional
        The ball; the standard one by default.
    weather : Weather or Air, optional
        The weather; dry ISO air at sea level by default.
    wind : Wind, optional
        The wind; calm by default.
    turf : Turf, optional
        The turf; a firm fairway by default.
    accuracy : {"fast", "reference"}
        As in ``play``.
    """

    ball: Ball | None = None
    weather: Weather | Air | None = None
    wind: Wind | None = None
    turf: Turf | None = None
    accuracy: Accuracy = "fast"


@dataclass
class Report:
    """What happened to a table besides its results. misspelt: unread columns, and the known one each looks like."""

    rows: int
    bad: list[tuple[Any, str]] = field(default_factory=list)
    unread: list[str] = field(default_factory=list)
    misspelt: dict[str, str] = field(default_factory=dict)
    assumed: list[str] = field(default_factory=list)


def table(
    source: pd.DataFrame | str | os.PathLike[str],
    *,
    club: str | None = None,
    club_set: Mapping[str, Club] = clubs,
    ball: Ball | None = None,
    weather: Weather | Air | None = None,
    wind: Wind | None = None,
    turf: Turf | None = None,
    accuracy: Accuracy = "fast",
    units: System = "yards",
    standard: bool = False,
) -> pd.DataFrame:
    """Play every row of a table of deliveries or measured launches; needs the ``tables`` extra.

    Parameters
    ----------
    source : DataFrame, str or Path
        A DataFrame, CSV or Parquet file. Number columns are named by quantity and unit, see Notes.
    club : str, optional
        The club of rows that name none in the column ``club``; deliveries need one.
    club_set : mapping of str to Club
        The clubs by name; the shipped ones by default.
    ball : Ball, optional
        The ball; the standard one by default.
    weather : Weather or Air, optional
        The weather of rows without columns of their own.
    wind : Wind, optional
        The wind of rows without columns of their own.
    turf : Turf, optional
        The turf; a firm fairway by default.
    accuracy : {"fast", "reference"}
        As in ``play``.
    units : {"yards", "metric"}
        Units of the computed columns.
    standard : bool
        Also play each launch in standard still air.

    Returns
    -------
    DataFrame
        The table with ``computed_…`` columns added. In a bad row the numbers are missing, and ``computed_status``
        and ``computed_reason`` say why. ``computed_run_status`` says why a flight has no place of rest
        (``no_rest``: the numbers are those after 30 s), and ``computed_out_of_range`` names what left a model's
        stated range.

    Raises
    ------
    InputError
        If no row can be read.

    Warns
    -----
    InputWarning
        For a column that looks like a misspelt name.

    Notes
    -----
    A row is played in the first of these ways for which it has the numbers; those after "and" count as 0 if the
    table has no such column:

    - a launch: ball_speed, launch_angle, spin_rate; and launch_direction, spin_axis_tilt;
    - a launch: ball_speed, launch_angle, backspin_rate; and launch_direction, sidespin_rate;
    - a delivery: clubhead_speed, dynamic_loft; and club_path, attack_angle, face_angle, strike_toe, strike_high,
      lie_tilt, closure_rate;
    - a delivery: clubhead_speed, shaft_lean; and the same.

    Column names end in a unit: ``clubhead_speed_mph``, ``attack_angle_deg``, ``spin_rate_rpm``. The columns
    temperature, pressure or altitude, relative_humidity, wind_speed, wind_from and tee_height replace ``weather``
    and ``wind``.
    """
    defaults = Defaults(ball, weather, wind, turf, accuracy)
    frame, report = play_table(
        source, club=club, club_set=club_set, defaults=defaults, units=units, standard=standard
    )
    for column, known in report.misspelt.items():
        warn(f"column {column!r} is not read: did you mean {known}?")
    return frame


def play_table(
    source: pd.DataFrame | str | os.PathLike[str],
    *,
    club: str | None,
    club_set: Mapping[str, Club],
    defaults: Defaults,
    units: System,
    standard: bool,
) -> tuple[pd.DataFrame, Report]:
    """``table``, with a report of what was bad, unread and assumed."""
    if club is not None:
        club_set[club]  # an unknown name is an error before any work
    rows, frame = _rows(source)
    results = _Results(len(frame), units, standard)
    clash = [name for name in (*results.columns, COMPUTED + "reason") if name in frame.columns]
    if clash:
        raise InputError(f"the table already has {', '.join(clash)}: drop or rename these columns")
    rows.play(rows.club_names(club), club_set, defaults, results)
    return frame.assign(**results.columns, **{COMPUTED + "reason": rows.reasons_in_words()}), rows.report()


def deliveries(
    source: pd.DataFrame | str | os.PathLike[str], club_set: Mapping[str, Club]
) -> tuple[dict[str, Delivery], list[str]]:
    """The deliveries of a table's good rows, as arrays, by the club each row names; and what is wrong with others.

    Raises InputError where there are none.
    """
    rows, frame = _rows(source)
    found = rows.deliveries(rows.club_names(None), club_set)
    if not found:
        why = next((reason for reason in rows.reasons if reason), "the rows have launches, not deliveries")
        raise InputError(f"{_name_of(source)}no row has a delivery with a club: {why}")
    return found, [in_place(frame, line, why) for line, why in rows.report().bad]


def _rows(source: pd.DataFrame | str | os.PathLike[str]) -> tuple[Rows, pd.DataFrame]:
    """A table read, and as it was."""
    import_pandas()
    frame, reasons = read(source) if isinstance(source, str | os.PathLike) else (source.copy(), {})
    try:
        rows = Rows(frame, reasons)
        rows.need_a_way()
        return rows, frame
    except InputError as error:
        raise InputError(f"{_name_of(source)}{error}") from None


def _name_of(source: Any) -> str:
    return f"{source}: " if isinstance(source, str | os.PathLike) else ""


def weather_with(own: dict[str, Any], base: Weather | Air | None) -> Weather | Air | None:
    """The weather with a table's own numbers, by the names of ``WEATHER``, in it."""
    if not own:
        return base
    if isinstance(base, Air):
        raise InputError(f"the table has {', '.join(own)}: give weather as Weather, not as Air")
    if "pressure" in own or "altitude" in own:
        own = {"pressure": None, "altitude": None, **own}
    base = value_or_default(base, "weather", Weather)
    return replace(base, **own)


def wind_with(own: dict[str, Any], base: Wind) -> Wind:
    """The wind with a table's own numbers, by the names of ``WIND``, in it."""
    fields = {"wind_speed": "speed", "wind_from": "from_direction"}
    return replace(base, **{fields[name]: x for name, x in own.items()})


def in_place(frame: pd.DataFrame, line: object, why: str) -> str:
    """What is wrong with a row, after its line in the file, or what else the table's index counts."""
    return f"{frame.index.name or 'row'} {line}: {why}"


class Keeper(Protocol):
    """What takes the shots of some rows."""

    def keep(self, rows: Any, shot: Shot) -> None: ...


class Rows:
    """A table being played: its numbers in SI, and the first mistake of each row.

    Parameters
    ----------
    frame : DataFrame
        The table.
    reasons : mapping of int to str
        Rows that could not be read, and why.
    fields : mapping of str to str
        The columns to read, and their SI units.

    Raises
    ------
    InputError
        For columns that contradict each other.
    """

    def __init__(self, frame: pd.DataFrame, reasons: Mapping[int, str], fields: Mapping[str, str] = FIELDS) -> None:
        self.frame = frame
        self.reasons = np.array([reasons.get(line) for line in frame.index], dtype=object)
        self.columns = assign(frame.columns, fields)
        if {"pressure", "altitude"} <= set(self.columns):
            raise InputError("the table has pressure and altitude; keep one: altitude replaces pressure")
        if list(frame.columns).count("club") > 1:
            raise InputError("column 'club' appears more than once")
        self.numbers: Numbers = {}
        self.given: dict[str, Any] = {}
        self.refused: dict[int, tuple[str, ...]] = {}
        for name, (column, unit) in self.columns.items():
            self.numbers[name], self.given[name] = self._read(column, unit)

    def need_a_way(self) -> None:
        """Check that the table has the columns of one way to start a shot.

        Raises
        ------
        InputError
            If it has not.
        """
        if not any(set(way.needs) <= set(self.columns) for way in WAYS):
            there = ", ".join(map(str, self.frame.columns)) or "none"
            raise InputError(
                f"columns are missing: a table needs, each with its unit, {NEEDED}; there are: {there}"
            )

    def _read(self, column: str, unit: Unit) -> tuple[Array, Any]:
        """A column in SI, and where it is not blank; text that is no number is a reason."""
        series = self.frame[column]
        text = series.astype("string").str.strip()
        given = (text.notna() & (text != "")).fillna(False).to_numpy(bool)
        numbers = import_pandas().to_numeric(text.where(given), errors="coerce")
        plain = numbers.to_numpy(float, na_value=np.nan)
        self._note(np.isnan(plain) & given, lambda i: f"{column}: {short_cell(series.iloc[i])!r} is not a number")
        return unit.to_si(plain), given

    def _good(self) -> Any:
        return np.array([reason is None for reason in self.reasons], dtype=bool)

    def _note(self, where: Any, reason: Callable[[int], str]) -> None:
        for i in np.flatnonzero(where & self._good()).tolist():
            self.reasons[i] = reason(i)

    def refuse(self, row: int, message: str) -> None:
        """Note a mistake that the physics found in a row, by the cells it comes from.

        Parameters
        ----------
        row : int
            The row.
        message : str
            The mistake.
        """
        begin = re.match(r"([\w ]+?)(?: is |: )", message)
        name = begin[1] if begin else ""
        self.refused[row] = self.behind((name,) if name in self.columns else BEHIND.get(name, ()))
        own = name in self.refused[row]
        self.reasons[row] = self.in_cells(
            row, self.refused[row], re.sub(r"^\w+(?:: | is [^;,]*;? ?)", "", message) if own else message
        )

    def behind(self, names: Iterable[str]) -> tuple[str, ...]:
        """Select the fields that the table has.

        Parameters
        ----------
        names : iterable of str
            Some fields.

        Returns
        -------
        tuple of str
            Those that the table has.
        """
        return tuple(name for name in names if name in self.columns)

    def in_cells(self, row: int, names: Iterable[str], message: str) -> str:
        """Put the cells that a mistake comes from before its message.

        Parameters
        ----------
        row : int
            The row.
        names : iterable of str
            The fields.
        message : str
            The mistake.

        Returns
        -------
        str
            The message with the cells as they are written.
        """
        columns = [self.columns[name][0] for name in names if self.given[name][row]]
        cells = ", ".join(f"{column} is {short_cell(self.frame[column].iloc[row])}" for column in columns)
        return message if not cells else cells + message if message.startswith(",") else f"{cells}; {message}"

    def take_out(self, row: int, names: Iterable[str]) -> None:
        """Treat cells of a row as empty.

        Parameters
        ----------
        row : int
            The row.
        names : iterable of str
            The fields.
        """
        for name in names:
            self.numbers[name][row], self.given[name][row] = np.nan, False

    def _note_blanks(self, where: Any, names: Iterable[str]) -> None:
        for name in names:
            if name in self.columns:
                words = f"{self.columns[name][0]} is empty"
                self.reasons[where & ~self.given[name] & self._good()] = words

    def club_names(self, club: str | None) -> Any:
        """List each row's club.

        Parameters
        ----------
        club : str or None
            The club of rows that name none.

        Returns
        -------
        array of str or None
            A name for each row.
        """
        names = np.full(len(self.frame), club, dtype=object)
        if "club" in self.frame.columns:
            own = self.frame["club"].astype("string").str.strip().to_numpy(object, na_value="")
            names = np.where(own == "", names, own)
        return names

    def play(
        self,
        names: Any,
        club_set: Mapping[str, Club],
        defaults: Defaults,
        results: Keeper,
        ways: Iterable[Way] = WAYS,
    ) -> None:
        """Play the rows, grouped by way and club.

        Parameters
        ----------
        names : array of str or None
            Each row's club.
        club_set : mapping of str to Club
            The clubs by name.
        defaults : Defaults
            Defaults for missing values.
        results : Keeper
            Takes the shots.
        ways : iterable of Way
            The ways that a row may start.
        """
        for rows, way, name in self._groups(names, club_set, ways):
            self._play_some(rows, way, None if name is None else club_set[name], defaults, results)

    def deliveries(
        self, names: Any, club_set: Mapping[str, Club], ways: Iterable[Way] = WAYS
    ) -> dict[str, Delivery]:
        """Read the deliveries of the good rows.

        Parameters
        ----------
        names : array of str or None
            Each row's club.
        club_set : mapping of str to Club
            The clubs by name.
        ways : iterable of Way
            The ways that a row may start.

        Returns
        -------
        dict of str to Delivery
            The deliveries of each club, SI, shape (n,).
        """
        found: dict[str, list[Array]] = {}
        for rows, way, name in self._groups(names, club_set, ways):
            if name is None:
                continue
            start, mistakes = way.start(self._starts(rows, way), club_set[name])
            assert isinstance(start, Delivery)
            for i, message in [*reversed(strike_mistakes(start, club_set[name])), *mistakes]:
                self.refuse(rows[i], message)
            good = [reason is None for reason in self.reasons[rows]]
            if any(good):
                found.setdefault(name, []).append(table_of(start, (len(rows),))[good])
        return {
            name: from_table(Delivery, np.concatenate(tables), (sum(map(len, tables)),))
            for name, tables in found.items()
        }

    def _groups(
        self, names: Any, club_set: Mapping[str, Club], ways: Iterable[Way] = WAYS
    ) -> Iterator[tuple[Any, Way, str | None]]:
        """Good rows that start the same way with the same club; what keeps others out is noted."""
        left = self._good()
        for way in ways:
            if not set(way.needs) <= set(self.columns):
                continue
            takes = left & np.logical_and.reduce([self.given[name] for name in way.needs])
            left &= ~takes
            self._note_blanks(takes, (*way.may, *WEATHER, *WIND, "tee_height"))
            if way.struck:
                self._note(takes & (names == None), lambda _: "a delivery needs a club, and none is named")  # noqa: E711
            for name in dict.fromkeys(names[takes]) if way.struck else [None]:
                rows = np.flatnonzero(takes & self._good() & ((names == name) if way.struck else True))
                if name is not None and name not in club_set:
                    self._note_club(rows, name, club_set)
                elif rows.size:
                    yield rows, way, name
        self._note(left, lambda i: f"needs {NEEDED}{self._empty(i)}")

    def _note_club(self, rows: Any, name: str, club_set: Mapping[str, Club]) -> None:
        self.reasons[rows] = f"no club is called {name!r}; there are: {', '.join(club_set)}"

    def _empty(self, row: int) -> str:
        empty = [column for name, (column, _) in self.columns.items() if not self.given[name][row]]
        return f"; empty: {', '.join(empty)}" if empty else ""

    def _play_some(self, rows: Any, way: Way, club: Club | None, defaults: Defaults, results: Keeper) -> None:
        start, mistakes = way.start(self._starts(rows, way), club)
        tee_height = self._at(rows, "tee_height")
        shot = play(
            start,
            club,
            ball=defaults.ball,
            weather=self._weather(rows, defaults.weather),
            wind=self._wind(rows, value_or_default(defaults.wind, "wind", Wind)),
            terrain=Terrain(tee_height),
            turf=defaults.turf,
            accuracy=defaults.accuracy,
            errors="mask",
        )
        for i, message in [*reversed(shot.mistakes.items()), *mistakes]:
            self.refuse(rows[i], message)
        results.keep(rows, shot)

    def _at(self, rows: Any, name: str) -> Array:
        return self.numbers[name][rows] if name in self.numbers else np.zeros(len(rows))

    def _starts(self, rows: Any, way: Way) -> Numbers:
        return {name: self._at(rows, name) for name in (*way.needs, *way.may)}

    def _weather(self, rows: Any, base: Weather | Air | None) -> Weather | Air | None:
        return weather_with({name: self.numbers[name][rows] for name in WEATHER if name in self.columns}, base)

    def _wind(self, rows: Any, base: Wind) -> Wind:
        return wind_with({name: self.numbers[name][rows] for name in WIND if name in self.columns}, base)

    def reasons_in_words(self) -> Any:
        """List what is wrong with each row.

        Returns
        -------
        array of str
            A reason for each row; empty for a good one.
        """
        return np.array([reason or "" for reason in self.reasons], dtype=object)

    def report(self) -> Report:
        """Report what was bad, unread and assumed.

        Returns
        -------
        Report
            The report.
        """
        used = [way for way in WAYS if set(way.needs) <= set(self.columns)]
        read_columns = {column for column, _ in self.columns.values()} | {"club"}
        unread = [str(column) for column in self.frame.columns if column not in read_columns]
        free = {name: si for name, si in FIELDS.items() if name not in self.columns}
        return Report(
            rows=len(self.frame),
            bad=[(line, why) for line, why in zip(self.frame.index, self.reasons, strict=True) if why],
            unread=unread,
            misspelt=near_misses(unread, free),
            assumed=list(dict.fromkeys(n for way in used for n in way.may if n not in self.columns)),
        )


class _Results:
    """The computed columns, filled some rows at a time; where nothing was kept a row stays bad."""

    def __init__(self, rows: int, units: System, standard: bool) -> None:
        self.standard = standard
        self.sources: dict[str, tuple[str, str, Unit]] = {}
        wanted = [
            ("impact", "smash_factor", units_of(Impact)["smash_factor"]),
            *(("launch", name, si) for name, si in MEASURED.items()),
            *(("flight", name, si) for name, si in units_of(Flight).items()),
            *(("run", name, si) for name, si in units_of(Run).items()),
        ]
        if standard:
            wanted += [("standard", name, units_of(Flight)[name]) for name in ("carry", "offline", "apex")]
        for stage, name, si in wanted:
            unit = display_unit(name, si, units)
            prefix = COMPUTED + ("standard_" if stage == "standard" else "run_" if name == "distance" else "")
            column = f"{prefix}{name}_{unit.suffix}".rstrip("_")
            self.sources[column] = stage, name, unit
        self.columns: dict[str, Any] = {column: np.full(rows, np.nan) for column in self.sources}
        self.columns[COMPUTED + "out_of_range"] = np.full(rows, "", dtype=object)
        for status in ("status", "run_status"):
            self.columns[COMPUTED + status] = np.full(rows, "bad_input", dtype=object)

    def keep(self, rows: Any, shot: Shot) -> None:
        stages: dict[str, Any] = {
            "impact": shot.impact,
            "launch": shot.launch,
            "flight": shot.flight,
            "run": shot.run,
        }
        if self.standard:
            stages["standard"] = at_standard_conditions(shot).flight
        for column, (stage, name, unit) in self.sources.items():
            if stages[stage] is not None:
                self.columns[column][rows] = unit.from_si(getattr(stages[stage], name))
        listed = self.columns[COMPUTED + "out_of_range"]
        for name, excess in shot.out_of_range.items():
            beyond = rows[np.nan_to_num(excess) != 0.0]
            listed[beyond] = [f"{known} {name}".strip() for known in listed[beyond]]
        self.columns[COMPUTED + "status"][rows] = shot.status
        self.columns[COMPUTED + "run_status"][rows] = shot.run.status
