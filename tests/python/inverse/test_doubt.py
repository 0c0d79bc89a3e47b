"""How sure numbers are, by source, of shots and of their differences."""

import math
from dataclasses import replace

import numpy as np
import pytest

import whimbrel as wb
from whimbrel import _core
from whimbrel.core import cautions
from whimbrel.core.value import table_of, units_of
from whimbrel.inverse.doubt import SOURCES, World
from whimbrel.row.flight import Flight
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


def test_a_world_multiplies_the_numbers_of_ball_and_turf_and_adds_to_the_restitution():
    aero = wb.aero.MultiLayer(drag=0.2)
    world = World("contact", 0.5, aero, None, 2.0, 3.0, -0.01, (0.5, 2.0, 3.0, 4.0))
    ball, club, turf = wb.Ball(), wb.clubs["7 iron"], wb.Turf()
    other = world.ball(ball)
    assert (other.aero, other.mass) == (aero, ball.mass)
    assert other.contact_stiffness_ratio == 2 * ball.contact_stiffness_ratio
    assert other.face_friction == 3 * ball.face_friction
    assert world.club(club) == replace(club, face_restitution=club.face_restitution - 0.01)
    assert world.turf(turf) == replace(
        turf, restitution_scale=0.5 * turf.restitution_scale, friction=2 * turf.friction,
        tilt_scale=3 * turf.tilt_scale, rolling_deceleration=4 * turf.rolling_deceleration,
    )  # fmt: skip


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


def test_a_change_of_one_swing_is_far_surer_than_its_carry():
    club = wb.clubs["7 iron"]
    hit = wb.usual_delivery(club)
    slow, fast = (wb.doubt(replace(hit, clubhead_speed=hit.clubhead_speed + x), club) for x in (0.0, 1 * mph))
    assert (fast - slow).sd("carry") < 0.05 * slow.sd("carry")
    assert (slow - slow).sd("carry") == 0.0


def test_two_clubs_differ_in_their_contact_as_far_as_each_is_open():
    seven, eight = wb.doubt(usual("7 iron")), wb.doubt(usual("8 iron"))
    apart = (seven - eight).by_source("carry")
    each = [doubt.by_source("carry") for doubt in (seven, eight)]
    assert apart["contact"] == pytest.approx(math.hypot(*(x["contact"] for x in each)), rel=1e-12)
    assert apart["ball"] < 0.2 * each[0]["ball"]  # the same ball


def test_the_compiled_half_says_the_same():
    club = wb.clubs["7 iron"]
    hit = wb.usual_delivery(club)
    row = _core.doubt_of_flight(table_of(hit, ()), table_of(club, ()))[0]
    doubt = wb.doubt(hit, club)
    for name, x in zip(units_of(Flight), row, strict=True):
        assert doubt.sd(name) == pytest.approx(x, rel=1e-6, abs=1e-9), name


@pytest.mark.parametrize("pace", [70, 95, 113])
def test_the_percentage_told_of_carries_is_that_of_full_shots(pace):
    least, most = cautions.CARRIES_SURE_TO
    for name in wb.clubs:
        shot = usual(name, pace * mph)
        assert least <= round(100 * wb.doubt(shot).sd("carry") / shot.carry) <= most, name


def test_the_rigid_impact_has_no_known_doubt():
    club = wb.clubs["7 iron"]
    shot = wb.play(wb.usual_delivery(club), club, impact="rigid")
    with pytest.raises(wb.InputError, match="known for the compliant impact only"):
        wb.doubt(shot)
    assert "±" not in shot.in_words()


def test_a_ball_that_only_just_lands_says_that_it_is_unsure():
    shot = wb.play(IRON, terrain=wb.Terrain(height=33 * yd))
    assert math.isnan(wb.doubt(shot).sd("carry"))
    assert "yd (unsure: it only just gets there)" in shot.in_words()
    assert "carry              not known" in repr(wb.doubt(shot))


def test_worlds_stay_inside_accepted_ranges():
    club = replace(wb.clubs["driver"], face_restitution=0.99)
    assert wb.doubt(wb.usual_delivery(club), club).sd("carry") > 0.0


def test_a_shot_has_its_own_conditions():
    with pytest.raises(wb.InputError, match=r"doubt\(shot\) takes no wind"):
        wb.doubt(wb.play(IRON), wind=wb.Wind.head(3.0))
    with pytest.raises(TypeError):
        wb.doubt(IRON) - 3


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
