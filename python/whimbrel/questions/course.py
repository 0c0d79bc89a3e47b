"""What a shot on the course plays like, and which club it asks for."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any, Literal

import numpy as np

from .. import _core
from ..core.by_labels import by_labels
from ..core.given_numbers import freeze
from ..core.quantity import System
from ..core.result import Result
from ..core.unsaid import fill_unsaid
from ..core.value import (
    Array,
    Number,
    Shape,
    Value,
    common_shape,
    numbers_of,
    of_kind,
    table_of,
    units_of,
    unpack,
    value_or_default,
)
from ..errors import InputError, bad_rows
from ..row.ball import Ball
from ..row.engine import Conditions, compiled_world
from ..row.flight import STATUSES, Launch
from ..row.ground import Run, Turf
from ..row.impact import ImpactModel, is_rigid
from ..row.play import check_errors, play
from ..row.setting import Air, Terrain, Weather, Wind, masked_air
from ..row.shot import Shot, place
from ..row.swing import Club, Delivery
from ..units import celsius, ft, in_fahrenheit, mph, yd
from .bag import Bag, Swing

if TYPE_CHECKING:
    from matplotlib.figure import Figure


@dataclass(frozen=True, repr=False)
class TargetPoint(Value, kind="Target"):
    """The point where a shot should land.

    Parameters
    ----------
    distance : float or array
        Horizontal distance along the target line, m, 1 to 500. All numbers broadcast together.
    rise : float or array
        Height of the ground there above the ground at the ball, m.
    slope_right : float or array
        Rise of the ground there per metre to the right.
    slope_downrange : float or array
        Rise of the ground there per metre downrange.
    """

    distance: Number
    rise: Number = 0.0
    slope_right: Number = 0.0
    slope_downrange: Number = 0.0

    def terrain(self, tee_height: Number = 0.0) -> Terrain:
        """Build the plane ground around the target.

        Parameters
        ----------
        tee_height : float or array
            Height of the ball's bottom above the ground, m.

        Returns
        -------
        Terrain
            The ground that the ball lands on.
        """
        distance, rise, right, along = numbers_of(self).values()
        return Terrain(tee_height, (rise - along * distance)[()], right[()], along[()])


@dataclass(frozen=True, repr=False)
class CourseShot(Value, Result, kind="LevelDistance", view="course"):
    """A shot to a target, and what it plays like.

    Attributes
    ----------
    level_distance : float or array
        Carry of the same swing in standard still air over level ground, m.
    speed_share : float or array
        Share of the usual speed that the target takes.
    aim : float or array
        Where to aim, rad; positive right of the target.
    status : str or array of str
        ``"ok"``, ``"out_of_reach"`` (no accepted speed up to three times the usual reaches it) or ``"bad_input"``.
    target : TargetPoint
        The target.
    shot : Shot
        The shot that lands on the target; the usual one where the target is out of reach.
    alone : dict of str to float or array
        What each condition adds to the distance by itself, m.
    rules_of_thumb : dict of str to float or array
        What common practice says each condition adds, m.
    mistakes : dict of row to str
        The bad rows of arrays.
    """

    level_distance: Any
    speed_share: Any
    aim: Any
    status: Any
    target: TargetPoint
    shot: Shot
    alone: dict[str, Any]
    rules_of_thumb: dict[str, Any]
    mistakes: dict[Any, str]

    @property
    def aim_off(self) -> Any:
        """How far right of the target to aim, m, at its distance."""
        return self.target.distance * np.tan(self.aim)

    @property
    def past(self) -> Any:
        """How far beyond the target the ball rests, m downrange; negative is short, NaN if it does not rest."""
        beyond = _at_rest(self.shot.run, self.shot.run.total_downrange) - self.target.distance
        return np.where(np.asarray(self.status) == "ok", beyond, np.nan)[()]

    def in_words(self, units: System = "yards") -> str:
        """Describe one shot in plain sentences.

        Parameters
        ----------
        units : {"yards", "metric"}
            Units of the text.

        Returns
        -------
        str
            The sentences.
        """
        return str(self._words().of_course_shot(self, units))

    def plot(self, units: System = "yards") -> Figure:
        """Draw the shot from the side and from above; needs the ``plots`` extra.

        Parameters
        ----------
        units : {"yards", "metric"}
            Units of the labels.

        Returns
        -------
        Figure
            A matplotlib figure.
        """
        figure: Figure = self._plots().course_shot(self, units)
        return figure


@by_labels
def level_distance(
    usual: Delivery | Launch,
    club: Club | None = None,
    *,
    distance: Number,
    rise: Number = 0.0,
    slope_right: Number = 0.0,
    slope_downrange: Number = 0.0,
    tee_height: Number = 0.0,
    ball: Ball | None = None,
    weather: Weather | Air | None = None,
    wind: Wind | None = None,
    turf: Turf | None = None,
    impact: ImpactModel = "compliant",
    errors: Literal["raise", "mask"] = "raise",
    threads: int = 0,
) -> CourseShot:
    """Compute what a shot to a target plays like.

    Clubhead speed (of a launch: ball speed and spin) and aim change until the ball lands on the target. The level
    distance is the carry of that swing in standard still air over level ground.

    Parameters
    ----------
    usual : Delivery or Launch
        The player's usual swing; scalars or arrays. All numbers broadcast together.
    club : Club, optional
        The club; needed by a delivery, and by it alone.
    distance : float or array
        Horizontal distance of the target, m, 1 to 500.
    rise : float or array
        Height of the ground at the target above the ground at the ball, m.
    slope_right : float or array
        Rise of the ground there per metre to the right.
    slope_downrange : float or array
        Rise of the ground there per metre downrange.
    tee_height : float or array
        Height of the ball's bottom above the ground, m.
    ball : Ball, optional
        The ball; the standard one by default.
    weather : Weather or Air, optional
        The weather; dry ISO air at sea level by default.
    wind : Wind, optional
        The wind; calm by default.
    turf : Turf, optional
        The turf; a firm fairway by default.
    impact : {"compliant", "rigid"}
        The model of impact, see ``strike``.
    errors : {"raise", "mask"}
        As in ``play``.
    threads : int
        Threads for arrays; 0 uses all cores.

    Returns
    -------
    CourseShot
        Of the common shape.

    Raises
    ------
    InputError
        As ``play`` does.
    """
    of_kind(usual, "usual", Delivery, Launch)
    usual = fill_unsaid(usual)
    ball = value_or_default(ball, "ball", Ball)
    weather = value_or_default(weather, "weather", Weather, Air)
    wind = value_or_default(wind, "wind", Wind)
    check_errors(errors)
    target = TargetPoint(distance, rise, slope_right, slope_downrange)
    solve = _Solver(usual, club, Terrain(tee_height), ball, impact, threads)
    table, codes, mistakes, shape = solve(target, weather, wind)
    if mistakes and (errors == "raise" or shape == ()):
        raise bad_rows(mistakes, int(np.prod(shape)))
    numbers = {name: unpack(table[:, i], shape) for i, name in enumerate(units_of(CourseShot))}
    flat = replace(target, rise=0.0, slope_right=0.0, slope_downrange=0.0)
    calm, standard = Wind(), Weather()
    cases: dict[str, tuple[TargetPoint, Weather | Air, Wind]] = {
        "rise": (target, standard, calm),
        "wind": (flat, standard, wind),
        **{name: (flat, part, calm) for name, part in _parts(weather).items()},
    }
    share, aim = np.asarray(numbers["speed_share"]), np.asarray(numbers["aim"])
    return CourseShot(
        **numbers,
        status=unpack(np.array(STATUSES)[codes], shape),
        target=target,
        shot=play(
            solve.swung(np.where(np.isnan(share), 1.0, share)[()], np.nan_to_num(aim)[()]),
            club,
            ball=ball,
            weather=weather,
            wind=wind,
            turf=turf,
            terrain=target.terrain(solve.tee.tee_height),
            impact=impact,
            accuracy="reference",
            errors="mask" if shape else "raise",
            threads=threads,
        ),
        alone={name: freeze(solve.level(*case, shape) - target.distance) for name, case in cases.items()},
        rules_of_thumb=rules_of_thumb(target, weather, wind),
        mistakes=dict(mistakes),
    )


@dataclass(frozen=True)
class _Solver:
    """A player's usual swing, to be solved for targets."""

    usual: Delivery | Launch
    club: Club | None
    tee: Terrain
    ball: Ball
    impact: ImpactModel
    threads: int

    def __call__(
        self, target: TargetPoint, weather: Weather | Air, wind: Wind
    ) -> tuple[Any, Any, list[tuple[Any, str]], Shape]:
        air, weather_mistakes = masked_air(weather)
        values: list[Value] = [self.usual, target, self.ball, air, wind, self.tee]
        shape = common_shape(values + ([] if self.club is None else [self.club]))
        rows = int(np.prod(shape))
        world = compiled_world(Conditions(self.ball, air, wind, self.tee, Turf()), shape)
        to, starts = table_of(target, shape), table_of(self.usual, shape)
        if isinstance(self.usual, Launch):
            if self.club is not None:
                raise InputError("a measured launch takes no club")
            solved = _core.level_distances_of_launches(starts, to, world, rows, self.threads)
        else:
            if self.club is None:
                raise InputError("a delivery needs a club: level_distance(delivery, club, distance=…)")
            hits = (starts, table_of(self.club, shape), self.club.hand == "left", is_rigid(self.impact))
            solved = _core.level_distances_of_swings(*hits, to, world, rows, self.threads)
        table, codes, found = solved
        of_weather = np.broadcast_to(weather_mistakes, shape).ravel()
        return table, codes, [(place(row, shape), of_weather[row] or message) for row, message in found], shape

    def level(self, target: TargetPoint, weather: Weather | Air, wind: Wind, shape: Shape) -> Any:
        table, _, _, own = self(target, weather, wind)
        return np.broadcast_to(np.reshape(table[:, 0], own), shape)[()]

    def swung(self, share: Any, aim: Any) -> Delivery | Launch:
        """The usual swing at a share of its speed and aimed elsewhere, as the solver swings it."""
        usual = self.usual
        if isinstance(usual, Launch):
            return replace(
                usual,
                ball_speed=usual.ball_speed * share,
                spin_rate=usual.spin_rate * share,
                axial_spin_rate=usual.axial_spin_rate * share,
                launch_direction=usual.launch_direction + aim,
            )
        return replace(
            usual,
            clubhead_speed=usual.clubhead_speed * share,
            club_path=usual.club_path + aim,
            face_angle=usual.face_angle + aim,
        )


