"""How sure the computed numbers are: open constants, and differences between balls and turfs."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from functools import cache
from typing import Any

import numpy as np

from .. import _core
from ..core.quantity import text
from ..core.value import is_lazy, units_of
from ..errors import InputError
from ..row.aero import AeroModel, model_of
from ..row.ball import Ball
from ..row.flight import Flight, Launch
from ..row.ground import Landing, Run, Turf
from ..row.impact import Impact
from ..row.play import play
from ..row.shot import Shot
from ..row.swing import Club, Delivery

#: Where doubt comes from, in the order of the worlds: what each name stands for.
SOURCES = dict(zip(("contact", "flight_constants", "flight_law", "ball", "turf"), _core.doubt_sources, strict=True))
_NAMES = tuple(SOURCES)


@dataclass(frozen=True)
class World:
    """One way in which ball, club and turf may differ from what is assumed.

    source: a key of ``SOURCES``. weight: of a squared change, in the variance from this source. aero: the model of
    the flight. beside: the model that its flights are compared with, None for the shot's own. The factors multiply
    the numbers of their names; restitution_change is added.
    """

    source: str
    weight: float
    aero: AeroModel
    beside: AeroModel | None
    contact_stiffness_factor: float
    friction_factor: float
    restitution_change: float
    turf_factors: tuple[float, ...]

    def ball(self, ball: Ball) -> Ball:
        return replace(
            ball,
            aero=self.aero,
            contact_stiffness_ratio=ball.contact_stiffness_ratio * self.contact_stiffness_factor,
            face_friction=ball.face_friction * self.friction_factor,
        )

    def club(self, club: Club) -> Club:
        return replace(club, face_restitution=club.face_restitution + self.restitution_change)

    def turf(self, turf: Turf) -> Turf:
        scaled = zip(units_of(Turf), self.turf_factors, strict=True)
        return replace(turf, **{name: getattr(turf, name) * factor for name, factor in scaled})


@cache
def _worlds_of(aero: AeroModel) -> tuple[World, ...]:
    def read(told: dict[str, Any]) -> World:
        beside = told["beside"]
        return World(
            **told
            | {
                "source": _NAMES[told["source"]],
                "aero": model_of(told["aero"]),
                "beside": None if beside is None else model_of(beside),
                "turf_factors": tuple(told["turf_factors"]),
            }
        )

    return tuple(read(told) for told in _core.worlds(aero.compiled()))


@dataclass(frozen=True, repr=False)
class Doubt:
    """How sure numbers are: one standard deviation of each, by source; see ``doubt``.

    changes: by the name of a number, what each world changes of it, in SI. worlds: those worlds.
    Subtract one from another for the doubt of a difference: what both share drops out.
    """

    changes: dict[str, list[Any]]
    worlds: tuple[World, ...]

    def sd(self, name: str) -> Any:
        """One standard deviation of a number, all sources together, SI: ``doubt(shot).sd("carry")``."""
        return self._deviation(name, SOURCES)

    def by_source(self, name: str) -> dict[str, Any]:
        """The same from each source alone, by the keys of ``SOURCES``."""
        return {source: self._deviation(name, [source]) for source in SOURCES}

    def _deviation(self, name: str, sources: Iterable[str]) -> Any:
        if name not in self.changes:
            raise InputError(f"there is no doubt of {name!r}; known: {', '.join(self.changes)}")
        pairs = zip(self.worlds, self.changes[name], strict=True)
        variance: Any = sum(world.weight * change**2 for world, change in pairs if world.source in sources)
        root = np.sqrt(variance)
        return float(root) if np.ndim(root) == 0 else root

    def __sub__(self, other: Doubt) -> Doubt:
        """The doubt of the difference of the numbers that both have."""
        if self.worlds != other.worlds:
            raise InputError("the doubt of a difference needs two shots with balls of the same aerodynamic model")
        return Doubt(
            {
                name: [mine - theirs for mine, theirs in zip(changes, other.changes[name], strict=True)]
                for name, changes in self.changes.items()
                if name in other.changes
            },
            self.worlds,
        )

    def __repr__(self) -> str:
        lines = ["Doubt, one standard deviation"]
        for name, si in _UNITS.items():
            if name not in self.changes:
                continue
            parts = {"all": self.sd(name), **self.by_source(name)}
            told = (
                f"{source.replace('_', ' ')} {text(float(np.max(x)), name, si)}"
                for source, x in parts.items()
                if np.max(x) > 1e-9
            )
            lines.append(f"  {name.replace('_', ' '):<18} {', '.join(told) or 'none'}")
        return "\n".join(lines)


_UNITS = {name: si for kind in (Impact, Launch, Flight, Landing, Run) for name, si in units_of(kind).items()}


def in_every_world(
    ask: Callable[[World | None], dict[str, Any]], ball: Ball, sources: Iterable[str] = tuple(SOURCES)
) -> Doubt:
    """The doubt of any numbers that ``ask(world)`` computes; ``ask(None)`` computes them as things are taken to be.

    sources: which of them matter; the others change nothing and are not asked. Raises InputError for a ball whose
    model is not ``MultiLayer``: what is open of other models is not known.
    """
    worlds, wanted = _worlds_of(ball.aero), set(sources)
    as_taken = ask(None)
    fitted: dict[str, Any] | None = None
    changes: dict[str, list[Any]] = {name: [] for name in as_taken}
    for world in worlds:
        if world.source not in wanted:
            for of_name in changes.values():
                of_name.append(0.0)
            continue
        beside = as_taken
        if world.beside is not None:
            fitted = fitted or ask(replace(world, aero=world.beside))  # one for all laws
            beside = fitted
        found = ask(world)
        for name, of_name in changes.items():
            of_name.append(found[name] - beside[name] if name in found else 0.0)
    return Doubt(changes, worlds)


def doubt(start: Shot | Delivery | Launch | Landing, club: Club | None = None, **conditions: Any) -> Doubt:
    """Estimate how sure the numbers of a shot are, by source.

    Parameters
    ----------
    start : Shot, Delivery, Launch or Landing
        A shot, or what ``play`` takes; scalars or arrays.
    club : Club, optional
        The club of a delivery.
    **conditions
        The other arguments of ``play``.

    Returns
    -------
    Doubt
        One standard deviation of every number of impact, launch, flight, landing and run, SI, by source.

    Raises
    ------
    InputError
        As ``play`` does, for a ball whose model is not ``MultiLayer``, and for Dask arrays that are not computed.

    Notes
    -----
    The sources:

    - ``contact``: how far twelve clubs of common practice, driver to pitching wedge, are from the contact's
      constants; only for a delivery;
    - ``flight_constants``, ``flight_law``: what the flights of those clubs leave open of the default ball's
      constants, and of the form of its law;
    - ``ball``: how present-day balls differ (13 of them by 18 m of carry: Lyu, Kensrud, Smith, Tosaya, Proceedings
      2 (2018) 238);
    - ``turf``: how turfs of one name differ (judged by the trade's window for the run of a drive); nearly all the
      doubt of a landing.

    Errors of measurement and weather are not included: ``dispersion`` plays those. The difference of two shots is
    far surer than either, ``(doubt(a) - doubt(b)).sd("carry")``: with one ball, its doubt cancels. Numbers and
    their fit: ``validation/doubt``.

    Examples
    --------
    >>> doubt(shot).sd("carry")
    """
    shot = start if isinstance(start, Shot) else play(start, club, **conditions)
    if is_lazy(shot.flight):
        raise InputError("doubt needs a shot that is computed: doubt(shot.compute())")
    given: dict[str, Any] = {"weather": shot.air, "wind": shot.wind, "terrain": shot.terrain, "errors": "mask"}

    def ask(world: World | None) -> dict[str, Any]:
        if world is None:
            return _numbers(shot)
        ball, turf = world.ball(shot.ball), world.turf(shot.turf)
        if shot.start == "landing":
            return _numbers(play(shot.landing, ball=ball, turf=turf, **given))
        if world.source == "contact" and shot.delivery is not None and shot.club is not None:
            member = world.club(shot.club)
            struck = play(shot.delivery, member, ball=ball, turf=turf, impact=shot.impact_model, **given)
            return _numbers(struck)
        flown = _numbers(play(shot.launch, ball=ball, turf=turf, **given))
        return {name: flown[name] for name in flown if name not in units_of(Launch)}

    matter = tuple(SOURCES) if shot.start == "delivery" else _NAMES[1:]
    return in_every_world(ask, shot.ball, matter)


def _numbers(shot: Shot) -> dict[str, Any]:
    """Every number of a shot by its name."""
    stages = [shot.flight, shot.landing, shot.run]
    if shot.start != "landing":
        stages.insert(0, shot.launch)
    if shot.impact is not None:
        stages.insert(0, shot.impact)
    return {name: getattr(stage, name) for stage in stages for name in units_of(stage)}
