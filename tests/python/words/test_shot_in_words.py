"""What the ball did, in three sentences: its flight, its landing, its run."""

import numpy as np
import pytest

import whimbrel as wb
from whimbrel.core import cautions
from whimbrel.units import deg, rpm


def told(path, face, hand="right", units="yards"):
    club = wb.clubs["7 iron"] if hand == "right" else wb.clubs["7 iron"].left_handed()
    return wb.play(wb.Delivery(38.0, path * deg, -4 * deg, face * deg, 24 * deg), club).in_words(units)


@pytest.mark.parametrize(
    ("path", "face", "hand", "curve", "name"),
    [
        (0, 3, "right", "right", "a fade or slice for a right-hander"),
        (0, -3, "right", "left", "a draw or hook for a right-hander"),
        (0, 3, "left", "right", "a draw or hook for a left-hander"),
        (0, -3, "left", "left", "a fade or slice for a left-hander"),
    ],
)
def test_a_curve_has_its_side_and_the_name_that_depends_on_the_hand(path, face, hand, curve, name):
    text = told(path, face, hand)
    assert f"to the {curve}" in text
    assert f"({name})" in text


def test_a_ball_can_start_right_of_the_target_and_still_curve_left():
    text = told(path=6, face=3)
    assert "right of the target line at" in text and "to the left (a draw" in text


def test_a_square_strike_flew_straight_and_says_no_side():
    text = told(0, 0)
    assert "started on the target line" in text
    assert "flew straight" in text and "landed on the target line" in text
    assert "left" not in text and "right" not in text


def test_there_are_three_sentences_with_the_numbers_in_the_units_asked_for(shot):
    yards, metric = shot.in_words(), shot.in_words("metric")
    for text in (yards, metric):
        started, carried, ran = text.split(". ")
        assert started.startswith("The ball started") and carried.startswith("It carried")
        assert ran.startswith("On the firm fairway it ran") and ran.endswith(".")
    assert f"carried {shot.carry / 0.9144:.1f} ± " in yards and "mph" in yards
    assert f"carried {shot.carry:.1f} ± " in metric and "mph" not in metric and "yd" not in metric
    assert f"{shot.launch.spin_rate / rpm:,.0f} rpm" in yards
    assert f"{shot.flight.flight_time:.2f} s" in yards
    assert f"ran {shot.run.distance / 0.9144:.1f} yd on" in yards
    assert f"to rest {shot.total:.1f} ± {wb.doubt(shot).sd('total'):.1f} m from the start" in metric


def test_a_measured_launch_has_no_name_for_its_curve():
    text = wb.play(wb.Launch(60.0, 0.2, 0.0, 400.0, 0.2)).in_words()
    assert "to the right" in text
    assert "fade" not in text and "draw" not in text


def test_a_ball_that_never_left_the_ground_has_no_carry_to_tell():
    text = wb.play(wb.Launch(30.0, -3 * deg)).in_words()
    assert "67.1 mph" in text and "never left the ground" in text and "no carry" in text


def test_a_ball_that_never_landed_has_no_carry_to_tell():
    text = wb.play(wb.Launch(20.0, 0.3), terrain=wb.Terrain(height=100.0)).in_words()
    assert "60 s" in text and "no carry" in text


def test_words_are_for_one_shot():
    with pytest.raises(ValueError, match="one shot"):
        wb.play(wb.Launch(np.array([50.0, 60.0]), 0.2)).in_words()


def test_words_of_a_bad_system_of_units_are_refused(shot):
    with pytest.raises((ValueError, KeyError)):
        shot.in_words("furlongs")


def test_the_cautions_are_complete():
    for text in ("not for siting", "nets", "fences", "injure or kill", "professional", "doctor"):
        assert text in cautions.CAUTION
    assert "18 m" in cautions.HOW_SURE and "Lyu et al. 2018" in cautions.HOW_SURE


def test_a_curve_that_the_wind_made_has_no_name_of_the_swing():
    hit = wb.Delivery(45.0, dynamic_loft=13 * deg)
    blown = wb.play(hit, wb.clubs["driver"], wind=wb.Wind.from_right(5.0))
    assert "to the left" in blown.in_words()
    assert "draw" not in blown.in_words() and "fade" not in blown.in_words()
