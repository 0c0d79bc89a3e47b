"""What drives the scatter: Shapley effects against closed forms and all orders, physics against replays."""

from itertools import permutations

import numpy as np
import pytest
from scipy import stats

import whimbrel as wb
from whimbrel.sessions.drivers import DRAWN, drives_scatter, gradients, halve_each, without_noise
from whimbrel.statistics.shapley import covariance_terms, shapley_effects, variance_explained
from whimbrel.units import deg, mph


def by_all_orders(gradient, covariance):
    """Owen's definition, order by order, with the explained variance from a regression."""

    def worth(group):
        if not group:
            return 0.0
        shared = (covariance @ gradient)[group]
        return shared @ np.linalg.lstsq(covariance[np.ix_(group, group)], shared, rcond=1e-12)[0]

    effects, orders = np.zeros(len(gradient)), list(permutations(range(len(gradient))))
    for order in orders:
        for place, i in enumerate(order):
            effects[i] += worth(list(order[: place + 1])) - worth(list(order[:place]))
    return effects / len(orders)


def random_covariance(draw, d):
    a = draw.normal(size=(d, d + 2))
    return a @ a.T


@pytest.mark.parametrize("d", [1, 2, 3, 5])
def test_shapley_effects_are_the_average_over_all_orders_and_add_up_to_the_variance(draw, d):
    for _ in range(5):
        gradient, covariance = draw.normal(size=d), random_covariance(draw, d)
        effects = shapley_effects(gradient, covariance)
        assert effects == pytest.approx(by_all_orders(gradient, covariance), rel=1e-9, abs=1e-9)
        assert effects.sum() == pytest.approx(gradient @ covariance @ gradient, rel=1e-9)
        assert (effects > -1e-9).all()


def test_two_correlated_inputs_share_as_the_closed_form_of_iooss_and_prieur(draw):
    """Y = b1 X1 + b2 X2: effect 1 = b1²s1²(1 − ρ²/2) + b1 b2 ρ s1 s2 + b2²s2² ρ²/2."""
    b1, b2, s1, s2, rho = 1.3, -0.7, 2.0, 1.5, 0.6
    covariance = np.array([[s1**2, rho * s1 * s2], [rho * s1 * s2, s2**2]])
    first = (b1 * s1) ** 2 * (1 - rho**2 / 2) + b1 * b2 * rho * s1 * s2 + (b2 * s2) ** 2 * rho**2 / 2
    assert shapley_effects(np.array([b1, b2]), covariance)[0] == pytest.approx(first, rel=1e-12)


def test_independent_inputs_get_their_own_variance_and_an_input_without_effect_nothing(draw):
    effects = shapley_effects(np.array([2.0, 0.0, -1.0]), np.diag([1.0, 5.0, 4.0]))
    assert effects == pytest.approx([4.0, 0.0, 4.0], abs=1e-12)


def test_symmetric_inputs_get_equal_shares_even_when_they_are_one_and_the_same():
    same = np.array([[1.0, 1.0], [1.0, 1.0]])
    assert shapley_effects(np.array([1.0, 1.0]), same) == pytest.approx([2.0, 2.0])
    assert variance_explained(np.array([1.0, 1.0]), same, [0]) == pytest.approx(4.0)


def test_the_units_of_the_inputs_do_not_matter(draw):
    gradient, covariance = draw.normal(size=4), random_covariance(draw, 4)
    units = np.array([1e-3, 1.0, 1e3, 1e6])
    assert shapley_effects(gradient / units, covariance * np.outer(units, units)) == pytest.approx(
        shapley_effects(gradient, covariance), rel=1e-8
    )


def test_a_pair_that_makes_up_for_each_other_has_a_term_below_zero():
    terms = covariance_terms(np.array([1.0, -1.0]), np.array([[1.0, 0.5], [0.5, 1.0]]))
    assert terms[0, 1] == -0.5 and terms.sum() == pytest.approx(1.0)


