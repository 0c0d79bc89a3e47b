"""Flags that commands share, in groups: what a shot starts with, and what it is played in."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, fields, is_dataclass
from functools import wraps
from inspect import Parameter, Signature, signature
from pathlib import Path
from typing import Annotated, Any, get_type_hints

from .cli_flags import (
    DELIVERY,
    LANDING,
    LAUNCH,
    Altitude,
    BallName,
    ClubFile,
    ClubName,
    Firmness,
    Humidity,
    ImpactName,
    Impacts,
    ModelName,
    Pressure,
    Rise,
    Side,
    SlopeRight,
    SlopeUp,
    Stimp,
    TeeHeight,
    Temperature,
    Text,
    TurfFile,
    TurfName,
    WindFrom,
    WindSpeed,
    ball_of,
    clubs_of,
    flag,
    in_si,
    start_of,
    terrain_of,
    turf_of,
    weather_of,
    wind_of,
)
from .errors import InputError
from .ground import Landing
from .swing import Club, Delivery
from .flight import Launch


def with_groups(function: Callable[..., None]) -> Callable[..., None]:
    """A command that takes the flags of a group wherever the function takes the group, a dataclass."""
    hints = get_type_hints(function, include_extras=True)
    groups = {name: kind for name, kind in hints.items() if is_dataclass(kind)}
    flags: list[Parameter] = []
    for name, own in signature(function).parameters.items():
        if name in groups:
            kinds = get_type_hints(groups[name], include_extras=True)
            flags += [Parameter(x.name, Parameter.KEYWORD_ONLY, default=x.default, annotation=kinds[x.name])
                      for x in fields(groups[name])]  # fmt: skip
        else:
            flags.append(own.replace(kind=Parameter.KEYWORD_ONLY, annotation=hints[name]))

    @wraps(function)
    def command(**given: Any) -> None:
        made = {name: kind(**{x.name: given.pop(x.name) for x in fields(kind)}) for name, kind in groups.items()}
        function(**made, **given)

    command.__signature__ = Signature(flags)  # type: ignore[attr-defined]
    command.__annotations__ = {x.name: x.annotation for x in flags}
    return command
