"""Rows of shots through the compiled half: by the reference, whole, or on the fast path, the run when asked for."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from math import prod
from typing import Any, Literal, NamedTuple

import numpy as np

from .. import _core
from ..core.value import Array, Shape, Value, is_lazy, is_scalar, numbers_of, table_of, units_of, unpack
from ..errors import InputError
from .ball import Ball
from .flight import STATUSES, Flight, Launch
from .ground import Landing, Turf
from .impact import ImpactModel, excesses, is_rigid
from .pieces import in_pieces, some_of
from .setting import PROFILES, Air, Terrain, Wind, check_surface
from .swing import Club, Delivery

#: How exactly arrays are flown; see ``play``.
Accuracy = Literal["fast", "reference"]


class Conditions(NamedTuple):
    """What a shot was played with, kept to look up its positions."""

    ball: Ball
    air: Air
    wind: Wind
    terrain: Terrain
    turf: Turf


@dataclass(frozen=True)
class Ran:
    """Runs, a row each: numbers, statuses, and how far the first bounce left its model's range."""

    run: Array
    status: Array
    excess: dict[str, Any]


@dataclass(frozen=True)
class Played:
    """Shots, a row each: the numbers of every stage, statuses, and what is wrong with bad rows."""

    struck: dict[str, Any] | None
    launch: Any  # columns, of which a single number stands for all rows
    flight: Array
    landing: Array
    status: Array
    excess: dict[str, Any]
    mistakes: list[tuple[int, str]]
    run_out: Callable[[], Ran]


#: The ranges that a flight, and its first bounce, may leave.
IN_FLIGHT, IN_BOUNCE = ("spin_ratio", "reynolds"), ("bounce_speed", "bounce_angle")


def by_reference(
    start: Delivery | Launch | Landing,
    club: Club | None,
    conditions: Conditions,
    shape: Shape,
    impact: ImpactModel,
    threads: int,
) -> Played:
    """Every row to rest by Boost.Odeint."""
    starts, world = table_of(start, shape), world_of_rows(conditions, shape)
    clubs = None if club is None else table_of(club, shape)

    def play(some: slice) -> dict[str, Any]:
        begun, there, rows = some_of(starts, some), world(some), some.stop - some.start
        if club is not None:
            held, left_handed = some_of(clubs, some), club.hand == "left"
            return dict(_core.play_swings(begun, held, left_handed, is_rigid(impact), there, rows, threads))
        play_them = _core.play_launches if isinstance(start, Launch) else _core.play_landings
        return dict(play_them(begun, there, rows, threads))

    tables = in_pieces(prod(shape), play)
    ran = Ran(tables["run"], tables["run_status"], excesses(tables["out_of_range"], IN_BOUNCE, shape))
    return Played(
        tables.get("struck"),
        tables["launch"].T,
        tables["flight"],
        tables["landing"],
        tables["status"],
        excesses(tables["out_of_range"], IN_FLIGHT, shape),
        tables["mistakes"],
        partial(_as_it_is, ran),
    )


def _as_it_is(ran: Ran) -> Ran:
    return ran


def on_fast_path(
    start: Delivery | Launch,
    club: Club | None,
    conditions: Conditions,
    shape: Shape,
    impact: ImpactModel,
    threads: int,
) -> Played:
    """Launches and flights by the batch kernels; the runs, each for itself, when they are asked for."""
    struck = None if club is None else strike_columns(start, club, conditions.ball, shape, impact, threads)
    launch = columns_of(start, shape) if struck is None else struck["launch"].T
    tables = _fly_columns(launch, conditions, shape, threads)
    mistakes = dict(tables["mistakes"])
    if mistakes and struck is not None:  # a bad swing keeps its own; an impact without numbers is a failure
        of_swing = dict(struck["mistakes"])
        jammed = set(np.flatnonzero(np.isnan(launch[0]))) - of_swing.keys()
        if jammed:
            tables["status"][list(jammed)] = STATUSES.index("numerical_failure")
        mistakes = {row: words for row, words in mistakes.items() if row not in jammed} | of_swing
    of_turf = _turf_mistakes(conditions.turf, shape)
    if poor := list(of_turf.keys() - mistakes):  # the flight does not ask for the turf
        for name in ("flight", "landing", "out_of_range"):
            tables[name][poor] = np.nan
        tables["status"][poor] = STATUSES.index("bad_input")
    mistakes = of_turf | mistakes
    if mistakes:
        bad = np.isin(np.arange(prod(shape)), list(mistakes))
        launch = [np.where(bad, np.nan, x) for x in launch]
    excess = {name: unpack(tables["out_of_range"][:, i], shape) for i, name in enumerate(IN_FLIGHT)}
    return Played(
        struck,
        launch,
        tables["flight"],
        tables["landing"],
        tables["status"],
        excess,
        sorted(mistakes.items()),
        partial(_run_out, tables, conditions, shape, threads),
    )


