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
    """Convert degrees Celsius to kelvin.

    Parameters
    ----------
    degrees : float or array
        Temperature, °C.

    Returns
    -------
    float or array
        Temperature, K.

    Examples
    --------
    >>> celsius(20)
    293.15
    """
    return degrees + 273.15


def fahrenheit(degrees: Any) -> Any:
    """Convert degrees Fahrenheit to kelvin.

    Parameters
    ----------
    degrees : float or array
        Temperature, °F.

    Returns
    -------
    float or array
        Temperature, K.
    """
    return celsius((degrees - 32.0) * 5.0 / 9.0)


def in_celsius(kelvin: Any) -> Any:
    """Convert kelvin to degrees Celsius.

    Parameters
    ----------
    kelvin : float or array
        Temperature, K.

    Returns
    -------
    float or array
        Temperature, °C.
    """
    return kelvin - 273.15


def in_fahrenheit(kelvin: Any) -> Any:
    """Convert kelvin to degrees Fahrenheit.

    Parameters
    ----------
    kelvin : float or array
        Temperature, K.

    Returns
    -------
    float or array
        Temperature, °F.
    """
    return in_celsius(kelvin) * 9.0 / 5.0 + 32.0
