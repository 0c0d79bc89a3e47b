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

#: Default results and, besides the numbers of the start, default inputs.
USUAL_RESULTS = ("carry", "offline", "apex", "descent_angle")
USUAL_CONDITIONS = ("wind_speed", "temperature", "altitude", "rise")
#: Numbers of the start left out by default: they hardly affect a ball.
SELDOM = ("lie_tilt", "closure_rate", "axial_spin_rate")
#: A readable step in each unit; 1 in others.
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
    """Exact partial derivatives of a shot's numbers, or of an array of shots.

    Attributes
    ----------
    of : dict of str to str
        The results and their SI units.
    by : dict of str to str
        The inputs and their SI units.
    results : dict of str to float or array
        Values of the results, SI.
    inputs : dict of str to float or array
        Values of the inputs, SI.
    slopes : dict of (str, str) to float or array
        Derivatives by result and input, of the shots' shape: ``slopes["carry", "face_angle"]``, m/rad. All other
        inputs are held. A result that is NaN has slopes of NaN; a ball that never leaves the ground has a carry of
        0 with slopes of 0.
    status : str or array of str
        Status of the flight, see ``Flight``.
    run_status : str or array of str
        Status of the run, see ``Run``.
    kinks : dict of str to bool or array
        Whether a shot lies on an edge where the slopes to its two sides differ. ``contact``: along the inputs of
        ``by`` alone. ``ground``: for ``rise`` and the slopes of ground level with the tee, in a wind that changes
        with height.
    mistakes : dict of row to str
        Bad rows, with ``errors="mask"``.
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
        """Common shape of the shots; ``()`` for one shot."""
        return np.shape(self.status)

    def __getitem__(self, pair: tuple[str, str]) -> Any:
        """The derivative of one result by one input, in SI."""
        return self.value(*pair)

    def value(self, of: str, by: str) -> Any:
        """Look up the derivative of one result by one input.

        Parameters
        ----------
        of : str
            The result.
        by : str
            The input.

        Returns
        -------
        float or array
            The derivative, SI: ``value("carry", "face_angle")`` in m/rad.

        Raises
        ------
        InputError
            For a name that was not asked for.
        """
        _refuse_unknown(of, self.of, "result")
        _refuse_unknown(by, self.by, "input")
        return self.slopes[of, by]

    def in_units(self, of: str, by: str, units: System = "yards") -> Any:
        """Look up a derivative in trade units, such as yards per degree.

        Parameters
        ----------
        of : str
            The result.
        by : str
            The input.
        units : {"yards", "metric"}
            The units.

        Returns
        -------
        float or array
            The derivative.

        Raises
        ------
        InputError
            For a name that was not asked for.
        """
        slope = self.value(of, by)
        return slope * display_unit(by, self.by[by], units).factor / display_unit(of, self.of[of], units).factor

    def of_a_step(self, of: str, by: str, units: System = "yards") -> Any:
        """Compute what one readable step of an input does to a result, to first order.

        Parameters
        ----------
        of : str
            The result.
        by : str
            The input.
        units : {"yards", "metric"}
            The units.

        Returns
        -------
        float or array
            The change for one ``step``.

        Raises
        ------
        InputError
            For a name that was not asked for.
        """
        return self.in_units(of, by, units) * self.step(by, units)[0]

    def step(self, by: str, units: System = "yards") -> tuple[float, Unit]:
        """Choose a readable step of an input.

        Parameters
        ----------
        by : str
            The input.
        units : {"yards", "metric"}
            The units.

        Returns
        -------
        size : float
            1 of the unit, or 100 rpm, 10 °F, 10 hPa, 100 ft of altitude, 0.01 of a bare number.
        unit : Unit
            The unit.

        Raises
        ------
        InputError
            For a name that was not asked for.
        """
        _refuse_unknown(by, self.by, "input")
        unit = display_unit(by, self.by[by], units)
        return STEPS.get(unit.symbol, 100.0 if by == "altitude" else 1.0), unit

    def to_frame(self, units: System = "yards") -> pd.DataFrame:
        """Convert to a DataFrame; needs the ``tables`` extra.

        Parameters
        ----------
        units : {"yards", "metric"}
            The units, named in rows and columns: ``carry_yd`` by ``face_angle_deg``.

        Returns
        -------
        DataFrame
            A row for each input, a column for each result; of arrays, such rows for each shot by its place in the
            flattened array.
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
        """Write a table of what a readable step of each input does to each result.

        Parameters
        ----------
        units : {"yards", "metric"}
            The units.

        Returns
        -------
        list of list of str
            A heading, then a row for each input.
        """
        rows: list[list[str]] = self._words().table(self, units)
        return rows

    def notes(self) -> list[str]:
        """List what to know about these slopes: kinks, and shots that do not land.

        Returns
        -------
        list of str
            A sentence each.
        """
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
        """Draw what a readable step of each input does to a result of one shot; needs the ``plots`` extra.

        Parameters
        ----------
        of : str, optional
            The result; the first by default.
        ax : Axes, optional
            Where to draw; new ones by default.
        units : {"yards", "metric"}
            The units.

        Returns
        -------
        Axes
            Where it was drawn.
        """
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
    """Compute exact derivatives of a shot's numbers.

    Parameters
    ----------
    start : Delivery, Launch or Shot
        What to play; scalars or arrays, which broadcast. A shot comes with all it was played with, and takes none
        of the conditions below.
    club : Club, optional
        The club of a delivery.
    of : str or sequence of str
        Results: any field of ``Impact`` (from a delivery), ``Launch``, ``Flight`` or ``Run``, except ``bounces``.
    by : str or sequence of str, optional
        Inputs, named as the axes of ``sweep``, except a green's; by default those of the start and some conditions.
        ``altitude`` needs a weather without pressure. An ``Air`` has ``density`` and ``viscosity`` instead of
        weather; so has a shot, which keeps only its air.
    ball : Ball, optional
        The ball; the standard one by default.
    weather : Weather or Air, optional
        The weather; dry ISO air at sea level by default.
    wind : Wind, optional
        The wind; calm by default.
    terrain : Terrain, optional
        Plane ground; level by default.
    turf : Turf, optional
        The turf; a firm fairway by default.
    impact : {"compliant", "rigid"}, optional
        The model of impact; ``"compliant"`` by default.
    errors : {"raise", "mask"}
        As in ``play``.
    threads : int
        Threads for arrays; 0 uses all cores.

    Returns
    -------
    Sensitivity
        The derivatives, of the common shape.

    Raises
    ------
    InputError
        For bad input, an unknown name, or ground given as a surface.

    Notes
    -----
    The shot is played in dual numbers, which carry their slopes. Derivatives of landing and apex follow from the
    conditions that define them (implicit-function theorem). At a kink they hold on the shot's own side: see
    ``Sensitivity.kinks``. Outside the ball model's stated range they are those of the model held at its edge.
    """
    if isinstance(start, Shot):
        beside = {"club": club, "ball": ball, "weather": weather, "wind": wind, "terrain": terrain, "turf": turf,
                  "impact": impact}  # fmt: skip
        extra = [name for name, x in beside.items() if x is not None]
        if extra:
            raise InputError(f"{', '.join(extra)}: a shot already has its conditions; leave them out")
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
        raise InputError(f"{name!r} is not the name of a {what}")
    if name not in known:
        raise unknown(name, f"{what} here", known)


def _with_suffix(name: str, unit: Unit) -> str:
    return f"{name}_{unit.suffix}" if unit.suffix else name
