"""The command ``whimbrel sweep``."""

from __future__ import annotations

import warnings
from collections.abc import Iterable
from enum import StrEnum
from itertools import chain
from pathlib import Path
from typing import Annotated, Any

import numpy as np
import typer

from ..core.quantity import parse
from ..core.value import units_of
from ..core.whole_files import write_whole
from ..errors import InputError
from ..plots.sweep import plot_sweep
from ..questions.inputs import STARTS, Start, axes_of, unknown_axis
from ..row.ground import Landing
from ..row.swing import Delivery
from ..sweeps.sweep import MOST, sweep
from .files import STOPPED, check_files, partial_of, save_picture, say_files
from .flag_groups import (
    AirFlags,
    GroundFlags,
    LandingFlags,
    LaunchFlags,
    Numbers,
    SwingFlags,
    TurfFlags,
    numbers_of,
    start_from,
    with_groups,
)
from .flags import OUTPUT, Text, Units, UnitSystem, flag
from .output import say
from .session import Several
from .sweep_output import print_sweep

SWEEP = "Sweep"


class Designs(StrEnum):
    grid = "grid"
    paired = "paired"
    latin = "latin"
    sobol = "sobol"


Axes = Annotated[
    list[str],
    flag(SWEEP, "attack_angle=-5deg:5deg:300 (from, to, how many) or altitude=0m,1600m; repeatable", "--axis"),
]
Of = Annotated[
    Several,
    flag(SWEEP, "what to compute, e.g. carry; repeatable [default: carry; of a landing: distance]", "--of"),
]
Samples = Annotated[int | None, flag(SWEEP, "number of points of a latin or sobol design, whose axes are from:to")]


def register(app: typer.Typer) -> None:
    """Adds the command to the others."""
    app.command("sweep")(with_groups(sweep_command))


def sweep_command(
    *,
    axis: Axes,
    of: Of = None,
    design: Annotated[Designs, flag(SWEEP, "how points are made from the axes")] = Designs.grid,
    samples: Samples = None,
    seed: Annotated[int, flag(SWEEP, "seed of the samples")] = 0,
    most_points: Annotated[int, flag(SWEEP, "the most points to accept")] = MOST,
    ridge: Annotated[
        Text, flag(SWEEP, "also draw where the output is greatest along this axis, e.g. dynamic_loft")
    ] = None,
    swing: SwingFlags,
    launch: LaunchFlags,
    landing: LandingFlags,
    air: AirFlags,
    ground: GroundFlags,
    on: TurfFlags,
    units: UnitSystem = Units.yards,
    picture: Annotated[Path | None, flag(OUTPUT, "draw the first output of a grid (.png, .svg, .pdf)")] = None,
    out: Annotated[Path | None, flag(OUTPUT, "write the labelled arrays, SI, to this file (NetCDF, .nc)")] = None,
) -> None:
    """Sweep any inputs of a shot: every combination of their values, or samples that fill their ranges.

    An axis is any number of delivery and club, launch, landing, ball, air, wind or ground; an unknown name is
    answered with the nearest known ones. Ctrl-C keeps what is computed so far, in NAME.partial.nc.
    """
    numbers, asked = numbers_of(swing, launch, landing), _read_axes(axis)
    kind = _kind(numbers, swing.club, asked)
    axes = _axes(asked, kind)
    # An axis replaces its flag.
    own = {name: float(x[0]) for name, x in axes.items() if name in units_of(kind)}
    numbers[kind] = {**own, **numbers[kind]}
    start, member = start_from(numbers, swing)
    outputs = of or ["distance" if kind is Landing else "carry"]
    green = {"stimp", "firmness"} & set(axes) and not (on.turf or on.stimp or on.firmness)
    _check_picture(picture, design, ridge, axes)
    outs = [out, out and partial_of(out)]
    check_files([swing.clubs_file, on.turfs_file], picture=[picture], out=outs, kinds=(".nc",))
    conditions = air.conditions(wind_varies="wind_speed" in axes)
    with warnings.catch_warnings():
        warnings.filterwarnings("ignore", "stopped after|bad input at")  # told below, in this command's words
        swept = sweep(
            start,
            member,
            design=design.value,
            samples=samples,
            seed=seed,
            outputs=outputs,
            most_points=most_points,
            impact=swing.impact_model(),
            **conditions,
            terrain=ground.terrain(),
            turf=None if green else on.chosen(),
            **axes,
        )
    print_sweep(swept, outputs, units.value, conditions["ball"])
    stopped = swept.attrs["completed"] < 1
    if out is not None:
        out = partial_of(out) if stopped else out
        write_whole(out, lambda temporary: swept.to_netcdf(temporary, engine="scipy"))
    if picture is not None and not stopped:
        save_picture(lambda: plot_sweep(swept, outputs[0], units=units.value, ridge=ridge).figure, picture)
    say_files(("Arrays", out), ("Picture", None if stopped else picture))
    if stopped and picture is not None:
        say("No picture: it is drawn of a whole sweep alone.", style="yellow")
    if stopped:
        raise typer.Exit(STOPPED)


def _check_picture(picture: Path | None, design: Designs, ridge: Text, axes: dict[str, Any]) -> None:
    """Refuses, before any work, a picture that could not be drawn."""
    drawn = [name for name, x in axes.items() if x.size > 1]
    if picture is not None and (design is not Designs.grid or len(drawn) not in (1, 2)):
        raise InputError(
            "--picture draws a grid of one or two axes that have more values than one; "
            f"here it is {design.value}, of {len(drawn)}"
        )
    if ridge is not None and (picture is None or len(drawn) != 2 or ridge not in drawn):
        raise InputError(f"--ridge {ridge}: accepted: one of the two axes of a --picture")


def _read_axes(given: list[str]) -> dict[str, str]:
    """The text of each axis, by name."""
    asked: dict[str, str] = {}
    for axis in given:
        name, equals, values = axis.partition("=")
        name = name.strip().replace("-", "_")
        if not equals:
            raise InputError(f"--axis: {axis!r} is not like attack_angle=-5deg:5deg:300")
        if name in asked:
            raise InputError(f"--axis: {name} is given twice")
        asked[name] = values
    return asked


def _kind(numbers: Numbers, club: Text, axes: Iterable[str]) -> type[Start]:
    """What a shot starts with: the kind that most flags and axes belong to."""
    names = [*axes, *chain.from_iterable(numbers.values())]
    return Delivery if club else max(STARTS, key=lambda kind: sum(name in units_of(kind) for name in names))


def _axes(asked: dict[str, str], kind: type[Start]) -> dict[str, Any]:
    """The axes in SI."""
    known = axes_of(kind)
    for name in asked:
        if name not in known:
            raise unknown_axis(name, kind)
    return {name: _values(values, known[name].unit, f"--axis {name}") for name, values in asked.items()}


def _values(values: str, unit: str, option: str) -> Any:
    ends = values.split(":")
    if len(ends) == 1:
        return np.array([parse(x, unit, option) for x in values.split(",")])
    if len(ends) > 3:
        raise InputError(f"{option}: {values!r} is not like from:to:how many, or values separated by commas")
    low, high = (parse(x, unit, option) for x in ends[:2])
    if len(ends) == 2:
        return np.array([low, high])
    if not ends[2].strip().isdecimal() or int(ends[2]) < 1:
        raise InputError(f"{option}: {ends[2]!r} is not a number of values, 1 or more")
    if int(ends[2]) > 1_000_000:
        raise InputError(f"{option}: {ends[2]} values; accepted: 1 to 1,000,000")
    return np.linspace(low, high, int(ends[2]))
