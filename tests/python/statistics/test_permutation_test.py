"""p-values of drawn regroupings, and the limit of many strikes."""

import numpy as np
import pytest
from scipy import stats

from whimbrel.statistics import autocorrelation as serial
from whimbrel.statistics.permutation_test import MANY, centre_interval, centres, regroupings, spread_interval


def test_a_p_value_from_drawn_regroupings_counts_the_observed_one_too_and_is_never_0(draw):
    """(1 + those that reach it) / (1 + drawn): Phipson and Smyth, Stat. Appl. Genet. Mol. Biol. 9 (2010), 39."""
    ways = regroupings(25, 20, 99, 0)
    before, after = draw.normal(0, 1, 25), draw.normal(0, 1, 20) + 100
    assert not ways.all and float(centres(before, after, ways).p) == ways.least_p == 1 / 100
    assert ways.p(np.array([0, 4, 99])) == pytest.approx([0.01, 0.05, 1.0], abs=1e-15)


def test_a_p_value_from_all_regroupings_has_the_observed_one_among_them():
    ways = regroupings(5, 4, 99, 0)
    assert ways.all and ways.least_p == 1 / 126
    assert ways.p(np.array([1, 126])) == pytest.approx([1 / 126, 1.0], abs=1e-15)
    # of two groups of one size the mirrored regrouping differs as much
    assert regroupings(5, 5, 99, 0).least_p == 2 / 252


@pytest.mark.parametrize("rho", [0.0, 0.4])
def test_of_many_strikes_p_value_and_interval_are_the_normals_with_serial_correlation(draw, rho):
    n, m = MANY // 2, MANY
    before, after = draw.normal(0, 1, n), draw.normal(0.1, 2, m)
    counts = n / serial.inflation(n, rho), m / serial.inflation(m, rho)
    error = np.sqrt(before.var(ddof=1) / counts[0] + after.var(ddof=1) / counts[1])
    change = after.mean() - before.mean()
    ways = regroupings(n, m, 99, 0)
    assert float(centres(before, after, ways, rho).p) == pytest.approx(
        2 * stats.norm.sf(abs(change) / error), rel=1e-12
    )
    normal = stats.norm(change, error)
    assert centre_interval(before, after, ways, rho, 0.9) == pytest.approx(normal.interval(0.9), rel=1e-12)

    def away(x):
        return np.abs(x - np.median(x))

    at = float(serial.of_deviations(rho))
    parts = [away(x).var(ddof=1) / len(x) * serial.inflation(len(x), at) for x in (before, after)]
    spread, error = away(after).mean() - away(before).mean(), np.sqrt(sum(parts))
    found, interval = spread_interval(before, after, ways, rho, 0.9)
    assert float(found.p) == pytest.approx(2 * stats.norm.sf(abs(spread) / error), rel=1e-12)
    assert interval == pytest.approx(stats.norm(spread, error).interval(0.9), rel=1e-12)
