"""How to read a table of strikes: other names, measurement noise, smallest changes, targets."""

from __future__ import annotations

import math
import os
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from ..core.quantity import assign
from ..core.toml_files import number_of, read_toml
from ..core.value import columns_of
from ..errors import InputError, short
from ..statistics.targets import SHAPES, Target
from .play_table import FIELDS

#: What is asked about, beside what a table that is played may have: the measured flight, smash factor, swing arc.
STRUCK = {**columns_of("Flight"), "smash_factor": "1", **columns_of("SwingArc")}
STRIKE_FIELDS = {**FIELDS, **STRUCK}


@dataclass(frozen=True)
class Reading:
    """How to read a table of strikes, as a TOML file says it.

    columns: other names of columns, to the names that are known. noise: the standard deviation of each quantity's
    measurement; smallest: the smallest change of it worth having; both SI. targets: by name.
    """

    columns: Mapping[str, str] = field(default_factory=dict)
    noise: Mapping[str, float] = field(default_factory=dict)
    smallest: Mapping[str, float] = field(default_factory=dict)
    targets: Mapping[str, Target] = field(default_factory=dict)


def load_reading(path: str | os.PathLike[str]) -> Reading:
    """Reads the TOML file of a table's names, units, noise, smallest changes and targets.

    ::

        [columns]
        "speed before the ball" = "clubhead_speed_mph"
        "half" = "block"

        [noise]                      # standard deviation of the measurement
        face_angle_deg = 0.3

        [smallest]                   # the smallest change worth having
        carry_yd = 5

        [target.middle]              # circle: distance, radius; green: distance, width, depth; corridor: width
        shape = "circle"
        distance_yd = 145
        radius_yd = 8
    """
    entries = read_toml(path)
    known = ("columns", "noise", "smallest", "target")
    for key, part in entries.items():
        if key not in known or not isinstance(part, dict):
            raise InputError(f"{path}: {key!r} is not a known table; known: {', '.join(known)}")
    try:
        return Reading(
            columns={str(k): str(v) for k, v in entries.get("columns", {}).items()},
            noise=in_si(entries.get("noise", {}), "noise"),
            smallest=in_si(entries.get("smallest", {}), "smallest"),
            targets={name: _target(name, entry) for name, entry in entries.get("target", {}).items()},
        )
    except InputError as error:
        raise InputError(f"{path}: {error}") from None


def in_si(given: Mapping[str, Any], what: str) -> dict[str, float]:
    """Numbers by quantity and unit, such as ``{"face_angle_deg": 0.3}``, by quantity in SI; none below 0."""
    found = assign(given, STRIKE_FIELDS)
    unknown = [name for name in given if name not in {key for key, _ in found.values()}]
    if unknown:
        raise InputError(
            f"{what}: {unknown[0]!r} is not a quantity with its unit, such as face_angle_deg or carry_yd"
        )
    numbers: dict[str, float] = {}
    for name, x in given.items():
        numbers[name] = number_of(x, f"{what}: {name}")
        if not 0.0 <= numbers[name] < math.inf:
            raise InputError(f"{what}: {name} is {short(x)}; it must be a number of at least 0")
    return {quantity: numbers[key] * unit.factor for quantity, (key, unit) in found.items()}


def _target(name: str, entry: Any) -> Target:
    shape = entry.get("shape") if isinstance(entry, dict) else None
    if not isinstance(shape, str) or shape not in SHAPES:
        raise InputError(f"target {name}: shape is {short(shape)}; accepted: {', '.join(SHAPES)}")
    sizes = dict.fromkeys(SHAPES[shape].__dataclass_fields__, "m")
    given = {key: x for key, x in entry.items() if key != "shape"}
    found = assign(given, sizes)
    if set(found) != set(sizes) or len(given) != len(sizes):
        raise InputError(f"target {name}: a {shape} takes {', '.join(f'{size}_yd' for size in sizes)}, or in m")
    numbers = {key: number_of(x, f"target {name}: {key}") for key, x in given.items()}
    return SHAPES[shape](**{size: unit.to_si(numbers[key]) for size, (key, unit) in found.items()})
