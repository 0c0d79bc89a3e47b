"""Before against after: the tests against SciPy and statsmodels, and by simulated sessions."""

import importlib.util
from pathlib import Path

import numpy as np
import pytest
from scipy import stats
from statsmodels.stats.multitest import multipletests

import whimbrel as wb
from whimbrel.sessions.change import FALSE_ALARMS, POWER, compare, holm, p_values, strikes_needed
from whimbrel.statistics import autocorrelation as serial
from whimbrel.statistics.permutation_test import (
    MANY,
    centre_interval,
    centres,
    regroupings,
    spread_interval,
    spreads,
)
from whimbrel.units import deg, yd

SCRIPT = Path(__file__).parents[3] / "validation" / "change_tests" / "simulate.py"
spec = importlib.util.spec_from_file_location("simulate", SCRIPT)
simulate = importlib.util.module_from_spec(spec)
spec.loader.exec_module(simulate)


def welch(x, y, axis):
    return np.abs(stats.ttest_ind(x, y, axis=axis, equal_var=False).statistic)


@pytest.mark.parametrize(("n", "m"), [(5, 5), (6, 4), (7, 6)])
def test_the_p_value_of_the_centres_is_scipys_exact_permutation_test(draw, n, m):
    before, after = draw.normal(0, 1, n), draw.normal(0.8, 1, m)
    ours = centres(before, after, regroupings(n, m, 99, 0)).p
    theirs = stats.permutation_test(
        (before, after),
        welch,
        n_resamples=np.inf,
        vectorized=True,
        alternative="greater",
        permutation_type="independent",
    )
    assert float(ours) == pytest.approx(theirs.pvalue, abs=1e-12)


def test_drawn_regroupings_give_scipys_p_value_within_their_number(draw):
    before, after = draw.standard_t(3, 25), draw.standard_t(3, 20) + 0.6
    ours = float(centres(before, after, regroupings(25, 20, 9999, 1)).p)
    theirs = stats.permutation_test(
        (before, after),
        welch,
        n_resamples=9999,
        vectorized=True,
        alternative="greater",
        rng=np.random.default_rng(2),
    ).pvalue
    assert abs(ours - theirs) < 4 * np.sqrt(2 * theirs * (1 - theirs) / 9999)


def test_the_spread_is_tested_by_deviations_from_the_medians_of_regrouped_residuals(draw):
    before, after = draw.normal(0, 1, 6), draw.normal(5, 3, 5)

    def statistic(x, y):
        return welch(np.abs(x - np.median(x)), np.abs(y - np.median(y)), 0)

    theirs = stats.permutation_test(
        (before - np.median(before), after - np.median(after)),
        statistic, n_resamples=np.inf, vectorized=False, alternative="greater",
    )  # fmt: skip
    ours = spreads(before, after, regroupings(6, 5, 99, 0)).p
    assert float(ours) == pytest.approx(theirs.pvalue, abs=1e-12)


def test_holm_is_that_of_statsmodels(draw):
    for p in (draw.uniform(0, 1, 12) ** 3, np.array([0.01, 0.01, 0.04]), np.array([0.5])):
        assert holm(p) == pytest.approx(multipletests(p, method="holm")[1], rel=1e-12)
    table = draw.uniform(0, 1, (3, 4, 6)) ** 2
    assert holm(table)[1, 2] == pytest.approx(holm(table[1, 2]))


def test_the_interval_of_the_centre_is_the_test_turned_around(draw):
    before, after = draw.normal(0, 1, 8), draw.normal(1, 2, 7)
    ways = regroupings(8, 7, 0, 0)
    low, high = centre_interval(before, after, ways, 0.2, 0.95)
    for end, inward in ((low, 1), (high, -1)):
        step = 1e-6 * inward
        assert centres(before, after - (end + step), ways, 0.2).p > 0.05
        assert centres(before, after - (end - step), ways, 0.2).p <= 0.05


