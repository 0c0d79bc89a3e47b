"""Dispersion: clouds against closed forms, the same bits in any cut, and what it refuses."""

import pickle
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from functools import lru_cache

import numpy as np
import pytest
from invented import DEMO
from scipy import integrate, stats

import whimbrel as wb
from whimbrel.clouds import sampling as sampling_module
from whimbrel.clouds.dispersion import until_stopped
from whimbrel.clouds.draws import around
from whimbrel.clouds.sampling import BLOCK, gather, read
from whimbrel.statistics.moments import Sums, add_up, moments, powers, quantile
from whimbrel.statistics.random_numbers import deviates
from whimbrel.units import deg, mm, mph, yd

LAUNCH = wb.Launch(55.0, 16 * deg, 2 * deg, 600.0, -3 * deg)
WIND = wb.Wind(4.0, 60 * deg)
SMALL = {"ball_speed": 0.03, "launch_angle": 0.03 * deg, "launch_direction": 0.05 * deg, "spin_rate": 1.0,
         "wind_speed": 0.05}  # fmt: skip
#: A comparison fails by chance once in a thousand runs of all those of a test, the seeds being fixed.
CHANCE = 1e-3


def most_errors(comparisons):
    """How many standard errors the largest of so many may be off (Bonferroni)."""
    return stats.norm.isf(CHANCE / 2 / comparisons)


def landed(launch, wind):
    flight = wb.play(launch, wind=wind).flight
    return np.array([flight.offline, flight.downrange, flight.carry])


def slopes(fields):
    """Derivatives of offline, downrange and carry by central differences over one small spread: (3, fields)."""
    columns = []
    for name in fields:
        h = SMALL[name]
        ends = []
        for step in (-h, h):
            launch, wind = LAUNCH, WIND
            if name == "wind_speed":
                wind = wb.Wind(WIND.speed + step, WIND.from_direction)
            else:
                numbers = {n: getattr(LAUNCH, n) for n in LAUNCH._columns}
                launch = wb.Launch(**numbers | {name: numbers[name] + step})
            ends.append(landed(launch, wind))
        columns.append((ends[1] - ends[0]) / (2 * h))
    return np.array(columns).T


def correlated(fields, draw):
    """A covariance with correlations drawn once, sds as in SMALL."""
    a = draw.standard_normal((len(fields), len(fields)))
    c = a @ a.T
    scale = np.array([SMALL[name] for name in fields]) / np.sqrt(c.diagonal())
    return c * np.outer(scale, scale)


@lru_cache
def straight_cloud(seed):
    """A small cloud of correlated spreads; slopes, covariance and mean that straight lines give; its targets."""
    fields = list(SMALL)
    covariance = correlated(fields, np.random.default_rng(2026 + seed))
    mean, j = landed(LAUNCH, WIND), slopes(fields)
    expected = j @ covariance @ j.T
    wide, high = np.sqrt(expected.diagonal()[:2])
    ways = ((0, 0), (0.5, -0.7), (1, 1))
    circles = [wb.targets.Circle(mean[1] + up * high, abs(mean[0]) + out * wide) for up, out in ways]
    targets = [*circles, wb.targets.Corridor(2 * (abs(mean[0]) + 0.3 * wide))]
    cloud = wb.dispersion(LAUNCH, covariance=covariance, fields=fields, wind=WIND, seed=seed, target=targets)
    return cloud, mean, expected, targets


@pytest.mark.parametrize("seed", [0, 1, 2])
def test_a_small_spread_lands_as_straight_lines_carry_it(seed):
    """Mean and covariance against J·Σ·Jᵀ, within their own standard errors."""
    cloud, mean, expected, _ = straight_cloud(seed)
    m = cloud.moments
    off = np.concatenate([
        (m.mean - mean) / m.mean_error,
        ((m.covariance - expected) / m.covariance_error)[np.triu_indices(3)],
    ])  # fmt: skip
    assert cloud.outputs == ("offline", "downrange", "carry")
    assert np.abs(off).max() < most_errors(3 * len(off)), off


def in_circle(mean, covariance, circle):
    """The chance that a normal point is in a circle, strip by strip."""
    sx = np.sqrt(covariance[0, 0])
    slope = covariance[0, 1] / covariance[0, 0]
    sy = np.sqrt(covariance[1, 1] - slope * covariance[0, 1])

    def strip(x):
        half = np.sqrt(max(circle.radius**2 - x * x, 0.0))
        middle = mean[1] + slope * (x - mean[0])
        ends = stats.norm.cdf((circle.distance + np.array([-half, half]) - middle) / sy)
        return stats.norm.pdf(x, mean[0], sx) * (ends[1] - ends[0])

    return integrate.quad(strip, -circle.radius, circle.radius, limit=200)[0]


