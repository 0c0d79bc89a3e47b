"""What the samples of a cloud start with: drawn around a middle, or strikes drawn again."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from .. import _core
from ..core.value import Array, units_of, value_or_default
from ..errors import InputError
from ..row.flight import Launch
from ..row.setting import Terrain, Weather, Wind
from ..row.swing import Club, Delivery
from ..statistics.covariance import factor_of, one_sd
from ..statistics.random_numbers import deviates, uniforms
from ..strikes.play_table import WEATHER, WIND, weather_with, wind_with

#: Conditions that can be drawn, by the names of a table's columns.
DRAWN_CONDITIONS = (*WEATHER, *WIND, "tee_height")

Numbers = dict[str, Array]


@dataclass(frozen=True)
class Around:
    """Normal numbers around a middle: middle + factor · deviates, of the fields in their order. SI."""

    fields: tuple[str, ...]
    middle: Array
    factor: Array

    def draw(self, seed: int, first: int, count: int) -> Numbers:
        """The fields of samples from ``first`` on, each of shape (count,)."""
        z = deviates(seed, first, count, len(self.fields))
        drawn: Numbers = {}
        for name, middle, row in zip(self.fields, self.middle, self.factor, strict=True):
            away = np.zeros(count)
            for share, deviate in zip(row, z.T, strict=True):  # added in this order: the same bits in every cut
                away += share * deviate
            drawn[name] = middle + away
        return drawn

    def typical(self) -> Numbers:
        return {name: np.array([x]) for name, x in zip(self.fields, self.middle, strict=True)}


@dataclass(frozen=True)
class Resampled:
    """Rows of a table, each as likely. fields: of its columns; rows: (rows, fields), SI."""

    fields: tuple[str, ...]
    rows: Array

    def draw(self, seed: int, first: int, count: int) -> Numbers:
        """The fields of samples from ``first`` on, each of shape (count,)."""
        chosen = (uniforms(seed, first, count, 1)[:, 0] * len(self.rows)).astype(int)
        return dict(zip(self.fields, self.rows[chosen].T, strict=True))

    def typical(self) -> Numbers:
        return dict(zip(self.fields, self.rows[:100].T, strict=True))


Draws = Around | Resampled


def around(
    start: Delivery | Launch,
    conditions: Mapping[str, Any],
    sd: Mapping[str, float] | None,
    covariance: Any,
    fields: Sequence[str] | None,
) -> Around:
    """The draws around a start under conditions, from standard deviations, or a covariance and its fields."""
    if (sd is None) == (covariance is None):
        raise InputError("give the spread by sd alone, or by covariance with fields")
    if sd is not None:
        if fields is not None:
            raise InputError("fields goes with covariance; sd names its own")
        if not isinstance(sd, Mapping):
            raise InputError(
                f"sd is {sd!r}; it takes a standard deviation by field, such as {{'face_angle': 0.02}}"
            )
        names = tuple(sd)
        factor = np.diag([one_sd(name, x) for name, x in sd.items()]) if names else np.empty((0, 0))
    else:
        if fields is None or isinstance(fields, str):
            raise InputError("covariance needs fields, the names of its rows in order")
        names = tuple(fields)
        factor = factor_of(covariance, names)
    known = (*units_of(start), *DRAWN_CONDITIONS)
    for name in names:
        if name not in known:
            kind = type(start).__name__.lower()
            raise InputError(
                f"{name!r} is not a field of a {kind} or of the conditions; there are: {', '.join(known)}"
            )
    if not names:
        raise InputError(f"no field varies; name one or more of: {', '.join(known)}")
    if len(set(names)) < len(names):
        raise InputError(f"fields: {', '.join(names)}: a name is given twice")
    if {"pressure", "altitude"} <= set(names):
        raise InputError("pressure and altitude cannot both vary: altitude replaces pressure")
    middle = np.array([_middle(name, start, conditions) for name in names])
    return Around(names, middle, factor)


def _middle(name: str, start: Delivery | Launch, conditions: Mapping[str, Any]) -> float:
    """The value of a field without spread."""
    if name in units_of(start):
        return float(getattr(start, name))
    if name == "tee_height":
        return float(value_or_default(conditions.get("terrain"), "terrain", Terrain).tee_height)
    if name in WIND:
        wind = _middle_wind(conditions)
        return float(wind.speed if name == "wind_speed" else wind.from_direction)
    weather = value_or_default(conditions.get("weather"), f"with a spread of {name}, weather", Weather)
    given = getattr(weather, name)
    if given is not None:
        return float(given)
    if name in ("pressure", "altitude") and (weather.pressure is not None or weather.altitude is not None):
        raise InputError(f"{name} cannot vary: the weather gives the other of pressure and altitude")
    temperature, pressure = _core.standard_weather([float(weather.altitude or 0.0)])[0][:2]
    return float({"temperature": temperature, "pressure": pressure, "altitude": 0.0}[name])


def blowing(drawn: Numbers, conditions: Mapping[str, Any]) -> Numbers:
    """The drawn numbers, with ``wind_from`` added so that negative winds blow the other way."""
    if "wind_speed" not in drawn:
        return drawn
    speed, way = drawn["wind_speed"], drawn.get("wind_from", _middle_wind(conditions).from_direction)
    way = np.where(speed < 0, way + np.pi, way)
    return {**drawn, "wind_speed": np.abs(speed), "wind_from": np.arctan2(np.sin(way), np.cos(way))}


def _middle_wind(conditions: Mapping[str, Any]) -> Wind:
    return value_or_default(conditions.get("wind"), "wind", Wind)  # type: ignore[no-any-return]


def with_drawn(
    drawn: Mapping[str, Array], start: Delivery | Launch, conditions: Mapping[str, Any]
) -> tuple[Delivery | Launch, dict[str, Any]]:
    """Start and conditions with the drawn numbers in them."""
    own: Any = {name: x for name, x in drawn.items() if name in units_of(start)}
    start = replace(start, **own)
    there = dict(conditions)
    weather = {name: drawn[name] for name in WEATHER if name in drawn}
    if weather:
        there["weather"] = weather_with(weather, conditions.get("weather"))
    wind = {name: drawn[name] for name in WIND if name in drawn}
    if wind:
        there["wind"] = wind_with(wind, _middle_wind(conditions))
    if "tee_height" in drawn:
        terrain = value_or_default(conditions.get("terrain"), "terrain", Terrain)
        there["terrain"] = replace(terrain, tee_height=drawn["tee_height"])
    return start, there


def one_shot(start: Delivery | Launch, club: Club | None, conditions: Mapping[str, Any]) -> None:
    """Refuses arrays: a cloud is drawn around one shot. Its bad samples are masked and counted, always."""
    if "errors" in conditions:
        raise InputError("errors: leave it out; a cloud masks its bad samples and counts them in failed")
    for name, value in {"start": start, "club": club, **conditions}.items():
        shape = getattr(value, "shape", ())
        if shape != ():
            raise InputError(f"{name} has the shape {shape}: a cloud is drawn around one shot, of scalars")
