"""How sure the computed numbers are: open constants, and differences between balls and turfs."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from functools import cache, reduce
from operator import add
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
from ..row.impact import Impact, is_rigid
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
    the numbers of their names; restitution_change is added. Numbers stay inside their accepted ranges.
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
            contact_stiffness_ratio=_held("Ball", "contact_stiffness_ratio", ball.contact_stiffness_ratio
                                          * self.contact_stiffness_factor),
            face_friction=_held("Ball", "face_friction", ball.face_friction * self.friction_factor),
        )  # fmt: skip

    def club(self, club: Club) -> Club:
        restitution = club.face_restitution + self.restitution_change
        return replace(club, face_restitution=_held("Club", "face_restitution", restitution))

    def turf(self, turf: Turf) -> Turf:
        scaled = zip(units_of(Turf), self.turf_factors, strict=True)
        numbers = {name: _held("Turf", name, getattr(turf, name) * factor) for name, factor in scaled}
        return replace(turf, **numbers)


def _held(kind: str, name: str, x: Any) -> Any:
    """A number, or an array with or without labels, inside the accepted range of its name."""
    lower, upper = next((lower, upper) for full, _, lower, upper in _core.fields[kind] if full.split()[-1] == name)
    return min(max(x, lower), upper) if isinstance(x, float) else x.clip(lower, upper)


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

    return tuple(read(told) for told in _core.worlds(aero.compiled))


@dataclass(frozen=True, repr=False)
class Doubt:
    """How sure numbers are: one standard deviation of each, by source; see ``doubt``.

    changes: by the name of a number, what each world changes of it, in SI. worlds: those worlds. club: that was
    swung, None for a launch or a landing. Subtract one from another for the doubt of a difference.
    """

    changes: dict[str, list[Any]]
    worlds: tuple[World, ...]
    club: Club | None = None

    def sd(self, name: str) -> Any:
        """One standard deviation of a number, all sources together, SI: ``doubt(shot).sd("carry")``.

        NaN where the number itself may not be: where in some world the ball does not land, or not rest.
        """
        return self._deviation(name, SOURCES)

    def by_source(self, name: str) -> dict[str, Any]:
        """The same from each source alone, by the keys of ``SOURCES``."""
        return {source: self._deviation(name, [source]) for source in SOURCES}

    def _deviation(self, name: str, sources: Iterable[str]) -> Any:
        if name not in self.changes:
            raise InputError(f"there is no doubt of {name!r}; known: {', '.join(self.changes)}")
        pairs = zip(self.worlds, self.changes[name], strict=True)
        root = np.sqrt(reduce(add, (w.weight * x**2 for w, x in pairs if w.source in sources)))
        return float(root) if np.ndim(root) == 0 and not hasattr(root, "dims") else root

    def __sub__(self, other: Doubt) -> Doubt:
        """The doubt of the difference of the numbers that both have.

        Ball, laws and turf are the same for both. So is the contact where both swing the same club; two clubs
        differ in theirs, as the clubs that it was calibrated on do.
        """
        if not isinstance(other, Doubt):
            return NotImplemented
        if self.worlds != other.worlds:
            raise InputError("the doubt of a difference needs two shots with balls of the same aerodynamic model")
        apart = [] if _same_club(self.club, other.club) else [w for w in self.worlds if w.source == "contact"]
        changes: dict[str, list[Any]] = {}
        for name in self.changes:
            if name not in other.changes:
                continue
            both = list(zip(self.changes[name], other.changes[name], self.worlds, strict=True))
            changes[name] = [x - (0.0 if world in apart else 1.0) * y for x, y, world in both]
            changes[name] += [0.0 * x - y for x, y, world in both if world in apart]
        return Doubt(changes, (*self.worlds, *apart), self.club)

    def __repr__(self) -> str:
        lines = ["Doubt, one standard deviation"]
        for name, si in _UNITS.items():
            if name not in self.changes:
                continue
            parts = {"all": self.sd(name), **self.by_source(name)}
            told = []
            for source, x in parts.items():
                known = np.asarray(x)[np.isfinite(x)]
                if known.size and known.max() > 1e-9:
                    told.append(f"{source.replace('_', ' ')} {text(float(known.max()), name, si)}")
            if not np.isfinite(parts["all"]).all():
                told.append("not known of all" if told else "not known")
            lines.append(f"  {name.replace('_', ' '):<18} {', '.join(told) or 'none'}")
        return "\n".join(lines)


def _same_club(first: Club | None, second: Club | None) -> bool:
    """Whether two shots were hit with one club, or neither with any."""
    if first is None or second is None:
        return first is second
    pairs = ((getattr(first, name), getattr(second, name)) for name in units_of(Club))
    return first.hand == second.hand and all(np.array_equal(a, b) for a, b in pairs)


_UNITS = {name: si for kind in (Impact, Launch, Flight, Landing, Run) for name, si in units_of(kind).items()}


def in_every_world(
    ask: Callable[[World | None], dict[str, Any]],
    ball: Ball,
    club: Club | None = None,
    sources: Iterable[str] = tuple(SOURCES),
) -> Doubt:
    """The doubt of any numbers that ``ask(world)`` computes; ``ask(None)`` computes them as things are taken to be.

    club: that is swung, None for none. sources: which of them matter; the others change nothing and are not asked.
    Raises InputError for a ball whose model is not ``MultiLayer``: what is open of other models is not known.
    """
    worlds, wanted = _worlds_of(ball.aero), set(sources)
    as_taken = ask(None)
    fitted: dict[str, Any] | None = None
    changes: dict[str, list[Any]] = {name: [] for name in as_taken}
    for world in worlds:
        if world.source not in wanted:
            for name, of_name in changes.items():
                of_name.append(0.0 * as_taken[name])
            continue
        beside = as_taken
        if world.beside is not None:
            fitted = fitted or ask(replace(world, aero=world.beside))  # one for all laws
            beside = fitted
        found = ask(world)
        for name, of_name in changes.items():
            of_name.append(found[name] - beside[name] if name in found else 0.0 * as_taken[name])
    return Doubt(changes, worlds, club)


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
        As ``play`` does, for a ball whose model is not ``MultiLayer``, for the rigid impact, for Dask arrays that
        are not computed, and for a club or conditions beside a shot, which has its own.

    Notes
    -----
    The sources:

    - ``contact``: how far twelve clubs of common practice, driver to pitching wedge, are from the contact's
      constants; only for a delivery;
    - ``flight_constants``, ``flight_law``: what the flights of those clubs leave open of the default ball's
      constants, and of the form of its law;
    - ``ball``: how the drag of present-day balls differs (13 of them by 18 m of carry: Lyu, Kensrud, Smith, Tosaya,
      Proceedings 2 (2018) 238);
    - ``turf``: how turfs of one name differ (judged by the trade's window for the run of a drive); nearly all the
      doubt of a landing.

    Not included: errors of measurement and the weather (``dispersion`` plays those), and how the covers of balls
    differ, which a wedge's spin depends on. A difference is surer than what it is of, much surer for two shots with
    one club: ``(doubt(a) - doubt(b)).sd("carry")``. Numbers and their fit: ``validation/doubt``.

    Examples
    --------
    >>> doubt(shot).sd("carry")
    """
    if isinstance(start, Shot):
        if club is not None or conditions:
            given = ["club"] * (club is not None) + list(conditions)
            raise InputError(f"a shot has its own conditions: doubt(shot) takes no {', '.join(given)}")
        shot = start
    else:
        shot = play(start, club, **conditions)
    if is_lazy(shot.flight):
        raise InputError("doubt needs a shot that is computed: doubt(shot.compute())")
    if shot.delivery is not None and is_rigid(shot.impact_model):
        raise InputError("impact is 'rigid'; the doubt of a number is known for the compliant impact only")
    played_in: dict[str, Any] = {"weather": shot.air, "wind": shot.wind, "terrain": shot.terrain, "errors": "mask"}

    def ask(world: World | None) -> dict[str, Any]:
        if world is None:
            return _numbers(shot)
        ball, turf = world.ball(shot.ball), world.turf(shot.turf)
        if shot.start == "landing":
            return _numbers(play(shot.landing, ball=ball, turf=turf, **played_in))
        if world.source == "contact" and shot.delivery is not None and shot.club is not None:
            return _numbers(play(shot.delivery, world.club(shot.club), ball=ball, turf=turf, **played_in))
        flown = _numbers(play(shot.launch, ball=ball, turf=turf, **played_in))
        return {name: flown[name] for name in flown if name not in units_of(Launch)}

    matter = tuple(SOURCES) if shot.start == "delivery" else _NAMES[1:]
    return in_every_world(ask, shot.ball, shot.club, matter)


def _numbers(shot: Shot) -> dict[str, Any]:
    """Every number of a shot by its name; of a ball that does not come to rest none of its run."""
    stages = [shot.flight, shot.landing]
    if shot.start != "landing":
        stages.insert(0, shot.launch)
    if shot.impact is not None:
        stages.insert(0, shot.impact)
    numbers = {name: getattr(stage, name) for stage in stages for name in units_of(stage)}
    rests = np.where(np.asarray(shot.run.status) == "ok", 1.0, np.nan)[()]
    return numbers | {name: getattr(shot.run, name) * rests for name in units_of(Run)}