@pytest.mark.parametrize("seed", [0, 1, 2])
def test_circles_and_corridors_hold_what_the_normal_distribution_says(seed):
    cloud, mean, c, (*circles, corridor) = straight_cloud(seed)
    expected = [in_circle(mean, c, circle) for circle in circles]
    sides = np.array([-0.5, 0.5]) * corridor.width
    expected.append(np.diff(stats.norm.cdf(sides, mean[0], np.sqrt(c[0, 0])))[0])
    assert min(expected) > 0.05 and max(expected) < 0.95
    off = [(share.share - p) / share.standard_error for share, p in zip(cloud.shares, expected, strict=True)]
    assert np.abs(off).max() < most_errors(3 * len(off)), (off, expected)


@pytest.mark.parametrize("seed", [0, 1, 2])
def test_the_ellipse_of_a_normal_cloud_holds_its_coverage(seed):
    cloud = straight_cloud(seed)[0]
    off = []
    for coverage in (0.5, 0.8, 0.95):
        held = cloud.inside(cloud.ellipse(coverage))
        off.append((held.value - coverage) / held.standard_error)
    assert np.abs(off).max() < most_errors(3 * len(off)), off


@pytest.mark.parametrize("seed", [0, 1, 2])
def test_quantiles_of_a_normal_cloud_are_the_normals(seed):
    cloud, mean, expected, _ = straight_cloud(seed)
    sd = np.sqrt(expected[0, 0])
    off = []
    for p in (0.05, 0.5, 0.9):
        found = cloud.quantile("offline", p)
        off.append((found.value - stats.norm.ppf(p, mean[0], sd)) / found.standard_error)
    assert np.abs(off).max() < most_errors(3 * len(off)), off


def test_standard_errors_are_the_scatter_of_repeated_clouds_even_of_skew_ones(draw):
    """Of 400 sets of exponential numbers, the errors claimed against the spread seen.

    That is known to √((2 + excess kurtosis) / 1600): 3.5 % for means; up to 4 % for variances, skew at 500.
    """
    repeats, n, origin = 400, 500, np.array([1.0, 2.0])
    estimates, claimed = [], []
    for _ in range(repeats):
        a, b = draw.exponential(1.0, (2, n))
        outputs = np.stack([a, a + 0.5 * b])
        found = moments(Sums(n, n, *powers(outputs, origin)), origin)
        middle = quantile(outputs[0], 0.5)
        estimates.append([*found.mean, *found.covariance[np.triu_indices(2)], middle.value])
        claimed.append([*found.mean_error, *found.covariance_error[np.triu_indices(2)], middle.standard_error])
    seen = np.std(estimates, axis=0, ddof=1)
    ratio = np.sqrt(np.mean(np.square(claimed), axis=0)) / seen
    assert np.abs(ratio - 1).max() < most_errors(ratio.size) * 0.04, ratio


def test_moments_are_numpys_whatever_the_origin(draw):
    outputs = draw.multivariate_normal([150, -10, 160], [[9, 2, 1], [2, 16, 3], [1, 3, 4]], 1000).T
    outputs[:, 7] = outputs[1, 8] = np.nan
    good = outputs[:, np.isfinite(outputs).all(0)]
    n = good.shape[1]
    away = good - good.mean(1, keepdims=True)
    fourth = np.einsum("in,jn->ij", away**2, away**2) / n
    for origin in (np.zeros(3), np.array([150.0, -10.0, 160.0])):
        found = moments(Sums(1000, n, *powers(outputs, origin)), origin)
        np.testing.assert_allclose(found.mean, good.mean(1), rtol=1e-12)
        np.testing.assert_allclose(found.covariance, np.cov(good), rtol=1e-8)
        np.testing.assert_allclose(
            found.covariance_error, np.sqrt((fourth - (away @ away.T / n) ** 2) / n), rtol=1e-6
        )


def test_the_error_of_a_standard_deviation_is_that_of_its_variance_over_twice_itself():
    """√((m4 − m2²) / n) / 2 sd, from the samples; to the rounding of sums of fourth powers."""
    cloud = straight_cloud(0)[0]
    for name, x in cloud.kept.items():
        second, fourth = stats.moment(x, 2), stats.moment(x, 4)
        error = np.sqrt((fourth - second**2) / len(x)) / (2 * x.std(ddof=1))
        assert cloud.sd[name] == pytest.approx((x.std(ddof=1), error), rel=1e-6)


