"""The command ``whimbrel sweep``."""

from __future__ import annotations

import time
import warnings
from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import numpy as np
import typer

from . import words
from .cli_flags import (
    LAUNCH,
    OUTPUT,
    Altitude,
    AttackAngle,
    BallName,
    ClosureRate,
    ClubFile,
    ClubheadSpeed,
    ClubName,
    ClubPath,
    DynamicLoft,
    FaceAngle,
    Firmness,
    Humidity,
    ImpactName,
    Impacts,
    LieTilt,
    ModelName,
    Pressure,
    Rise,
    ShaftLean,
    Side,
    SlopeRight,
    SlopeUp,
    Stimp,
    StrikeHigh,
    StrikeToe,
    TeeHeight,
    Temperature,
    Text,
    TurfFile,
    TurfName,
    Units,
    UnitSystem,
    WindFrom,
    WindSpeed,
    ball_of,
    clubs_of,
    flag,
    in_si,
    save_picture,
    start_of,
    terrain_of,
    turf_of,
    weather_of,
    wind_of,
)
from .cli_session import Several
from .console import say, say_file
from .errors import InputError
from .flight import Launch
from .ground import Landing
from .quantities import System, parse, text
from .sweep import MOST, plot_sweep, sweep
from .sweep_axes import Axis, axes_of, unknown
from .swing import Delivery

if TYPE_CHECKING:
    import xarray as xr

SWEEP = "Sweep"


class Designs(StrEnum):
    grid = "grid"
    paired = "paired"
    latin = "latin"
    sobol = "sobol"


Axes = Annotated[
    list[str],
    flag(SWEEP, "attack_angle=-5deg:5deg:300 (from, to, how many) or altitude=0m,1600m; again for more", "--axis"),
]
Of = Annotated[Several, flag(SWEEP, "what to compute, e.g. carry; again for more [default: carry]", "--of")]
Samples = Annotated[int | None, flag(SWEEP, "points of a latin or sobol design, whose axes are from:to")]


def register(app: typer.Typer) -> None:
    """Adds the command to the others."""
    app.command("sweep")(sweep_command)


def sweep_command(
    axis: Axes,
    of: Of = None,
    design: Annotated[Designs, flag(SWEEP, "how the axes make points")] = Designs.grid,
    samples: Samples = None,
    seed: Annotated[int, flag(SWEEP, "of the samples")] = 0,
    most_points: Annotated[int, flag(SWEEP, "refuse more points than this")] = MOST,
    ridge: Annotated[Text, flag(SWEEP, "also draw the most along this axis, e.g. dynamic_loft")] = None,
    club: ClubName = None,
    clubs_file: ClubFile = None,
    hand: Side = None,
    clubhead_speed: ClubheadSpeed = None,
    attack_angle: AttackAngle = None,
    club_path: ClubPath = None,
    face_angle: FaceAngle = None,
    dynamic_loft: DynamicLoft = None,
    shaft_lean: ShaftLean = None,
    lie_tilt: LieTilt = None,
    strike_toe: StrikeToe = None,
    strike_high: StrikeHigh = None,
    closure_rate: ClosureRate = None,
    ball_speed: Annotated[Text, flag(LAUNCH, "e.g. 120mph")] = None,
    launch_angle: Annotated[Text, flag(LAUNCH, "e.g. 16deg")] = None,
    launch_direction: Annotated[Text, flag(LAUNCH, "right is positive")] = None,
    spin_rate: Annotated[Text, flag(LAUNCH, "total, e.g. 7000rpm")] = None,
    spin_axis_tilt: Annotated[Text, flag(LAUNCH, "positive curves right")] = None,
    ball: BallName = "standard",
    aero: ModelName = "multi-layer",
    temperature: Temperature = None,
    pressure: Pressure = None,
    altitude: Altitude = None,
    relative_humidity: Humidity = None,
    wind: WindSpeed = None,
    wind_from: WindFrom = None,
    rise: Rise = None,
    slope_up: SlopeUp = None,
    slope_right: SlopeRight = None,
    turf: TurfName = None,
    turfs_file: TurfFile = None,
    stimp: Stimp = None,
    firmness: Firmness = None,
    tee_height: TeeHeight = None,
    impact: ImpactName = None,
    units: UnitSystem = Units.yards,
    picture: Annotated[Path | None, flag(OUTPUT, "draw the first output of a grid (.png, .svg, .pdf)")] = None,
    out: Annotated[Path | None, flag(OUTPUT, "write the labelled arrays here (NetCDF, .nc), SI")] = None,
) -> None:
    """Sweep any inputs of a shot: every combination of their values, or samples that fill their ranges."""
    delivered = in_si(clubhead_speed=clubhead_speed, attack_angle=attack_angle, club_path=club_path,
                      face_angle=face_angle, dynamic_loft=dynamic_loft, shaft_lean=shaft_lean, lie_tilt=lie_tilt,
                      strike_toe=strike_toe, strike_high=strike_high, closure_rate=closure_rate)  # fmt: skip
    launched = in_si(ball_speed=ball_speed, launch_angle=launch_angle, launch_direction=launch_direction,
                     spin_rate=spin_rate, spin_axis_tilt=spin_axis_tilt)  # fmt: skip
    if launched and (impact or hand or clubs_file):
        raise InputError("a measured launch takes no --impact, --hand or --clubs")
    kind = Launch if launched or (not delivered and club is None) else Delivery
    axes = _axes(axis, axes_of(kind), kind.__name__.lower())
    own = {name: float(x[0]) for name, x in axes.items() if name in kind._columns}  # an axis stands in for its flag
    delivered, launched = ({**own, **delivered}, launched) if kind is Delivery else (delivered, {**own, **launched})
    start, member = start_of(delivered, launched, {}, club, clubs_of(clubs_file, hand))
    assert not isinstance(start, Landing)
    on_turf = None if {"stimp", "firmness"} & set(axes) and not (turf or stimp or firmness) else turf_of(
        turf, turfs_file, stimp, firmness)  # fmt: skip
    _check_output(picture, out, design, ridge, axes)
    began = time.perf_counter()
    with warnings.catch_warnings():
        warnings.filterwarnings("ignore", "stopped after")  # told below, with what was done until then
        swept = sweep(start, member, design=design.value, samples=samples, seed=seed, outputs=of or ["carry"],
                      most_points=most_points, impact=(impact or Impacts.compliant).value, ball=ball_of(ball, aero),
                      weather=weather_of(temperature, pressure, altitude, relative_humidity),
                      wind=wind_of(wind, wind_from), terrain=terrain_of(tee_height, rise, slope_up, slope_right),
                      turf=on_turf, **axes)  # fmt: skip
    _tell(swept, of or ["carry"], units.value, time.perf_counter() - began)
    if out is not None:
        swept.to_netcdf(out, engine="scipy")
        say_file("Arrays", out)
    if picture is not None:
        first = (of or ["carry"])[0]
        save_picture(lambda: plot_sweep(swept, first, units=units.value, ridge=ridge).figure, picture)
        say_file("Picture", picture)