def test_with_many_normal_strikes_the_interval_is_welchs(draw):
    before, after = draw.normal(0, 1, 60), draw.normal(0.4, 2, 80)
    ours = centre_interval(before, after, regroupings(60, 80, 9999, 0), 0.0, 0.95)
    theirs = stats.ttest_ind(after, before, equal_var=False).confidence_interval(0.95)
    assert ours == pytest.approx((theirs.low, theirs.high), abs=0.03 * (theirs.high - theirs.low))


@pytest.mark.parametrize("about", ["centre", "spread"])
@pytest.mark.parametrize("shape", ["normal", "heavy"])
def test_the_intervals_hold_the_true_change_19_times_in_20(draw, about, shape):
    runs, n = 400, 12
    x = simulate.blocks(draw, runs, 2, n, shape, 0.0)
    ways = regroupings(n, n, 499, 0)
    held = 0
    for before, after in x:
        if about == "centre":
            low, high = centre_interval(before, after + 1.3, ways, 0.0, 0.95)
            held += low <= 1.3 <= high
        else:
            _, (low, high) = spread_interval(before, after, ways, 0.0, 0.95)
            held += low <= 0.0 <= high
    assert abs(held / runs - 0.95) < 4 * np.sqrt(0.95 * 0.05 / runs)


def test_the_p_value_and_the_interval_of_the_spread_agree(draw):
    for _ in range(40):
        before, after = draw.normal(0, 1, 9), draw.normal(0, 2.2, 9)
        test, (low, high) = spread_interval(before, after, regroupings(9, 9, 199, 3), 0.1, 0.95)
        assert (float(test.p) <= 0.05) == (not low <= 0 <= high)


def test_above_a_thousand_strikes_the_normal_takes_over_without_a_step(draw):
    n = MANY // 2
    before, after = draw.standard_t(3, n), draw.standard_t(3, n) + 0.15
    limit = centres(before, after, regroupings(n, n, 99, 0))
    drawn = centres(before[:-1], after[:-1], regroupings(n - 1, n - 1, 4999, 0))
    assert abs(float(limit.p) - float(drawn.p)) < 0.01 + 4 * np.sqrt(float(drawn.p) / 4999)


def test_serial_correlation_is_recovered_and_inflates_the_variance_of_a_mean_as_it_must(draw):
    for rho in (0.0, 0.3, 0.6):
        x = simulate.blocks(draw, 1, 12, 60, "normal", rho)[0]
        found = serial.correlations(serial.log_likelihood(x))
        assert abs(found.mean() - rho) < 0.1
    x = simulate.blocks(draw, 20_000, 1, 10, "normal", 0.3)[:, 0]
    claimed = x.var(-1, ddof=1).mean() / 10
    assert x.mean(-1).var() / claimed == pytest.approx(float(serial.inflation(10, 0.3)), rel=0.05)
    deviation = np.abs(simulate.blocks(draw, 1, 1, 200_000, "normal", 0.6)[0, 0])
    assert np.corrcoef(deviation[1:], deviation[:-1])[0, 1] == pytest.approx(
        float(serial.of_deviations(0.6)), abs=0.02
    )


def test_the_likelihood_of_the_correlation_is_that_of_the_normal_with_its_mean_and_variance_profiled(draw):
    x = draw.normal(size=7)
    expected = []
    for rho in serial.GRID:
        r = rho ** np.abs(np.subtract.outer(range(7), range(7)).astype(float)) if rho else np.eye(7)
        if rho < 0:
            r = np.sign(rho) ** np.subtract.outer(range(7), range(7)) * np.abs(r)
        inverse, one = np.linalg.inv(r), np.ones(7)
        mean = one @ inverse @ x / (one @ inverse @ one)
        rest = (x - mean) @ inverse @ (x - mean)
        expected.append(-0.5 * (np.linalg.slogdet(r)[1] + np.log(one @ inverse @ one) + 6 * np.log(rest)))
    assert serial.log_likelihood(x) == pytest.approx(np.array(expected), rel=1e-10)