# The same bits


def same(a, b):
    bits = all(
        np.array_equal(getattr(a, name), getattr(b, name)) for name in ("first", "second", "third", "fourth")
    )
    counts = [(s.samples, s.good, s.hits, dict(s.failed), dict(s.stretched), s.mistakes) for s in (a, b)]
    return bits and counts[0] == counts[1]


@pytest.fixture
def small_blocks(monkeypatch):
    monkeypatch.setattr(sampling_module, "BLOCK", 256)


WILD = {"face_angle": 3 * deg, "strike_high": 9 * mm, "clubhead_speed": 2.0, "wind_speed": 2.0}
TARGETS = (wb.targets.Circle(150 * yd, 10 * yd), wb.targets.Corridor(20 * yd))


def test_threads_do_not_change_a_bit(small_blocks, hit, iron):
    one, two = (
        wb.dispersion(hit, iron, sd=WILD, samples=2000, seed=4, target=TARGETS, threads=threads)
        for threads in (1, 2)
    )
    assert one.failed and same(one.sums, two.sums)
    assert all(np.array_equal(one.kept[name], two.kept[name], equal_nan=True) for name in one.outputs)


def test_blocks_played_anywhere_in_any_order_give_the_same_bits(small_blocks, hit, iron, draw):
    cloud = wb.dispersion(hit, iron, sd=WILD, samples=2000, seed=4, target=TARGETS, keep=700)
    sent = pickle.dumps(cloud.sampling)
    order = draw.permutation(cloud.sampling.blocks).tolist()
    with ThreadPoolExecutor(3) as workers:
        parts = dict(zip(order, workers.map(lambda k: pickle.loads(sent).block(k), order), strict=True))
    sums, kept = gather(parts[k] for k in range(cloud.sampling.blocks))
    assert len(order) == 8 and same(sums, cloud.sums)
    assert np.array_equal(kept, np.stack(list(cloud.kept.values())), equal_nan=True)


def test_weather_that_is_not_given_spreads_around_the_standard_atmosphere():
    """ISO 2533: 288.15 K and 101,325 Pa at sea level, 281.651 K at 1,000 m, to the printed digits."""

    def middle(*names, **weather):
        given = {"weather": wb.Weather(**weather)} if weather else {}
        return around(LAUNCH, given, dict.fromkeys(names, 1.0), None, None).middle

    assert middle("temperature", "pressure").tolist() == [288.15, 101_325.0]
    assert middle("temperature", "altitude").tolist() == [288.15, 0.0]
    assert middle("temperature", "altitude", altitude=1000.0) == pytest.approx([281.651, 1000.0], abs=5e-4)
    assert middle("pressure", pressure=95e3).tolist() == [95e3]
    assert middle("relative_humidity", relative_humidity=0.4).tolist() == [0.4]


class Interrupted:
    """Three blocks, the last of which Ctrl-C cuts off, or another."""

    blocks, samples = 3, 3 * BLOCK

    def __init__(self, cut):
        self.cut = cut

    def block(self, number):
        if number == self.cut:
            raise KeyboardInterrupt
        return number


def test_ctrl_c_keeps_the_blocks_played_and_ends_the_program_where_there_is_none():
    with pytest.warns(RuntimeWarning, match=f"stopped after {2 * BLOCK:,} of {3 * BLOCK:,} samples"):
        assert list(until_stopped(Interrupted(2))) == [0, 1]
    with pytest.raises(KeyboardInterrupt):
        list(until_stopped(Interrupted(0)))
    assert list(until_stopped(Interrupted(None))) == [0, 1, 2]


def test_a_sample_is_the_same_in_a_larger_cloud(hit, iron):
    few, many = (wb.dispersion(hit, iron, sd=WILD, samples=n, seed=9) for n in (150, 1000))
    for name in few.outputs:
        assert np.array_equal(few.kept[name], many.kept[name][:150], equal_nan=True)


def test_what_a_sample_started_with_plays_to_where_it_finished(hit, iron):
    cloud = wb.dispersion(hit, iron, sd=WILD, samples=200, seed=3, at="rest", accuracy="reference")
    drawn = cloud.sampling.draw(17, 3)
    for i in range(3):
        start = wb.Delivery(drawn["clubhead_speed"][i], hit.club_path, hit.attack_angle, drawn["face_angle"][i],
                            hit.dynamic_loft, strike_high=drawn["strike_high"][i])  # fmt: skip
        shot = wb.play(start, iron, wind=wb.Wind(drawn["wind_speed"][i], drawn["wind_from"][i]))
        for name, x in (("total", shot.total), ("carry", shot.carry), ("total_offline", shot.run.total_offline)):
            assert cloud.kept[name][17 + i] == x