def _parts(weather: Weather | Air) -> dict[str, Weather | Air]:
    """What of the weather can be looked at by itself: temperature with humidity, and pressure or altitude."""
    if isinstance(weather, Air):
        return {"air": weather}
    warm = Weather(_temperature(weather), relative_humidity=weather.relative_humidity)
    return {"temperature": warm, "altitude": Weather(celsius(15), weather.pressure, weather.altitude)}


def _temperature(weather: Weather) -> Any:
    """K, given or that of the ISO atmosphere at the altitude."""
    if weather.temperature is not None:
        return np.asarray(weather.temperature)
    altitude = _altitude(weather)
    return _core.standard_weather(altitude.ravel().tolist())[:, 0].reshape(altitude.shape)


def _altitude(weather: Weather) -> Array:
    return np.asarray(0.0 if weather.altitude is None else weather.altitude, dtype=float)


def rules_of_thumb(target: TargetPoint, weather: Weather | Air, wind: Wind) -> dict[str, Any]:
    """What common practice of the trade adds to a distance, m; no source. Keys as in ``CourseShot.alone``.

    rise: the height difference itself. wind: 1 % a mph ahead, half of that behind, nothing across. temperature:
    2 yd off for 10 °F above 59 °F. altitude: 2 % off a 1,000 ft. Nothing (NaN) is said of pressure and density.
    """
    distance = np.asarray(target.distance, dtype=float)
    ahead = np.asarray(wind.speed) * np.cos(wind.from_direction) / mph
    added: dict[str, Any] = {
        "rise": np.asarray(target.rise, dtype=float),
        "wind": distance * np.where(ahead > 0.0, 0.01, 0.005) * ahead,
    }
    if isinstance(weather, Air):
        return {**{name: freeze((x + 0.0)[()]) for name, x in added.items()}, "air": np.nan}
    warmer = in_fahrenheit(_temperature(weather)) - 59.0
    added["temperature"] = -0.2 * yd * warmer
    feet = np.nan if weather.pressure is not None else _altitude(weather) / ft
    added["altitude"] = -0.02 * distance * feet / 1000.0
    return {name: freeze((x + 0.0)[()]) for name, x in added.items()}


