"""Sweeps: shots over any of their inputs, as labelled arrays."""

from __future__ import annotations

import sys
import time
import warnings
from collections.abc import Iterator, Mapping, Sequence
from typing import TYPE_CHECKING, Any

import numpy as np

from . import words
from .ball import Ball
from .errors import InputError, missing
from .flight import STATUSES, Launch
from .ground import Turf
from .impact import ImpactModel
from .played import Accuracy
from .quantities import System
from .setting import Air, Terrain, Weather, Wind
from .shot import Shot, play
from .sweep_axes import Axis, axes_of, check_conditions, chunks_of_axes, read_axes, with_numbers
from .sweep_described import NOT_COMPUTED, attributes, described, provenance, stages_of
from .sweep_design import Design, Points, check_design, count, points_of
from .swing import Club, Delivery
from .values import Array, as_numbers, of_kind

if TYPE_CHECKING:
    import xarray as xr
    from matplotlib.axes import Axes

#: Points played at a time: what bounds the memory beside the results, and how soon Ctrl-C is heard.
CHUNK = 1 << 16
#: From this many points on, a terminal gets a progress bar.
LONG = 200_000
#: Points of the largest sweep, unless asked for more.
MOST = 50_000_000


def sweep(
    start: Delivery | Launch,
    club: Club | None = None,
    *,
    design: Design = "grid",
    samples: int | None = None,
    seed: int = 0,
    outputs: Sequence[str] = ("carry", "offline"),
    ball: Ball | None = None,
    weather: Weather | Air | None = None,
    wind: Wind | None = None,
    terrain: Terrain | None = None,
    turf: Turf | None = None,
    impact: ImpactModel = "compliant",
    accuracy: Accuracy = "fast",
    threads: int = 0,
    progress: bool | None = None,
    most_points: int = MOST,
    chunks: Any = None,
    **axes: Any,
) -> xr.Dataset:
    """Plays a delivery with a club, or a launch, over axes of its inputs; needs the ``grids`` extra.

    axes: SI, by name: any field of the delivery or the launch; loft, club_mass and the club's other numbers;
    ball_mass, ball_radius, face_friction …; temperature, pressure or altitude, relative_humidity; wind_speed,
    wind_from; rise, slope_up, slope_right, tee_height; stimp, firmness, or turf_friction and the turf's other
    numbers. They go before ``start``, ``club`` and conditions, which are as in ``play`` and scalar.

    design: ``"grid"``, every combination, the dimensions are the axes; ``"paired"``, axes of equal length, one
    dimension ``shot``; ``"latin"`` (hypercube) and ``"sobol"`` (scrambled), ``samples`` points drawn by ``seed``
    from axes that are (low, high), along ``shot``. outputs: fields of impact, launch, flight, landing or run.
    progress: a bar; if not said, for long sweeps in a terminal.

    chunks: of points, as ``dask.array`` takes them (100_000, "auto", (10, 500) by axis …), or axes that are Dask
    arrays: the Dataset is then of Dask arrays, lazy, played where Dask runs; ``completed`` and ``first_bad_input``
    are left out and ``most_points`` does not hold. Needs the ``cluster`` extra.

    Returns a Dataset in SI, each variable with ``units`` and ``long_name``, and in its attributes all that was
    played with; ``to_netcdf`` writes it. Bad points are NaN, ``status`` bad_input; the attribute
    ``first_bad_input`` says what is wrong with the first. Ctrl-C keeps what is done: the rest is NaN, ``status``
    not_computed, and the attribute ``completed`` is the share done.
    Raises InputError before any work, also for more than ``most_points`` points.
    """
    xarray = _import_xarray()
    of_kind(start, "start", Delivery, Launch)
    if (club is None) == isinstance(start, Delivery):
        raise InputError("a delivery needs a club, a launch takes none: sweep(delivery, club, …), sweep(launch, …)")
    kind = type(start).__name__.lower()
    known = axes_of(type(start))
    played: dict[str, Any] = {"start": start, "club": club, "ball": ball, "weather": weather, "wind": wind,
                              "terrain": terrain, "turf": turf}  # fmt: skip
    check_design(design, samples, seed, most_points)
    if progress and chunks is not None:
        raise InputError("progress is of sweeps without chunks; Dask has its own, dask.diagnostics.ProgressBar")
    chunks = chunks_of_axes(axes, design) if chunks is None else chunks
    rows = read_axes(axes, known, kind)
    names = stages_of(outputs, isinstance(start, Delivery), rows)
    check_conditions(rows, known, played)
    number = count(rows, design, samples)
    if chunks is None:
        _check_size(number, len(names) + (0 if design == "grid" else len(rows)), rows, design, most_points)
    how: dict[str, Any] = {"impact": impact, "accuracy": accuracy, "threads": threads}
    play(**{**_one(rows, known, played), **how}, errors="mask")  # what no point can mend is an error now
    points = points_of(rows, design, samples, seed)
    began = time.perf_counter()
    if chunks is None:
        results, done, mistake = _played(points, names, known, played, how, progress)
        outcome = {"completed": done / points.size, **({"first_bad_input": mistake} if mistake else {})}
        outcome["seconds"] = round(time.perf_counter() - began, 3)
    else:
        results, outcome = _in_chunks(points, names, known, played, how, chunks), {}
    about = {
        **provenance(played, rows, known),
        "design": design,
        **({} if samples is None else {"seed": int(seed)}),
        "impact_model": impact,
        "accuracy": accuracy,
        **outcome,
        "caution": words.CAUTION,
    }
    coordinates = {
        name: ((name,) if design == "grid" else ("shot",), x, attributes(name, known[name].unit))
        for name, x in points.axes.items()
    }
    variables = {name: (points.dims, results[name].reshape(points.shape), described(name)) for name in results}
    swept: xr.Dataset = xarray.Dataset(variables, coordinates, about)
    return swept