def strike_columns(
    start: Value, club: Club, ball: Ball, shape: Shape, impact: ImpactModel, threads: int
) -> dict[str, Any]:
    """The impacts of swings by the batch kernels: tables of numbers, and mistakes."""
    starts, clubs, balls = (columns_of(value, shape) for value in (start, club, ball))
    left_handed, rigid = club.hand == "left", is_rigid(impact)

    def strike(some: slice) -> dict[str, Any]:
        delivered, held, hit = (_some_of_each(columns, some) for columns in (starts, clubs, balls))
        rows = some.stop - some.start
        return dict(_core.strike_columns(delivered, held, left_handed, rigid, hit, rows, threads))

    return in_pieces(prod(shape), strike)


def _fly_columns(launch: Any, conditions: Conditions, shape: Shape, threads: int) -> dict[str, Any]:
    """The flights of launches by the batch kernels: tables of numbers, statuses and mistakes."""
    ball, air, wind, terrain, _ = conditions
    balls, airs, winds, terrains = (columns_of(value, shape) for value in (ball, air, wind, terrain))
    aero, profile = ball.aero.compiled, PROFILES.index(wind.profile)

    def fly(some: slice) -> dict[str, Any]:
        launched, of_ball, of_air, of_wind, of_terrain = (
            _some_of_each(columns, some) for columns in (launch, balls, airs, winds, terrains)
        )
        rows = some.stop - some.start
        flown = _core.fly_columns(
            launched, of_ball, aero, of_air, of_wind, profile, of_terrain, rows, False, threads
        )
        return dict(flown)

    return in_pieces(prod(shape), fly)


def _some_of_each(columns: Any, rows: slice) -> Any:
    """Some rows of each column, of which a single number stands for all rows."""
    if isinstance(columns, np.ndarray):
        return columns if columns.shape[1] == 1 else columns[:, rows]
    return [some_of(column, rows) for column in columns]


def _turf_mistakes(turf: Turf, shape: Shape) -> dict[int, str]:
    table = table_of(turf, shape)
    wrong: dict[int, str] = dict(_core.turf_mistakes(table))
    return dict.fromkeys(range(prod(shape)), wrong[0]) if wrong and len(table) == 1 else wrong


def _run_out(tables: dict[str, Any], conditions: Conditions, shape: Shape, threads: int) -> Ran:
    flight = dict(zip(units_of(Flight), tables["flight"].T, strict=True))
    columns = [*tables["landing"].T, flight["offline"], flight["downrange"], tables["status"]]
    world = world_of_rows(conditions, shape)

    def run(some: slice) -> dict[str, Any]:
        *landing, offline, downrange, status = _some_of_each(columns, some)
        rows = some.stop - some.start
        return dict(_core.run_out(landing, offline, downrange, status, world(some), rows, threads))

    ran = in_pieces(len(tables["flight"]), run)
    return Ran(ran["run"], ran["run_status"], excesses(ran["out_of_range"], IN_BOUNCE, shape))


def has_fast_path(start: Delivery | Launch | Landing, shape: Shape) -> bool:
    """Whether the fast path takes these rows: arrays that begin before the flight."""
    return shape != () and not isinstance(start, Landing)


def compiled_world(conditions: Conditions, shape: Shape) -> Any:
    """Ball, setting and turf of every row, for the compiled half."""
    return world_of_rows(conditions, shape)(slice(None))


def world_of_rows(conditions: Conditions, shape: Shape) -> Callable[[slice], Any]:
    """What gives ``compiled_world`` of some rows."""
    ball, _, wind, terrain, _ = conditions
    balls, airs, winds, terrains, turfs = (table_of(value, shape) for value in conditions)
    aero, profile = ball.aero.compiled, PROFILES.index(wind.profile)
    surface = None if terrain.surface is None else check_surface(terrain.surface)

    def world(some: slice) -> Any:
        of_ball, of_air, of_wind, of_terrain, of_turf = (
            some_of(table, some) for table in (balls, airs, winds, terrains, turfs)
        )
        return _core.World(of_ball, aero, of_air, of_wind, profile, of_terrain, surface, of_turf)

    return world


@dataclass(frozen=True)
class Replay:
    """Positions of flights or runs at times, by playing again: launches as they were computed, or landings."""

    start: Launch | Landing
    conditions: Conditions
    shape: Shape
    in_run: bool

    def __call__(self, times: list[float]) -> Array:
        if is_lazy(self.start, *self.conditions):
            raise InputError("positions need a computed shot: call compute() first")
        again = _core.positions_of_landings if isinstance(self.start, Landing) else _core.positions_of_launches
        world = compiled_world(self.conditions, self.shape)
        rows = prod(self.shape)
        return np.asarray(again(table_of(self.start, self.shape), world, rows, times, self.in_run, 0))


def columns_of(value: Value, shape: Shape) -> Any:
    """A value's numbers, a column each: of one number if all are scalars, else as they are if they lie evenly."""
    if is_scalar(value):
        return table_of(value, shape).T
    return [_column_of(np.asarray(x), shape) for x in numbers_of(value).values()]


def _column_of(x: Array, shape: Shape) -> Array:
    if x.ndim == 0:
        return x.reshape(1)
    column = x.reshape(-1) if x.shape == shape else np.broadcast_to(x, shape).reshape(-1)
    even = column.flags.aligned and column.strides[0] % column.itemsize == 0
    return column if even else column.copy()
