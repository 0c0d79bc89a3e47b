"""Playing the whole row: from a delivery, a launch or a landing to rest."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from math import prod
from typing import Any, Literal

import numpy as np

from ..core.by_labels import by_labels
from ..core.unsaid import fill_unsaid
from ..core.value import (
    Array,
    Shape,
    common_shape,
    from_columns,
    from_table,
    is_lazy,
    of_kind,
    unpack,
    value_or_default,
)
from ..errors import InputError, bad_rows
from .ball import Ball
from .dask import play_in_chunks
from .engine import Accuracy, Conditions, Ran, Replay, by_reference, has_fast_path, on_fast_path
from .flight import STATUS_WORDS, STATUSES, Flight, Launch
from .ground import Landing, Run, Turf
from .impact import Impact, ImpactModel, is_rigid
from .setting import Air, Terrain, Weather, Wind, masked_air
from .shot import Shot, place
from .swing import Club, Delivery

STATUS_NAMES = np.array(STATUSES)
#: So many shots have a word each for their statuses.
FEW = 1000
NUMERICAL_FAILURE = STATUSES.index("numerical_failure")


@by_labels
def play(
    start: Delivery | Launch | Landing,
    club: Club | None = None,
    *,
    ball: Ball | None = None,
    weather: Weather | Air | None = None,
    wind: Wind | None = None,
    terrain: Terrain | None = None,
    turf: Turf | None = None,
    impact: ImpactModel = "compliant",
    accuracy: Accuracy = "fast",
    errors: Literal["raise", "mask"] = "raise",
    threads: int = 0,
) -> Shot:
    """Plays a delivery with a club, a measured launch, or a landing, until the ball rests.

    Every number of every argument may be a scalar or an array; they broadcast, and the results have the common
    shape. Arrays fly on all cores, or on ``threads``. Defaults: the standard ball, dry ISO air at sea level,
    calm, level ground. impact: how club and ball meet, see ``strike``. accuracy, of arrays: ``"fast"``, by
    kernels made for the processor, with carries of full launches (40 to 80 m/s, 8° to 30° up, 2,000 to 10,000
    rpm, tilts to 15°) within 1 mm of the ``"reference"`` (of any others 99 in 100 within 4 mm; balls that graze
    the ground, or skim it in a gale for long, may be decimetres apart), and of deliveries within 0.1 %. The
    reference is Boost.Odeint at 1e-9, which single shots, landings and tables of coefficients always take. A run
    may have one hop more or fewer by one of them than by the other, see ``Run``.

    Numbers with labels pair by label. Where some are ``xarray.DataArray``, they broadcast by dimension, and the
    numbers of the result are DataArrays over all dimensions, with their coordinates and units; every other number
    then is a scalar or one, too. Where some are ``pandas.Series``, their indexes hold the same labels, in any
    order, and results of that length are Series. Quantities of pint are converted. Masked and missing entries are
    bad rows.

    Where a number is a Dask array, or an xarray.DataArray of one, all numbers of the result are Dask arrays of the
    common shape (or DataArrays of them). Nothing is played before they are computed, by ``Shot.compute`` or by
    Dask; then block by block, each on one thread or on ``threads``.

    Raises InputError for bad input, also for labels that do not pair, units of another kind, and numbers that are
    none (truth values, dates, text): for arrays it names the first ten bad rows. With ``errors="mask"`` bad
    rows get NaN, the status ``"bad_input"`` and a line in ``mistakes``; the others are played. Bad rows of
    Dask arrays are told when computed: of the first bad block met, by their place among all rows.
    """
    struck = isinstance(start, Delivery)
    if not isinstance(start, Delivery | Launch | Landing):
        raise InputError(f"play takes a Delivery, a Launch or a Landing, not {type(start).__name__}")
    if struck and club is None:
        raise InputError("a delivery needs a club: play(delivery, club)")
    if not struck and club is not None:
        raise InputError("a measured launch, or a landing, takes no club: play(launch)")
    check_errors(errors)
    if accuracy not in ("fast", "reference"):
        raise InputError(f"accuracy is {accuracy!r}; accepted: fast, reference")
    is_rigid(impact)  # refuses an unknown one, for a launch too
    ball = value_or_default(ball, "ball", Ball)
    weather = value_or_default(weather, "weather", Weather, Air)
    wind = value_or_default(wind, "wind", Wind)
    terrain = value_or_default(terrain, "terrain", Terrain)
    turf = value_or_default(turf, "turf", Turf)
    start = fill_unsaid(start)
    if club is not None:
        of_kind(club, "club", Club)
    check_threads(threads)
    swung = (start,) if club is None else (start, club)
    if is_lazy(*swung, ball, weather, wind, terrain, turf):
        given = {"start": start, "club": club, "ball": ball, "weather": weather, "wind": wind, "terrain": terrain,
                 "turf": turf, "impact": impact, "accuracy": accuracy, "threads": threads}  # fmt: skip
        return play_in_chunks(partial(play, errors="mask"), given, errors)
    flown_in, weather_mistakes = masked_air(weather)
    shape = common_shape([*swung, ball, flown_in, wind, terrain, turf])
    if terrain.surface is not None and shape != ():
        raise InputError("terrain.surface is for single shots; use the plane for arrays")
    conditions = Conditions(ball, flown_in, wind, terrain, turf)
    fast = accuracy == "fast" and has_fast_path(start, shape)
    played = (on_fast_path if fast else by_reference)(start, club, conditions, shape, impact, threads)  # type: ignore[arg-type]
    mistakes = {}
    if played.mistakes:
        of_weather = np.broadcast_to(weather_mistakes, shape).ravel()
        mistakes = {place(row, shape): of_weather[row] or message for row, message in played.mistakes}
        if errors == "raise" or shape == ():
            raise bad_rows(list(mistakes.items()), prod(shape))
    if shape == () and NUMERICAL_FAILURE in (played.status[0], played.run_out().status[0]):
        raise RuntimeError(STATUS_WORDS["numerical_failure"])
    launch = from_columns(Launch, played.launch, shape)
    replay = partial(Replay, start if isinstance(start, Landing) else launch, conditions, shape)
    struck_with = None if played.struck is None else Impact.from_tables(played.struck, shape)
    return Shot(
        start="delivery" if struck else "launch" if isinstance(start, Launch) else "landing",
        delivery=start if isinstance(start, Delivery) else None,
        club=club,
        impact=struck_with,
        launch=launch,
        flight=from_table(
            Flight,
            played.flight,
            shape,
            status=_statuses(played.status, shape),
            out_of_range=played.excess,
            replay=replay(in_run=False),
        ),
        landing=from_table(Landing, played.landing, shape),
        play_run=partial(_run, played.run_out, shape, replay(in_run=True)),
        **conditions._asdict(),
        out_of_range_before_run={**(struck_with.out_of_range if struck_with else {}), **played.excess},
        impact_model=impact,
        mistakes=mistakes,
    )


def _run(run_out: Callable[[], Ran], shape: Shape, positions: Replay) -> tuple[Run, dict[str, Any]]:
    ran = run_out()
    return from_table(Run, ran.run, shape, status=_statuses(ran.status, shape), replay=positions), ran.excess


def check_errors(errors: str) -> None:
    """Refuses what ``errors`` may not be."""
    if errors not in ("raise", "mask"):
        raise InputError(f"errors is {errors!r}; accepted: raise, mask")


def check_threads(threads: int) -> None:
    """Refuses what ``threads`` may not be."""
    if not isinstance(threads, int | np.integer) or threads < 0:
        raise InputError(f"threads is {threads!r}; accepted: 0 (all cores) or more")


def fly(launch: Launch, **conditions: Any) -> Flight:
    """Flies a launch to the ground: ``play(launch, …).flight``, with the same keywords, errors and Dask arrays."""
    return play(launch, **conditions).flight


def at_standard_conditions(launch: Launch | Shot, *, ball: Ball | None = None) -> Shot:
    """The same measured launch in standard still air over level ground.

    Compares launches of different days and places: dry ISO air at sea level (15 °C, 1013.25 hPa), calm,
    level ground at tee level. Takes a launch, or a shot, with its ball, whose bad rows stay bad; scalars or
    arrays.
    """
    if isinstance(launch, Shot):
        if launch.start == "landing":
            raise InputError("a shot from a landing has no launch to fly again")
        return play(launch.launch, ball=launch.ball if ball is None else ball, errors="mask")
    return play(launch, ball=ball)


def _statuses(codes: Array, shape: Shape) -> Any:
    if shape == ():
        return STATUSES[codes[0]]
    if len(codes) > FEW and not codes.any():  # a million words weigh 68 MB
        codes = codes[:1]
    return unpack(STATUS_NAMES[codes], shape)