def test_a_wind_drawn_below_0_blows_the_other_way(hit, iron):
    cloud = wb.dispersion(hit, iron, sd={"wind_speed": 2.0}, samples=200, wind=wb.Wind.from_right(0.5))
    drawn, plain = cloud.sampling.draw(0, 200), cloud.sampling.draws.draw(0, 0, 200)["wind_speed"]
    assert (plain < 0).sum() > 50 and (drawn["wind_speed"] >= 0).all()
    from_right = drawn["wind_speed"] * np.sin(drawn["wind_from"])
    np.testing.assert_allclose(from_right, plain, atol=1e-12)
    assert np.corrcoef(plain, cloud.kept["offline"])[0, 1] < -0.99


def test_a_cloud_of_more_than_one_block_is_the_sum_of_its_blocks():
    samples = BLOCK + 2000
    cloud = wb.dispersion(LAUNCH, sd={"ball_speed": 1.0}, samples=samples, keep=samples)
    assert cloud.sampling.blocks == 2 and cloud.sums.good == samples
    assert cloud.mean["carry"].value == pytest.approx(cloud.kept["carry"].mean(), rel=1e-12)
    assert cloud.sd["carry"].value == pytest.approx(cloud.kept["carry"].std(ddof=1), rel=1e-9)


def test_means_count_every_sample_where_few_are_kept(hit, iron):
    some, none, all_ = (
        wb.dispersion(hit, iron, sd=WILD, samples=500, seed=1, keep=keep, target=TARGETS) for keep in (60, 0, 500)
    )
    assert same(some.sums, all_.sums) and same(none.sums, all_.sums)
    assert len(some.kept["carry"]) == 60 and len(none.kept["carry"]) == 0
    assert np.isnan(none.quantile("carry", 0.5).value)
    assert "eight" not in none.in_words() and "10.0 yd" in none.in_words()
    with pytest.raises(wb.InputError, match="no samples were kept"):
        none.share(TARGETS[0])


def test_sums_add_up_in_order():
    parts = [
        Sums(1, 1, *powers(np.full((1, 1), x), np.zeros(1)), (k,), {"no_rest": 1}, {"reynolds": 2}, ((k, "bad"),))
        for k, x in enumerate((0.1, 0.2, 0.3))
    ]
    total = add_up(parts)
    assert total.first[0] == (0.1 + 0.2) + 0.3
    assert (total.samples, total.hits, dict(total.failed)) == (3, (3,), {"no_rest": 3})
    assert [sample for sample, _ in total.mistakes] == [0, 1, 2] and dict(total.stretched) == {"reynolds": 6}


# What is drawn


def test_independent_spreads_are_a_diagonal_covariance(hit, iron):
    a = wb.dispersion(hit, iron, sd=WILD, samples=300)
    b = wb.dispersion(hit, iron, covariance=np.diag(np.square(list(WILD.values()))), fields=list(WILD), samples=300)
    for name in WILD:
        np.testing.assert_allclose(a.sampling.draw(0, 300)[name], b.sampling.draw(0, 300)[name], rtol=1e-15)


def test_fields_that_go_together_stay_together(hit, iron):
    """A singular covariance: the face follows the path by half."""
    s = np.array([[4.0, 2.0], [2.0, 1.0]]) * deg**2
    drawn = wb.dispersion(hit, iron, covariance=s, fields=["club_path", "face_angle"], samples=300).sampling.draw(
        0, 300
    )
    np.testing.assert_allclose(drawn["face_angle"] + deg, (drawn["club_path"] - 4 * deg) / 2, atol=1e-9)
    assert drawn["club_path"].std() == pytest.approx(2 * deg, rel=6 / np.sqrt(2 * 300))


