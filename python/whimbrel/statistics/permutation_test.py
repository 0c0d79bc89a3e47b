"""Two groups regrouped at random: is the difference of their centres, or of their spreads, more than chance?

Both statistics are studentised differences (Welch's), which keeps a test of centres about centres where the
spreads differ (Janssen 1997; Chung and Romano, Annals of Statistics 41, 2013, 484; from memory). Centres are means:
for them the cost of serial correlation has a closed form, regrouping needs no normality, and a median of six
strikes takes too few values. Spreads are mean absolute deviations from each group's median.

Not by SciPy's ``permutation_test``: it takes strikes as exchangeable, and those in a row resemble each other. Here
the statistics allow for that (``autocorrelation``).
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property, lru_cache
from itertools import combinations
from math import comb

import numpy as np
from numpy.typing import NDArray

from ..core.optional import import_stats
from ..core.value import Array
from . import autocorrelation as serial
from .random_numbers import generator

#: Every regrouping is taken where there are no more than this, else as many as asked are drawn.
ALL = 20_000
#: From this many strikes in all, the studentised differences are taken as standard normal, their limit.
MANY = 1_000
#: Numbers in memory at once.
CHUNK = 4_000_000


@dataclass(frozen=True)
class Regroupings:
    """Which strikes form the first group, a row a regrouping. first: (count, n + m) of 0 and 1. all: every one is
    there, so that shares of them are exact."""

    n: int
    m: int
    first: Array
    all: bool

    def p(self, counts: Array) -> Array:
        """The p-value where ``counts`` regroupings do as much as the observed grouping."""
        rows = len(self.first)
        return np.asarray(counts / rows if self.all else (counts + 1) / (rows + 1))

    @cached_property
    def order(self) -> NDArray[np.intp]:
        """The strikes of the first group, then those of the second, a row a regrouping."""
        return np.argsort(-self.first, axis=1, kind="stable")

    @property
    def least_p(self) -> float:
        """The smallest p-value there can be, however large the difference."""
        if not self.first.size:
            return 0.0
        return float(self.p(np.array(1 + (self.n == self.m) if self.all else 0)))


@lru_cache(maxsize=4)
def regroupings(n: int, m: int, count: int, seed: int) -> Regroupings:
    """All ways to split n + m strikes, or ``count`` random ones."""
    if n + m >= MANY:
        return Regroupings(n, m, np.zeros((0, 0)), False)
    if comb(n + m, n) <= ALL:
        first = np.zeros((comb(n + m, n), n + m))
        np.put_along_axis(first, np.array(list(combinations(range(n + m), n))), 1.0, 1)
        return Regroupings(n, m, first, True)
    first = np.zeros((count, n + m))
    first[:, :n] = 1.0
    return Regroupings(n, m, generator(seed).permuted(first, axis=1), False)


@dataclass(frozen=True)
class Difference:
    """After less before: the estimate, its standard error with serial correlation in it, and the p-value."""

    estimate: Array
    error: Array
    p: Array


def studentise(before: Array, after: Array, rho: Array | float = 0.0) -> tuple[Array, Array]:
    """Difference of the means of the last axes, and its standard error at serial correlation ρ."""
    n, m = before.shape[-1], after.shape[-1]
    error = before.var(-1, ddof=1) / n * serial.inflation(n, rho) + after.var(-1, ddof=1) / m * serial.inflation(
        m, rho
    )
    return after.mean(-1) - before.mean(-1), np.sqrt(error)


def _ratio(difference: Array, error: Array) -> Array:
    """|t|; 0 where nothing differs, infinite where there is a difference and no spread."""
    tiny = 1e-12 * np.maximum(np.abs(difference), error)
    with np.errstate(divide="ignore", invalid="ignore"):
        t = np.abs(difference) / np.where(error > tiny, error, 0.0)
    return np.asarray(np.nan_to_num(t, nan=0.0, posinf=np.inf))


def _normal_p(t: Array) -> Array:
    return np.asarray(2 * import_stats().norm.sf(t))


def _counts(distribution: Array, t: Array) -> Array:
    """How many of each row of |t| reach the observed one; a hair of rounding is forgiven."""
    return np.asarray((distribution >= (t * (1 - 1e-9))[:, None]).sum(-1))


def centres(before: Array, after: Array, ways: Regroupings, rho: Array | float = 0.0) -> Difference:
    """Test of the means, before (…, n) and after (…, m), for each leading index. Exact for exchangeable strikes."""
    difference, error = studentise(before, after, rho)
    t = _ratio(difference, error)
    if not ways.first.size:
        return Difference(difference, error, _normal_p(t))
    x = np.concatenate([before, after], -1).reshape(-1, ways.n + ways.m)
    flat, counts = t.ravel(), np.empty(t.size)
    step = max(1, CHUNK // len(ways.first))
    for i in range(0, len(x), step):
        counts[i : i + step] = _counts(shifted_t(x[i : i + step], ways)(0.0), flat[i : i + step])
    return Difference(difference, error, ways.p(counts).reshape(t.shape))


def shifted_t(x: Array, ways: Regroupings) -> Callable[[float], Array]:
    """|t| of every regrouping as a function of a shift taken off the second group first; x is (rows, n + m).

    Sums and squares are polynomials in the shift, so that a test at another shift costs next to nothing.
    """
    n, m = ways.n, ways.m
    x = x - x.mean(-1, keepdims=True)
    late = np.r_[np.zeros(n), np.ones(m)]
    one, two, cross = x @ ways.first.T, x**2 @ ways.first.T, (x * late) @ ways.first.T
    moved = ways.first @ late
    total, squares, shifted = x.sum(-1)[:, None], (x**2).sum(-1)[:, None], (x * late).sum(-1)[:, None]

    def at(shift: float) -> Array:
        a, aa = one - shift * moved, two - 2 * shift * cross + shift**2 * moved
        b = total - shift * m - a
        bb = squares - 2 * shift * shifted + shift**2 * m - aa
        va, vb = (aa - a**2 / n) / (n - 1) / n, (bb - b**2 / m) / (m - 1) / m
        return _ratio(b / m - a / n, np.sqrt(np.maximum(va, 0) + np.maximum(vb, 0)))

    return at


def deviations(x: Array) -> Array:
    """Absolute deviations from the median of the last axis."""
    return np.abs(x - np.median(x, -1, keepdims=True))


def spread_distribution(before: Array, after: Array, ways: Regroupings) -> Array:
    """|t| of the spreads for every regrouping of one quantity's residuals.

    The strikes are first put on one median, then regrouped, and the deviations are taken again from the medians of
    the regrouped groups: deviations from a group's own median are not exchangeable, and in groups of ten or fewer
    that matters.
    """
    rest = np.concatenate([before - np.median(before), after - np.median(after)])
    parts = []
    step = max(1, CHUNK // len(rest))
    for i in range(0, len(ways.order), step):
        x = rest[ways.order[i : i + step]]
        parts.append(_ratio(*studentise(deviations(x[:, : ways.n]), deviations(x[:, ways.n :]))))
    return np.concatenate(parts)


def spreads(before: Array, after: Array, ways: Regroupings, rho: Array | float = 0.0) -> Difference:
    """Test of the mean absolute deviations from the medians, for each leading index."""
    difference, error = spread_difference(before, after, np.broadcast_to(rho, before.shape[:-1]))
    t = _ratio(difference, error)
    if not ways.first.size:
        return Difference(difference, error, _normal_p(t))
    counts = np.empty(t.shape)
    for place in np.ndindex(t.shape):
        counts[place] = _counts(spread_distribution(before[place], after[place], ways)[None], t[place][None])[0]
    return Difference(difference, error, ways.p(counts))


def spread_difference(before: Array, after: Array, rho: Array | float) -> tuple[Array, Array]:
    """Difference of the mean absolute deviations, and its standard error; ρ is that of the strikes."""
    return studentise(deviations(before), deviations(after), serial.of_deviations(rho))


def centre_interval(
    before: Array, after: Array, ways: Regroupings, rho: float, level: float
) -> tuple[float, float]:
    """The shifts that the test of the means does not reject at 1 − level: the test turned around.

    Infinite where the strikes are too few for any shift to be rejected.
    """
    difference, error = (float(x) for x in studentise(before, after, rho))
    if not ways.first.size:
        reach = error * float(import_stats().norm.ppf((1 + level) / 2))
        return difference - reach, difference + reach
    t_at = shifted_t(np.concatenate([before, after])[None], ways)

    def kept(shift: float) -> bool:
        t = _ratio(np.array([difference - shift]), np.array([error]))
        return bool(ways.p(_counts(t_at(shift), t))[0] > 1 - level)

    return _edge(kept, difference, -error), _edge(kept, difference, error)


def _edge(kept: Callable[[float], bool], start: float, step: float) -> float:
    """Where ``kept`` ends, from the start in the direction of the step."""
    if step == 0.0:
        return start
    reach = step
    for _ in range(40):
        if not kept(start + reach):
            break
        reach *= 2
    else:
        return float(np.copysign(np.inf, step))
    inside, outside = (0.0 if reach == step else reach / 2), reach
    for _ in range(30):
        middle = (inside + outside) / 2
        inside, outside = (middle, outside) if kept(start + middle) else (inside, middle)
    return start + inside


def spread_interval(
    before: Array, after: Array, ways: Regroupings, rho: float, level: float
) -> tuple[Difference, tuple[float, float]]:
    """``spreads`` of one quantity, and its interval: give or take what the regroupings reach by chance."""
    difference, error = spread_difference(before, after, rho)
    if not ways.first.size:
        p, reach = _normal_p(_ratio(difference, error)), float(import_stats().norm.ppf((1 + level) / 2))
    else:
        chance = spread_distribution(before, after, ways)
        p = ways.p(_counts(chance[None], _ratio(difference, error)[None])[0])
        spare = int((1 - level) * len(chance)) if ways.all else int((1 - level) * (len(chance) + 1)) - 1
        reach = float(np.sort(chance)[::-1][spare]) if spare > 0 else np.inf
    reach = reach * float(error) if error > 0 else 0.0
    return Difference(difference, error, p), (float(difference) - reach, float(difference) + reach)
