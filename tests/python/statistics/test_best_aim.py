"""Target play: rates against SciPy, aims against patterns whose best aim is known."""

import numpy as np
import pytest

from whimbrel.statistics.best_aim import SOUGHT, target_play
from whimbrel.statistics.targets import Circle, Corridor, Polygon, Rectangle
from whimbrel.units import deg, yd


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


def test_where_every_aim_holds_all_the_best_is_that_of_the_medians_and_wanders_as_they_do(draw):
    """Bootstraps of the medians, 200 against 2,000: 4 standard errors, each known to √(1 / 2 resamples)."""
    turn, distance = draw.normal(1, 1, 51) * deg, draw.normal(140, 3, 51)
    play = target_play(distance * np.sin(turn), distance * np.cos(turn), Circle(150, 60))
    assert play.aimed_rate == play.left_out_rate == 1.0
    again = draw.integers(0, 51, (2_000, 51))
    close = 4 * np.sqrt(1 / 400 + 1 / 4_000)
    for x, aim, sd, steps in ((-turn, play.direction, play.direction_sd, 60), (150 - distance, play.distance,
                              play.distance_sd, 40)):  # fmt: skip
        step = np.diff(np.quantile(x, [0.1, 0.9]))[0] / steps
        assert aim == pytest.approx(np.median(x), abs=step)
        assert sd == pytest.approx(np.median(x[again], axis=1).std(), rel=close, abs=step / 2)


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
    from whimbrel.statistics.best_aim import _try

    aims = _try(x, y, target)
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


def test_a_polygon_is_aimed_at_as_the_green_of_the_same_outline(draw):
    turn, distance = draw.normal(2, 1, 60) * deg, draw.normal(142, 4, 60)
    x, y = distance * np.sin(turn), distance * np.cos(turn)
    green = target_play(x, y, Rectangle(150.0, 20.0, 16.0))
    outline = target_play(x, y, Polygon([(-10, 142), (10, 142), (10, 158), (-10, 158)]))
    assert (outline.hits, outline.aimed_rate, outline.left_out_rate) == (
        green.hits, green.aimed_rate, green.left_out_rate
    )  # fmt: skip
    assert (outline.direction, outline.distance) == pytest.approx((green.direction, green.distance), abs=1e-9)


def test_a_target_beside_the_line_asks_for_an_aim_toward_it(draw):
    turn, distance = draw.normal(0, 0.8, 60) * deg, draw.normal(150, 3, 60)
    play = target_play(
        distance * np.sin(turn), distance * np.cos(turn), Polygon([(22, 142), (38, 142), (38, 158), (22, 158)])
    )
    assert play.direction == pytest.approx(np.arctan2(30, 150), abs=0.8 * deg)
    assert play.distance == pytest.approx(np.hypot(30, 150) - 150, abs=3)
