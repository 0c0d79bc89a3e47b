"""The whole row: from a delivery or a launch to the landing."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import partial
from typing import TYPE_CHECKING, Any, Literal, NamedTuple

import numpy as np

from . import _core, words
from .ball import Ball
from .errors import InputError, bad_rows
from .flight import STATUS_WORDS, STATUSES, Flight, Launch
from .impact import Impact, ImpactModel, excesses, is_rigid
from .quantities import System
from .setting import PROFILES, Air, Terrain, Weather, Wind, checked_surface, masked_air
from .swing import Club, Delivery
from .values import Array, Shape, common_shape, html_table, of_kind, table_of, unpacked

if TYPE_CHECKING:
    from matplotlib.figure import Figure


@dataclass(frozen=True, repr=False)
class Shot:
    """A whole shot, or an array of them: every stage's values, SI, read-only.

    delivery, club, impact: None for a shot from a measured launch. launch, flight. ball, air, wind, terrain:
    what it was played with. mistakes: for arrays played with ``errors="mask"``, the bad rows and what is
    wrong with each.
    """

    delivery: Delivery | None
    club: Club | None
    impact: Impact | None
    launch: Launch
    flight: Flight
    ball: Ball
    air: Air
    wind: Wind
    terrain: Terrain
    mistakes: dict[Any, str] = field(default_factory=dict)

    @property
    def carry(self) -> Any:
        """m, horizontal distance from the start to the landing."""
        return self.flight.carry

    @property
    def offline(self) -> Any:
        """m, landing to the right of the target line."""
        return self.flight.offline

    @property
    def status(self) -> Any:
        """How the result came about; see ``Flight``."""
        return self.flight.status

    @property
    def out_of_range(self) -> dict[str, Any]:
        """How far each model was taken outside its stated range; see ``Impact`` and ``Flight``."""
        return {**(self.impact.out_of_range if self.impact else {}), **self.flight.out_of_range}

    @property
    def shape(self) -> Shape:
        """``()`` for one shot."""
        return self.flight.shape

    def _stages(self) -> dict[str, list[tuple[str, str]]]:
        stages: dict[str, list[tuple[str, str]]] = {}
        if self.delivery is not None and self.club is not None and self.impact is not None:
            stages[f"delivery, {self.club.name}"] = self.delivery._described()
            stages["impact"] = [line for line in self.impact._described() if line[0] in Impact._columns]
        stages["launch"] = self.launch._described()
        stages["flight"] = [line for line in self.flight._described() if line[0] in Flight._columns]
        if self.shape == ():
            stages["flight"].append(("status", self.status))
        return stages

    def __repr__(self) -> str:
        lines = ["Shot" if self.shape == () else f"Shot, shape {self.shape}"]
        for stage, described in self._stages().items():
            lines.append(f"  {stage}")
            lines.extend(f"    {name.replace('_', ' '):<18} {words}" for name, words in described)
        return "\n".join(lines)

    def _repr_html_(self) -> str:
        return html_table(self._stages())

    def in_words(self, units: System = "yards") -> str:
        """Two plain sentences on what the ball did; one shot only."""
        return words.of_shot(self, units)

    def plot(self, units: System = "yards") -> Figure:
        """Side and top view, a matplotlib figure; needs ``pip install 'whimbrel[plots]'``."""
        from . import plot

        return plot.shot(self, units=units)


def play(
    start: Delivery | Launch,
    club: Club | None = None,
    *,
    ball: Ball | None = None,
    weather: Weather | Air | None = None,
    wind: Wind | None = None,
    terrain: Terrain | None = None,
    impact: ImpactModel = "compliant",
    errors: Literal["raise", "mask"] = "raise",
    threads: int = 0,
) -> Shot:
    """Plays a delivery with a club, or a measured launch, to the landing.

    Every number of every argument may be a scalar or an array; they broadcast, and the results have the
    common shape. Arrays fly on all cores, or on ``threads``. Defaults: the standard ball, dry ISO air at sea
    level, calm, level ground. impact: how club and ball meet, see ``strike``.

    Raises InputError for bad input: for arrays it names the first ten bad rows. With ``errors="mask"`` bad
    rows get NaN, the status ``"bad_input"`` and a line in ``mistakes``; the others are played.
    """
    struck = isinstance(start, Delivery)
    if not struck and not isinstance(start, Launch):
        raise InputError(f"play takes a Delivery or a Launch, not {type(start).__name__}")
    if struck and club is None:
        raise InputError("a delivery needs a club: play(delivery, club)")
    if not struck and club is not None:
        raise InputError("a measured launch takes no club: play(launch)")
    if errors not in ("raise", "mask"):
        raise InputError(f"errors is {errors!r}; accepted: raise, mask")
    ball, wind, terrain = ball or Ball(), wind or Wind(), terrain or Terrain()
    weather = weather or Weather()
    of_kind(ball, "ball", Ball)
    of_kind(weather, "weather", Weather, Air)
    of_kind(wind, "wind", Wind)
    of_kind(terrain, "terrain", Terrain)
    if club is not None:
        of_kind(club, "club", Club)
    flown_in, weather_mistakes = masked_air(weather)
    shape = common_shape([start, *([] if club is None else [club]), ball, flown_in, wind, terrain])
    rows = int(np.prod(shape))
    if terrain.surface is not None and shape != ():
        raise InputError("terrain.surface is for single shots; use the plane for arrays")
    if threads < 0:
        raise InputError(f"threads is {threads}; accepted: 0 (all cores) or more")
    world = _world(ball, flown_in, wind, terrain, shape)
    starts = table_of(start, shape)
    if club is not None:
        hits = (starts, table_of(club, shape), club.hand == "left", is_rigid(impact))
        played = _core.play_swings(*hits, world, rows, threads)
    else:
        played = _core.play_launches(starts, world, rows, threads)
    of_weather = np.broadcast_to(weather_mistakes, shape).ravel()
    mistakes = [(_place(row, shape), of_weather[row] or message) for row, message in played["mistakes"]]
    if mistakes and (errors == "raise" or shape == ()):
        raise bad_rows(mistakes, rows)
    if shape == () and STATUSES[played["status"][0]] == "numerical_failure":
        raise RuntimeError(STATUS_WORDS["numerical_failure"])
    return Shot(
        delivery=start if isinstance(start, Delivery) else None,
        club=club,
        impact=Impact._from_tables(played["struck"], shape) if club is not None else None,
        launch=Launch._from_table(played["launch"], shape),
        flight=_flight(played, Conditions(ball, flown_in, wind, terrain), shape),
        ball=ball,
        air=flown_in,
        wind=wind,
        terrain=terrain,
        mistakes=dict(mistakes),
    )


def fly(launch: Launch, **conditions: Any) -> Flight:
    """Flies a launch to the ground: ``play(launch, …).flight``, with the same keywords and errors."""
    return play(launch, **conditions).flight


def at_standard_conditions(launch: Launch | Shot, *, ball: Ball | None = None) -> Shot:
    """The same measured launch in standard still air over level ground.

    Compares launches of different days and places: dry ISO air at sea level (15 °C, 1013.25 hPa), calm,
    level ground at tee level. Takes a launch, or a shot, with its ball, whose bad rows stay bad; scalars or
    arrays.
    """
    if isinstance(launch, Shot):
        return play(launch.launch, ball=ball or launch.ball, errors="mask")
    return play(launch, ball=ball)


def _place(row: int, shape: Shape) -> Any:
    """Where a flat row lies in the user's arrays."""
    return row if len(shape) < 2 else tuple(int(i) for i in np.unravel_index(row, shape))


