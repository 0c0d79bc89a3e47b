"""What a ball lands on, how it lands, and its run to rest."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import numpy as np

from .. import _core
from ..core import named_entries
from ..core.by_labels import by_labels
from ..core.named import Named
from ..core.value import Array, Number, Value, columns_of, common_shape, from_table, ranges_of, table_of
from ..errors import refuse
from .flight import sample


@dataclass(frozen=True, repr=False)
class Turf(Value, kind="Turf"):
    """What a ball lands and rolls on, as departures from the turf that the law of the bounce was fitted to.

    name. restitution_scale: of the measured turf's restitution. friction: coefficient between ball and turf,
    in a bounce and in a skid. tilt_scale: of how far the surface leans back at the ball; more on softer
    ground. rolling_deceleration: m/s², of a ball rolling on the level at up to 6 m/s; (v / 6 m/s - 1)² times as
    much is added above, for grass and air, calibrated by this project on common practice. Scalars or arrays. The
    default is the measured turf, a firm fairway. Source: Penner, Can. J. Phys. 80 (2002) 931 (from memory).
    """

    name: str = "firm fairway"
    restitution_scale: Number = 1.0
    friction: Number = 0.40
    tilt_scale: Number = 1.0
    rolling_deceleration: Number = 1.0


@dataclass(frozen=True, repr=False)
class _Green(Value, kind="Green"):
    stimp: Number
    firmness: Number


class Turfs(Named[Turf]):
    """Turfs by name: ``turfs["soft fairway"]``."""

    kind = "turf"


turfs = Turfs({name: Turf(name, *numbers) for name, numbers in _core.turf_set().items()})
"""Firm and soft fairway, rough, and greens of Stimp 10 ft from soft to firm."""


@by_labels
def green(stimp: Number = 3.048, firmness: Number = 0.5, *, name: str = "green") -> Turf:
    """The turf of a green as its keeper describes it. Scalars or arrays; Dask arrays are computed.

    stimp: m (10 ft is 3.048 m), how far a ball rolls that a Stimpmeter released, 1 to 6 m. firmness: from 0, soft,
    to 1, firm; its effect is calibrated by this project on common practice. Raises InputError outside these.
    """
    speed = _Green(stimp, firmness)
    shape = common_shape([speed])
    rows = int(np.prod(shape))
    table, mistakes = _core.turfs_of_greens(table_of(speed, shape), rows)
    refuse(mistakes, rows)
    return from_table(Turf, table, shape, name=name)


def load_turfs(path: str | Path) -> Turfs:
    """Your own turfs from a TOML file: one ``[[turf]]`` each, as a green or by the numbers of ``Turf``.

    ::

        [[turf]]
        name = "our greens in June"
        stimp_ft = 11
        firmness = 0.7

        [[turf]]
        name = "winter fairway"        # what is left out is the firm fairway's
        restitution_scale = 0.5
        friction = 0.45
        tilt_scale = 1.3
        rolling_deceleration_mps2 = 2.0

    Raises InputError naming the turf and the key.
    """
    return Turfs(named_entries.load(path, "turf", _turf_from))


def _turf_from(name: str, entry: dict[str, Any]) -> Turf:
    if any(key.startswith(("stimp", "firmness")) for key in entry):
        return green(**named_entries.numbers(entry, columns_of("Green"), ("stimp",), ranges_of("Green")), name=name)
    turf = Turf(name, **named_entries.numbers(entry, columns_of("Turf"), (), ranges_of("Turf")))
    refuse(_core.turf_mistakes(table_of(turf, ())), 1)
    return turf


@dataclass(frozen=True, repr=False)
class Landing(Value, kind="Landing"):
    """How a ball comes down. Scalars or arrays, broadcast together.

    landing_speed: m/s. descent_angle: rad, of the path below the horizontal. landing_direction: rad, of the
    path, positive right of the target line. landing_spin_rate: rad/s, total. spin_axis_tilt: rad, of the spin axis
    from the level, positive where the ball curves right: 0 is pure backspin, ±180° topspin. axial_spin_rate: rad/s,
    the part of the spin along the level landing direction.
    """

    landing_speed: Number
    descent_angle: Number
    landing_direction: Number = 0.0
    landing_spin_rate: Number = 0.0
    spin_axis_tilt: Number = 0.0
    axial_spin_rate: Number = 0.0


@dataclass(frozen=True, repr=False)
class Run(Value, kind="Run"):
    """From the landing to rest: bounces, the hops between them, skid and roll. SI, read-only.

    Above 6 m/s grass and air slow a ball more than its turf's rolling deceleration says: see ``Turf``.

    total: m, horizontal distance from the start of the shot to rest. total_downrange, total_offline: m, along
    and right of the target line. distance: m, from the landing to rest along the direction of the landing;
    negative where the ball came back. bounces: the landing included. run_time: s. status: ``"ok"``,
    ``"no_rest"`` (still moving 30 s after the last bounce, as on a slope steeper than the turf holds: the numbers
    then say where the ball is at that time), or the status of a flight, or of a hop, that failed: NaN.

    Where a bounce is at the edge of one hop more, two ways of computing the flight may fall to either side of it:
    one shot in some thousands of an array ends up to 0.3 m from where it does played by itself, others within
    millimetres of their carry's difference (see ``play``).
    """

    total: Any
    total_downrange: Any
    total_offline: Any
    distance: Any
    bounces: Any
    run_time: Any
    status: Any = "ok"
    replay: Callable[[list[float]], Array] | None = field(default=None, repr=False, compare=False)

    def position_at(self, time: Number) -> Array:
        """Position of the ball's centre, m, at times after the landing, s; shaped as ``Flight.position_at``."""
        return sample(self, self.replay, time)

    def path(self, points: int = 200) -> Array:
        """Positions from the landing to rest at evenly spaced times, m, shape (points, 3); one run only."""
        if self.shape != ():
            raise ValueError("path() is for one run; for arrays use position_at(times)")
        return self.position_at(np.linspace(0.0, self.run_time, points))
