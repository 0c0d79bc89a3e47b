"""What the samples of a cloud add up to: block by block, and the same bits whoever played which block."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import NamedTuple

import numpy as np

from ..core.value import Array

#: Samples a block has; the last one has what is left. Part of what a cloud is: another size rounds otherwise.
BLOCK = 65_536
#: Samples with bad input whose mistakes are kept one by one.
MISTAKES = 5


class Estimate(NamedTuple):
    """A number estimated from samples, and the standard error that their number leaves."""

    value: float
    standard_error: float


@dataclass(frozen=True)
class Sums:
    """Sums over some samples of their outputs a, b, … less a fixed origin; ``+`` adds more samples.

    Attributes
    ----------
    samples : int
        Samples played.
    good : int
        Samples with every output; only these are in the sums.
    first, second, third, fourth : array
        Σa, Σab, Σa²b, Σa²b² for all pairs.
    hits : tuple of int
        Good samples in each region.
    failed : mapping of str to int
        Failed samples, by status.
    stretched : mapping of str to int
        Good samples that left a model's stated range, by what left it.
    mistakes : tuple of (int, str)
        The first samples with bad input, and what is wrong with each.
    """

    samples: int
    good: int
    first: Array
    second: Array
    third: Array
    fourth: Array
    hits: tuple[int, ...] = ()
    failed: Mapping[str, int] = field(default_factory=dict)
    stretched: Mapping[str, int] = field(default_factory=dict)
    mistakes: tuple[tuple[int, str], ...] = ()

    def __add__(self, more: Sums) -> Sums:
        return Sums(
            self.samples + more.samples,
            self.good + more.good,
            self.first + more.first,
            self.second + more.second,
            self.third + more.third,
            self.fourth + more.fourth,
            tuple(a + b for a, b in zip(self.hits, more.hits, strict=True)),
            Counter(self.failed) + Counter(more.failed),
            Counter(self.stretched) + Counter(more.stretched),
            (self.mistakes + more.mistakes)[:MISTAKES],
        )


def powers(outputs: Array, origin: Array) -> tuple[Array, Array, Array, Array]:
    """First to fourth of ``Sums``, of outputs, shape (outputs, samples); NaN samples are left out."""
    a = np.ascontiguousarray(outputs[:, np.isfinite(outputs).all(0)] - origin[:, None])
    squares = a * a  # not a matrix product, whose order of adding is the machine's
    pairs = [[(x * y).sum() for y in a] for x in a]
    third = [[(xx * y).sum() for y in a] for xx in squares]
    fourth = [[(xx * yy).sum() for yy in squares] for xx in squares]
    return a.sum(1), np.array(pairs), np.array(third), np.array(fourth)


def add_up(blocks: Iterable[Sums]) -> Sums:
    """The blocks' sums added in the order they come in, which must be that of the samples."""
    total, *rest = blocks
    for block in rest:
        total = total + block
    return total


@dataclass(frozen=True)
class Moments:
    """Mean and covariance of n samples with their standard errors, which take no distribution for granted.

    mean, mean_error: (outputs,). covariance, covariance_error: (outputs, outputs). NaN for fewer than two samples.
    """

    mean: Array
    mean_error: Array
    covariance: Array
    covariance_error: Array


def moments(sums: Sums, origin: Array) -> Moments:
    """Of the good samples. The error of a covariance is by the fourth central moments."""
    n = sums.good
    if n < 2:
        none = np.full(len(origin), np.nan)
        square = np.full((len(origin), len(origin)), np.nan)
        return Moments(sums.first / n + origin if n else none, none, square, square)
    m, second, third, fourth = (x / n for x in (sums.first, sums.second, sums.third, sums.fourth))
    central = second - np.outer(m, m)
    m2, squares = m * m, second.diagonal()
    crossed = 2 * third * m
    mixed = fourth - crossed - crossed.T + np.outer(squares, m2) + np.outer(m2, squares)
    mixed += 4 * np.outer(m, m) * second - 3 * np.outer(m2, m2)
    covariance = central * n / (n - 1)
    of_mean = np.sqrt(np.maximum(covariance.diagonal(), 0.0) / n)
    return Moments(m + origin, of_mean, covariance, np.sqrt(np.maximum(mixed - central**2, 0.0) / n))


def quantile(values: Array, probability: float) -> Estimate:
    """Of values without NaN. The error: half between the values one binomial standard deviation to either side."""
    ordered = np.sort(values)
    n = len(ordered)
    if n == 0:
        return Estimate(float("nan"), float("nan"))
    reach = np.sqrt(n * probability * (1 - probability))
    low, high = np.interp([n * probability - reach - 0.5, n * probability + reach - 0.5], np.arange(n), ordered)
    return Estimate(float(np.quantile(ordered, probability)), float(high - low) / 2)