def test_the_air_and_the_wind_spread_too(hit, iron):
    still = {"temperature": 8.0, "relative_humidity": 0.05, "wind_from": 20 * deg, "tee_height": 0.002}
    cloud = wb.dispersion(
        hit, iron, sd=still, samples=200, weather=wb.Weather(altitude=1000, relative_humidity=0.5),
        wind=wb.Wind.from_left(3), terrain=wb.Terrain(tee_height=0.02),
    )  # fmt: skip
    middle = dict(zip(cloud.sampling.draws.fields, cloud.sampling.draws.middle, strict=True))
    assert middle["temperature"] == pytest.approx(281.651, abs=1e-3)  # ISO 2533 at 1,000 m
    assert middle["wind_from"] == pytest.approx(-90 * deg) and middle["tee_height"] == 0.02
    drawn, carry = cloud.sampling.draw(0, 200), cloud.kept["carry"]
    assert np.corrcoef(drawn["temperature"], carry)[0, 1] > 0.3  # warm air is thin
    assert not cloud.failed
    high = wb.dispersion(hit, iron, sd={"altitude": 300.0}, samples=200, weather=wb.Weather(altitude=1000))
    assert np.corrcoef(high.sampling.draw(0, 200)["altitude"], high.kept["carry"])[0, 1] > 0.99


def test_a_club_of_no_spread_lands_in_one_place(hit, iron):
    cloud = wb.dispersion(hit, iron, sd={"face_angle": 0.0}, samples=100, accuracy="reference")
    shot = wb.play(hit, iron)
    assert cloud.mean["carry"].value == pytest.approx(shot.carry, rel=1e-12)
    assert cloud.sd["carry"].value == pytest.approx(0.0, abs=1e-9) and cloud.ellipse() is None
    assert "ellipse" not in cloud.in_words()


# Failures


def test_shots_that_fail_are_counted_and_told_and_count_as_outside(hit, iron):
    everywhere = wb.targets.Polygon([(-1000, -1000), (1000, -1000), (1000, 1000), (-1000, 1000)])
    spread = {"strike_high": 14 * mm, "dynamic_loft": 9 * deg}
    cloud = wb.dispersion(hit, iron, sd=spread, samples=1000, target=everywhere)
    drawn = cloud.sampling.draw(0, 1000)
    starts = wb.Delivery(hit.clubhead_speed, hit.club_path, hit.attack_angle, hit.face_angle, drawn["dynamic_loft"],
                         strike_high=drawn["strike_high"])  # fmt: skip
    status = wb.play(starts, iron, errors="mask").status
    missed = np.abs(drawn["strike_high"]) > iron.face_height / 2
    assert cloud.failed["bad_input"] == (status == "bad_input").sum() >= missed.sum() > 100
    assert cloud.failed == {s: (status == s).sum() for s in set(status) - {"ok"}}
    assert cloud.sums.good + sum(cloud.failed.values()) == cloud.samples == 1000
    assert cloud.shares[0].hits == cloud.sums.good and cloud.shares[0].n == 1000
    assert next(iter(cloud.mistakes)) == int(np.argmax(status == "bad_input"))
    assert np.isnan(cloud.kept["carry"]).sum() == sum(cloud.failed.values())
    words = cloud.in_words()
    assert "failed; they count as outside" in words and "missed the face" in words


def test_a_cloud_where_nothing_finishes_says_so():
    cloud = wb.dispersion(
        wb.Launch(3.0, -60 * deg), sd={"ball_speed": 0.1}, samples=100, target=wb.targets.Corridor(1.0)
    )
    assert cloud.failed == {"not_airborne": 100} and cloud.shares[0].share == 0
    assert np.isnan(cloud.mean["carry"].value) and cloud.ellipse() is None
    assert "Hardly any" in cloud.in_words() and "failed" in repr(cloud)
    with pytest.raises(wb.InputError, match="no cloud to draw"):
        cloud.plot()


def test_shots_outside_a_models_stated_range_are_counted_and_told():
    launch, spread = wb.Launch(70.0, 11 * deg, spin_rate=260.0), {"launch_angle": 3 * deg, "spin_rate": 60.0}
    ran = wb.dispersion(launch, sd=spread, samples=500, at="rest")
    landed = wb.dispersion(launch, sd=spread, samples=500)
    drawn = ran.sampling.draw(0, 500)
    shots = wb.play(wb.Launch(70.0, drawn["launch_angle"], spin_rate=drawn["spin_rate"]), errors="mask")
    good = shots.run.status == "ok"
    counts = {name: int((x[good] != 0).sum()) for name, x in shots.out_of_range.items()}
    assert ran.stretched == {name: count for name, count in counts.items() if count}
    assert ran.stretched["bounce_angle"] > 100 and "bounce_angle" not in landed.stretched
    assert f"{counts['bounce_angle']:,} in bounce angle" in ran.in_words()
    assert "the run is a rough guess" in ran.in_words() and "rough guess" not in landed.in_words()


# Refusals


