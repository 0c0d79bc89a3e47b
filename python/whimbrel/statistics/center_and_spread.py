"""Centre and spread of a quantity over some strikes, ordinary and robust, with intervals that fit few strikes."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import Any

import numpy as np

from ..core.optional import import_stats
from ..core.value import Array

#: With this many strikes or fewer there are values and a range, nothing else.
FEW = 3
#: A strike is an outlier further than this many robust standard deviations from the median: Iglewicz and Hoaglin,
#: How to Detect and Handle Outliers (1993); from memory.
OUTLYING = 3.5
#: The median absolute deviation of a normal quantity as a share of its standard deviation: the normal's quartile.
QUARTILE = 0.6744897501960817
#: Samples drawn for the distribution of a small sample's median absolute deviation.
SAMPLES = 20_000


@dataclass(frozen=True)
class Interval:
    """An estimate with its 95 % interval.

    Attributes
    ----------
    estimate : float
        The estimate.
    low, high : float
        Ends of the interval; NaN if the strikes are too few for one.
    """

    estimate: float
    low: float = float("nan")
    high: float = float("nan")


@dataclass(frozen=True)
class Spread:
    """Centre and spread of one quantity, in the unit of the strikes.

    Attributes
    ----------
    n : int
        Strikes with a value.
    missing : int
        Strikes without.
    lowest, highest : float
        Smallest and largest value.
    values : tuple of float
        The values, if there are three or fewer; the rest is then None.
    mean : Interval or None
        Mean with Student's interval, exact for independent normal strikes.
    sd : Interval or None
        Standard deviation with the chi-square interval, exact for independent normal strikes.
    median : Interval or None
        Median with a distribution-free interval between two of the strikes, from six strikes.
    robust_sd : Interval or None
        Median absolute deviation, scaled to the standard deviation of a normal quantity (median-unbiased), with the
        interval of normal samples of that size.
    outliers : tuple of labels
        Strikes more than 3.5 robust_sd from the median; they still count in everything.
    """

    n: int
    missing: int
    lowest: float
    highest: float
    values: tuple[float, ...] = ()
    mean: Interval | None = None
    sd: Interval | None = None
    median: Interval | None = None
    robust_sd: Interval | None = None
    outliers: tuple[Any, ...] = ()


def spread_of(strikes: Array, labels: Any = None) -> Spread:
    """Centre and spread of strikes, shape (n,), NaN where one is missing; needs the ``statistics`` extra.

    labels: what to call each strike among the outliers, its place from 0 if not given.
    """
    strikes = np.asarray(strikes, float)
    there = np.isfinite(strikes)
    names = (np.arange(len(strikes)) if labels is None else np.asarray(labels))[there]
    x = strikes[there]
    n, missing = len(x), int((~there).sum())
    if n == 0:
        return Spread(0, missing, float("nan"), float("nan"))
    lowest, highest = float(x.min()), float(x.max())
    if n <= FEW:
        return Spread(n, missing, lowest, highest, tuple(x.tolist()))
    middle, scale = float(np.median(x)), robust_sd(x)
    far = np.abs(x - middle) > OUTLYING * scale.estimate if scale.estimate > 0 else np.zeros(n, bool)
    return Spread(n, missing, lowest, highest, (), _mean(x), _sd(x), _median(x), scale, tuple(names[far].tolist()))


def _mean(x: Array) -> Interval:
    stats, n = import_stats(), len(x)
    reach = float(stats.t.ppf(0.975, n - 1) * x.std(ddof=1) / np.sqrt(n))
    mean = float(x.mean())
    return Interval(mean, mean - reach, mean + reach)


def _sd(x: Array) -> Interval:
    free, sd = len(x) - 1, float(x.std(ddof=1))
    low, high = (sd * float(np.sqrt(free / import_stats().chi2.ppf(share, free))) for share in (0.975, 0.025))
    return Interval(sd, low, high)


def _median(x: Array) -> Interval:
    """Between two of the strikes, such that it holds at least 95 % of the time whatever the distribution; by SciPy,
    which gives none to fewer than six."""
    interval = import_stats().quantile_test(x, p=0.5).confidence_interval(0.95)
    return Interval(float(np.median(x)), float(interval.low), float(interval.high))


def robust_sd(x: Array) -> Interval:
    """Median absolute deviation, scaled to the standard deviation of a normal quantity."""
    deviation = float(np.median(np.abs(x - np.median(x))))
    low, middle, high = _share_of_sd(len(x))
    return Interval(deviation / middle, deviation / high, deviation / low)


@lru_cache
def _share_of_sd(n: int) -> tuple[float, float, float]:
    """2.5, 50 and 97.5 % points of the median absolute deviation of n normal strikes whose sd is 1.

    Drawn for up to 200 strikes; beyond, its logarithm is normal with the variance 1.3605/n (efficiency 36.75 %).
    """
    if n > 200:
        reach = 1.959964 * np.sqrt(1.3605 / n)
        return QUARTILE * float(np.exp(-reach)), QUARTILE, QUARTILE * float(np.exp(reach))
    z = np.random.default_rng(n).standard_normal((SAMPLES, n))
    drawn = np.median(np.abs(z - np.median(z, 1, keepdims=True)), 1)
    low, middle, high = np.quantile(drawn, [0.025, 0.5, 0.975])
    return float(low), float(middle), float(high)
