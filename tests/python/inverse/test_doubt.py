"""How sure numbers are, by source, of shots and of their differences."""

import math
from dataclasses import replace

import numpy as np
import pytest

import whimbrel as wb
from whimbrel.core import cautions
from whimbrel.inverse.doubt import SOURCES
from whimbrel.units import deg, mph, rpm, yd

IRON = wb.Launch(120 * mph, 16.5 * deg, spin_rate=7100 * rpm)


def usual(name, pace=113 * mph):
    club = wb.clubs[name]
    return wb.play(wb.usual_delivery(club, pace), club)


def test_every_number_of_a_shot_has_a_doubt_and_its_sources_are_independent():
    doubt = wb.doubt(usual("7 iron"))
    for name in ("smash_factor", "spin_rate", "carry", "apex", "landing_speed", "total", "run_time"):
        parts = doubt.by_source(name)
        assert tuple(parts) == tuple(SOURCES)
        assert doubt.sd(name) == pytest.approx(math.hypot(*parts.values()), rel=1e-12)
        assert doubt.sd(name) > 0.0


def test_a_mid_iron_is_sure_to_4_yd_and_mostly_balls_differ():
    parts = wb.doubt(IRON).by_source("carry")
    assert parts["contact"] == 0.0  # nothing was struck
    assert parts["ball"] > parts["flight_constants"] > parts["flight_law"] > 0.0
    assert 3 * yd < wb.doubt(usual("7 iron")).sd("carry") < 5 * yd


def test_the_doubt_of_arrays_is_that_of_each_shot():
    speeds = np.array([90.0, 120.0, 160.0]) * mph
    together = wb.doubt(replace(IRON, ball_speed=speeds)).sd("carry")
    alone = [wb.doubt(replace(IRON, ball_speed=float(v))).sd("carry") for v in speeds]
    assert together.shape == (3,)
    assert together == pytest.approx(alone, abs=2e-3)  # kernels and reference: 1 mm a flight


def test_a_difference_is_surer_than_what_it_is_of():
    seven, eight = wb.doubt(usual("7 iron")), wb.doubt(usual("8 iron"))
    assert (seven - eight).sd("carry") < 0.2 * seven.sd("carry")
    assert (seven - seven).sd("carry") == 0.0


def test_what_the_wind_does_not_reach_is_as_sure_as_before():
    calm, windy = wb.doubt(IRON), wb.doubt(IRON, wind=wb.Wind.head(10 * mph))
    assert windy.sd("ball_speed") == calm.sd("ball_speed") == 0.0
    assert windy.sd("carry") != calm.sd("carry")


def test_the_percentage_told_of_carries_is_that_of_full_shots():
    shares = []
    for name in ("driver", "5 iron", "7 iron", "9 iron", "pitching wedge"):
        shot = usual(name)
        shares.append(100 * wb.doubt(shot).sd("carry") / shot.carry)
    assert min(shares) < cautions.CARRY_SURE_TO < max(shares) < cautions.CARRY_SURE_TO + 1, shares


@pytest.mark.parametrize("model", ["smits-smith", "square-root-lift", "constant"])
def test_the_doubt_of_other_models_is_not_known_and_not_told(model):
    ball = wb.Ball(aero=wb.aero.MODELS[model]())
    with pytest.raises(wb.InputError, match="known for balls of the multi-layer model only"):
        wb.doubt(IRON, ball=ball)
    assert "±" not in wb.play(IRON, ball=ball).in_words()


def test_a_doubt_refuses_what_it_does_not_know():
    doubt = wb.doubt(IRON)
    with pytest.raises(wb.InputError, match="there is no doubt of 'colour'; known: ball_speed"):
        doubt.sd("colour")
    other = wb.doubt(IRON, ball=wb.balls["low drag"])
    with pytest.raises(wb.InputError, match="the same aerodynamic model"):
        _ = doubt - other


def test_words_tell_carry_and_total_with_their_doubt():
    shot = wb.play(IRON)
    doubt = wb.doubt(shot)
    words = shot.in_words()
    for name in ("carry", "total"):
        assert f"{float(getattr(shot, name)) / yd:.1f} ± {doubt.sd(name) / yd:.1f} yd" in words
    assert "carry" in repr(doubt)


def test_an_explanation_tells_how_sure_the_difference_from_its_reference_is():
    club = wb.clubs["7 iron"]
    shot = wb.play(wb.Delivery(84 * mph, attack_angle=-6 * deg, dynamic_loft=24 * deg), club)
    explained = wb.explain(shot)
    level = wb.play(explained.reference, club)
    assert float(level.carry) == pytest.approx(explained.reference_carry, abs=2e-3)
    sure = (wb.doubt(shot) - wb.doubt(level)).sd("carry")
    apart = abs(shot.carry - explained.reference_carry)
    assert f"it carried {apart / yd:.1f} ± {sure / yd:.1f} yd shorter" in explained.in_words()


def test_two_clubs_compared_tell_how_far_apart_they_carry():
    iron, driver = usual("7 iron"), usual("driver")
    sure = (wb.doubt(driver) - wb.doubt(iron)).sd("carry")
    apart = driver.carry - iron.carry
    assert f"they are {apart / yd:.1f} ± {sure / yd:.1f} yd apart" in wb.compare(iron, driver).in_words()