@pytest.mark.parametrize(
    ("asked", "says"),
    [
        ({}, "by sd alone, or by covariance"),
        ({"sd": {"face_angle": 0.1}, "covariance": [[1.0]]}, "by covariance with fields"),
        ({"sd": {"face_angle": -0.1}}, "sd of face_angle is -0.1"),
        ({"sd": {"face_angle": float("nan")}}, "sd of face_angle is nan"),
        ({"sd": {"face_angle": [1, 2]}}, "one finite number"),
        ({"sd": {"face_angle": "much"}}, "not a number"),
        ({"sd": {"face_twist": 0.1}}, "'face_twist' is not a field of a delivery"),
        ({"sd": {"ball_speed": 0.1}}, "'ball_speed' is not a field of a delivery"),
        ({"sd": {}}, "no field varies"),
        ({"sd": [0.1]}, "by field, such as {'face_angle': 0.02}"),
        ({"sd": {"face_angle": 0.01}, "target": 5}, "target is 5"),
        ({"sd": {"face_angle": 0.1}, "fields": ["face_angle"]}, "fields goes with covariance"),
        ({"covariance": [[1.0]]}, "needs fields"),
        ({"covariance": [[1.0]], "fields": "face_angle"}, "needs fields"),
        ({"covariance": np.eye(3) * 1e-4, "fields": ["face_angle", "club_path"]}, "2 fields need (2, 2)"),
        ({"covariance": [[1.0, 0.5], [0.1, 1.0]], "fields": ["face_angle", "club_path"]}, "not symmetric"),
        ({"covariance": np.array([[1, 2], [2, 1]]) * 1e-4, "fields": ["face_angle", "club_path"]}, "semi-definite"),
        ({"covariance": np.diag([1, -1]) * 1e-4, "fields": ["face_angle", "club_path"]}, "variance of club_path"),
        ({"covariance": np.array([[1, np.nan], [0, 1]]), "fields": ["face_angle", "club_path"]}, "must be finite"),
        ({"covariance": np.eye(2) * 1e-4, "fields": ["face_angle", "face_angle"]}, "given twice"),
        ({"sd": {"pressure": 100.0, "altitude": 10.0}}, "cannot both vary"),
        ({"sd": {"pressure": 100.0}, "weather": wb.Weather(altitude=100)}, "pressure cannot vary"),
        ({"sd": {"temperature": 1.0}, "weather": wb.setting.Air()}, "it takes a Weather"),
        ({"sd": {"face_angle": 0.01}, "samples": 99}, "samples is 99; accepted: a whole number from 100"),
        ({"sd": {"face_angle": 0.01}, "samples": 2e4}, "samples is 20000.0"),
        ({"sd": {"face_angle": 0.01}, "samples": 10**10}, "to 1,000,000,000"),
        ({"sd": {"face_angle": 0.01}, "samples": 10**9, "keep": 10**9}, "22.4 GiB"),
        ({"sd": {"face_angle": 0.01}, "keep": -1}, "keep is -1"),
        ({"sd": {"face_angle": 0.01}, "seed": -1}, "seed is -1"),
        ({"sd": {"face_angle": 0.01}, "at": "apex"}, "at is 'apex'"),
        ({"sd": {"face_angle": 0.01}, "outputs": ["kerry"]}, "'kerry' is not known"),
        ({"sd": {"face_angle": 0.01}, "outputs": "carry"}, "a list of names"),
        ({"sd": {"face_angle": 0.01}, "target": ["circle"]}, "takes a Circle"),
        ({"sd": {"face_angle": 0.01}, "target": "circle"}, "takes a Circle"),
        ({"sd": {"face_angle": 0.01}, "errors": "mask"}, "errors"),
        ({"sd": {"face_angle": 0.01}, "wind": wb.Wind([1, 2])}, "wind has the shape (2,)"),
    ],
)  # fmt: skip
def test_a_spread_that_is_none_is_refused(asked, says, hit, iron):
    with pytest.raises(wb.InputError) as refused:
        wb.dispersion(hit, iron, **asked)
    assert says in str(refused.value)


def test_a_middle_that_cannot_be_played_is_refused(hit, iron):
    with pytest.raises(wb.InputError, match="missed the face"):
        wb.dispersion(wb.Delivery(40.0, strike_high=0.03, dynamic_loft=0.4), iron, sd={"face_angle": 0.01})
    with pytest.raises(wb.InputError, match="needs a club"):
        wb.dispersion(hit, sd={"face_angle": 0.01})
    with pytest.raises(wb.InputError, match="start has the shape"):
        wb.dispersion(wb.Launch([50.0, 51.0], 0.2), sd={"ball_speed": 0.01})
    with pytest.raises(wb.InputError, match="not Landing"):
        wb.dispersion(wb.Landing(20.0, 0.7), sd={"landing_speed": 1.0})


