"""Did it change? Centre and spread of every quantity, before against after, without false alarms over them all."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

import numpy as np

from ..core.optional import import_stats
from ..core.value import Array
from ..errors import InputError
from ..statistics import autocorrelation as serial
from ..statistics import permutation_test as ways_of
from ..units import deg, mm, mph, rpm, yd

About = Literal["centre", "spread"]
ABOUT: tuple[About, ...] = ("centre", "spread")
Answer = Literal["changed", "no change", "too few"]
#: Strikes a side below which nothing is compared: three a side have 20 regroupings, none rare enough.
FEWEST = 4
#: The chance of any false "changed" in a comparison, and of seeing the smallest change with the strikes needed.
FALSE_ALARMS, POWER = 0.05, 0.8
#: The share of the intervals that hold the true change, each for itself.
LEVEL = 0.95
#: The smallest change worth having where the user states none, by SI unit and by name; chosen, as a coach might.
SMALLEST_BY_UNIT = {"rad": 1 * deg, "m": 5 * yd, "m/s": 1 * mph, "rad/s": 300 * rpm, "s": 0.2, "1": 0.02}
SMALLEST_BY_NAME = {"strike_toe": 5 * mm, "strike_high": 5 * mm, "closure_rate": 100 * deg, "tee_height": 5 * mm,
                    "ball_speed": 2 * mph, "apex": 3 * yd, "landing_speed": 2 * mph}  # fmt: skip


@dataclass(frozen=True)
class Change:
    """How the centre or the spread of one quantity changed.

    Attributes
    ----------
    quantity : str
        The quantity.
    si : str
        Its SI unit.
    about : {"centre", "spread"}
        The mean, or the mean distance from the block's median.
    n_before, n_after : int
        Strikes in each block.
    before, after : float
        The values, SI.
    change : float
        After less before, SI.
    low, high : float
        Its 95 % interval, for this change alone, SI.
    p : float
        The p-value of the permutation test, corrected for serial correlation.
    p_adjusted : float
        The same adjusted for all tests of the comparison (Holm).
    rho : float
        Correlation of successive strikes.
    counts_as : tuple of float
        Number of independent strikes that each block is worth.
    smallest : float
        The smallest change worth having, SI.
    answer : {"changed", "no change", "too few"}
        ``"no change"``: the whole interval is inside the smallest change worth having.
    needed : tuple of int
        Least and most strikes per block to see the smallest change four times in five, as this spread allows.
    """

    quantity: str
    si: str
    about: About
    n_before: int
    n_after: int
    before: float
    after: float
    change: float
    low: float
    high: float
    p: float
    p_adjusted: float
    rho: float
    counts_as: tuple[float, float]
    smallest: float
    answer: Answer
    needed: tuple[int, int]

    @property
    def bound(self) -> float:
        """The largest change that the interval allows, SI."""
        return max(abs(self.low), abs(self.high))


@dataclass(frozen=True)
class Comparison:
    """Every change tested between two groups of strikes.

    Attributes
    ----------
    changes : tuple of Change
        The tests.
    left_out : mapping of str to str
        Quantities that could not be tested, and why.
    least_p : float
        The smallest p-value that so few strikes can give.
    """

    changes: tuple[Change, ...]
    left_out: Mapping[str, str]
    least_p: float

    @property
    def beyond_reach(self) -> bool:
        """Whether no difference, however large, could count as a change with so few strikes and so many tests."""
        return bool(self.changes) and self.least_p * len(self.changes) > FALSE_ALARMS


def holm(p: Array) -> Array:
    """p-values adjusted for their number, along the last axis.

    Source: Holm, Scand. J. Statistics 6 (1979) 65 (from memory).
    """
    p = np.asarray(p, float)
    order = np.argsort(p, axis=-1)
    steps = np.take_along_axis(p, order, -1) * np.arange(p.shape[-1], 0, -1)
    adjusted = np.empty_like(p)
    np.put_along_axis(adjusted, order, np.minimum(np.maximum.accumulate(steps, -1), 1.0), -1)
    return adjusted


def smallest_worth_having(quantity: str, si: str) -> float:
    """The default smallest change worth having, SI."""
    return SMALLEST_BY_NAME.get(quantity, SMALLEST_BY_UNIT.get(si, 0.02))


def p_values(before: Array, after: Array, *, regroupings: int = 9_999, seed: int = 0) -> Array:
    """p-values of whole sessions at once: before (…, quantities, n), after (…, quantities, m).

    Returns (…, quantities, 2): of the centre and of the spread, serial correlation answered, not yet adjusted.
    """
    ways = ways_of.regroupings(before.shape[-1], after.shape[-1], regroupings, seed)
    rho = serial.correlations(serial.log_likelihood(before), serial.log_likelihood(after))
    tests = (ways_of.centres(before, after, ways, rho), ways_of.spreads(before, after, ways, rho))
    return np.stack([test.p for test in tests], -1)


def compare(
    before: Mapping[str, Array],
    after: Mapping[str, Array],
    units: Mapping[str, str],
    *,
    smallest: Mapping[str, float] | None = None,
    regroupings: int = 9_999,
    seed: int = 0,
) -> Comparison:
    """Compares two groups of strikes, quantity by quantity; needs the ``statistics`` extra.

    before, after: for each quantity its strikes in the order they were struck, SI, NaN where one is missing.
    units: the SI unit of each quantity. smallest: the smallest change worth having, SI, if not the default.
    The chance that anything at all is called changed when nothing is stays near 5 %. Deterministic for a seed.
    """
    smallest = smallest or {}
    there, left_out = _comparable(before, after)
    if not there:
        return Comparison((), left_out, 1.0)
    rho = dict(zip(there, serial.correlation_of(list(there.values())), strict=True))
    asked, least = [], 0.0
    for name, (early, late) in there.items():
        ways = ways_of.regroupings(len(early), len(late), regroupings, seed)
        least = max(least, ways.least_p)
        r = float(rho[name])
        asked += [(name, about, r, early, late, *_ask(about, early, late, ways, r)) for about in ABOUT]
    adjusted = holm(np.array([float(test.p) for *_, test, _ in asked]))
    changes = tuple(
        _answer(name, units[name], about, early, late, r, test, interval, float(p), len(asked),
              smallest.get(name, smallest_worth_having(name, units[name])))
        for (name, about, r, early, late, test, interval), p in zip(asked, adjusted, strict=True)
    )  # fmt: skip
    return Comparison(changes, left_out, least)


def _comparable(
    before: Mapping[str, Array], after: Mapping[str, Array]
) -> tuple[dict[str, tuple[Array, Array]], dict[str, str]]:
    """The quantities that both sides have enough of, without the missing strikes; and why not the others."""
    there, left_out = {}, {}
    for name in before:
        if name not in after:
            raise InputError(f"{name} is among the strikes before, not among those after")
        early, late = (np.asarray(x, float)[np.isfinite(x)] for x in (before[name], after[name]))
        if min(len(early), len(late)) < FEWEST:
            left_out[name] = f"{len(early)} before and {len(late)} after: it takes {FEWEST} a side to compare"
        elif np.ptp(early) == 0 and np.ptp(late) == 0 and early[0] == late[0]:
            left_out[name] = "every strike has the same value"
        else:
            there[name] = early, late
    return there, left_out


def _ask(
    about: About, early: Array, late: Array, ways: ways_of.Regroupings, rho: float
) -> tuple[ways_of.Difference, tuple[float, float]]:
    if about == "centre":
        return ways_of.centres(early, late, ways, rho), ways_of.centre_interval(early, late, ways, rho, LEVEL)
    return ways_of.spread_interval(early, late, ways, rho, LEVEL)


def _answer(
    name: str, si: str, about: About, early: Array, late: Array, rho: float, test: ways_of.Difference,
    interval: tuple[float, float], adjusted: float, questions: int, smallest: float,
) -> Change:  # fmt: skip
    if not smallest > 0 or not math.isfinite(smallest):
        raise InputError(f"the smallest change of {name} is {smallest:g} {si}; it must be above 0")
    if about == "spread":
        early, late, rho_there = (
            ways_of.deviations(early),
            ways_of.deviations(late),
            float(serial.of_deviations(rho)),
        )
    else:
        rho_there = rho
    low, high = interval
    bound = max(abs(low), abs(high))
    answer: Answer = "changed" if adjusted <= FALSE_ALARMS else "no change" if bound <= smallest else "too few"
    sides = [len(early), len(late)]
    return Change(
        quantity=name, si=si, about=about, n_before=sides[0], n_after=sides[1],
        before=float(early.mean()), after=float(late.mean()), change=float(test.estimate), low=low, high=high,
        p=float(test.p), p_adjusted=adjusted, rho=rho,
        counts_as=(sides[0] / float(serial.inflation(sides[0], rho_there)),
                   sides[1] / float(serial.inflation(sides[1], rho_there))),
        smallest=smallest, answer=answer, needed=_needed_range(early, late, rho_there, smallest, questions),
    )  # fmt: skip


def strikes_needed(spread: float, smallest: float, *, rho: float = 0.0, questions: int = 1) -> int:
    """Strikes a side to see a change of the smallest size four times in five, with this standard deviation.

    Two means against each other by the normal approximation, with a quarter of z² for the small sample;
    questions: how many are asked at once, each then at its share of 5 %.
    """
    norm = import_stats().norm
    z, more = norm.isf(FALSE_ALARMS / questions / 2), norm.ppf(POWER)
    several = 2 * ((z + more) * spread / smallest) ** 2 * (1 + rho) / (1 - rho)
    return max(FEWEST, math.ceil(float(several + z**2 / 4)))


def _needed_range(early: Array, late: Array, rho: float, smallest: float, questions: int) -> tuple[int, int]:
    """``strikes_needed`` over the 80 % interval of the spread of both sides together."""
    free = len(early) + len(late) - 2
    squares = early.var() * len(early) + late.var() * len(late)
    chi2 = import_stats().chi2
    ends = (math.sqrt(squares / chi2.ppf(share, free)) for share in (0.9, 0.1))
    least, most = (strikes_needed(s, smallest, rho=rho, questions=questions) for s in ends)
    return least, most
