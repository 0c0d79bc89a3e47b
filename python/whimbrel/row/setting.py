"""Where a ball is struck and flies: weather and air, wind, terrain."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property
from typing import Any, ClassVar, Literal

import numpy as np
from numpy.typing import NDArray

from .. import _core
from ..core.by_labels import by_labels
from ..core.value import Array, Number, Value, as_numbers, common_shape, from_table, is_scalar, table_of
from ..errors import InputError, bad_rows
from ..units import deg

Profile = Literal["uniform", "logarithmic", "power_law"]
PROFILES: tuple[Profile, ...] = ("uniform", "logarithmic", "power_law")
#: What is wrong with the weather of all rows where air is given.
NOTHING_WRONG = np.full((), None, dtype=object)


#: m, between which the standard atmosphere is taken.
ALTITUDES = (-500.0, 10_000.0)


@dataclass(frozen=True, repr=False)
class Air(Value, kind="Air"):
    """What the ball feels. Scalars or arrays.

    density: kg/m³. viscosity: Pa s, dynamic. The default is dry air of 15 °C at 1013.25 hPa.
    """

    density: Number = 1.2255213
    viscosity: Number = 1.78938e-5


@dataclass(frozen=True, repr=False)
class Weather(Value):
    """What a weather station reports. Scalars or arrays.

    temperature: K (``celsius(12)``); the ISO standard atmosphere's at the altitude if not given.
    pressure: Pa, at the place itself, not reduced to sea level. altitude: m, geometric, −500 to 10,000,
    stands in for pressure (ISO 2533); give one of the two. relative_humidity: 0 to 1.
    Default: the dry ISO atmosphere at sea level.
    """

    temperature: Number | None = None
    pressure: Number | None = None
    altitude: Number | None = None
    relative_humidity: Number = 0.0

    _columns: ClassVar = {"temperature": "K", "pressure": "Pa", "altitude": "m", "relative_humidity": "1"}

    def __post_init__(self) -> None:
        super().__post_init__()
        if self.pressure is not None and self.altitude is not None:
            raise InputError("give pressure or altitude, not both: altitude stands in for pressure")

    @cached_property
    def _one_air(self) -> tuple[Air, NDArray[np.object_]]:
        """The air of one weather, and what is wrong with it."""
        return _masked_air(self)


@dataclass(frozen=True, repr=False)
class _Weather(Value, kind="Weather"):
    """Weather at a place, every number given."""

    temperature: Number
    pressure: Number
    relative_humidity: Number


@by_labels
def air(weather: Weather | Air) -> Air:
    """Density (CIPM-2007 moist air) and viscosity (Sutherland) of the air in some weather.

    Raises InputError for a temperature outside 213.15–333.15 K, a pressure outside 250–1150 hPa, an
    altitude outside −500–10,000 m or a humidity outside 0–1. Sources: Picard et al., Metrologia 45
    (2008) 149; ISO 2533:1975.
    """
    made, mistakes = masked_air(weather)
    wrong = [(row, message) for row, message in enumerate(mistakes.ravel()) if message]
    if wrong:
        raise bad_rows(wrong, mistakes.size)
    return made


def masked_air(weather: Weather | Air) -> tuple[Air, NDArray[np.object_]]:
    """The air, NaN where the weather is bad, and what is wrong there (None where nothing is)."""
    if isinstance(weather, Air):
        return weather, NOTHING_WRONG
    return weather._one_air if is_scalar(weather) else _masked_air(weather)


def _masked_air(weather: Weather) -> tuple[Air, NDArray[np.object_]]:
    station, mistakes = masked_station(weather)
    rows = _core.air(np.broadcast_to(table_of(station, mistakes.shape), (mistakes.size, 3)))
    return from_table(Air, rows, mistakes.shape), mistakes


def masked_station(weather: Weather) -> tuple[_Weather, NDArray[np.object_]]:
    """Temperature, pressure and humidity, NaN where the weather is bad, and what is wrong there."""
    altitude = as_numbers(0.0 if weather.altitude is None else weather.altitude, "altitude")
    on_earth = (altitude >= ALTITUDES[0]) & (altitude <= ALTITUDES[1])
    standard = _core.standard_weather(np.where(on_earth, altitude, 0.0).ravel().tolist())
    station = _Weather(
        standard[:, 0].reshape(altitude.shape) if weather.temperature is None else weather.temperature,
        standard[:, 1].reshape(altitude.shape) if weather.pressure is None else weather.pressure,
        weather.relative_humidity,
    )
    shape = np.broadcast_shapes(common_shape([station]), altitude.shape)
    table = np.array(np.broadcast_to(table_of(station, shape), (int(np.prod(shape)), 3)))
    mistakes = np.full(len(table), None, dtype=object)
    for row, message in _core.weather_mistakes(table):
        mistakes[row] = message
    heights = np.broadcast_to(altitude, shape).ravel()
    for i in np.flatnonzero(~np.broadcast_to(on_earth, shape)):
        mistakes[i] = f"altitude is {heights[i]:g} m; accepted: {ALTITUDES[0]:g} m to {ALTITUDES[1]:g} m"
    table[mistakes != None] = np.nan  # noqa: E711 (elementwise)
    return from_table(_Weather, table, shape), mistakes.reshape(shape)


@dataclass(frozen=True, repr=False)
class Wind(Value, kind="Wind"):
    """The wind, by the direction it comes from. Scalars or arrays (the profile is one for a call).

    speed: m/s at the reference height. from_direction: rad, clockwise from the target line: 0 a headwind,
    90° from the right. reference_height: m; 10 m is what weather services report. roughness_length: m;
    0.03 open short grass (WMO class), 0.05 Eurocode EN 1991-1-4 terrain II. exponent: of the power law,
    1/7 by common practice. profile: ``"logarithmic"`` (smooth, zero at the ground), ``"uniform"`` or
    ``"power_law"``.
    """

    speed: Number = 0.0
    from_direction: Number = 0.0
    reference_height: Number = 10.0
    roughness_length: Number = 0.03
    exponent: Number = 1 / 7
    profile: Profile = "logarithmic"

    def __post_init__(self) -> None:
        super().__post_init__()
        if self.profile not in PROFILES:
            raise InputError(f"profile is {self.profile!r}; accepted: {', '.join(PROFILES)}")

    @classmethod
    def head(cls, speed: Number) -> Wind:
        """A headwind of this speed (m/s at 10 m)."""
        return cls(speed)

    @classmethod
    def tail(cls, speed: Number) -> Wind:
        """A tailwind of this speed (m/s at 10 m)."""
        return cls(speed, 180 * deg)

    @classmethod
    def from_right(cls, speed: Number) -> Wind:
        """A crosswind from the right of this speed (m/s at 10 m)."""
        return cls(speed, 90 * deg)

    @classmethod
    def from_left(cls, speed: Number) -> Wind:
        """A crosswind from the left of this speed (m/s at 10 m)."""
        return cls(speed, -90 * deg)

    def share_at(self, height: Number) -> Array:
        """The wind at heights above the ground (m), as a share of ``speed``; for scalar winds."""
        if self.shape != ():
            raise InputError("share_at is for one wind: its numbers must be scalars")
        mistake = _core.wind_mistake(table_of(self, ()))
        if mistake:
            raise InputError(mistake)
        heights = as_numbers(height, "height", "m")
        shares = _core.wind_share(table_of(self, ()), PROFILES.index(self.profile), heights.ravel().tolist())
        return np.reshape(shares, heights.shape)


@dataclass(frozen=True, repr=False)
class Terrain(Value, kind="Terrain"):
    """The ground the ball is struck from and comes down on. Scalars or arrays.

    tee_height: m, of the ball's bottom above the ground, up to 0.2. The landing ground is the plane
    z = height + slope_right·x + slope_downrange·y (m; positive height is uphill), or, for single shots,
    any ``surface(x, y)`` returning z in m (bumps narrower than 0.5 m may be missed).
    """

    tee_height: Number = 0.0
    height: Number = 0.0
    slope_right: Number = 0.0
    slope_downrange: Number = 0.0
    surface: Callable[[float, float], float] | None = None


def check_surface(surface: Callable[[float, float], float]) -> Callable[[float, float], float]:
    """The surface, refusing what is no height where it was asked."""

    def height(x: float, y: float) -> float:
        z: Any = surface(x, y)
        try:
            z = float(z)
        except (TypeError, ValueError):
            z = np.nan if z is None else z
        if not isinstance(z, float) or not np.isfinite(z):
            raise InputError(f"terrain.surface gave {z!r} at x {x:g} m, y {y:g} m; it must give a height in m")
        return z

    return height
