"""Sweeps: shots over any of their inputs, as labelled arrays."""

from __future__ import annotations

import time
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any

from ..core import cautions
from ..core.given_numbers import attributes
from ..core.optional import import_xarray
from ..core.unsaid import fill_unsaid, refuse_unsaid
from ..core.value import Array, as_numbers
from ..errors import InputError
from ..questions.inputs import Start, axes_of, check_conditions, check_start, chunks_of_axes, read_axes
from ..row.ball import Ball
from ..row.engine import Accuracy
from ..row.ground import Turf
from ..row.impact import ImpactModel
from ..row.setting import Air, Terrain, Weather, Wind
from ..row.swing import Club, warn_if_fast
from .describe import describe, provenance, stages_of
from .design import Design, Points, check_design, count, points_of
from .run import Plan, in_dask_chunks, in_pieces

if TYPE_CHECKING:
    import xarray as xr

#: Points of the largest sweep, unless asked for more; and of the largest in Dask's chunks.
MOST, MOST_IN_CHUNKS = 50_000_000, 100_000_000_000


def sweep(
    start: Start,
    club: Club | None = None,
    *,
    design: Design = "grid",
    samples: int | None = None,
    seed: int = 0,
    outputs: Sequence[str] | None = None,
    ball: Ball | None = None,
    weather: Weather | Air | None = None,
    wind: Wind | None = None,
    terrain: Terrain | None = None,
    turf: Turf | None = None,
    impact: ImpactModel = "compliant",
    accuracy: Accuracy = "fast",
    threads: int = 0,
    progress: bool | None = None,
    most_points: int | None = None,
    chunks: Any = None,
    **axes: Any,
) -> xr.Dataset:
    """Plays a delivery with a club, a launch, or a landing, over axes of its inputs; needs the ``grids`` extra.

    axes: SI, by name, shape (n,): any field of the delivery, the launch or the landing; loft, club_mass and the
    club's other numbers; ball_mass, ball_radius, face_friction …; temperature, pressure or altitude,
    relative_humidity; wind_speed, wind_from; rise, slope_up, slope_right, tee_height; stimp, firmness, or
    turf_friction and the turf's other numbers. They go before ``start``, ``club`` and conditions, which are as in
    ``play`` and scalar. What is no such number (which club, ball model or impact model) is one a sweep;
    ``xarray.concat`` joins sweeps.

    design: ``"grid"``, every combination, the dimensions are the axes; ``"paired"``, axes of equal length, one
    dimension ``shot``; ``"latin"`` (hypercube) and ``"sobol"`` (scrambled), ``samples`` points drawn by ``seed``
    from axes that are (low, high), along ``shot``. outputs: fields of impact, launch, flight, landing or run;
    carry and offline if not said, from a landing, of which there is a run alone, distance and total_offline.
    threads: 0 for all cores. progress: a bar; if not said, for long sweeps in a terminal.

    chunks: of points, as ``dask.array`` takes them (100_000, "auto", (10, 500) by axis …), or axes that are Dask
    arrays: the Dataset is then of Dask arrays, lazy, played where Dask runs; ``completed`` and ``first_bad_input``
    are left out. Needs the ``cluster`` extra.

    most_points: more are refused, with the memory they would need; 50 million if not said, 100 billion in chunks.

    Returns a Dataset in SI, each variable with ``units`` and ``long_name``, and in its attributes all that was
    played with; ``to_netcdf`` writes it. Bad points are NaN, ``status`` bad_input: a warning and the attribute
    ``first_bad_input`` say what is wrong with the first. Ctrl-C keeps what is done: the rest is NaN, ``status``
    not_computed, and the attribute ``completed`` is the share done.
    Raises InputError before any work, also for more than ``most_points`` points.
    """
    xarray = import_xarray()
    check_start(start, club)
    refuse_unsaid(start, "dynamic_loft", axes)
    start = fill_unsaid(start, axes)
    if "clubhead_speed" in axes:
        warn_if_fast(as_numbers(axes["clubhead_speed"], "clubhead_speed", "m/s"))
    check_design(design, samples, seed, most_points)
    played: dict[str, Any] = {"start": start, "club": club, "ball": ball, "weather": weather, "wind": wind,
                              "terrain": terrain, "turf": turf}  # fmt: skip
    how: dict[str, Any] = {"impact": impact, "accuracy": accuracy, "threads": threads}
    chunks = chunks_of_axes(axes, design) if chunks is None else chunks
    if progress and chunks is not None:
        raise InputError("progress is of sweeps without chunks; Dask has its own, dask.diagnostics.ProgressBar")
    rows = read_axes(axes, type(start))
    plan = Plan(axes_of(type(start)), played, how, stages_of(outputs, type(start), rows))
    check_conditions(rows, plan.known, played)
    number = count(rows, design, samples)
    columns = len(plan.stages) + (0 if design == "grid" else len(rows))
    most = most_points or (MOST if chunks is None else MOST_IN_CHUNKS)
    _check_size(number, columns, rows, design, most)
    plan.try_out(rows)
    points = points_of(rows, design, samples, seed)
    about = {**provenance(played, rows, plan.known), "design": design}
    if samples is not None:
        about["seed"] = int(seed)
    about |= {"impact_model": impact, "accuracy": accuracy}
    if chunks is None:
        began = time.perf_counter()
        results, done, mistake = in_pieces(plan, points, progress)
        about |= {"completed": done / points.size, **({"first_bad_input": mistake} if mistake else {})}
        about["seconds"] = round(time.perf_counter() - began, 3)
    else:
        results = in_dask_chunks(plan, points, chunks)
    return _label(xarray, plan, points, results, {**about, "caution": cautions.CAUTION})


def _label(xarray: Any, plan: Plan, points: Points, results: Mapping[str, Any], about: Any) -> xr.Dataset:
    coordinates = {
        name: ((name,) if name in points.dims else points.dims, x, attributes(name, plan.known[name].unit))
        for name, x in points.axes.items()
    }
    variables = {name: (points.dims, x.reshape(points.shape), describe(name)) for name, x in results.items()}
    swept: xr.Dataset = xarray.Dataset(variables, coordinates, about)
    return swept


def _check_size(points: int, columns: int, axes: Mapping[str, Array], design: str, most: int) -> None:
    if points <= most:
        return
    sizes = " × ".join(f"{name} {x.size:,}" for name, x in axes.items()) if design == "grid" else design
    raise InputError(
        f"{points:,} points ({sizes}) need {points * (8 * columns + 1) / 1e9:,.1f} GB for the results; "
        f"most_points is {most:,}: take fewer, or raise it"
    )