def test_measurement_noise_comes_off_the_diagonal_and_what_is_left_can_be_a_covariance():
    covariance = np.array([[4.0, 1.9], [1.9, 1.0]])
    cleaned, notes = without_noise(covariance, np.array([0.1, 0.0]), ["a", "b"])
    assert cleaned == pytest.approx(np.array([[3.99, 1.9], [1.9, 1.0]])) and notes == []
    cleaned, notes = without_noise(covariance, np.array([1.0, 0.5]), ["a", "b"])
    assert np.linalg.eigvalsh(cleaned).min() > -1e-12 and np.diag(cleaned) == pytest.approx([3.0, 0.75])
    assert "beyond 1" in notes[0]
    cleaned, notes = without_noise(covariance, np.array([2.5, 0.0]), ["a", "b"])
    assert cleaned == pytest.approx(np.array([[0.0, 0.0], [0.0, 1.0]])) and "noise stated for a" in notes[0]


@pytest.fixture
def played(iron):
    def play(delivery):
        shot = wb.play(delivery, iron, errors="mask")
        return np.where(shot.status == "ok", shot.carry, np.nan), shot.offline

    return play


@pytest.fixture
def swings(draw):
    """40 deliveries; face and path go together."""
    n = 40
    path = draw.normal(2, 2, n)
    return wb.Delivery(
        draw.normal(84, 1.5, n) * mph,
        path * deg,
        np.full(n, -4 * deg),
        (path + draw.normal(0, 0.5, n)) * deg,
        24 * deg,
    )


def test_slopes_are_what_one_degree_more_does(played, iron):
    middle = {"clubhead_speed": 84 * mph, "face_angle": 0.0, "club_path": 0.0, "dynamic_loft": 24 * deg}
    carry, offline = gradients(["face_angle", "clubhead_speed"], middle, played)
    apart = [
        wb.play(wb.Delivery(84 * mph, face_angle=a * deg, dynamic_loft=24 * deg), iron).offline for a in (-0.5, 0.5)
    ]
    assert offline[0] * deg == pytest.approx(apart[1] - apart[0], rel=0.01)
    faster = [wb.play(wb.Delivery(v * mph, dynamic_loft=24 * deg), iron).carry for v in (83.5, 84.5)]
    assert carry[1] * mph == pytest.approx(faster[1] - faster[0], rel=0.01)


def test_shares_add_up_and_what_does_not_vary_has_no_part(played, swings):
    scatter = drives_scatter(swings, played)
    assert {part.quantity for part in scatter.parts} == {"clubhead_speed", "club_path", "face_angle"}
    for share in ("carry_share", "offline_share", "share"):
        assert sum(getattr(part, share) for part in scatter.parts) == pytest.approx(1.0, abs=1e-9)
    for what, linear in zip(("carry", "offline"), scatter.linear, strict=True):
        assert sum(scatter.terms[what].values()) == pytest.approx(linear**2, rel=1e-9)


def test_straight_lines_agree_with_played_deliveries_where_the_scatter_is_small(played, swings):
    scatter = drives_scatter(swings, played)
    for line, drawn in zip(scatter.linear, scatter.drawn, strict=True):
        assert line == pytest.approx(drawn, rel=0.15)
    assert not any("Straight lines" in note for note in scatter.notes)


def test_spreads_are_those_of_the_strikes_and_of_the_deliveries_drawn_like_them(played, swings):
    seen = []

    def remembered(delivery):
        seen.append(played(delivery))
        return seen[-1]

    scatter = drives_scatter(swings, remembered)
    for part in scatter.parts:
        sd = np.std(getattr(swings, part.quantity), ddof=1)
        assert (part.sd, part.own) == pytest.approx((sd, sd), rel=1e-12)
    drawn = next(landings for landings in seen if len(landings[0]) == DRAWN)
    assert scatter.drawn == pytest.approx([np.nanstd(y, ddof=1) for y in drawn], rel=1e-12)


