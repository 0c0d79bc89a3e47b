"""Serial correlation: what it costs and how it is weighed, against matrices, integrals and sums over every case."""

from itertools import product

import numpy as np
import pytest
from scipy import integrate, stats

from whimbrel.statistics.autocorrelation import (
    GRID,
    OWN,
    correlation_of,
    correlations,
    inflation,
    log_likelihood,
    of_deviations,
)


@pytest.mark.parametrize("n", [2, 7, 40])
@pytest.mark.parametrize("rho", [0.0, 0.3, 0.8])
def test_the_variance_of_a_mean_is_inflated_as_the_correlation_matrix_says(n, rho):
    """1'R1/n² over the expectation of s²/n, tr(R(1 − 11'/n))/(n − 1)/n."""
    r = rho ** np.abs(np.subtract.outer(np.arange(n), np.arange(n))).astype(float)
    of_mean, of_squares = r.sum() / n**2, (np.trace(r) - r.sum() / n) / (n - 1)
    assert float(inflation(n, rho)) == pytest.approx(of_mean / (of_squares / n), rel=1e-12)


@pytest.mark.parametrize("rho", [0.0, 0.3, 0.8])
def test_deviations_of_a_normal_series_correlate_as_the_integral_over_a_normal_pair(rho):
    rest = np.sqrt(1 - rho**2)

    def at(u):
        m = rho * u / rest  # E|ρu + rest w| over a standard normal w
        return 2 * stats.norm.pdf(u) * u * rest * (2 * stats.norm.pdf(m) + m * (1 - 2 * stats.norm.cdf(-m)))

    product_of_both = integrate.quad(at, 0, 12, epsabs=1e-12)[0]
    expected = (product_of_both - 2 / np.pi) / (1 - 2 / np.pi)
    assert float(of_deviations(rho)) == pytest.approx(expected, abs=1e-9)


def test_the_mean_correlation_is_bayes_over_every_case_of_shared_and_own(draw):
    """Each quantity shares the ρ of the others, or with the chance OWN has its own; every ρ as likely."""
    likelihood = np.exp(draw.normal(0, 2, (3, len(GRID))))
    weight, weighted = 0.0, np.zeros(3)
    for shared, *own in product(range(len(GRID)), repeat=4):
        for apart in product((False, True), repeat=3):
            at = [mine if alone else shared for mine, alone in zip(own, apart, strict=True)]
            chance = np.prod([OWN if alone else 1 - OWN for alone in apart]) * likelihood[range(3), at].prod()
            weight, weighted = weight + chance, weighted + chance * GRID[at]
    assert correlations(np.log(likelihood)) == pytest.approx(np.maximum(weighted / weight, 0.0), rel=1e-10)


def test_the_blocks_of_a_quantity_add_up_and_one_without_spread_says_nothing(draw):
    early, late = draw.normal(size=12), draw.normal(size=9)
    both = correlations((log_likelihood(early) + log_likelihood(late))[None])
    assert correlation_of([[early, late]]) == pytest.approx(both, rel=1e-12)
    assert correlation_of([[early, np.full(9, 3.0), late]]) == pytest.approx(both, rel=1e-12)


def test_sessions_in_a_stack_are_weighed_each_for_itself(draw):
    likelihood = draw.normal(0, 5, (4, 3, len(GRID)))
    assert correlations(likelihood) == pytest.approx(np.array([correlations(x) for x in likelihood]), rel=1e-12)


def test_strikes_that_alternate_count_as_independent():
    assert correlation_of([[np.tile([1.0, -1.0], 30)]]) == [0.0]
