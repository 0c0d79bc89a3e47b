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
    """What a ball lands and rolls on, relative to the turf that the bounce law was fitted to.

    Parameters
    ----------
    name : str
        What to call it.
    restitution_scale : float or array
        Factor on the restitution of the fitted turf. All numbers broadcast together.
    friction : float or array
        Friction coefficient between ball and turf, in a bounce and in a skid.
    tilt_scale : float or array
        Factor on how far the surface leans back at the ball; more on softer ground.
    rolling_deceleration : float or array
        Deceleration of a ball rolling on the level at up to 6 m/s, m/s². Above, (v / 6 m/s − 1)² times as much is
        added for grass and air.

    Notes
    -----
    The default is a firm fairway. Its bounce is the fitted law: Penner, Can. J. Phys. 80 (2002) 931 (from memory).
    How it slows a rolling ball is calibrated by this project on common practice.
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
    """Build the turf of a green from its speed and firmness.

    Parameters
    ----------
    stimp : float or array
        How far a ball released by a Stimpmeter rolls, m, 1 to 6 (10 ft is 3.048 m). Both numbers broadcast; Dask
        arrays are computed.
    firmness : float or array
        From 0, soft, to 1, firm; its effect is calibrated by this project on common practice.
    name : str
        What to call it.

    Returns
    -------
    Turf
        The turf, of the common shape.

    Raises
    ------
    InputError
        For numbers out of range.
    """
    speed = _Green(stimp, firmness)
    shape = common_shape([speed])
    rows = int(np.prod(shape))
    table, mistakes = _core.turfs_of_greens(table_of(speed, shape), rows)
    refuse(mistakes, rows)
    return from_table(Turf, table, shape, name=name)


def load_turfs(path: str | Path) -> Turfs:
    """Load your own turfs from a TOML file.

    Parameters
    ----------
    path : str or Path
        A file with one ``[[turf]]`` each, as a green or by the numbers of ``Turf``, with units in the keys.

    Returns
    -------
    Turfs
        The turfs by name.

    Raises
    ------
    InputError
        For a mistake in the file; it names the turf and the key.

    Examples
    --------
    A file of two turfs::

        [[turf]]
        name = "our greens in June"
        stimp_ft = 11
        firmness = 0.7

        [[turf]]
        name = "winter fairway"        # missing numbers are the firm fairway's
        restitution_scale = 0.5
        friction = 0.45
        tilt_scale = 1.3
        rolling_deceleration_mps2 = 2.0
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
    """The velocity and spin with which a ball lands.

    Parameters
    ----------
    landing_speed : float or array
        Speed, m/s. All numbers broadcast together.
    descent_angle : float or array
        Angle of the path below the horizontal, rad.
    landing_direction : float or array
        Direction of the path, rad; positive right of the target line.
    landing_spin_rate : float or array
        Total spin, rad/s.
    spin_axis_tilt : float or array
        Tilt of the spin axis from the level, rad; positive curves right, 0 is pure backspin, ±180° topspin.
    axial_spin_rate : float or array
        Spin about the level landing direction, rad/s.
    """

    landing_speed: Number
    descent_angle: Number
    landing_direction: Number = 0.0
    landing_spin_rate: Number = 0.0
    spin_axis_tilt: Number = 0.0
    axial_spin_rate: Number = 0.0


@dataclass(frozen=True, repr=False)
class Run(Value, kind="Run"):
    """From the landing to rest: bounces, the hops between them, skid and roll.

    Attributes
    ----------
    total : float or array
        Horizontal distance from the start of the shot to rest, m.
    total_downrange : float or array
        Place of rest along the target line, m.
    total_offline : float or array
        Place of rest right of the target line, m.
    distance : float or array
        Distance from the landing to rest in the direction of the landing, m; negative where the ball came back.
    bounces : int or array
        Number of bounces, the landing included.
    run_time : float or array
        Time from the landing to rest, s.
    status : str or array of str
        ``"ok"``; ``"no_rest"``: still moving 30 s after the last bounce, as on a slope too steep for the turf, and
        the numbers are those at that time; or the status of a flight or hop that failed: NaN.
    replay : callable or None
        Looks up positions; None for a run that was put together by hand.

    Notes
    -----
    A ball faster than 6 m/s slows more than by its turf's rolling deceleration: see ``Turf``.
    The place of rest is continuous where the number of hops changes, so one hop more or fewer hardly moves it.
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
        """Compute where the ball's centre is.

        Parameters
        ----------
        time : float or array
            Time after the landing, s.

        Returns
        -------
        array
            Position: x right, y downrange and z up, m. Shape: the run's, then the time's, then 3.

        Raises
        ------
        ValueError
            For times that are not finite, and for a run without a replay.
        """
        return sample(self, self.replay, time)

    def path(self, points: int = 200) -> Array:
        """Compute the positions of one run at evenly spaced times.

        Parameters
        ----------
        points : int
            Number of positions.

        Returns
        -------
        array
            Positions from the landing to rest, m, shape (points, 3).

        Raises
        ------
        ValueError
            For an array of runs.
        """
        if self.shape != ():
            raise ValueError("path() is for one run; for arrays use position_at(times)")
        return self.position_at(np.linspace(0.0, self.run_time, points))
