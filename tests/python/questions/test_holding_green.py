"""What spin and what descent angle hold a green."""

import numpy as np
import pytest

import whimbrel as wb
from whimbrel.questions.holding_green import descent_to_hold, spin_to_hold
from whimbrel.units import deg, ft, percent, rpm, yd
from whimbrel.words import holding_green as words_hold

FIRM = wb.turfs["firm green"]
IRON = {"landing_speed": 23.0, "descent_angle": 48 * deg, "landing_spin_rate": 6000 * rpm}
SPIN_STEP, ANGLE_STEP = (
    1e-3,
    1e-6,
)  # rad/s, rad: as in the C++ tests, more than the search and the run are unsure by


def spin_for(depth, **changed):
    given = {name: x for name, x in (IRON | changed).items() if name != "landing_spin_rate"}
    return spin_to_hold(depth, **given)


def descent_for(depth, **changed):
    given = {name: x for name, x in (IRON | changed).items() if name != "descent_angle"}
    return descent_to_hold(depth, **given)


def run_of(turf=None, terrain=None, **changed):
    landing = wb.Landing(**(IRON | changed))
    return wb.play(landing, turf=turf or wb.turfs["medium green"], terrain=terrain).run.distance


def test_the_answer_holds_and_a_little_less_does_not():
    for depth in (0.0, 2.0, 5.0):
        spin, descent = spin_for(depth), descent_for(depth)
        assert run_of(landing_spin_rate=spin) <= depth < run_of(landing_spin_rate=spin - SPIN_STEP)
        assert run_of(descent_angle=descent) <= depth < run_of(descent_angle=descent - ANGLE_STEP)
    slope = wb.Terrain(slope_downrange=-2 * percent)
    spin = spin_for(5.0, turf=FIRM, terrain=slope)
    assert (
        run_of(FIRM, slope, landing_spin_rate=spin) <= 5.0 < run_of(FIRM, slope, landing_spin_rate=spin - SPIN_STEP)
    )


def test_a_deep_green_holds_any_ball_that_comes_down_so():
    assert spin_for(60.0) == 0.0
    assert run_of(landing_spin_rate=0.0) < 60.0


def test_what_cannot_hold_is_not_a_number():
    falls_away = wb.Terrain(slope_downrange=-5 * percent)
    assert np.isnan(descent_for(0.0, landing_spin_rate=0.0, turf=FIRM, terrain=falls_away))
    assert run_of(FIRM, falls_away, landing_spin_rate=0.0, descent_angle=90 * deg) > 0.0
    ice = wb.Turf("ice", friction=0.0, rolling_deceleration=0.5)
    assert np.isnan(spin_for(3.0, turf=ice))


def test_arrays_are_each_scalar_bit_for_bit(draw):
    n = 20
    depth, speed = draw.uniform(0, 15, n), draw.uniform(15, 30, n)
    angle, spin = draw.uniform(30, 60, n) * deg, draw.uniform(0, 900, n)
    green = wb.green(draw.uniform(8, 12, n) * ft, draw.uniform(0, 1, n))
    slope = wb.Terrain(slope_downrange=draw.uniform(-0.02, 0.04, n))
    spins = spin_to_hold(depth, landing_speed=speed, descent_angle=angle, turf=green, terrain=slope)
    descents = descent_to_hold(depth, landing_speed=speed, landing_spin_rate=spin, turf=green, terrain=slope)
    assert spins.shape == descents.shape == (n,) and (spins > 0).any()
    for i in range(n):
        on = {
            "landing_speed": speed[i],
            "turf": wb.Turf("one", *(float(np.broadcast_to(x, n)[i]) for x in green._numbers().values())),
            "terrain": wb.Terrain(slope_downrange=slope.slope_downrange[i]),
        }
        assert np.array_equal(spins[i], spin_to_hold(depth[i], descent_angle=angle[i], **on), equal_nan=True)
        assert np.array_equal(
            descents[i], descent_to_hold(depth[i], landing_spin_rate=spin[i], **on), equal_nan=True
        )


def test_depths_broadcast_against_speeds_and_more_room_takes_less():
    depth, speed = np.array([[1.0], [4.0], [12.0]]), np.array([18.0, 22.0, 26.0])
    spins = spin_for(depth, landing_speed=speed)
    assert spins.shape == (3, 3)
    assert (np.diff(spins, axis=0) <= 0).all() and (np.diff(spins, axis=0) < 0).any()
    assert isinstance(spin_for(4.0), float)


def test_the_turf_is_a_medium_green_if_none_is_given():
    assert spin_for(4.0) == spin_for(4.0, turf=wb.turfs["medium green"]) != spin_for(4.0, turf=FIRM)


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda: spin_for(-1.0), r"^depth is -1 m; accepted: 0 m to 200 m"),
        (lambda: descent_for(np.nan), r"^depth is nan m"),
        (lambda: spin_for(3.0, landing_speed=-2.0), r"^landing_speed is -2 m/s"),
        (lambda: spin_for(3.0, descent_angle=2.0), r"^descent_angle is 2 rad .*accepted: 0 rad to 1.57"),
        (lambda: descent_for(3.0, landing_spin_rate=-5.0), r"^landing_spin_rate is -5 rad/s"),
        (lambda: spin_for(3.0, turf=wb.Turf(friction=3.0)), "turf friction is 3"),
        (lambda: spin_for(np.array([3.0, 300.0])), "1 row is bad, of 2:\n  row 1: depth is 300 m"),
        (lambda: spin_for(np.ones(2), landing_speed=np.full(3, 20.0)), "do not broadcast"),
        (lambda: spin_for("deep"), "depth: 'deep' is not a number"),
    ],
)
def test_what_is_no_green_or_landing_is_refused_by_field_value_and_range(call, says):
    with pytest.raises(wb.InputError, match=says):
        call()


def test_what_holds_is_told_in_words():
    landing = wb.Landing(**IRON)
    assert words_hold.of_hold(5 * yd, landing, 4000 * rpm, 41 * deg) == (
        "To run no more than 5.0 yd past its pitch mark: coming down at 48.0°, it takes at least 4,000 rpm of "
        "backspin; with 6,000 rpm, it must come down at 41.0° or steeper."
    )
    told = words_hold.of_hold(5.0, landing, np.nan, np.nan, "metric")
    assert told == (
        "To run no more than 5.0 m past its pitch mark: coming down at 48.0°, no backspin does; "
        "with 6,000 rpm, no descent does."
    )
    told = words_hold.of_hold(5.0, landing, 0.0, 0.0, "metric")
    assert told.endswith("coming down at 48.0°, any backspin does; with 6,000 rpm, any descent does.")
