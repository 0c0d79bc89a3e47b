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
    """Play a delivery, a launch or a landing over axes of its inputs; needs the ``grids`` extra.

    Parameters
    ----------
    start : Delivery, Launch or Landing
        What each shot starts from, scalar; axes replace its numbers.
    club : Club, optional
        The club of a delivery.
    design : {"grid", "paired", "latin", "sobol"}
        ``"grid"``: every combination, with the axes as dimensions. ``"paired"``: axes of equal length along one
        dimension ``shot``. ``"latin"`` (hypercube) and ``"sobol"`` (scrambled): ``samples`` points from axes that
        are (low, high), along ``shot``.
    samples : int, optional
        Number of points of the last two designs.
    seed : int
        Seed of the last two designs.
    outputs : sequence of str, optional
        Fields of impact, launch, flight, landing or run; by default carry and offline, or distance and
        total_offline from a landing.
    ball : Ball, optional
        The ball; the standard one by default.
    weather : Weather or Air, optional
        The weather; dry ISO air at sea level by default.
    wind : Wind, optional
        The wind; calm by default.
    terrain : Terrain, optional
        The ground; level by default.
    turf : Turf, optional
        The turf; a firm fairway by default.
    impact : {"compliant", "rigid"}
        The model of impact, see ``strike``.
    accuracy : {"fast", "reference"}
        As in ``play``.
    threads : int
        Threads; 0 uses all cores.
    progress : bool, optional
        Show a progress bar; by default for long sweeps in a terminal.
    most_points : int, optional
        More points are refused, with the memory they would need; by default 50 million, or 100 billion in chunks.
    chunks : int, str or tuple, optional
        Chunks of the points, as ``dask.array`` takes them: the Dataset is then lazy, as it is if axes are Dask
        arrays. Needs the ``cluster`` extra.
    **axes : array
        The axes by name, SI, shape (n,): any field of the start; loft, club_mass and the club's other numbers;
        ball_mass, ball_radius, face_friction …; temperature, pressure or altitude, relative_humidity; wind_speed,
        wind_from; rise, slope_up, slope_right, tee_height; stimp, firmness, or turf_friction and the turf's other
        numbers. They replace the numbers of start, club and conditions.

    Returns
    -------
    Dataset
        The outputs, SI, each with ``units`` and ``long_name``; the attributes list all inputs. Save it with
        ``to_netcdf``.

    Raises
    ------
    InputError
        For bad input, before any work.

    Notes
    -----
    Bad points are NaN with the ``status`` bad_input; a warning and the attribute ``first_bad_input`` say what is
    wrong with the first. Ctrl-C keeps what is done: the rest is NaN with the ``status`` not_computed, and the
    attribute ``completed`` is the share done. Lazy sweeps have neither attribute. A sweep has one club, one ball
    model and one impact model; ``xarray.concat`` joins sweeps.

    Examples
    --------
    >>> sweep(hit, clubs["7 iron"], face_angle=np.linspace(-4, 4, 81) * deg)
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
        raise InputError("progress is for sweeps without chunks; for others use dask.diagnostics.ProgressBar")
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
