"""What the words say of a swing arc, and what they must not say."""

import numpy as np
import pytest

import whimbrel as wb
from whimbrel.questions.swing_plane import look_of
from whimbrel.units import deg
from whimbrel.words import arc as words_arc

LOOK = "can look over the top and measure in-to-out"


def told(path, attack, plane=62.0, hand="right", units="yards", height=0.0, off=0.0):
    hit = wb.Delivery(40.0, path * deg, attack * deg)
    shape = {"radius": 1.6, "height": height, "hand": hand}
    middle = wb.arcs.arc_of(hit, plane_inclination=plane * deg, **shape)
    spread = wb.arcs.arc_of(hit, plane_inclination=np.array([plane - off, plane + off]) * deg, **shape)
    return words_arc.of_arc(middle, spread, hit, hand, units)


@pytest.mark.parametrize(("hand", "away"), [("right", 1), ("left", -1)])
def test_over_the_top_is_said_exactly_where_the_path_goes_out_by_less_than_the_downward_hit_moves_it(
    draw, hand, away
):
    said = 0
    for path, attack, plane in zip(
        draw.uniform(-6, 6, 1000), draw.uniform(-9, 5, 1000), draw.uniform(42, 72, 1000), strict=True
    ):
        beta = np.arcsin(np.sin(attack * deg) / np.sin(plane * deg))
        offset = -np.arctan(np.tan(beta) * np.cos(plane * deg)) / deg
        if min(abs(path), abs(away * path - offset)) < 0.1:
            continue  # as good as at the target; not for this test
        expected = bool(0 < away * path < offset)
        assert (LOOK in told(path, attack, plane, hand)) is expected, (path, attack, plane)
        said += expected
    assert said > 100


@pytest.mark.parametrize(
    ("path", "attack"),
    [(4.0, -6.0), (-1.0, -6.0), (-4.0, -2.0), (1.0, 3.0), (-1.0, 3.0), (0.0, -6.0)],
)
def test_where_the_numbers_do_not_support_the_look_the_words_say_so(path, attack):
    text = told(path, attack)
    assert LOOK not in text and "downward hit makes the difference" not in text
    assert "These numbers do not give a swing that looks over the top and measures in-to-out" in text


def test_where_the_planes_range_covers_both_sides_the_words_say_that_too():
    assert "or to the other side, as the plane's range covers both" in told(3.0, -6.0, off=4.0)
    assert "other side" not in told(2.0, -6.0, off=4.0)


def test_the_plane_the_shift_and_the_path_are_told_with_their_sides():
    text = told(2.0, -6.0)
    assert "plane points 1.2° left of the target" in text
    assert "Hitting 6.0° down on a plane of 62.0° moves the path 3.2° to the right of it" in text
    assert "path measures 2.0° right of the target" in text
    up = told(-1.0, 4.0, 48.0)
    assert "plane points 2.6° right of the target" in up
    assert "Hitting 4.0° up on a plane of 48.0° moves the path 3.6° to the left of it" in up


def test_a_left_handers_words_are_the_mirror_image():
    right, left = told(2.0, -6.0), told(-2.0, -6.0, hand="left")
    swapped = right.replace("left", "\1").replace("right", "left").replace("\1", "right")
    assert left == swapped


def test_the_low_point_is_told_in_the_units_asked_for_and_on_its_side():
    yards, metric = told(2.0, -6.0), told(2.0, -6.0, units="metric")
    assert "a radius of 160.0 cm, the low point lies 7.46 in ahead of the ball, 9.9 mm below the turf" in yards
    assert "Taking the leading edge as level with the turf at the ball" in yards
    assert "low point lies 18.9 cm ahead of the ball" in metric
    behind = told(0.0, 3.0, 47.0, height=0.025)
    assert (
        "behind the ball" in behind
        and "above the turf" in behind
        and "25.0 mm above the turf at the ball" in behind
    )


def test_a_hit_that_does_not_move_the_path_is_not_said_to_move_it_by_nothing():
    words = told(2.0, -5.0, plane=90.0)
    assert "Hitting 5.0° down on a plane of 90.0° does not move the path, which measures 2.0° right" in words


def test_the_words_of_a_look_on_an_upright_plane_move_nothing_either():
    hit = wb.Delivery(40.0, 2 * deg, -5 * deg)
    words = look_of(hit, plane_inclination=90 * deg, plane_range=0.0).in_words()
    assert "Hitting 5.0° down does not move the path, which measures 2.0° right" in words