def test_a_shot_that_lacks_an_output_is_no_good_one():
    """As where a flight was played and no run."""
    shots = wb.play(wb.Launch([55.0, 56.0], 0.3, spin_rate=500.0))
    lacking = replace(shots.run, total=np.array([180.0, np.nan]))
    short = replace(shots, play_run=lambda: (lacking, {}))
    values, status = read(short, ("offline", "downrange", "total"))
    assert status.tolist() == ["ok", "no_value"] and np.isnan(values[:, 1]).all() and values[2, 0] == 180.0
    assert read(short, ("offline", "downrange"))[1].tolist() == ["ok", "ok"]


def test_what_was_not_asked_for_and_what_is_no_share_is_refused(hit, iron):
    cloud = wb.dispersion(hit, iron, sd={"face_angle": 0.01}, samples=100)
    for ask, says in (
        (lambda: cloud.quantile("total", 0.5), "was not asked for"),
        (lambda: cloud.quantile("carry", 1.0), "probability is 1.0"),
        (lambda: cloud.ellipse(1.0), "coverage is 1.0"),
    ):
        with pytest.raises(wb.InputError, match=says):
            ask()


# Strikes drawn again


def test_strikes_drawn_again_land_where_strikes_landed(iron):
    import pandas as pd

    table = pd.read_csv(DEMO)
    table = table[table["club"] == "7 iron"].drop(columns=[c for c in table.columns if c.startswith("carry")])
    cloud = wb.dispersion_of_strikes(table, samples=20_000, seed=6)
    played = wb.table(table)["computed_carry_yd"].to_numpy() * yd
    places, counts = np.unique(cloud.kept["carry"], return_counts=True)
    np.testing.assert_allclose(places, np.sort(played), rtol=1e-12)
    assert stats.chisquare(counts).pvalue > CHANCE
    mean = cloud.mean["carry"]
    assert abs(mean.value - played.mean()) < most_errors(1) * mean.standard_error
    assert cloud.sampling.draws.rows.shape[0] == 40 and cloud.left_out == 0
    assert "drawn from 40 strikes" in cloud.in_words() and "drawn again from 40 rows" in cloud.in_words()


def launches(**more):
    import pandas as pd

    return pd.DataFrame({
        "ball_speed_mph": [120.0, 122, 118, 121], "launch_angle_deg": [16.0, 15, 17, 16],
        "spin_rate_rpm": [6000.0, 6100, 5900, np.nan], **more,
    })  # fmt: skip


def test_launches_are_drawn_again_with_the_weather_of_their_row():
    cloud = wb.dispersion_of_strikes(launches(wind_speed_mph=[0.0, 10, 20, 5], wind_from_deg=0.0), samples=400)
    assert cloud.left_out == 1 and cloud.sampling.club is None
    wind = np.array([0.0, 10, 20]) * mph
    alone = wb.play(wb.Launch(np.array([120.0, 122, 118]) * mph, np.array([16.0, 15, 17]) * deg, 0.0,
                              np.array([6000.0, 6100, 5900]) * wb.units.rpm), wind=wb.Wind(wind))  # fmt: skip
    np.testing.assert_allclose(np.unique(cloud.kept["carry"]), np.sort(alone.carry), rtol=1e-9)


@pytest.mark.parametrize(
    ("make", "club", "says"),
    [
        (lambda: launches().iloc[:0], None, "no rows"),
        (lambda: launches()[["ball_speed_mph"]], None, "a row needs ball_speed"),
        (lambda: launches(club=["a", "b", "a", "b"]), None, "choose one"),
        (lambda: launches(club=["a", "b", "a", "b"]), "7 iron", "no strike of the 7 iron"),
        (lambda: launches().rename(columns={"ball_speed_mph": "swiftness"})[["swiftness"]], None, "no column"),
        (lambda: launches(), "spoon", "no club is called 'spoon'"),
        (lambda: "no_such.csv", None, "no such file"),
    ],
)
def test_a_table_of_no_use_is_refused(make, club, says):
    with pytest.raises(wb.InputError) as refused:
        wb.dispersion_of_strikes(make(), club)
    assert says in str(refused.value)


# Told and drawn


@pytest.fixture
def cloud(hit, iron):
    return wb.dispersion(hit, iron, sd={"face_angle": 1.5 * deg, "clubhead_speed": 1.2 * mph}, samples=3000,
                         target=TARGETS, outputs=["descent_angle", "smash_factor"])  # fmt: skip


