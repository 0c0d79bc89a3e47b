"""Centre and spread, against SciPy and by simulation."""

import numpy as np
import pytest
from scipy import stats

from whimbrel.statistics.center_and_spread import FEW, OUTLYING, QUARTILE, robust_sd, spread_of


def test_mean_and_spread_have_the_intervals_of_student_and_chi_square(draw):
    x = draw.normal(3.0, 2.0, 17)
    spread = spread_of(x)
    t = stats.ttest_1samp(x, 0.0).confidence_interval(0.95)
    assert (spread.mean.low, spread.mean.high) == pytest.approx((t.low, t.high), rel=1e-12)
    assert spread.mean.estimate == pytest.approx(x.mean()) and spread.sd.estimate == pytest.approx(x.std(ddof=1))
    low, high = 16 * x.var(ddof=1) / stats.chi2.ppf([0.975, 0.025], 16)
    assert (spread.sd.low, spread.sd.high) == pytest.approx((low**0.5, high**0.5), rel=1e-12)


@pytest.mark.parametrize(
    ("n", "first", "last"), [(6, 1, 6), (10, 2, 9), (20, 6, 15), (30, 10, 21), (50, 18, 33), (100, 40, 61)]
)
def test_the_median_lies_between_the_strikes_that_the_tables_name(draw, n, first, last):
    """Altman et al., Statistics with Confidence (2000), ranks for the interval of a median; from memory."""
    x = draw.standard_t(3, n)
    interval, ordered = spread_of(x).median, np.sort(x)
    assert (interval.low, interval.high) == (ordered[first - 1], ordered[last - 1])


def test_the_median_of_five_strikes_has_no_interval_of_95_percent(draw):
    interval = spread_of(draw.normal(size=5)).median
    assert np.isnan(interval.low) and np.isnan(interval.high) and np.isfinite(interval.estimate)


@pytest.mark.parametrize("n", [4, 8, 30, 300])
def test_the_robust_spread_covers_the_true_one_in_95_of_100_normal_samples(draw, n):
    runs = 1500
    found = [robust_sd(draw.standard_normal(n)) for _ in range(runs)]
    covered = np.mean([i.low < 1 < i.high for i in found])
    assert abs(covered - 0.95) < 4 * np.sqrt(0.95 * 0.05 / runs)
    assert abs(np.mean([i.estimate > 1 for i in found]) - 0.5) < 4 * np.sqrt(0.25 / runs)  # median-unbiased


def test_the_robust_spread_of_many_strikes_is_scipys_and_ignores_a_wild_one(draw):
    x = draw.normal(0, 2.0, 1001)
    assert robust_sd(x).estimate == pytest.approx(stats.median_abs_deviation(x) / QUARTILE, rel=1e-12)
    wild = np.append(x, 1e6)
    assert robust_sd(wild).estimate == pytest.approx(robust_sd(x).estimate, rel=0.02)


@pytest.mark.parametrize("n", range(FEW + 1))
def test_three_strikes_or_fewer_give_values_and_range_only(draw, n):
    x = draw.normal(size=n)
    spread = spread_of(x)
    assert spread.values == tuple(x) and spread.n == n
    assert (spread.mean, spread.sd, spread.median, spread.robust_sd) == (None,) * 4
    assert np.isnan(spread.lowest) if n == 0 else (spread.lowest, spread.highest) == (x.min(), x.max())


def test_an_outlier_is_named_and_still_counted(draw):
    x = np.append(draw.normal(0, 1, 20), 40.0)
    spread = spread_of(x, [f"strike {i}" for i in range(21)])
    assert spread.outliers == ("strike 20",)
    assert spread.n == 21 and spread.mean.estimate == pytest.approx(x.mean())
    distance = np.abs(x - np.median(x)) / robust_sd(x).estimate
    assert (distance > OUTLYING).sum() == 1


def test_a_missing_strike_is_counted_as_missing(draw):
    x = draw.normal(size=12)
    x[[2, 5]] = np.nan
    spread = spread_of(x)
    assert (spread.n, spread.missing) == (10, 2)
    assert spread.mean.estimate == pytest.approx(np.nanmean(x))


def test_equal_strikes_have_no_spread_and_no_outlier():
    spread = spread_of(np.full(8, 2.5))
    assert spread.sd.estimate == 0 and spread.outliers == () and spread.mean.low == spread.mean.high == 2.5


def test_where_more_than_half_the_strikes_are_equal_none_is_called_an_outlier():
    spread = spread_of(np.array([2.5] * 6 + [2.6, 9.0]))
    assert spread.robust_sd.estimate == 0 and spread.outliers == ()