def one_change(before, after, si="rad", **options):
    return compare({"face_angle": before}, {"face_angle": after}, {"face_angle": si}, **options)


def test_the_three_answers(draw):
    before = draw.normal(0, 1, 30) * deg
    changed, _ = one_change(before, before + 3 * deg).changes
    assert changed.answer == "changed" and changed.change == pytest.approx(3 * deg)
    assert changed.low < 3 * deg < changed.high
    same, spread = one_change(before, draw.permutation(before)).changes
    assert same.answer == spread.answer == "no change" and same.bound <= 1 * deg
    few, _ = one_change(before[:5], before[:5] + 0.8 * deg).changes
    assert few.answer == "too few" and few.needed[0] > 5
    wide, _ = one_change(before, draw.permutation(before), smallest={"face_angle": 0.1 * deg}).changes
    assert wide.answer == "too few" and wide.needed[0] > 500


def test_serial_correlation_makes_a_comparison_careful(draw):
    """Tests, intervals and counts are those at the correlation found, that of all quantities together."""
    before, after = simulate.blocks(draw, 1, 6, 40, "normal", 0.6)[0].reshape(2, 3, 40)
    after = after[:, :30]
    names = ("carry", "apex", "curve")
    sides = [dict(zip(names, side, strict=True)) for side in (before, after)]
    found = compare(*sides, dict.fromkeys(names, "m"), regroupings=499).changes
    rho = serial.correlation_of(list(zip(before, after, strict=True)))
    # known to √((1 − ρ²) / strikes): 4 standard errors
    assert rho == pytest.approx(0.6, abs=4 * np.sqrt((1 - 0.36) / 210))
    ways = regroupings(40, 30, 499, 0)
    for i, (centre, spread) in enumerate(zip(found[::2], found[1::2], strict=True)):
        assert centre.rho == spread.rho == rho[i]
        assert centre.p == centres(before[i], after[i], ways, rho[i]).p
        assert (centre.low, centre.high) == centre_interval(before[i], after[i], ways, rho[i], 0.95)
        assert centre.counts_as == pytest.approx([n / float(serial.inflation(n, rho[i])) for n in (40, 30)])
        of_spread, interval = spread_interval(before[i], after[i], ways, rho[i], 0.95)
        assert (spread.p, spread.low, spread.high) == (of_spread.p, *interval)
        at = float(serial.of_deviations(rho[i]))
        assert spread.counts_as == pytest.approx([n / float(serial.inflation(n, at)) for n in (40, 30)])
    several = p_values(before, after, regroupings=499)
    assert several.ravel() == pytest.approx([change.p for change in found], abs=1e-15)


def test_strikes_in_a_row_that_resemble_each_other_take_more_to_see_a_change():
    alone, alike = (strikes_needed(1.0, 0.1, rho=rho) for rho in (0.0, 0.5))
    # (1 + ρ) / (1 − ρ) is the variance of a mean of many against that of independent strikes
    assert alike == pytest.approx(3 * alone, abs=4)
    assert alone == pytest.approx(2 * ((1.959964 + 0.841621) / 0.1) ** 2, abs=2)
    assert strikes_needed(1.0, 0.1, questions=10) == pytest.approx(2 * ((2.807034 + 0.841621) / 0.1) ** 2, abs=3)


def test_the_strikes_needed_run_over_the_80_percent_interval_of_the_spread(draw):
    before, after = draw.normal(0, 1, 12), draw.normal(0, 1, 9)
    centre = one_change(before, after, si="m", smallest={"face_angle": 0.2}).changes[0]
    squares = 11 * before.var(ddof=1) + 8 * after.var(ddof=1)
    ends = np.sqrt(squares / stats.chi2.ppf([0.9, 0.1], 19))
    expected = [strikes_needed(sd, 0.2, rho=centre.rho, questions=2) for sd in ends]
    assert list(centre.needed) == expected