def trajectories(shot: Shot, times: Any) -> xr.Dataset:
    """Positions of an array of shots in flight as a Dataset over (shot, time); needs the ``grids`` extra.

    times: s after launch, shape (n,). x (right), y (downrange) and z (up): m, of the ball's centre; before launch
    and after landing the ball is where it started and landed. Shots of more dimensions are put in a row.
    """
    xarray = _import_xarray()
    of_kind(shot, "shot", Shot)
    seconds = np.atleast_1d(as_numbers(times, "times"))
    if seconds.ndim > 1 or not seconds.size or not np.isfinite(seconds).all():
        raise InputError("times: a row of finite numbers of seconds, one or more")
    where = shot.flight.position_at(seconds).reshape(-1, seconds.size, 3)
    ways = {"x": "right of the target line", "y": "downrange", "z": "height above the ground at the origin"}
    variables = {
        name: (("shot", "time"), where[..., i], {"units": "m", "long_name": long})
        for i, (name, long) in enumerate(ways.items())
    }
    axis = {"time": ("time", seconds, {"units": "s", "long_name": "time after launch"})}
    ways_in_air: xr.Dataset = xarray.Dataset(variables, axis)
    return ways_in_air


def plot_sweep(
    swept: xr.Dataset, output: str, *, units: System = "yards", ridge: str | None = None, ax: Axes | None = None
) -> Axes:
    """Draws one output of a grid: over one axis a line, over two labelled contours; needs the ``plots`` extra.

    Axes of one value do not count; choose among more by ``swept.sel``. ridge: also draw where the output is
    greatest along this axis, for each value of the other: between the points of the grid too, by a parabola.
    Raises InputError for what cannot be drawn.
    """
    from .plot_swept import plot_swept

    return plot_swept(swept, output, units, ridge, ax)