def _check_output(
    picture: Path | None, out: Path | None, design: Designs, ridge: Text, axes: dict[str, Any]
) -> None:
    """Refuses before the work what could not be drawn or written after it."""
    drawn = [name for name, x in axes.items() if x.size > 1]
    if picture is not None and (design is not Designs.grid or len(drawn) not in (1, 2)):
        raise InputError(f"--picture draws a grid of one or two axes, not {design.value} over {len(drawn)}")
    if ridge is not None and (picture is None or len(drawn) != 2 or ridge not in drawn):
        raise InputError(f"--ridge {ridge}: it takes one of the two axes of a --picture")
    if picture is not None and picture.suffix not in (".png", ".svg", ".pdf"):
        raise InputError(f"--picture {picture}: accepted: .png, .svg, .pdf")
    if out is not None and out.suffix != ".nc":
        raise InputError(f"--out {out}: accepted: .nc")
    for path in (picture, out):
        if path is not None and not path.resolve().parent.is_dir():
            raise InputError(f"{path}: there is no such folder")


def _axes(given: list[str], known: dict[str, Axis], start: str) -> dict[str, Any]:
    """The axes that the flags ask for, in SI."""
    axes: dict[str, Any] = {}
    for asked in given:
        name, equals, values = asked.partition("=")
        name = name.strip().replace("-", "_")
        if not equals:
            raise InputError(f"--axis: {asked!r} is not like attack_angle=-5deg:5deg:300")
        if name not in known:
            raise unknown(name, f"axis of a sweep from a {start}", {n: a.unit for n, a in known.items()})
        if name in axes:
            raise InputError(f"--axis: {name} is there twice")
        axes[name] = _values(values, known[name].unit, f"--axis {name}")
    return axes


def _values(values: str, unit: str, option: str) -> Any:
    ends = values.split(":")
    if len(ends) == 1:
        return np.array([parse(x, unit, option) for x in values.split(",")])
    if len(ends) > 3:
        raise InputError(f"{option}: {values!r} is not like from:to:how many, or values with commas")
    low, high = (parse(x, unit, option) for x in ends[:2])
    if len(ends) == 2:
        return np.array([low, high])
    if not ends[2].strip().isdecimal() or int(ends[2]) < 1:
        raise InputError(f"{option}: {ends[2]!r} is not a number of values, 1 or more")
    if int(ends[2]) > 1_000_000:
        raise InputError(f"{option}: {ends[2]} values; accepted: 1 to 1,000,000")
    return np.linspace(low, high, int(ends[2]))


def _tell(swept: xr.Dataset, outputs: list[str], units: System, seconds: float) -> None:
    """What was computed, where the most and the least lie, and how long it took."""
    size = " × ".join(f"{n:,}" for n in swept[outputs[0]].shape)
    bad = int((swept["status"] > 0).sum())
    what = swept.attrs.get("club", "launch")
    say(f"{size} shots, {what}, over {', '.join(str(name).replace('_', ' ') for name in swept.coords)}: "
        f"{seconds:.1f} s.")  # fmt: skip
    if swept.attrs["completed"] < 1:
        say(f"Stopped after {swept.attrs['completed']:.0%}: the rest was not computed.", style="yellow")
    if bad:
        say(f"{bad:,} have no landing: see status in the arrays.", style="yellow")
    if "first_bad_input" in swept.attrs:
        say(f"The first bad one: {swept.attrs['first_bad_input']}", style="yellow")
    for name in outputs:
        x = swept[name]
        if not np.isfinite(x).any():
            say(f"{name.replace('_', ' ')}: no numbers")
            continue
        for word, where in (("Most", x.argmax(...)), ("Least", x.argmin(...))):
            point = x.isel(where)
            at = [f"{str(c).replace('_', ' ')} {text(float(p), str(c), p.attrs['units'], units)}"
                  for c, p in point.coords.items()]  # fmt: skip
            number = text(float(point), name, x.attrs["units"], units)
            say(f"{word} {name.replace('_', ' ')}: {number} at {', '.join(at)}.")
    say(words.BALL_SPREAD, style="dim")
    say(words.SHORT_CAUTION, style="dim")
