"""A whole shot, or many: every stage from the delivery to rest."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from functools import cached_property
from typing import TYPE_CHECKING, Any, Literal

import numpy as np

from ..core.given_numbers import keep_frozen
from ..core.quantity import System
from ..core.result import Result
from ..core.value import Shape, compute_value, describe_fields, html_table, is_lazy, units_of
from ..errors import InputError
from .ball import Ball
from .engine import Conditions, compiled_world
from .flight import Flight, Launch
from .ground import Landing, Run, Turf
from .impact import Impact, ImpactModel
from .setting import Air, Terrain, Wind
from .swing import Club, Delivery

if TYPE_CHECKING:
    from matplotlib.figure import Figure


Start = Literal["delivery", "launch", "landing"]
#: Available outputs of a shot: stage and SI unit.
OUTPUTS: dict[str, tuple[str, str]] = {
    name: (stage, si)
    for stage, kind in (("impact", Impact), ("launch", Launch), ("flight", Flight), ("run", Run))
    for name, si in units_of(kind).items()
}


@dataclass(frozen=True, repr=False)
class Shot(Result, view="shot"):
    """A whole shot, or an array of shots: the values of every stage, in SI.

    Attributes
    ----------
    start : {"delivery", "launch", "landing"}
        What it starts with.
    delivery : Delivery or None
        The delivery; None if the shot starts later.
    club : Club or None
        The club; None if the shot starts later.
    impact : Impact or None
        The impact; None if the shot starts later.
    launch : Launch
        The launch.
    flight : Flight
        The flight; of a shot from a landing, one of no length at the origin.
    landing : Landing
        The landing.
    play_run : callable
        Plays the run when it is asked for.
    ball : Ball
        The ball.
    air : Air
        The air.
    wind : Wind
        The wind.
    terrain : Terrain
        The ground.
    turf : Turf
        The turf.
    out_of_range_before_run : dict of str to float or array
        How far impact and flight left their models' stated ranges.
    impact_model : {"compliant", "rigid"}
        The model of impact.
    mistakes : dict of row to str
        For arrays played with ``errors="mask"``: what is wrong with each bad row.

    Notes
    -----
    A shot keeps copies of the arrays it was played with, so that its run and positions, computed later, belong to
    the same shot. Played from Dask arrays, every number is a Dask array and ``mistakes`` a Dask value, until
    ``compute``.
    """

    start: Start
    delivery: Delivery | None
    club: Club | None
    impact: Impact | None
    launch: Launch
    flight: Flight
    landing: Landing
    play_run: Callable[[], tuple[Run, dict[str, Any]]] = field(compare=False)
    ball: Ball
    air: Air
    wind: Wind
    terrain: Terrain
    turf: Turf
    out_of_range_before_run: dict[str, Any]
    impact_model: ImpactModel = "compliant"
    mistakes: dict[Any, str] = field(default_factory=dict)

    @cached_property
    def _ran(self) -> tuple[Run, dict[str, Any]]:
        return self.play_run()

    @property
    def run(self) -> Run:
        """From the landing to rest; for arrays on the fast path, computed when first asked for."""
        return self._ran[0]

    @property
    def out_of_range(self) -> dict[str, Any]:
        """How far each model left its stated range; asks for the run.

        See ``Impact`` and ``Flight``; for the first bounce, ``bounce_speed``, m/s, and ``bounce_angle``, rad.
        """
        return {**self.out_of_range_before_run, **self._ran[1]}

    @property
    def carry(self) -> Any:
        """Horizontal distance from the start to the landing, m."""
        return self.flight.carry

    @property
    def offline(self) -> Any:
        """Landing right of the target line, m."""
        return self.flight.offline

    @property
    def total(self) -> Any:
        """Horizontal distance from the start to rest, m."""
        return self.run.total

    @property
    def status(self) -> Any:
        """Status of the flight, see ``Flight``; the run has its own."""
        return self.flight.status

    @property
    def shape(self) -> Shape:
        """Common shape of the numbers; ``()`` for one shot."""
        return self.flight.shape

    def __setstate__(self, state: dict[str, Any]) -> None:
        self.__dict__.update(keep_frozen(state))

    def compute(self, **how: Any) -> Shot:
        """Compute Dask arrays, all together.

        Parameters
        ----------
        **how
            Keywords of ``dask.compute``.

        Returns
        -------
        Shot
            The same shot with plain arrays.
        """
        plain: Shot = compute_value(self, **how) if is_lazy(self.flight) else self
        return plain

    def _needs_numbers(self, for_what: str) -> None:
        if is_lazy(self.flight):
            raise InputError(f"{for_what} needs a shot that is computed: shot.compute().{for_what}()")

    def _stages(self) -> dict[str, list[tuple[str, str]]]:
        stages: dict[str, list[tuple[str, str]]] = {}
        one = self.shape == () and not is_lazy(self.flight)
        if self.delivery is not None and self.club is not None and self.impact is not None:
            stages[f"delivery, {self.club.name}"] = describe_fields(self.delivery)
            stages["impact"] = [line for line in describe_fields(self.impact) if line[0] in units_of(Impact)]
        if self.start == "landing":
            stages["landing"] = describe_fields(self.landing)
        else:
            stages["launch"] = describe_fields(self.launch)
            stages["flight"] = [line for line in describe_fields(self.flight) if line[0] in units_of(Flight)]
            if one:
                stages["flight"].append(("status", self.status))
        stages[f"run, {self.turf.name}"] = [line for line in describe_fields(self.run) if line[0] in units_of(Run)]
        if one and self.run.status != self.status:
            stages[f"run, {self.turf.name}"].append(("status", self.run.status))
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
        """Describe the flight, the landing and the run of one shot in plain sentences.

        Parameters
        ----------
        units : {"yards", "metric"}
            Units of the text.

        Returns
        -------
        str
            The sentences.

        Raises
        ------
        InputError
            For a shot that is still to be computed.
        """
        self._needs_numbers("in_words")
        return str(self._words().of_shot(self, units))

    def plot(self, units: System = "yards") -> Figure:
        """Draw the side and top view; needs the ``plots`` extra.

        Parameters
        ----------
        units : {"yards", "metric"}
            Units of the labels.

        Returns
        -------
        Figure
            A matplotlib figure.

        Raises
        ------
        InputError
            For a shot that is still to be computed.
        """
        self._needs_numbers("plot")
        figure: Figure = self._plots().shot(self, units)
        return figure


def place(row: int, shape: Shape) -> Any:
    """Where a flat row lies in the user's arrays."""
    return row if len(shape) < 2 else tuple(int(i) for i in np.unravel_index(row, shape))


def world_of(shot: Shot) -> Any:
    """What one shot was played with, for the compiled half."""
    return compiled_world(Conditions(shot.ball, shot.air, shot.wind, shot.terrain, shot.turf), ())