def test_where_face_and_path_make_up_for_each_other_halving_one_alone_does_harm(played, swings):
    scatter = drives_scatter(swings, played)
    parts = {part.quantity: part for part in scatter.parts}
    assert scatter.terms["offline"]["club_path", "face_angle"] < 0
    assert parts["club_path"].harms and parts["club_path"].halved > 0
    assert scatter.parts[-1].quantity == "club_path"
    assert parts["clubhead_speed"].halved < 0


def test_halving_the_only_spread_there_is_halves_the_scatter_of_offline(played):
    face = np.linspace(-1, 1, 21) * deg
    columns = {"clubhead_speed": np.full(21, 84 * mph), "face_angle": face, "dynamic_loft": np.full(21, 24 * deg)}
    scatter, [(halved, low, high)] = halve_each(["face_angle"], columns, played, 0)
    assert halved == pytest.approx(-scatter / 2, rel=0.02) and low < halved < high < 0


def test_the_gain_of_halving_has_the_95_percent_interval_of_the_bootstrap(draw):
    """Against SciPy's. √(0.025 · 0.975 / resamples) / φ(1.96) standard deviations is what an end is known to."""
    face, path = draw.normal(0, 1, (2, 30)) * deg
    columns = {"clubhead_speed": np.full(30, 40.0), "face_angle": face, "club_path": path}

    def straight(delivery):
        return 200 * delivery.club_path, 300 * delivery.face_angle

    def gain(face, path, axis):
        at = 300 * face.var(axis=axis, ddof=1) ** 0.5, 200 * path.var(axis=axis, ddof=1) ** 0.5
        return np.hypot(at[0] / 2, at[1]) - np.hypot(*at)

    theirs = stats.bootstrap(
        (face, path), gain, paired=True, method="percentile", n_resamples=20_000, rng=np.random.default_rng(1)
    ).confidence_interval
    parts = [halve_each(["face_angle"], columns, straight, seed)[1][0] for seed in range(40)]
    halved, low, high = np.mean(parts, axis=0)
    assert halved == pytest.approx(gain(face, path, -1), rel=1e-12)
    sd = (theirs.high - theirs.low) / (2 * stats.norm.ppf(0.975))
    close = 4 * sd * np.sqrt(0.025 * 0.975 * (1 / (40 * 400) + 1 / 20_000)) / stats.norm.pdf(1.96)
    assert (low, high) == pytest.approx((theirs.low, theirs.high), abs=close)


def test_a_ball_that_does_as_the_delivery_says_leaves_nothing_unexplained(played, swings, draw):
    carry, offline = played(swings)
    exact = drives_scatter(swings, played, measured=(carry, offline))
    assert exact.unexplained == pytest.approx((0.0, 0.0), abs=1e-20)
    noisy = drives_scatter(swings, played, measured=(carry + draw.normal(0, carry.std(), 40), offline))
    assert 0.25 < noisy.unexplained[0] < 0.8 and noisy.unexplained[1] == pytest.approx(0.0, abs=1e-20)
    assert drives_scatter(swings, played).unexplained is None


def test_noise_as_large_as_a_spread_takes_its_share_away(played, swings):
    scatter = drives_scatter(swings, played, noise={"clubhead_speed": 3 * mph})
    speed = next(part for part in scatter.parts if part.quantity == "clubhead_speed")
    assert speed.own == 0 and speed.carry_share == pytest.approx(0.0, abs=1e-12)
    assert any("clubhead_speed" in note for note in scatter.notes)


def test_few_strikes_or_none_that_varies_are_refused(played):
    with pytest.raises(wb.InputError, match="too few"):
        drives_scatter(wb.Delivery(np.linspace(37, 38, 5), dynamic_loft=24 * deg), played)
    with pytest.raises(wb.InputError, match="nothing in the delivery varies"):
        drives_scatter(wb.Delivery(np.full(20, 38.0), dynamic_loft=24 * deg), played)
