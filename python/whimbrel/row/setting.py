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
    """The air that a ball flies through; by default dry air of 15 °C at 1013.25 hPa.

    Parameters
    ----------
    density : float or array
        Density, kg/m³. Both numbers broadcast.
    viscosity : float or array
        Dynamic viscosity, Pa s.
    """

    density: Number = 1.2255213
    viscosity: Number = 1.78938e-5


@dataclass(frozen=True, repr=False)
class Weather(Value):
    """What a weather station reports; by default the dry ISO atmosphere at sea level.

    Parameters
    ----------
    temperature : float or array, optional
        Temperature, K, such as ``celsius(12)``; by default that of the ISO standard atmosphere at the altitude. All
        numbers broadcast together.
    pressure : float or array, optional
        Pressure at the place itself, not reduced to sea level, Pa.
    altitude : float or array, optional
        Geometric altitude, m, −500 to 10,000; replaces the pressure (ISO 2533). Give one of the two.
    relative_humidity : float or array
        Relative humidity, 0 to 1.

    Raises
    ------
    InputError
        If both pressure and altitude are given.
    """

    temperature: Number | None = None
    pressure: Number | None = None
    altitude: Number | None = None
    relative_humidity: Number = 0.0

    _columns: ClassVar = {"temperature": "K", "pressure": "Pa", "altitude": "m", "relative_humidity": "1"}

    def __post_init__(self) -> None:
        super().__post_init__()
        if self.pressure is not None and self.altitude is not None:
            raise InputError("give pressure or altitude, not both: altitude replaces pressure")

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
    """Compute density and viscosity of the air.

    Parameters
    ----------
    weather : Weather or Air
        The weather; an ``Air`` is returned unchanged.

    Returns
    -------
    Air
        The air, of the weather's shape.

    Raises
    ------
    InputError
        For a temperature outside 213.15–333.15 K, a pressure outside 250–1150 hPa, an altitude outside −500–10,000
        m or a humidity outside 0–1.

    Notes
    -----
    Density: moist air of CIPM-2007 (Picard et al., Metrologia 45 (2008) 149). Viscosity: Sutherland (ISO
    2533:1975).
    """
    made, mistakes = masked_air(weather)
    wrong = [(row, message) for row, message in enumerate(mistakes.ravel()) if message]
    if wrong:
        raise bad_rows(wrong, mistakes.size)
    return made


def masked_air(weather: Weather | Air) -> tuple[Air, NDArray[np.object_]]:
    """Compute ``air``, with NaN where the weather is bad.

    Parameters
    ----------
    weather : Weather or Air
        The weather.

    Returns
    -------
    air : Air
        The air, of the weather's shape.
    mistakes : array of str or None
        What is wrong with each row; None where nothing is.
    """
    if isinstance(weather, Air):
        return weather, NOTHING_WRONG
    return weather._one_air if is_scalar(weather) else _masked_air(weather)


def _masked_air(weather: Weather) -> tuple[Air, NDArray[np.object_]]:
    station, mistakes = masked_station(weather)
    rows = _core.air(np.broadcast_to(table_of(station, mistakes.shape), (mistakes.size, 3)))
    return from_table(Air, rows, mistakes.shape), mistakes


def masked_station(weather: Weather) -> tuple[_Weather, NDArray[np.object_]]:
    """Compute temperature, pressure and humidity, with NaN where the weather is bad.

    Parameters
    ----------
    weather : Weather
        The weather.

    Returns
    -------
    station : Value
        Temperature, K, pressure, Pa, and relative humidity.
    mistakes : array of str or None
        What is wrong with each row; None where nothing is.
    """
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
    """The wind, by the direction it comes from.

    Parameters
    ----------
    speed : float or array
        Speed at the reference height, m/s. All numbers broadcast together.
    from_direction : float or array
        Direction it comes from, rad clockwise from the target line: 0 is a headwind, 90° from the right.
    reference_height : float or array
        Height of the reported speed, m; weather services report it at 10 m.
    roughness_length : float or array
        Roughness length of the ground, m: 0.03 for open short grass (WMO class), 0.05 for terrain II of Eurocode EN
        1991-1-4.
    exponent : float or array
        Exponent of the power law; 1/7 by common practice.
    profile : {"logarithmic", "uniform", "power_law"}
        How the wind changes with height; the logarithmic one is smooth and zero at the ground. One for all winds of
        a call.

    Raises
    ------
    InputError
        For an unknown profile.
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
        """Build a headwind.

        Parameters
        ----------
        speed : float or array
            Speed at 10 m, m/s.

        Returns
        -------
        Wind
            The wind.
        """
        return cls(speed)

    @classmethod
    def tail(cls, speed: Number) -> Wind:
        """Build a tailwind.

        Parameters
        ----------
        speed : float or array
            Speed at 10 m, m/s.

        Returns
        -------
        Wind
            The wind.
        """
        return cls(speed, 180 * deg)

    @classmethod
    def from_right(cls, speed: Number) -> Wind:
        """Build a crosswind from the right.

        Parameters
        ----------
        speed : float or array
            Speed at 10 m, m/s.

        Returns
        -------
        Wind
            The wind.
        """
        return cls(speed, 90 * deg)

    @classmethod
    def from_left(cls, speed: Number) -> Wind:
        """Build a crosswind from the left.

        Parameters
        ----------
        speed : float or array
            Speed at 10 m, m/s.

        Returns
        -------
        Wind
            The wind.
        """
        return cls(speed, -90 * deg)

    def share_at(self, height: Number) -> Array:
        """Compute the speed of one wind at heights, as a share of ``speed``.

        Parameters
        ----------
        height : float or array
            Height above the ground, m.

        Returns
        -------
        array
            Shares, of the shape of ``height``.

        Raises
        ------
        InputError
            For an array of winds, and for numbers out of range.
        """
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
    """The ground that the ball is struck from and lands on.

    The landing ground is the plane z = height + slope_right·x + slope_downrange·y.

    Parameters
    ----------
    tee_height : float or array
        Height of the ball's bottom above the ground, m, up to 0.2. All numbers broadcast together.
    height : float or array
        Height of the plane at the origin, m; positive is uphill.
    slope_right : float or array
        Rise of the plane per metre to the right.
    slope_downrange : float or array
        Rise of the plane per metre downrange.
    surface : callable, optional
        For single shots, any ``surface(x, y)`` that returns z, m, in place of the plane. Bumps narrower than 0.5 m
        may be missed.
    """

    tee_height: Number = 0.0
    height: Number = 0.0
    slope_right: Number = 0.0
    slope_downrange: Number = 0.0
    surface: Callable[[float, float], float] | None = None


def check_surface(surface: Callable[[float, float], float]) -> Callable[[float, float], float]:
    """Guard a surface against heights that are not finite numbers.

    Parameters
    ----------
    surface : callable
        Height z, m, at x and y, m.

    Returns
    -------
    callable
        The surface, which raises InputError where its height is not a finite number.
    """

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