def test_a_change_of_the_spread_alone_is_called_one_of_the_spread(draw):
    before, after = draw.normal(0, 3, 40) * yd, draw.normal(0, 1, 40) * yd
    centre, spread = compare({"carry": before}, {"carry": after}, {"carry": "m"}).changes
    assert centre.answer != "changed" and spread.answer == "changed" and spread.change < 0


def test_the_strikes_said_to_be_needed_are_those_that_see_the_change(draw):
    n = strikes_needed(1.0, 0.9, questions=2)
    before, after = draw.normal(0, 1, (400, 1, n)), draw.normal(0.9, 1, (400, 1, n))
    seen = (p_values(before, after, regroupings=499)[:, 0, 0] <= FALSE_ALARMS / 2).mean()
    assert (
        abs(seen - POWER) < 4 * np.sqrt(POWER * (1 - POWER) / 400) + 0.03
    )  # 0.03: serial correlation is asked too


def test_with_a_few_strikes_and_many_questions_it_says_that_nothing_could_count(draw):
    sides = [{f"q{i}": draw.normal(10 * j, 1, 6) for i in range(12)} for j in range(2)]
    comparison = compare(*sides, dict.fromkeys(sides[0], "m"))
    assert comparison.beyond_reach and all(change.answer != "changed" for change in comparison.changes)
    fewer = compare(*({"q0": side["q0"]} for side in sides), {"q0": "m"})
    assert not fewer.beyond_reach and fewer.changes[0].answer == "changed"


def test_what_cannot_be_compared_is_left_out_with_the_reason(draw):
    x = draw.normal(size=10)
    gaps = np.where(np.arange(10) < 7, np.nan, x)
    before = {"carry": x, "apex": gaps, "curve": np.ones(10)}
    after = {"carry": x + 1, "apex": x, "curve": np.ones(10)}
    comparison = compare(before, after, dict.fromkeys(before, "m"))
    assert {change.quantity for change in comparison.changes} == {"carry"}
    assert "3 before and 10 after" in comparison.left_out["apex"] and "same value" in comparison.left_out["curve"]


def test_two_blocks_without_spread_that_differ_have_changed_for_sure():
    centre, spread = one_change(np.full(8, 1.0), np.full(8, 2.0)).changes
    assert centre.answer == "changed" and (centre.low, centre.high) == (1.0, 1.0) and spread.change == 0


def test_the_answer_depends_on_the_seed_only_and_hardly_on_it(draw):
    before, after = draw.normal(0, 1, 20), draw.normal(0.5, 1, 20)
    assert one_change(before, after, seed=3) == one_change(before, after, seed=3)
    a, b = (one_change(before, after, seed=seed).changes[0].p for seed in (3, 4))
    assert a != b and abs(a - b) < 0.02


@pytest.mark.parametrize("smallest", [0.0, -1.0, float("nan"), float("inf")])
def test_a_smallest_change_that_is_none_is_refused(draw, smallest):
    x = draw.normal(size=8)
    with pytest.raises(wb.InputError, match="smallest change of face_angle"):
        one_change(x, x + 1, smallest={"face_angle": smallest})


@pytest.mark.parametrize("lag", [0.0, 0.3])
def test_about_five_sessions_in_a_hundred_raise_a_false_alarm(lag):
    """200 sessions: the window of 2.9 to 7.4 % in 1,000, and what 200 add to it by chance (4 standard errors)."""
    rate = simulate.false_alarms(10, "normal", lag, sessions=200, seed=7)[0]
    chance = 4 * 100 * np.sqrt(0.05 * 0.95 / 200)
    assert max(0.5, 5 - chance) <= rate <= 5 + chance


@pytest.mark.thorough
@pytest.mark.parametrize(("n", "shape", "lag"), simulate.CELLS)
def test_the_share_of_sessions_with_a_false_alarm_is_between_2_9_and_7_4_percent(n, shape, lag):
    assert 2.9 <= simulate.false_alarms(n, shape, lag)[0] <= 7.4