@dataclass(frozen=True)
class Choice:
    """A bag of clubs for one target; arrays have one number per club.

    Attributes
    ----------
    names : list of str
        The clubs.
    carry : array
        Carry along the target line of the usual swing, aimed, in these conditions, m.
    gap : array
        Carry beyond the target, m; negative is short.
    rests : array
        How far beyond the target that ball rests, m.
    level_carry : array
        Carry of the usual swing in standard still air over level ground, m.
    shots : CourseShot
        Each club solved for the target.
    best : str
        The club whose usual carry comes nearest.
    course_shot : CourseShot
        The best club's.
    """

    names: list[str]
    carry: Any
    gap: Any
    rests: Any
    level_carry: Any
    shots: CourseShot
    best: str
    course_shot: CourseShot


def choose_club(bag: Bag, *, distance: float, **conditions: Any) -> Choice:
    """Choose the club whose usual carry comes nearest to a target, among those that reach it.

    Parameters
    ----------
    bag : Bag
        The clubs and their deliveries.
    distance : float
        Horizontal distance of the target, m.
    **conditions
        The other keywords of ``level_distance``, for one target.

    Returns
    -------
    Choice
        Every club for that target, and the best.

    Raises
    ------
    InputError
        As ``level_distance`` does, and if no club's ball comes down at the target.
    """
    of_kind(bag, "bag", Bag)
    swing = bag.stack()
    names = list(bag)
    shots = level_distance(swing.delivery, swing.club, distance=distance, errors="mask", **conditions)
    if shots.mistakes:
        raise bad_rows([(names[row], message) for row, message in shots.mistakes.items()], len(names))
    if shots.status.shape != (len(names),):
        raise InputError("choose_club is for one target: its distance and conditions must be scalars")
    others = {name: x for name, x in conditions.items() if name in ("ball", "weather", "wind", "turf", "impact")}
    tee = conditions.get("tee_height", 0.0)
    here = _on_the_line(swing, terrain=shots.target.terrain(tee), **others)
    in_still_air = {name: x for name, x in others.items() if name in ("ball", "impact")}
    level = play(
        swing.delivery, swing.club, terrain=Terrain(tee), accuracy="reference", errors="mask", **in_still_air
    )
    gap = freeze(here.flight.downrange - distance)
    if np.isnan(gap).all():
        raise InputError("no club's ball comes down on the ground at the target")
    solved = (shots.status == "ok") & np.isfinite(gap)
    best = names[int(np.nanargmin(np.where(solved | ~solved.any(), np.abs(gap), np.nan)))]
    return Choice(
        names,
        here.flight.downrange,
        gap,
        freeze(_at_rest(here.run, here.run.total_downrange) - distance),
        level.carry,
        shots,
        best,
        level_distance(bag[best].delivery, bag[best].club, distance=distance, **conditions),
    )


def _at_rest(run: Run, x: Any) -> Any:
    """A number of a run, NaN where the ball does not come to rest."""
    return np.where(np.asarray(run.status) == "ok", x, np.nan)[()]


def _on_the_line(swing: Swing, **conditions: Any) -> Shot:
    """Every usual swing, aimed so that its ball comes down on the target line (to millimetres)."""
    aim: Any = 0.0
    for _ in range(6):
        hit = swing.delivery
        aimed = replace(hit, club_path=hit.club_path + aim, face_angle=hit.face_angle + aim)
        shot = play(aimed, swing.club, accuracy="reference", errors="mask", **conditions)
        aim = aim - np.nan_to_num(np.arctan2(shot.offline, shot.flight.downrange))
    return shot
