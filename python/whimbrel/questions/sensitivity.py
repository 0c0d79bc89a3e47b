"""Exact derivatives of a shot's numbers: what a little more of each input does."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any, Literal

import numpy as np

from .. import _core
from ..core.by_labels import by_labels
from ..core.files import import_pandas
from ..core.quantity import System, Unit, display_unit
from ..core.result import Result
from ..core.unsaid import fill_unsaid
from ..core.value import (
    Array,
    Shape,
    Value,
    common_shape,
    html_table,
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
from ..row.ground import Turf
from ..row.impact import ImpactModel, is_rigid
from ..row.play import check_errors, check_threads
from ..row.setting import Air, Terrain, Weather, Wind, masked_air, masked_station
from ..row.shot import Shot, place
from ..row.swing import Club, Delivery
from .inputs import Axis, axes_of, unknown

if TYPE_CHECKING:
    import pandas as pd
    from matplotlib.axes import Axes

#: What is differentiated, and by what beside the numbers of the start, if nothing is said.
USUAL_RESULTS = ("carry", "offline", "apex", "descent_angle")
USUAL_CONDITIONS = ("wind_speed", "temperature", "altitude", "rise")
#: The start's numbers that are left out then: they hardly move a ball.
SELDOM = ("lie_tilt", "closure_rate", "axial_spin_rate")
#: How much of each unit is a step worth reading about; of others, one.
STEPS = {"rpm": 100.0, "F": 10.0, "C": 10.0, "hPa": 10.0, "g cm2": 100.0, "": 0.01, "Pa s": 1e-6,
         "kg/m^3": 0.01, "deg/s": 100.0}  # fmt: skip
KINKS = {
    "contact": "ball and face are at the edge of one more, or one less, phase of sliding on each other",
    "ground": "the ground is level with the tee, and the wind is read above the lower of the two",
}
#: Results that only the run decides.
OF_THE_RUN = ("total", "total_downrange", "total_offline", "distance", "run_time")


@dataclass(frozen=True, repr=False)
class Sensitivity(Result, view="sensitivity"):
    """Exact partial derivatives of a shot's numbers, or an array of shots'. SI.

    of, by: names of the results and of the inputs, with their SI units. results, inputs: their values by name.
    slopes: by result and input, ``slopes["carry", "face_angle"]`` in m/rad, each of the shots' shape; every other
    input is held while one moves. A result that is NaN, as the carry is without a landing, has slopes of NaN; that
    of a ball that never leaves the ground is 0, and stays it. status, run_status: as of ``Flight`` and ``Run``.
    kinks: by name, whether a shot lies on an edge where the slopes to its two sides differ: ``contact``, looked for
    along the inputs of ``by`` alone, and ``ground``, which slopes by
    ``rise`` or the ground's slopes have where it is level with the tee in a wind that changes with height.
    mistakes: bad rows, of ``errors="mask"``.
    """

    of: dict[str, str]
    by: dict[str, str]
    results: dict[str, Any]
    inputs: dict[str, Any]
    slopes: dict[tuple[str, str], Any]
    status: Any
    run_status: Any
    kinks: dict[str, Any]
    mistakes: dict[Any, str] = field(default_factory=dict)

    @property
    def shape(self) -> Shape:
        """``()`` for one shot."""
        return np.shape(self.status)

    def __getitem__(self, pair: tuple[str, str]) -> Any:
        """The derivative of one result by one input, in SI."""
        return self.value(*pair)

    def value(self, of: str, by: str) -> Any:
        """The derivative of one result by one input, in SI: ``value("carry", "face_angle")`` in m/rad."""
        _refuse_unknown(of, self.of, "result")
        _refuse_unknown(by, self.by, "input")
        return self.slopes[of, by]

    def in_units(self, of: str, by: str, units: System = "yards") -> Any:
        """The same in trade units: yards a degree, say."""
        slope = self.value(of, by)
        return slope * display_unit(by, self.by[by], units).factor / display_unit(of, self.of[of], units).factor

    def of_a_step(self, of: str, by: str, units: System = "yards") -> Any:
        """What one readable step of an input does to a result, to first order: see ``step``."""
        return self.in_units(of, by, units) * self.step(by, units)[0]

    def step(self, by: str, units: System = "yards") -> tuple[float, Unit]:
        """A readable step of an input: 1 of its unit, or 100 rpm, 10 °F, 10 hPa, 100 ft of
        altitude, 0.01 of a bare number."""
        _refuse_unknown(by, self.by, "input")
        unit = display_unit(by, self.by[by], units)
        return STEPS.get(unit.symbol, 100.0 if by == "altitude" else 1.0), unit

    def to_frame(self, units: System = "yards") -> pd.DataFrame:
        """A row an input and a column a result, per unit: ``carry_yd`` by ``face_angle_deg``; needs ``tables``.

        For arrays each shot has its rows, by its place in the flattened arrays.
        """
        pandas = import_pandas()
        rows = [_with_suffix(by, display_unit(by, si, units)) for by, si in self.by.items()]
        columns = {
            _with_suffix(of, display_unit(of, si, units)): np.stack(
                [np.ravel(self.in_units(of, by, units)) for by in self.by], axis=-1
            ).ravel()
            for of, si in self.of.items()
        }
        index: Any = pandas.Index(rows, name="per")
        if self.shape != ():
            index = pandas.MultiIndex.from_product([range(int(np.prod(self.shape))), rows], names=["shot", "per"])
        frame: pd.DataFrame = pandas.DataFrame(columns, index)
        return frame

    def table(self, units: System = "yards") -> list[list[str]]:
        """What a readable step of each input does to each result, as text: a heading, then a row an input."""
        rows: list[list[str]] = self._words().table(self, units)
        return rows

    def notes(self) -> list[str]:
        """What to know about these slopes: kinks, and shots without a landing."""
        lines: list[str] = self._words().notes(self)
        return lines

    def __str__(self) -> str:
        return str(self._words().in_words(self))

    def __repr__(self) -> str:
        if self.shape == ():
            return f"Sensitivity: {self}"
        return f"Sensitivity of {', '.join(self.of)} by {', '.join(self.by)}, shape {self.shape}"

    def _repr_html_(self) -> str:
        if self.shape != ():
            return f"<p>{self!r}</p>"
        heading, *rows = self.table()
        return html_table({row[0]: list(zip(heading[1:], row[1:], strict=True)) for row in rows})

    def plot(self, of: str | None = None, ax: Axes | None = None, units: System = "yards") -> Axes:
        """Bars of what a readable step of each input does to one result; one shot only; needs ``plots``."""
        drawn: Axes = self._plots().bars(self, of or next(iter(self.of)), ax, units)
        return drawn


@by_labels
def sensitivity(
    start: Delivery | Launch | Shot,
    club: Club | None = None,
    *,
    of: str | Sequence[str] = USUAL_RESULTS,
    by: str | Sequence[str] | None = None,
    ball: Ball | None = None,
    weather: Weather | Air | None = None,
    wind: Wind | None = None,
    terrain: Terrain | None = None,
    turf: Turf | None = None,
    impact: ImpactModel | None = None,
    errors: Literal["raise", "mask"] = "raise",
    threads: int = 0,
) -> Sensitivity:
    """Exact derivatives of a shot's numbers, by playing it in numbers that carry their slopes with them.

    start: a delivery with its club, a measured launch, or a shot, with all it was played with and nothing beside
    it. of: results, any field of ``Impact`` (from a delivery), ``Launch``, ``Flight`` or ``Run``. by: inputs, named
    as the axes of ``sweep`` (``club_mass``, ``wind_from``, ``rise``, …; a green's numbers are none); if left out,
    those of the start and some conditions. ``altitude`` is one where no pressure was given. An ``Air`` has
    ``density`` and ``viscosity`` instead; a shot keeps its air alone, so of a shot temperature and altitude are
    unknown.

    The rest as for ``play``: scalars or arrays, on all cores or on ``threads``.

    The derivatives of landing and apex are those of the conditions that define them (implicit-function theorem). A
    derivative holds on the shot's own side of a kink: see ``Sensitivity.kinks``. A flight outside the stated range
    of its ball model has derivatives too, of the model as it is held there. Raises InputError for bad input, an
    unknown name, or ground given as a surface.
    """
    if isinstance(start, Shot):
        beside = {"club": club, "ball": ball, "weather": weather, "wind": wind, "terrain": terrain, "turf": turf,
                  "impact": impact}  # fmt: skip
        extra = [name for name, x in beside.items() if x is not None]
        if extra:
            raise InputError(f"{', '.join(extra)}: a shot is taken with all it was played with; leave them out")
        return _of_shot(start, of, by, errors, threads)
    if not isinstance(start, Delivery | Launch):
        raise InputError(f"sensitivity takes a Delivery, a Launch or a Shot, not {type(start).__name__}")
    measured = isinstance(start, Launch)
    if measured == (club is not None):
        raise InputError(
            "a measured launch takes no club"
            if measured
            else "a delivery needs a club: sensitivity(delivery, club)"
        )
    check_errors(errors)
    check_threads(threads)
    start = fill_unsaid(start)
    weather = value_or_default(weather, "weather", Weather, Air)
    conditions = Conditions(
        value_or_default(ball, "ball", Ball),
        masked_air(weather)[0],
        value_or_default(wind, "wind", Wind),
        value_or_default(terrain, "terrain", Terrain),
        value_or_default(turf, "turf", Turf),
    )
    if club is not None:
        of_kind(club, "club", Club)
    if conditions.terrain.surface is not None:
        raise InputError("terrain.surface has no derivatives: give plane ground, by height and slopes")
    return _Asked(start, club, weather, conditions, "compliant" if impact is None else impact, of, by).answer(
        errors, threads
    )


def _of_shot(
    shot: Shot,
    of: str | Sequence[str],
    by: str | Sequence[str] | None,
    errors: Literal["raise", "mask"],
    threads: int,
) -> Sensitivity:
    if shot.start == "landing":
        raise InputError("sensitivity takes a shot from a delivery or a launch, not from a landing")
    start = shot.launch if shot.delivery is None else shot.delivery
    return sensitivity(start, shot.club, of=of, by=by, ball=shot.ball, weather=shot.air, wind=shot.wind,
                       terrain=shot.terrain, turf=shot.turf, impact=shot.impact_model, errors=errors,
                       threads=threads)  # fmt: skip


class _Asked:
    """A question for derivatives, made ready for the compiled half."""

    def __init__(
        self,
        start: Delivery | Launch,
        club: Club | None,
        weather: Weather | Air,
        conditions: Conditions,
        impact: ImpactModel,
        of: str | Sequence[str],
        by: str | Sequence[str] | None,
    ) -> None:
        is_rigid(impact)  # refuses what is no model, whatever the start
        self.start, self.club, self.weather, self.conditions, self.impact = start, club, weather, conditions, impact
        self.station: Value | None = None
        self.weather_mistakes = np.full((), None, dtype=object)
        if isinstance(weather, Weather):
            self.station, self.weather_mistakes = masked_station(weather)
        results = dict(_core.sensitivity_results(isinstance(start, Launch)))
        self.all_results = list(results)
        del results["bounces"]  # a count has no slope
        self.of = {name: results[name] for name in _names(of, results, "result")}
        self.inputs = inputs_of(start, weather)
        known = {name: axis.unit for name, axis in self.inputs.items()}
        self.by = {name: known[name] for name in _names(self._usual() if by is None else by, known, "input")}

    def _usual(self) -> list[str]:
        usual = [name for name in units_of(type(self.start)) if name not in SELDOM]
        return usual + [name for name in USUAL_CONDITIONS if name in self.inputs]

    def answer(self, errors: str, threads: int) -> Sensitivity:
        values = [self.start, *([] if self.club is None else [self.club]), *self.conditions]
        shape = np.broadcast_shapes(common_shape(values), self.weather_mistakes.shape)
        rows = int(np.prod(shape))
        plain = [name for name in self.by if name != "altitude"]
        asked = plain + [name for name in self._altitude_parts() if name not in plain]
        compiled = [name for name in self.inputs if name != "altitude"]
        played = self._play(shape, rows, [compiled.index(name) for name in asked], threads)
        of_weather = np.broadcast_to(self.weather_mistakes, shape).ravel()
        mistakes = [(place(row, shape), of_weather[row] or message) for row, message in played["mistakes"]]
        if mistakes and (errors == "raise" or shape == ()):
            raise bad_rows(mistakes, rows)
        slopes = np.where(np.isnan(played["results"])[:, :, None], np.nan, played["slopes"])
        columns: dict[str, Any] = {name: slopes[:, :, k] for k, name in enumerate(asked)}
        if "altitude" in self.by:
            columns["altitude"] = sum(columns[name] * x for name, x in self._altitude_slopes(rows, shape).items())
        places = {name: self.all_results.index(name) for name in self.of}
        return Sensitivity(
            of=self.of,
            by=self.by,
            results={name: unpack(played["results"][:, i], shape) for name, i in places.items()},
            inputs={name: self._input(name, shape) for name in self.by},
            slopes={(of, by): unpack(columns[by][:, i], shape) for of, i in places.items() for by in self.by},
            status=unpack(np.array(STATUSES)[played["status"]], shape),
            run_status=unpack(np.array(STATUSES)[played["run_status"]], shape),
            kinks={name: unpack(played[name], shape) for name in KINKS},
            mistakes=dict(mistakes),
        )

    def _play(self, shape: Shape, rows: int, by: list[int], threads: int) -> dict[str, Any]:
        station = None if self.station is None else table_of(self.station, shape)
        world = compiled_world(self.conditions, shape)
        start = table_of(self.start, shape)
        to_rest = any(name in OF_THE_RUN for name in self.of)
        if self.club is None:
            return dict(_core.sensitivity_of_launches(start, world, station, to_rest, rows, by, threads))
        swing = (start, table_of(self.club, shape), self.club.hand == "left", is_rigid(self.impact))
        return dict(_core.sensitivity_of_swings(*swing, world, station, to_rest, rows, by, threads))

    def _altitude_parts(self) -> list[str]:
        """What a change of altitude changes: pressure, and temperature where it is the standard one."""
        if "altitude" not in self.by or not isinstance(self.weather, Weather):
            return []
        return ["pressure", *(["temperature"] if self.weather.temperature is None else [])]

    def _altitude_slopes(self, rows: int, shape: Shape) -> dict[str, Array]:
        altitude = np.broadcast_to(self._input("altitude", shape), shape).ravel()
        slopes = _core.standard_weather_slopes(altitude.tolist())
        return {name: slopes[:, [0 if name == "temperature" else 1]] for name in self._altitude_parts()}

    def _input(self, name: str, shape: Shape) -> Any:
        """The value of an input."""
        if name == "altitude":
            given = getattr(self.weather, "altitude", None)
            return np.broadcast_to(0.0 if given is None else given, shape)[()]
        values = {"start": self.start, "club": self.club, "weather": self.station or self.weather}
        axis = self.inputs[name]
        return np.broadcast_to(getattr((values | self.conditions._asdict())[axis.owner], axis.field), shape)[()]


def inputs_of(start: Delivery | Launch, weather: Weather | Air) -> dict[str, Axis]:
    """The inputs of a shot by name, those of a sweep, in the order of the compiled half; altitude is between."""
    axes = axes_of(type(start), type(weather))
    if isinstance(weather, Weather) and weather.pressure is not None:
        del axes["altitude"]
    return {name: axis for name, axis in axes.items() if axis.owner != "green"}


def _names(asked: str | Sequence[str], known: dict[str, str], what: str) -> list[str]:
    names = [asked] if isinstance(asked, str) else list(asked)
    if not names:
        raise InputError(f"name one {what} at least; there are: {', '.join(known)}")
    for name in names:
        _refuse_unknown(name, known, what)
    return list(dict.fromkeys(names))


def _refuse_unknown(name: str, known: dict[str, str], what: str) -> None:
    if not isinstance(name, str):
        raise InputError(f"{name!r} is no name of a {what}")
    if name not in known:
        raise unknown(name, f"{what} here", known)


def _with_suffix(name: str, unit: Unit) -> str:
    return f"{name}_{unit.suffix}" if unit.suffix else name
