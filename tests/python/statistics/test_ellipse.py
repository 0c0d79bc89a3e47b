"""The ellipse of further landings: against Hotelling's T² by SciPy, and where there is none."""

import numpy as np
import pytest
from scipy import stats

from whimbrel.statistics.center_and_spread import FEW
from whimbrel.statistics.ellipse import Ellipse, expected_within


@pytest.mark.parametrize(("n", "coverage"), [(4, 0.5), (12, 0.8), (200, 0.95)])
def test_it_holds_the_points_that_hotellings_t_squared_does(draw, n, coverage):
    """(p − mean)' S⁻¹ (p − mean) ≤ 2 (n² − 1) / (n (n − 2)) F, of 2 and n − 2 degrees of freedom."""
    points = draw.multivariate_normal([150.0, -10.0], [[9.0, 5.0], [5.0, 16.0]], n).T
    ellipse = expected_within(*points, coverage)
    bound = 2 * (n * n - 1) / (n * (n - 2)) * stats.f.ppf(coverage, 2, n - 2)
    factor = np.linalg.cholesky(np.cov(points))
    turn = np.linspace(0, 2 * np.pi, 37)
    for share in (0.999, 1.001):
        edge = points.mean(1)[:, None] + share * np.sqrt(bound) * factor @ [np.cos(turn), np.sin(turn)]
        assert (ellipse.holds(*edge) == (share < 1)).all()
    assert ellipse.half_axes[0] > ellipse.half_axes[1]


def test_the_longer_axis_points_its_way():
    ellipse = Ellipse((1.0, 2.0), (4.0, 1.0), np.pi / 2)
    assert ellipse.holds(np.array([1.0, 1.9, 2.1]), np.array([5.9, 2.0, 2.0])).tolist() == [True, True, False]


def test_there_is_none_of_few_points_or_of_points_on_a_line(draw):
    x, y = draw.normal(size=(2, FEW + 1))
    assert expected_within(x, y) is not None
    assert expected_within(x[:FEW], y[:FEW]) is None
    assert expected_within(np.append(x[:FEW], np.nan), y) is None
    assert expected_within(x, 2 * x) is None and expected_within(x, np.zeros(FEW + 1)) is None
    assert expected_within(np.ones(9), np.ones(9)) is None
