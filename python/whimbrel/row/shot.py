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
#: What of a shot can be asked for: its stage and its SI unit.
OUTPUTS: dict[str, tuple[str, str]] = {
    name: (stage, si)
    for stage, kind in (("impact", Impact), ("launch", Launch), ("flight", Flight), ("run", Run))
    for name, si in units_of(kind).items()
}


@dataclass(frozen=True, repr=False)
class Shot(Result, view="shot"):
    """A whole shot, or an array of them: every stage's values, SI, read-only.

    A snapshot: it keeps copies of the arrays it was played with, so that its run and positions, worked out later,
    are of the same shot.

    start: ``"delivery"``, ``"launch"`` or ``"landing"``. delivery, club, impact: None for a shot that starts with a
    launch or a landing. launch, flight: from a landing, a flight of no length that comes down at the origin.
    landing, run. ball, air, wind, terrain, turf, impact_model: what it was played with. out_of_range: how far each
    model was taken outside its stated range, see ``Impact``, ``Flight`` and, for the first bounce, ``bounce_speed``
    (m/s) and ``bounce_angle`` (rad); out_of_range_before_run: of impact and flight alone. play_run: plays the
    run when it is asked for. mistakes: for arrays played with ``errors="mask"``, the bad rows and
    what is wrong. Played from Dask arrays, every number is one, and ``mistakes`` Dask's as well, until ``compute``.
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
        """From the landing to rest; for arrays on the fast path, worked out when it is first asked for."""
        return self._ran[0]

    @property
    def out_of_range(self) -> dict[str, Any]:
        """How far each model was taken outside its stated range; asks for the run."""
        return {**self.out_of_range_before_run, **self._ran[1]}

    @property
    def carry(self) -> Any:
        """m, horizontal distance from the start to the landing."""
        return self.flight.carry

    @property
    def offline(self) -> Any:
        """m, landing to the right of the target line."""
        return self.flight.offline

    @property
    def total(self) -> Any:
        """m, horizontal distance from the start to rest."""
        return self.run.total

    @property
    def status(self) -> Any:
        """How the flight came about; see ``Flight``. The run has a status of its own."""
        return self.flight.status

    @property
    def shape(self) -> Shape:
        """``()`` for one shot."""
        return self.flight.shape

    def __setstate__(self, state: dict[str, Any]) -> None:
        self.__dict__.update(keep_frozen(state))

    def compute(self, **how: Any) -> Shot:
        """The same with plain arrays for Dask's, all computed together; keywords go to ``dask.compute``."""
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
        """Plain sentences on the flight, the landing and the run; one shot only."""
        self._needs_numbers("in_words")
        return str(self._words().of_shot(self, units))

    def plot(self, units: System = "yards") -> Figure:
        """Side and top view, a matplotlib figure; needs ``pip install 'whimbrel[plots]'``."""
        self._needs_numbers("plot")
        figure: Figure = self._plots().shot(self, units)
        return figure


def place(row: int, shape: Shape) -> Any:
    """Where a flat row lies in the user's arrays."""
    return row if len(shape) < 2 else tuple(int(i) for i in np.unravel_index(row, shape))


def world_of(shot: Shot) -> Any:
    """What one shot was played with, for the compiled half."""
    return compiled_world(Conditions(shot.ball, shot.air, shot.wind, shot.terrain, shot.turf), ())
