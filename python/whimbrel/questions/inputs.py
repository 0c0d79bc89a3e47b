"""What a sweep may run over: every number of start, club, ball, weather, wind, terrain and turf, by one name."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from difflib import get_close_matches
from typing import Any

import numpy as np

from ..core.chunked import chunks_in
from ..core.quantity import column
from ..core.value import Array, as_numbers, columns_of, of_kind, units_of
from ..errors import InputError
from ..row.ball import Ball
from ..row.flight import Launch
from ..row.ground import Landing, Turf, green
from ..row.setting import Air, Terrain, Weather, Wind
from ..row.swing import Club, Delivery
from ..strikes.play_table import weather_with

#: What a sweep may start from.
Start = Delivery | Launch | Landing
STARTS: tuple[type[Start], ...] = (Delivery, Launch, Landing)
#: Fields whose own name says too little beside the others.
NAMES = {
    ("club", "mass"): "club_mass",
    ("ball", "mass"): "ball_mass",
    ("ball", "radius"): "ball_radius",
    ("ball", "inertia"): "ball_inertia",
    ("wind", "speed"): "wind_speed",
    ("wind", "from_direction"): "wind_from",
    ("wind", "reference_height"): "wind_reference_height",
    ("wind", "exponent"): "wind_exponent",
    ("terrain", "height"): "rise",
    ("terrain", "slope_downrange"): "slope_up",
    ("turf", "friction"): "turf_friction",
}


@dataclass(frozen=True)
class Axis:
    """A number that may vary: whose it is, the field there, and its SI unit."""

    owner: str
    field: str
    unit: str


def axes_of(start: type[Start], weather: type[Weather | Air] = Weather) -> dict[str, Axis]:
    """All axes of a sweep from a delivery, a launch or a landing in weather or air, by name."""
    owners = {
        "start": units_of(start),
        **({"club": units_of(Club)} if start is Delivery else {}),
        "ball": units_of(Ball),
        "weather": units_of(weather),
        "wind": units_of(Wind),
        "terrain": units_of(Terrain),
        "turf": units_of(Turf),
        "green": columns_of("Green"),
    }
    return {
        NAMES.get((owner, name), name): Axis(owner, name, unit)
        for owner, columns in owners.items()
        for name, unit in columns.items()
    }


def unknown(name: str, what: str, known: Mapping[str, str]) -> InputError:
    """The error for a name that is not known (names to SI units), with the nearest that are."""
    try:
        with_unit = column(name, known)
    except InputError:
        with_unit = None
    if with_unit is not None:
        return InputError(f"{name!r} has a unit in its name: give {with_unit[0]}, in SI ({known[with_unit[0]]})")
    parts = [part for part in name.split("_") if part]
    near = [x for x in known if any(get_close_matches(part, x.split("_"), 1, 0.75) for part in parts)]
    near = list(dict.fromkeys([*get_close_matches(name, known, 3, 0.6), *near]))[:6]
    return InputError(
        f"{name!r} is not a known {what}; " + ("nearest: " if near else "there are: ") + ", ".join(near or known)
    )


def unknown_axis(name: str, start: type[Start]) -> InputError:
    """The error for a name that is not an axis of a sweep from this kind of start."""
    this = start.__name__.lower()
    other = next((kind.__name__.lower() for kind in STARTS if name in axes_of(kind)), None)
    if other is not None:
        return InputError(f"{name} goes with a {other}; this sweep starts from a {this}")
    units = {axis: known.unit for axis, known in axes_of(start).items()}
    return unknown(name, f"axis of a sweep from a {this}", units)


def check_start(start: object, club: object) -> None:
    """Refuses what no sweep starts from, and a club beside anything but a delivery."""
    of_kind(start, "start", *STARTS)
    if (club is None) == isinstance(start, Delivery):
        raise InputError(
            "a delivery needs a club, a launch or a landing takes none: sweep(delivery, club, …), sweep(launch, …)"
        )


def read_axes(axes: Mapping[str, Any], start: type[Start]) -> dict[str, Array]:
    """The axes as arrays of one dimension. Raises InputError naming the axis."""
    known = axes_of(start)
    if not axes:
        raise InputError(f"a sweep needs an axis, one or more of: {', '.join(known)}")
    read = {}
    for name, values in axes.items():
        if name not in known:
            raise unknown_axis(name, start)
        numbers = as_numbers(values, name, known[name].unit, f"an array of numbers (SI, {known[name].unit})")
        if numbers.ndim != 1:
            raise InputError(f"{name} has the shape {numbers.shape}; an axis is a row of values, shape (n,)")
        if not numbers.size:
            raise InputError(f"{name} is empty; an axis needs one value or more")
        if not np.isfinite(numbers).all():
            place = int(np.argmin(np.isfinite(numbers)))
            raise InputError(f"{name}: value {place} is {numbers[place]}; an axis must be finite")
        read[name] = numbers
    if {"pressure", "altitude"} <= set(read):
        raise InputError("pressure and altitude cannot both be axes: altitude replaces pressure")
    return read


def chunks_of_axes(axes: Mapping[str, Any], design: str) -> tuple[Any, ...] | None:
    """The chunks of axes of which some are Dask arrays, by dimension of the sweep; None for plain axes."""
    cut = [None if x is None else x.chunks[0] for x in map(chunks_in, axes.values())]
    if all(x is None for x in cut):
        return None
    if design == "grid":
        return tuple(-1 if x is None else x for x in cut)
    return (next(x for x in cut if x is not None),)


def check_conditions(axes: Iterable[str], known: Mapping[str, Axis], conditions: Mapping[str, Any]) -> None:
    """Refuses conditions that hide an axis, and those that are arrays themselves."""
    kinds: dict[str, tuple[type, ...]] = {
        **{"start": STARTS, "club": (Club,), "ball": (Ball,), "weather": (Weather, Air)},
        **{"wind": (Wind,), "terrain": (Terrain,), "turf": (Turf,)},
    }
    for name, value in conditions.items():
        if value is None:
            continue
        of_kind(value, name, *kinds[name])
        if value.shape != ():
            raise InputError(f"{name} has the shape {value.shape}; in a sweep, only axes vary")
    owners = {known[name].owner: name for name in axes}
    if "weather" in owners and isinstance(conditions["weather"], Air):
        raise InputError(f"{owners['weather']} is an axis: give weather as Weather, not as Air")
    if "green" in owners and (conditions["turf"] is not None or "turf" in owners):
        raise InputError(
            f"{owners['green']} describes a green: leave out turf and its axes (stimp and firmness are both axes)"
        )


def with_numbers(
    numbers: Mapping[str, Array], known: Mapping[str, Axis], played: Mapping[str, Any]
) -> dict[str, Any]:
    """What to play: start, club and conditions with the numbers of some points in their fields."""
    by_owner: dict[str, dict[str, Array]] = {}
    for name, x in numbers.items():
        by_owner.setdefault(known[name].owner, {})[known[name].field] = x
    own: dict[str, Any] = {"ball": Ball, "wind": Wind, "terrain": Terrain, "turf": Turf}
    changed = dict(played)
    for owner, fields in by_owner.items():
        if owner == "weather" and not isinstance(played["weather"], Air):
            changed["weather"] = weather_with(fields, played["weather"])
        elif owner == "green":
            changed["turf"] = green(fields.get("stimp", 3.048), fields.get("firmness", 0.5))
        else:
            changed[owner] = replace(played[owner] if played[owner] is not None else own[owner](), **fields)
    return changed
