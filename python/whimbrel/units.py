"""Trade units as factors to SI: multiply to enter (``84 * mph``), divide to leave (``carry / yd``).

Every factor is exact by definition of its unit. Temperatures are functions. The units are plain numbers, so that a
caller needs no library of quantities, and arrays stay arrays; pint's quantities are read where they are given.
"""

from __future__ import annotations

from typing import Any

from . import _core

mm: float = _core.units["mm"]
cm: float = _core.units["cm"]
inch: float = _core.units["inch"]
ft: float = _core.units["ft"]
yd: float = _core.units["yd"]
mile: float = _core.units["mile"]
mph: float = _core.units["mph"]
kmh: float = _core.units["kmh"]
knot: float = _core.units["knot"]
fps: float = _core.units["fps"]
deg: float = _core.units["deg"]
rpm: float = _core.units["rpm"]
gram: float = _core.units["gram"]
lb: float = _core.units["lb"]
hPa: float = _core.units["hPa"]
mmHg: float = _core.units["mmHg"]
inHg: float = _core.units["inHg"]
percent: float = _core.units["percent"]


def celsius(degrees: Any) -> Any:
    """Degrees Celsius to kelvin; scalars or arrays."""
    return degrees + 273.15


def fahrenheit(degrees: Any) -> Any:
    """Degrees Fahrenheit to kelvin; scalars or arrays."""
    return celsius((degrees - 32.0) * 5.0 / 9.0)


def in_celsius(kelvin: Any) -> Any:
    """Kelvin to degrees Celsius; scalars or arrays."""
    return kelvin - 273.15


def in_fahrenheit(kelvin: Any) -> Any:
    """Kelvin to degrees Fahrenheit; scalars or arrays."""
    return in_celsius(kelvin) * 9.0 / 5.0 + 32.0
