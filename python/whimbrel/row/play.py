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
    """Play a delivery, a measured launch or a landing until the ball rests.

    Every number may be a scalar or an array; all broadcast, and results have the common shape.

    Parameters
    ----------
    start : Delivery, Launch or Landing
        What the shot starts with.
    club : Club, optional
        The club; needed by a delivery, and by it alone.
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
        How arrays are flown, see Notes.
    errors : {"raise", "mask"}
        With ``"mask"`` bad rows get NaN, the status ``"bad_input"`` and an entry in ``mistakes``; the others are
        played.
    threads : int
        Threads for arrays; 0 uses all cores.

    Returns
    -------
    Shot
        Every stage of the shot, of the common shape.

    Raises
    ------
    InputError
        For bad input, labels that do not pair, quantities of another kind, and values that are not numbers
        (booleans, dates, text). For arrays it names the first ten bad rows.

    Notes
    -----
    The reference is Boost.Odeint at a tolerance of 1e-9; single shots, landings and tables of coefficients always
    take it. Against it, fast carries of full launches (40 to 80 m/s, 8° to 30° up, 2,000 to 10,000 rpm, tilts to
    15°) are within 1 mm, and 99 in 100 of all others within 4 mm; balls that graze the ground, or skim it for long
    in a gale, may be decimetres apart. Fast carries of deliveries are within 0.1 %. The run may have one hop more
    or fewer, see ``Run``.

    Numbers with labels pair by label. ``xarray.DataArray`` inputs broadcast by dimension, and the results are
    DataArrays with coordinates and units; every other number must then be a scalar or a DataArray.
    ``pandas.Series`` inputs must have indexes of the same labels, in any order, and results of that length are
    Series. Quantities of pint are converted. Masked and missing entries are bad rows.

    With Dask arrays, or DataArrays of them, all results are Dask arrays, played block by block when computed, by
    ``Shot.compute`` or by Dask, each block on one thread or on ``threads``. Bad rows then raise when computed:
    those of the first bad block, by their place among all rows.

    Examples
    --------
    >>> play(Launch(140 * mph, 12 * deg, spin_rate=2600 * rpm)).carry / yd
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
    """Refuses an unknown ``errors``."""
    if errors not in ("raise", "mask"):
        raise InputError(f"errors is {errors!r}; accepted: raise, mask")


def check_threads(threads: int) -> None:
    """Refuses an unknown ``threads``."""
    if not isinstance(threads, int | np.integer) or threads < 0:
        raise InputError(f"threads is {threads!r}; accepted: 0 (all cores) or more")


def fly(launch: Launch, **conditions: Any) -> Flight:
    """Fly a launch to the ground: ``play(launch, …).flight``.

    Parameters
    ----------
    launch : Launch
        The launch; scalars or arrays.
    **conditions
        The keywords of ``play``.

    Returns
    -------
    Flight
        Of the common shape.

    Raises
    ------
    InputError
        As ``play`` does.
    """
    return play(launch, **conditions).flight


def at_standard_conditions(launch: Launch | Shot, *, ball: Ball | None = None) -> Shot:
    """Play a measured launch in standard still air over level ground.

    Standard air is dry ISO air at sea level (15 °C, 1013.25 hPa). This compares launches of different days and
    places.

    Parameters
    ----------
    launch : Launch or Shot
        The launch; scalars or arrays. Bad rows of a shot stay bad.
    ball : Ball, optional
        The ball; by default the shot's, or the standard one.

    Returns
    -------
    Shot
        The shot in standard conditions.

    Raises
    ------
    InputError
        For bad input, and for a shot that starts with a landing.
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
