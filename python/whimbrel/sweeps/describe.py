"""How a sweep's results describe themselves: outputs by name, units, statuses, and what was played with."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from importlib.metadata import version
from typing import Any

import numpy as np

from .. import _core
from ..core.given_numbers import attributes
from ..core.value import Value, numbers_of, units_of, value_or_default
from ..errors import InputError
from ..questions.inputs import Axis, Start, unknown
from ..row.aero import AeroTable
from ..row.ball import Ball
from ..row.flight import STATUSES, Flight, Launch
from ..row.ground import Landing, Run, Turf
from ..row.impact import Impact
from ..row.setting import Air, Terrain, Weather, Wind
from ..row.swing import Delivery

#: The status of points that Ctrl-C left out.
NOT_COMPUTED = -1
STAGES: dict[str, type[Value]] = {
    "impact": Impact,
    "launch": Launch,
    "flight": Flight,
    "landing": Landing,
    "run": Run,
}


def stages_of(outputs: Sequence[str] | None, start: type[Start], axes: Mapping[str, Any]) -> dict[str, str]:
    """The stage of each output, of those that a shot from such a start has."""
    if outputs is None:
        outputs = ("distance", "total_offline") if start is Landing else ("carry", "offline")
    before = {Delivery: (), Launch: ("impact",), Landing: ("impact", "launch", "flight")}[start]
    stages = {name: stage for name, stage in STAGES.items() if name not in before}
    known = {name: unit for stage in stages.values() for name, unit in units_of(stage).items()}
    if isinstance(outputs, str) or not isinstance(outputs, Sequence) or not outputs:
        raise InputError(f"outputs is {outputs!r}; it takes a list of names, such as ['carry', 'offline']")
    for name in outputs:
        if name not in known:
            raise unknown(str(name), f"output of a sweep from a {start.__name__.lower()}", known)
        if name in axes:
            raise InputError(f"outputs: {name} is an axis already")
    return {name: next(stage for stage, kind in stages.items() if name in units_of(kind)) for name in outputs}


def describe(name: str) -> dict[str, Any]:
    """The attributes of an output or of a status."""
    if name.endswith("status"):
        return {
            "long_name": f"how the {'run' if name.startswith('run') else 'flight'} came about",
            "flag_values": np.arange(NOT_COMPUTED, len(STATUSES), dtype=np.int8),
            "flag_meanings": " ".join(("not_computed", *STATUSES)),
        }
    return attributes(name, next(units_of(stage)[name] for stage in STAGES.values() if name in units_of(stage)))


def provenance(played: Mapping[str, Any], axes: Mapping[str, Any], known: Mapping[str, Axis]) -> dict[str, Any]:
    """What was played with, as text and SI numbers; what an axis overrides is left out."""
    start, club = played["start"], played["club"]
    ball = value_or_default(played["ball"], "ball", Ball)
    weather = value_or_default(played["weather"], "weather", Weather, Air)
    wind = value_or_default(played["wind"], "wind", Wind)
    terrain = value_or_default(played["terrain"], "terrain", Terrain)
    turf = value_or_default(played["turf"], "turf", Turf)
    about: dict[str, Any] = {"whimbrel_version": version("whimbrel"), "units_of_attributes": "SI"}
    about["start"] = type(start).__name__.lower()
    if club is not None:
        about |= {"club": club.name, "club_hand": club.hand}
    about |= {"ball_model": type(ball.aero).__name__, "wind_profile": wind.profile}
    if {known[name].owner for name in axes}.isdisjoint({"green"}):
        about["turf"] = turf.name
    defaults = {"ball": ball, "weather": weather, "wind": wind, "terrain": terrain, "turf": turf}
    varying = {"ball_inertia"} if ball.inertia_follows and {"ball_mass", "ball_radius"} & axes.keys() else set()
    for name, axis in known.items():
        value = {**played, **defaults}.get(axis.owner)
        x = getattr(value, axis.field, None)
        if name not in axes and name not in varying and x is not None:
            about[f"of_{axis.owner}_{axis.field}"] = float(x)
    if isinstance(weather, Weather) and "altitude" not in axes:
        temperature, pressure = _core.standard_weather([float(weather.altitude or 0.0)])[0][:2]
        for name, x in (("temperature", temperature), ("pressure", pressure)):
            if name not in axes:
                about.setdefault(f"of_weather_{name}", float(x))
    if isinstance(weather, Air):
        about |= {f"of_air_{name}": float(x) for name, x in numbers_of(weather).items()}
    aero = ("spin_ratio", "reynolds", "drag", "lift", "spin_decay") if isinstance(ball.aero, AeroTable) else ()
    for name in aero or units_of(ball.aero):
        x = np.asarray(getattr(ball.aero, name), float).ravel()
        about[f"of_ball_model_{name}"] = float(x[0]) if x.size == 1 else x
    return about