def test_a_cloud_is_told_in_words_tables_and_html(cloud):
    words = cloud.in_words()
    for part in ("3,000 shots with the 7 iron", "face angle −1.0° ± 1.5°", "clubhead speed 84.0 mph ± 1.2 mph",
                 "left of the target line", "the circle of radius 10.0 yd at 150.0 yd", "ellipse for 80 %",
                 "Not included", "injure or kill", wb.cautions.HOW_SURE):  # fmt: skip
        assert part in words, part
    circle = cloud.shares[0]
    low, high = stats.binomtest(circle.hits, 3000).proportion_ci(method="wilson")
    assert (
        f"{100 * circle.share:.1f} % ({100 * low:.1f} % to {100 * high:.1f} %), {circle.hits:,} of 3,000" in words
    )
    assert f"SD {cloud.sd['carry'].value / yd:.1f} yd" in words
    assert "150.0 yd" not in cloud.in_words("metric") and "137.2 m" in cloud.in_words("metric")
    assert "descent_angle" in repr(cloud) and "<table>" in cloud._repr_html_()
    frame = cloud.frame()
    assert frame.loc["carry", "mean"] == pytest.approx(cloud.mean["carry"].value / yd)
    assert frame.loc["descent_angle", "unit"] == "deg" and (frame["sd_se"] > 0).all()
    samples = cloud.samples_frame()
    assert list(samples.columns[:2]) == ["face_angle_deg", "clubhead_speed_mph"] and len(samples) == 3000
    assert samples["carry_yd"].mean() == pytest.approx(cloud.mean["carry"].value / yd)


def test_the_table_of_samples_plays_to_the_same_landings(hit, iron):
    """What a cloud writes, ``table`` reads and plays to the same carries."""
    spread = {"face_angle": 1.5 * deg, "wind_speed": 2.0, "temperature": 4.0}
    some = wb.dispersion(hit, iron, sd=spread, samples=100).samples_frame().assign(
        clubhead_speed_mph=84.0, dynamic_loft_deg=24.0, attack_angle_deg=-6.0, club_path_deg=4.0, club="7 iron"
    )  # fmt: skip
    np.testing.assert_allclose(wb.table(some)["computed_carry_yd"], some["carry_yd"], rtol=1e-9)


def test_another_region_is_asked_afterwards(cloud):
    assert cloud.share(TARGETS[0]) == cloud.shares[0]


def test_the_picture_shows_cloud_median_ellipse_and_target(cloud):
    import matplotlib.pyplot as plt

    ax = cloud.plot()
    labels = ax.get_legend_handles_labels()[1]
    assert labels == ["target line", "target", "ellipse for 80 % of normal shots", "median"]
    assert ax.get_xlabel() == "sideways, yd" and ax.get_ylabel() == "downrange, yd" and ax.get_aspect() == 1
    assert "3,000" in ax.get_title(loc="left")
    median = next(line for line in ax.lines if line.get_label() == "median")
    assert median.get_ydata()[0] == pytest.approx(cloud.quantile("downrange", 0.5).value / yd)
    plt.close(ax.figure)


def test_a_picture_of_few_shots_has_a_dot_a_shot_in_axes_given(hit, iron):
    import matplotlib.pyplot as plt

    ax = plt.subplots()[1]
    few = wb.dispersion(hit, iron, sd={"face_angle": 1.5 * deg}, samples=120)
    assert few.plot(ax, "metric") is ax and ax.get_xlabel() == "sideways, m"
    dots = next(line for line in ax.lines if line.get_label() == "shots")
    assert len(dots.get_xdata()) == 120
    plt.close(ax.figure)


def test_balls_that_never_leave_the_ground_come_to_rest_like_any_other():
    start, spread = wb.Launch(40.0, 1 * deg), {"launch_angle": 2 * deg}
    landing, rest = (wb.dispersion(start, sd=spread, samples=1000, at=at) for at in ("landing", "rest"))
    assert landing.failed["not_airborne"] > 200 and rest.failed == {}
    angles = deg + 2 * deg * deviates(0, 0, 1000, 1)[:, 0]
    played = wb.play(wb.Launch(40.0, angles))
    assert rest.mean["total"].value == pytest.approx(float(np.mean(played.run.total)), rel=1e-6)


def test_a_cloud_takes_one_club(hit, iron):
    with pytest.raises(wb.InputError, match=r"club has the shape \(200,\): a cloud is drawn around one shot"):
        wb.dispersion(hit, replace(iron, mass=np.full(200, 0.27)), sd=WILD, samples=200)
