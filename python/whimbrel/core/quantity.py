"""Numbers with units: read from text and column names, and shown to people.

Inside the library every number is SI. This module is the edge where ``84mph`` on the command line,
``clubhead_speed_mph`` in a table and ``loft_deg`` in a TOML file become SI, and back.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from difflib import get_close_matches
from typing import Any, Literal

import numpy as np

from .. import units
from ..errors import InputError, short

System = Literal["yards", "metric"]
#: How alike a column and a known one are, of 1, for a slip of the pen: a letter or two.
NEAR = 0.88


@dataclass(frozen=True)
class Unit:
    """A unit: how text writes it, how a column name ends with it, and its way to SI."""

    symbol: str
    suffix: str
    si: str
    factor: float = 1.0
    zero: float = 0.0

    def to_si(self, x: Any) -> Any:
        return (x - self.zero) * self.factor if self.zero else x * self.factor

    def from_si(self, x: Any) -> Any:
        return x / self.factor + self.zero


UNITS = (
    Unit("m/s", "mps", "m/s"),
    Unit("mph", "mph", "m/s", units.mph),
    Unit("km/h", "kmh", "m/s", units.kmh),
    Unit("ft/s", "fps", "m/s", units.fps),
    Unit("kn", "kn", "m/s", units.knot),
    Unit("deg", "deg", "rad", units.deg),
    Unit("rad", "rad", "rad"),
    Unit("rpm", "rpm", "rad/s", units.rpm),
    Unit("rad/s", "radps", "rad/s"),
    Unit("deg/s", "degps", "rad/s", units.deg),
    Unit("m", "m", "m"),
    Unit("yd", "yd", "m", units.yd),
    Unit("ft", "ft", "m", units.ft),
    Unit("in", "in", "m", units.inch),
    Unit("cm", "cm", "m", units.cm),
    Unit("mm", "mm", "m", units.mm),
    Unit("m/s2", "mps2", "m/s^2"),
    Unit("ft/s2", "fps2", "m/s^2", units.ft),
    Unit("kg", "kg", "kg"),
    Unit("g", "g", "kg", units.gram),
    Unit("kg m2", "kgm2", "kg m^2"),
    Unit("g cm2", "gcm2", "kg m^2", 1e-7),
    Unit("C", "c", "K", 1.0, -273.15),
    Unit("F", "f", "K", 5.0 / 9.0, -459.67),
    Unit("K", "k", "K"),
    Unit("hPa", "hpa", "Pa", units.hPa),
    Unit("Pa", "pa", "Pa"),
    Unit("mmHg", "mmhg", "Pa", units.mmHg),
    Unit("inHg", "inhg", "Pa", units.inHg),
    Unit("%", "pct", "1", units.percent),
    Unit("s", "s", "s"),
    Unit("us", "us", "s", 1e-6),
    Unit("J", "j", "J"),
    Unit("", "", "1"),
)

BY_SYMBOL = {unit.symbol: unit for unit in UNITS}
BY_SUFFIX = {unit.suffix: unit for unit in UNITS}

NUMBER = re.compile(r"\s*([-+−]?(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)(?:[eE][-+]?[0-9]+)?)\s*(\S*|kg m2|g cm2)\s*")


def units_of_kind(si: str) -> list[Unit]:
    """The units of one kind of quantity."""
    return [unit for unit in UNITS if unit.si == si]


@dataclass(frozen=True)
class Written:
    """A number as a user wrote it, and what it is in SI."""

    number: str
    unit: Unit
    si: float

    def check(self, name: str, lower: float, upper: float) -> float:
        """The number in SI where it lies in its range (SI); else an InputError in the unit it was written in."""
        if lower <= self.si <= upper:
            return self.si
        least, most = (self._in_its_unit(x) for x in (lower, upper))
        accepted = f"{least} or more" if upper == math.inf else f"{least} to {most}"
        raise InputError(f"{name} is {self.number} {self.unit.symbol}".rstrip() + f"; accepted: {accepted}")

    def _in_its_unit(self, x: float) -> str:
        """A number in SI to four digits."""
        return f"{float(f'{self.unit.from_si(x):.4g}'):.10g} {self.unit.symbol}".rstrip()


def read(text: str, si: str, name: str) -> Written:
    """A number with its unit, as text: ``read("84mph", "m/s", "--clubhead-speed")``.

    A number without a unit is refused, except a plain ratio.
    """
    match = NUMBER.fullmatch(text)
    usual = units_of_kind(si)
    example = ", ".join(unit.symbol for unit in usual if unit.symbol)
    if not match:
        raise InputError(f"{name}: {short(text)} is not a number with a unit ({example})")
    number, symbol = match.groups()
    symbol = {"°": "deg", "°C": "C", "°F": "F", "degC": "C", "degF": "F", '"': "in"}.get(symbol, symbol)
    unit = BY_SYMBOL.get(symbol)
    if unit is None or unit.si != si:
        got = f"{short(symbol)} is not its unit" if symbol else "a bare number needs a unit"
        written = ", ".join(f"{number}{unit.symbol}" for unit in usual if unit.symbol)
        raise InputError(f"{name}: {got}; write one of {written}")
    value = float(unit.to_si(float(number.replace("−", "-"))))
    if not math.isfinite(value):
        raise InputError(f"{name}: {short(text)} is too large a number")
    return Written(number, unit, value)


def parse(text: str, si: str, name: str) -> float:
    """The same in SI."""
    return read(text, si, name).si


def column(name: object, fields: Mapping[str, str]) -> tuple[str, Unit] | None:
    """Which field a column holds, and in which unit; None for a column that is no field.

    ``fields`` maps each field to its SI unit. A field with a missing or wrong unit is an InputError.
    """
    if not isinstance(name, str):
        return None
    for field in sorted(fields, key=len, reverse=True):
        if name != field and not name.startswith(field + "_"):
            continue
        suffix = name[len(field) + 1 :]
        unit = BY_SUFFIX.get(suffix)
        if unit is not None and unit.si == fields[field]:
            return field, unit
        names = ", ".join(f"{field}_{u.suffix}" if u.suffix else field for u in units_of_kind(fields[field]))
        wrong = f"ends with {suffix!r}, which is not a unit of {field}" if suffix else "has no unit"
        raise InputError(f"column {name!r} {wrong}; accepted: {names}")
    return None


def assign(columns: Iterable[str], fields: Mapping[str, str]) -> dict[str, tuple[str, Unit]]:
    """Field by field, the column that holds it. Two columns for one field are an InputError."""
    found: dict[str, tuple[str, Unit]] = {}
    for name in columns:
        match = column(name, fields)
        if match is None:
            continue
        field, unit = match
        if field in found:
            raise InputError(f"columns {found[field][0]!r} and {name!r} both give {field}; keep one")
        found[field] = (name, unit)
    return found


def near_misses(names: Iterable[str], fields: Mapping[str, str]) -> dict[str, str]:
    """The known column that a name is likely a slip of, where there is one: ``attack_angle_deg`` for
    ``atack_angle_deg``."""
    known = [f"{field}_{unit.suffix}".rstrip("_") for field, si in fields.items() for unit in units_of_kind(si)]
    near = {name: get_close_matches(name.strip().lower(), known, 1, NEAR) for name in names}
    return {name: match[0] for name, match in near.items() if match}


# How the trade reads each kind of quantity, in yards and in metric; names that differ from their kind.
SHOWN: dict[str, tuple[str, str]] = {
    "m/s": ("mph", "m/s"),
    "rad": ("deg", "deg"),
    "rad/s": ("rpm", "rpm"),
    "m": ("yd", "m"),
    "kg": ("g", "g"),
    "kg m^2": ("g cm2", "g cm2"),
    "K": ("F", "C"),
    "Pa": ("hPa", "hPa"),
    "m/s^2": ("ft/s2", "m/s2"),
}
SHOWN_BY_NAME: dict[str, tuple[str, str]] = {
    "length": ("in", "cm"),
    "radius": ("cm", "cm"),
    "ball_radius": ("cm", "cm"),
    "tee_height": ("in", "mm"),
    "strike_toe": ("mm", "mm"),
    "strike_high": ("mm", "mm"),
    "cg_depth": ("mm", "mm"),
    "cg_toe": ("mm", "mm"),
    "cg_crown": ("mm", "mm"),
    "bulge_radius": ("mm", "mm"),
    "roll_radius": ("mm", "mm"),
    "face_width": ("mm", "mm"),
    "face_height": ("mm", "mm"),
    "low_point_ahead": ("in", "cm"),
    "low_point_height": ("mm", "mm"),
    "edge_height": ("mm", "mm"),
    "turf_entry": ("in", "cm"),
    "divot_depth": ("mm", "mm"),
    "shaft_mass": ("g", "g"),
    "face_wetness": ("%", "%"),
    "closure_rate": ("deg/s", "deg/s"),
    "contact_time": ("us", "us"),
    "slip_time": ("us", "us"),
    "roughness_length": ("mm", "mm"),
    "altitude": ("ft", "m"),
    "stimp": ("ft", "m"),
}
SYMBOLS = {"deg": "°", "deg/s": "°/s", "F": "°F", "C": "°C", "us": "µs", "g cm2": "g cm²", "m/s2": "m/s²",
           "ft/s2": "ft/s²"}  # fmt: skip
DECIMALS = {"mph": 1, "m/s": 1, "deg": 1, "rpm": 0, "yd": 1, "m": 1, "g": 1, "in": 2, "cm": 1, "mm": 1,
            "s": 2, "us": 0, "deg/s": 0, "g cm2": 0, "J": 1, "F": 0, "C": 1, "hPa": 1}  # fmt: skip


def display_unit(name: str, si: str, system: System = "yards") -> Unit:
    """The unit a quantity is shown in."""
    if system not in ("yards", "metric"):
        raise InputError(f"units is {system!r}; accepted: yards, metric")
    pair = SHOWN_BY_NAME.get(name) or SHOWN.get(si)
    if pair is None:
        return BY_SYMBOL.get("" if si == "1" else si) or Unit(si, si, si)
    return BY_SYMBOL[pair[0 if system == "yards" else 1]]


@dataclass(frozen=True)
class Said:
    """A number as people are told it: rounded once, in the unit it is shown in.

    What words decide (``on the target line``, ``left`` or ``right``, ``longer`` or ``shorter``), they decide on
    this, so that they never contradict the number beside them. Minus is −, and nothing has a sign at zero.
    """

    value: float
    unit: Unit
    #: None: four significant digits.
    decimals: int | None

    @property
    def is_zero(self) -> bool:
        """Whether it reads as none."""
        return self.value == 0.0

    @property
    def bare(self) -> str:
        """The number without its unit."""
        if math.isnan(self.value):
            return "–"
        if math.isinf(self.value):
            return "infinite" if self.value > 0 else "−infinite"
        written = f"{self.value:.4g}" if self.decimals is None else f"{self.value:,.{self.decimals}f}"
        return written.replace("-", "−")

    @property
    def text(self) -> str:
        """The number with its unit."""
        return self.bare + (unit_after_number(self.unit) if math.isfinite(self.value) else "")

    @property
    def with_sign(self) -> str:
        """The number with its unit and, but at zero, its sign."""
        return f"{'+' if self.value > 0 else ''}{self.text}"

    @property
    def bare_with_sign(self) -> str:
        """The number without its unit and, but at zero, with its sign."""
        return f"{'+' if self.value > 0 else ''}{self.bare}"

    def __abs__(self) -> Said:
        return replace(self, value=abs(self.value))

    def __str__(self) -> str:
        return self.text


def rounded(x: float, unit: Unit, decimals: int | None = None) -> Said:
    """A value already in its unit, rounded as it is told, by default to the decimals of its unit: here, and
    nowhere else."""
    x, decimals = float(x), DECIMALS.get(unit.symbol) if decimals is None else decimals
    if math.isfinite(x):
        x = (float(f"{x:.4g}") if decimals is None else round(x, decimals)) + 0.0  # no minus zero
    return Said(x, unit, decimals)


def said(x: float, name: str, si: str, system: System = "yards") -> Said:
    """A value in SI as a person is told it."""
    unit = display_unit(name, si, system)
    return rounded(float(unit.from_si(x)), unit)


def said_difference(x: float, name: str, si: str, system: System = "yards") -> Said:
    """A difference or a spread in SI as a person is told it: without the zero of a temperature scale."""
    unit = display_unit(name, si, system)
    return rounded(float(x) / unit.factor, unit)


def symbol(unit: Unit) -> str:
    """A unit as people write it."""
    return SYMBOLS.get(unit.symbol, unit.symbol)


def unit_after_number(unit: Unit) -> str:
    """The symbol, with a space before it where it takes one."""
    return ("" if unit.symbol in ("", "deg") else " ") + symbol(unit)


def text(x: float, name: str, si: str, system: System = "yards") -> str:
    """A value in SI as a person reads it: ``text(37.55, "clubhead_speed", "m/s")`` is ``84.0 mph``."""
    return said(x, name, si, system).text


def percent(share: float, decimals: int = 0) -> str:
    """A share of 1 as people read it: ``12 %``."""
    return f"{round(100 * float(share), decimals) + 0.0:,.{decimals}f} %".replace("-", "−")


def counted(n: float, noun: str, verb: tuple[str, str] | None = None) -> str:
    """So many of something: ``1 row``, ``1,200 rows``; with a verb, ``1 row is``, ``2 rows are``."""
    one = int(n) == 1
    return f"{int(n):,} {noun}{'' if one else 's'}" + (f" {verb[not one]}" if verb else "")


def reading(x: Any, name: str, si: str) -> str:
    """A scalar or an array in SI, as its repr: trade units, and metric where it differs."""
    values = np.asarray(x, dtype=float)
    if values.ndim == 0:
        trade, metric = (text(float(values), name, si, system) for system in ("yards", "metric"))
        return trade if trade == metric else f"{metric} ({trade})"
    finite = values[np.isfinite(values)]
    span = f"{text(finite.min(), name, si)} to {text(finite.max(), name, si)}" if finite.size else "no numbers"
    return f"{span}, shape {values.shape}"


def plain_name(name: str) -> str:
    """A quantity's name as people read it: ``face angle`` for ``face_angle``."""
    return name.replace("_", " ")
