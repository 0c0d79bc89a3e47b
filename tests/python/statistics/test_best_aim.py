"""Target play: rates against SciPy, aims against patterns whose best aim is known."""

import numpy as np
import pytest
from scipy import stats

import whimbrel as wb
from whimbrel.statistics.best_aim import SOUGHT, Circle, Corridor, Rectangle, target_play, wilson
from whimbrel.units import deg, yd


@pytest.mark.parametrize(("hits", "n"), [(0, 5), (3, 7), (20, 20), (412, 1000)])
def test_the_interval_of_a_rate_is_scipys_wilson(hits, n):
    theirs = stats.binomtest(hits, n).proportion_ci(method="wilson")
    assert wilson(hits, n) == pytest.approx((theirs.low, theirs.high), abs=1e-12)


def test_each_shape_holds_what_lies_in_it():
    x, y = np.array([0.0, 5.0, -5.0, 0.0, 9.0]), np.array([100.0, 100.0, 96.0, 111.0, 100.0])
    assert Circle(100, 6).holds(x, y).tolist() == [True, True, False, False, False]
    assert Rectangle(100, 12, 24).holds(x, y).tolist() == [True, True, True, True, False]
    assert Corridor(12).holds(x, y).tolist() == [True, True, True, True, False]


def test_hits_are_counted_and_strikes_that_landed_nowhere_are_not():
    play = target_play(np.array([0.0, 20.0, np.nan]), np.array([100.0, 100.0, 100.0]), Circle(100, 5))
    assert (play.hits, play.n, play.rate) == (1, 2, 0.5)
    assert target_play(np.array([np.nan]), np.array([np.nan]), Circle(100, 5)) is None


def test_a_pattern_off_to_the_right_and_short_asks_for_an_aim_left_and_longer(draw):
    distance, turn = draw.normal(140, 3, 60), draw.normal(3, 0.8, 60) * deg
    play = target_play(distance * np.sin(turn), distance * np.cos(turn), Circle(150, 8))
    assert play.direction == pytest.approx(-3 * deg, abs=0.8 * deg)
    assert play.distance == pytest.approx(10, abs=3)
    assert play.aimed_rate > play.rate + 0.3
    assert play.left_out_rate <= play.aimed_rate
    assert 0 < play.direction_sd < 1.5 * deg and 0 < play.distance_sd < 4


def test_a_corridor_is_aimed_at_by_direction_alone(draw):
    turn = draw.normal(-2, 1, 50) * deg
    play = target_play(200 * np.sin(turn), 200 * np.cos(turn), Corridor(20 * yd))
    assert play.distance == 0 and play.distance_sd == 0 and play.direction > 1 * deg


def test_the_rate_of_left_out_strikes_does_not_flatter(draw):
    """The best aim of 12 strikes promises more than it keeps; what is left out tells what it keeps."""
    promised, kept, fresh = [], [], []
    for _ in range(40):
        turn, distance = draw.normal(0, 2, 12) * deg, draw.normal(150, 6, 12)
        play = target_play(distance * np.sin(turn), distance * np.cos(turn), Circle(150, 5))
        turn, distance = draw.normal(0, 2, 300) * deg + play.direction, draw.normal(150, 6, 300) + play.distance
        promised.append(play.aimed_rate)
        kept.append(play.left_out_rate)
        fresh.append(Circle(150, 5).holds(distance * np.sin(turn), distance * np.cos(turn)).mean())
    assert np.mean(promised) > np.mean(fresh) + 0.1
    assert abs(np.mean(kept) - np.mean(fresh)) < 0.08


def test_leaving_one_out_is_what_choosing_the_aim_without_it_does(draw):
    turn, distance = draw.normal(1, 2, 9) * deg, draw.normal(150, 6, 9)
    x, y, target = distance * np.sin(turn), distance * np.cos(turn), Circle(150, 7)
    from whimbrel.statistics.best_aim import _tried

    aims = _tried(x, y, target)
    cost, held = aims.cost(x, y), []
    for i in range(9):
        best = int(np.argmax(np.delete(aims.held, i, 1).sum(1) - cost))
        held.append(aims.held[best, i])
    assert target_play(x, y, target).left_out_rate == pytest.approx(np.mean(held))


def test_many_strikes_are_all_counted_and_the_aim_is_sought_among_some(draw):
    turn, distance = draw.normal(0, 2, 5000) * deg, draw.normal(150, 6, 5000)
    play = target_play(distance * np.sin(turn), distance * np.cos(turn), Rectangle(150, 20, 20))
    assert play.n == 5000 and play.sought_in == SOUGHT
    assert play == target_play(distance * np.sin(turn), distance * np.cos(turn), Rectangle(150, 20, 20))


@pytest.mark.parametrize(
    "make", [lambda: Circle(150, 0), lambda: Corridor(-1), lambda: Rectangle(150, float("nan"), 3)]
)
def test_a_target_without_size_is_refused(make):
    with pytest.raises(wb.InputError, match="must be above 0"):
        make()
