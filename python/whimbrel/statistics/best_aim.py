"""Target play: how many strikes finish where they should, and where to aim with this pattern."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ..core.value import Array
from ..units import deg, yd
from .random_numbers import generator
from .targets import Target, wilson

#: Strikes at most among which the best aim is sought; more are drawn from.
SOUGHT = 1_000
#: Aims tried: directions times distances; resamples for the spread of the best.
DIRECTIONS, DISTANCES, RESAMPLES = 61, 41, 200


@dataclass(frozen=True)
class TargetPlay:
    """How some landings did against a target, and the aim that would suit them.

    Attributes
    ----------
    target : Target
        The target.
    n, hits : int
        Landings, and those on the target.
    rate : float
        Share of hits.
    low, high : float
        Its 95 % Wilson interval.
    direction : float
        Shift of the aim that holds most strikes, rad; positive right.
    distance : float
        The same beyond the target, m.
    direction_sd, distance_sd : float
        How far that shift varies when the strikes are resampled, rad and m.
    aimed_rate : float
        Share of these strikes that it would hold, which flatters.
    left_out_rate : float
        Share of strikes held by the aim that suits the others best, which does not flatter.
    sought_in : int
        Strikes the aim was sought among.
    """

    target: Target
    n: int
    hits: int
    rate: float
    low: float
    high: float
    direction: float
    distance: float
    direction_sd: float
    distance_sd: float
    aimed_rate: float
    left_out_rate: float
    sought_in: int


def target_play(offline: Array, downrange: Array, target: Target, *, seed: int = 0) -> TargetPlay | None:
    """Landings, shape (n,), m, against a target; None without any. NaN landings are left out."""
    there = np.isfinite(offline + downrange)
    x, y = np.asarray(offline, float)[there], np.asarray(downrange, float)[there]
    n = len(x)
    if n == 0:
        return None
    hits = int(target.holds(x, y).sum())
    rng = generator(seed)
    some = rng.choice(n, SOUGHT, replace=False) if n > SOUGHT else np.arange(n)
    x, y = x[some], y[some]
    aims = _try(x, y, target)
    held = aims.held
    score, cost = held.sum(1, dtype=np.float32), aims.cost(x, y)
    best = int(np.argmax(score - cost))
    others = [int(np.argmax(score - held[:, i] - cost)) for i in range(len(x))]
    again = rng.integers(0, len(x), (RESAMPLES, len(x)))
    times = np.stack([np.bincount(some, minlength=len(x)) for some in again]).astype(np.float32)
    scores = times @ held.T
    drawn = [int(np.argmax(s - aims.cost(x[some], y[some]))) for s, some in zip(scores, again, strict=True)]
    return TargetPlay(
        target, n, hits, hits / n, *wilson(hits, n),
        float(aims.turn[best]), float(aims.shift[best]),
        float(aims.turn[drawn].std()), float(aims.shift[drawn].std()),
        float(score[best]) / len(x), float(held[others, np.arange(len(x))].mean(dtype=float)), len(x),
    )  # fmt: skip


@dataclass(frozen=True)
class _Aims:
    """The aims tried: turn and shift of each, and which strikes each holds, (aims, n)."""

    target: Target
    turn: Array
    shift: Array
    held: NDArray[np.float32]

    def cost(self, x: Array, y: Array) -> NDArray[np.float32]:
        """Below half a strike: of aims that hold as many, the one that puts the pattern's middle on the target."""
        wanted = _wanted(x, y, self.target)
        away = (
            np.abs(grid - np.median(w)) / (np.ptp(grid) or 1.0)
            for grid, w in zip((self.turn, self.shift), wanted, strict=True)
        )
        return np.asarray(0.1 * np.minimum(sum(away), 4.0), np.float32)


def _wanted(x: Array, y: Array, target: Target) -> tuple[Array, Array]:
    """The turn and the shift that would bring each strike onto the middle of the target."""
    if target.middle is None:
        return -np.arctan2(x, y), np.zeros(1)
    return np.arctan2(*target.middle) - np.arctan2(x, y), np.hypot(*target.middle) - np.hypot(x, y)


def _try(x: Array, y: Array, target: Target) -> _Aims:
    wanted_turns, wanted_shifts = _wanted(x, y, target)
    turns = _steps(wanted_turns, DIRECTIONS, 0.5 * deg)
    shifts = np.zeros(1) if target.middle is None else _steps(wanted_shifts, DISTANCES, 1 * yd)
    turn, shift = (grid.ravel() for grid in np.meshgrid(turns, shifts, indexing="ij"))
    length, angle = np.hypot(x, y) + shift[:, None], np.arctan2(x, y) + turn[:, None]
    held = target.holds(length * np.sin(angle), length * np.cos(angle)).astype(np.float32)
    return _Aims(target, turn, shift, held)


def _steps(wanted: Array, count: int, least: float) -> Array:
    """Even steps over the middle 80 % of the shifts that the single strikes want, and 0: no change."""
    low, middle, high = np.quantile(wanted, [0.1, 0.5, 0.9])
    reach = max((high - low) / 2, least)
    return np.unique(np.append(np.linspace(middle - reach, middle + reach, count), 0.0))