def _import_xarray() -> Any:
    try:
        import xarray
    except ImportError:
        raise missing("xarray", "grids") from None
    return xarray


def _check_size(points: int, columns: int, axes: Mapping[str, Array], design: str, most: int) -> None:
    if points <= most:
        return
    sizes = " × ".join(f"{name} {x.size:,}" for name, x in axes.items()) if design == "grid" else design
    raise InputError(
        f"{points:,} points ({sizes}) need {points * (8 * columns + 1) / 1e9:,.1f} GB for the results; "
        f"most_points is {most:,}: take fewer, or raise it"
    )


def _one(rows: Mapping[str, Array], known: Mapping[str, Axis], played: Mapping[str, Any]) -> dict[str, Any]:
    """The first point alone; greens, whose mistakes play cannot mask, are tried at both ends of their axes."""
    ends = {name: np.array([x.min(), x.max()]) for name, x in rows.items() if known[name].owner == "green"}
    return with_numbers({name: ends.get(name, x[:1]) for name, x in rows.items()}, known, played)


def _played(
    points: Points, names: dict[str, str], known: Mapping[str, Axis], played: Any, how: Any, progress: bool | None
) -> tuple[dict[str, Array], int, str]:
    """Each output of all points in a row, how many are done, and what is wrong with the first bad one."""
    results: dict[str, Any] = {name: np.full(points.size, np.nan) for name in names}
    flags = _flags(names)
    results |= {name: np.full(points.size, NOT_COMPUTED, np.int8) for name in flags}
    done, mistake = 0, ""
    try:
        for first, end in _chunks(points.size, progress):
            shot = play(**with_numbers(points.some(first, end), known, played), **how, errors="mask")
            for name, stage in names.items():
                results[name][first:end] = getattr(getattr(shot, stage), name)
            for name, stage in flags.items():
                results[name][first:end] = _codes(getattr(shot, stage).status)
            mistake = mistake or next(iter(shot.mistakes.values()), "")
            done = end
    except KeyboardInterrupt:
        for name, x in results.items():
            x[done:] = NOT_COMPUTED if name in flags else np.nan
        message = f"stopped after {done:,} of {points.size:,} points: the rest is NaN"
        warnings.warn(message, RuntimeWarning, stacklevel=3)
    return results, done, mistake


def _flags(names: Mapping[str, str]) -> dict[str, str]:
    """The statuses that go with outputs, and their stages."""
    return {"status": "flight", **({"run_status": "run"} if "run" in names.values() else {})}


def _in_chunks(
    points: Points, names: dict[str, str], known: Mapping[str, Axis], played: Any, how: Any, chunks: Any
) -> dict[str, Any]:
    """Each output of all points, in their shape, as a Dask array."""
    from .blocks import in_chunks

    given = with_numbers(points.along(), known, played)
    shot = play(**in_chunks(given, chunks, points.shape), **how, errors="mask")
    results = {name: getattr(getattr(shot, stage), name) for name, stage in names.items()}
    for name, stage in _flags(names).items():
        results[name] = getattr(shot, stage).status.map_blocks(_codes, dtype=np.int8)
    return results


def _chunks(size: int, progress: bool | None) -> Iterator[tuple[int, int]]:
    wanted = (size >= LONG and sys.stderr.isatty()) if progress is None else progress
    bar = None
    if wanted:
        try:
            from tqdm.auto import tqdm
        except ImportError:
            raise missing("tqdm", "grids") from None
        bar = tqdm(total=size, unit=" shots", unit_scale=True)
    try:
        for first in range(0, size, CHUNK):
            end = min(first + CHUNK, size)
            yield first, end
            if bar is not None:
                bar.update(end - first)
    finally:
        if bar is not None:
            bar.close()


def _codes(status: Any) -> Any:
    codes = np.zeros(np.shape(status), np.int8)
    for code, name in enumerate(STATUSES[1:], start=1):
        codes[status == name] = code
    return codes
