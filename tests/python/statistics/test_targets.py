"""Targets: what each shape holds, where its middle is, and what no shape is."""

from dataclasses import FrozenInstanceError

import numpy as np
import pytest
from scipy import stats
from statsmodels.stats.proportion import proportion_confint

import whimbrel as wb
from whimbrel.statistics.targets import Circle, Corridor, Polygon, Rectangle, check_target, share_of, wilson


@pytest.mark.parametrize(
    ("hits", "n", "low", "high"),
    [(81, 263, 0.2553, 0.3662), (15, 148, 0.0624, 0.1605), (0, 20, 0.0, 0.1611), (1, 29, 0.0061, 0.1718)],
)
def test_the_interval_of_a_rate_has_the_worked_values_of_newcombe(hits, n, low, high):
    """Newcombe, Statistics in Medicine 17 (1998) 857, table I, the score method; from memory."""
    assert wilson(hits, n) == pytest.approx((low, high), abs=0.5e-4)


@pytest.mark.parametrize(("hits", "n"), [(0, 5), (3, 7), (20, 20), (412, 1000)])
def test_the_interval_of_a_rate_is_that_of_statsmodels(hits, n):
    assert wilson(hits, n) == pytest.approx(proportion_confint(hits, n, method="wilson"), abs=1e-12)


def test_a_share_has_the_standard_error_of_the_binomial():
    circle = Circle(150, 8)
    share = share_of(circle, 30, 120)
    assert share == (circle, 30, 120, 0.25, share.standard_error, *wilson(30, 120))
    assert share.standard_error == pytest.approx(stats.binom(120, 0.25).std() / 120, rel=1e-12)


def test_a_target_cannot_be_changed_in_the_hand_of_who_uses_it():
    for target in (Circle(150, 8), Rectangle(150, 8, 8), Corridor(8), Polygon([(0, 0), (1, 0), (0, 1)])):
        with pytest.raises(FrozenInstanceError):
            target.distance = 1.0


def test_each_shape_holds_what_lies_in_it():
    x, y = np.array([0.0, 5.0, -5.0, 0.0, 9.0]), np.array([100.0, 100.0, 96.0, 111.0, 100.0])
    assert Circle(100, 6).holds(x, y).tolist() == [True, True, False, False, False]
    assert Rectangle(100, 12, 24).holds(x, y).tolist() == [True, True, True, True, False]
    assert Corridor(12).holds(x, y).tolist() == [True, True, True, True, False]


@pytest.mark.parametrize(
    "make", [lambda: Circle(150, 0), lambda: Corridor(-1), lambda: Rectangle(150, float("nan"), 3)]
)
def test_a_target_without_size_is_refused(make):
    with pytest.raises(wb.InputError, match="must be above 0"):
        make()


def test_a_polygon_holds_what_is_inside_its_line(draw):
    """Against matplotlib's paths, on outlines that do not cross themselves."""
    from matplotlib.path import Path

    points = draw.uniform(-3, 3, (5000, 2))
    for corners in range(3, 12):
        turn = np.sort(draw.uniform(0, 2 * np.pi, corners))
        outline = draw.uniform(0.5, 2.5, corners)[:, None] * np.stack([np.cos(turn), np.sin(turn)], axis=1)
        ours = Polygon(outline).holds(*points.T)
        assert np.array_equal(ours, Path(outline).contains_points(points)), outline


def test_a_polygon_of_four_corners_is_the_green():
    green = Rectangle(100.0, 20.0, 10.0)
    outline = Polygon([(-10, 95), (10, 95), (10, 105), (-10, 105)])
    x, y = np.random.default_rng(5).uniform([-15, 90], [15, 110], (2000, 2)).T
    assert np.array_equal(outline.holds(x, y), green.holds(x, y)) and outline.area == 200.0


@pytest.mark.parametrize(
    "corners", [[(0, 0), (1, 1)], [(0, 0), (1, 1), (2, np.nan)], [(0, 0), (1, 1), (2, 2)], "abc"]
)
def test_a_polygon_of_no_inside_is_refused(corners):
    with pytest.raises(wb.InputError, match="polygon"):
        Polygon(corners)


def test_each_shape_has_its_middle():
    assert Circle(100.0, 6.0).middle == Rectangle(100.0, 12.0, 24.0).middle == (0.0, 100.0)
    assert Corridor(12.0).middle is None
    assert Polygon([(2, 95), (10, 95), (10, 105), (2, 105)]).middle == pytest.approx((6.0, 100.0), abs=1e-12)
    triangle = np.array([(0.0, 90.0), (9.0, 96.0), (-3.0, 120.0)])
    assert Polygon(triangle).middle == pytest.approx(tuple(triangle.mean(axis=0)), abs=1e-12)
    assert Polygon(triangle[::-1]).middle == pytest.approx(tuple(triangle.mean(axis=0)), abs=1e-12)


@pytest.mark.parametrize("thing", [None, 150.0, "circle", (Circle(100, 6),)])
def test_what_is_no_target_is_refused_by_name(thing):
    with pytest.raises(wb.InputError, match=r"target is .* it takes a Circle, Rectangle, Corridor or Polygon"):
        check_target(thing)