class Conditions(NamedTuple):
    """What a flight was flown with, kept to look up its positions."""

    ball: Ball
    air: Air
    wind: Wind
    terrain: Terrain


def _world(ball: Ball, air: Air, wind: Wind, terrain: Terrain, shape: Shape) -> Any:
    """Ball and setting of every row, for the compiled half."""
    return _core.World(
        table_of(ball, shape),
        ball.aero._compiled(),
        table_of(air, shape),
        table_of(wind, shape),
        PROFILES.index(wind.profile),
        table_of(terrain, shape),
        None if terrain.surface is None else checked_surface(terrain.surface),
    )


def world_of(shot: Shot) -> Any:
    """What one shot was played with, for the compiled half."""
    return _world(shot.ball, shot.air, shot.wind, shot.terrain, ())


def _flight(played: dict[str, Any], conditions: Conditions, shape: Shape) -> Flight:
    return Flight._from_table(
        played["flight"],
        shape,
        status=unpacked(np.array(STATUSES)[played["status"]], shape),
        out_of_range=excesses(played["out_of_range"], ("spin_ratio", "reynolds"), shape),
        _positions=partial(_positions, played["launch"], conditions, shape),
    )


def _positions(launches: Array, conditions: Conditions, shape: Shape, times: list[float]) -> Array:
    return np.asarray(_core.positions(launches, _world(*conditions, shape), int(np.prod(shape)), times, 0))
