"""Strikes off the centre of the face, what an impact tells, and what it refuses."""

import re
from dataclasses import replace

import numpy as np
import pytest

import whimbrel as wb
from whimbrel.units import deg, mm

US = 1e-6


@pytest.fixture
def driven():
    return wb.Delivery(45.0, attack_angle=2 * deg, dynamic_loft=13 * deg)


@pytest.fixture
def driver():
    return wb.clubs["driver"]


def test_every_field_of_an_impact_is_told(hit, iron):
    impact = wb.strike(hit, iron)
    assert 1.3 < impact.smash_factor < 1.42  # common practice
    assert 0.5 < impact.start_fraction < 1.0
    assert impact.energy_lost > 0.0
    assert 0.0 < impact.slip_time < impact.contact_time
    assert impact.launch.ball_speed == pytest.approx(impact.smash_factor * hit.clubhead_speed, rel=1e-14)
    assert impact.head_velocity_after.shape == impact.head_rotation_after.shape == (3,)
    assert 0 < impact.head_velocity_after[1] < hit.clubhead_speed
    assert impact.out_of_range == {"face_friction": 0.0, "approach_speed": 0.0}


@pytest.mark.parametrize(
    ("name", "speed", "loft", "lower", "upper"),
    [("driver", 50.5, 12.8, 400, 500), ("7 iron", 40.2, 22.3, 400, 520), ("pitching wedge", 37.1, 33.0, 400, 530)],
)
def test_contact_lasts_some_450_microseconds(name, speed, loft, lower, upper):
    """Published for a driver, 400 to 500 (Smits & Ogg 2004); slower approaches last longer, as their -1/5 power."""
    impact = wb.strike(wb.Delivery(speed, attack_angle=-3 * deg, dynamic_loft=loft * deg), wb.clubs[name])
    assert lower * US <= impact.contact_time <= upper * US


def test_toe_and_heel_strikes_mirror_each_other(driver, driven, draw):
    toe, high = draw.uniform(0, 50, 1000) * mm, draw.uniform(-25, 25, 1000) * mm
    struck = [wb.strike(replace(driven, strike_toe=s * toe, strike_high=high), driver) for s in (1, -1)]
    for name, sign in (("launch_direction", -1), ("spin_axis_tilt", -1), ("launch_angle", 1), ("spin_rate", 1)):
        one, other = (getattr(impact.launch, name) for impact in struck)
        assert np.allclose(one, sign * other, rtol=1e-11, atol=1e-11), name
    assert np.allclose(struck[0].head_rotation_after[:, 2], -struck[1].head_rotation_after[:, 2], atol=1e-9)


def test_a_left_handers_toe_strike_is_the_mirror_image(driver, driven, draw):
    hit = replace(driven, strike_toe=draw.uniform(-50, 50, 1000) * mm, closure_rate=draw.uniform(-10, 50, 1000),
                  lie_tilt=draw.uniform(-8, 8, 1000) * deg, face_angle=draw.uniform(-4, 4, 1000) * deg)  # fmt: skip
    right = wb.strike(hit, driver)
    left = wb.strike(replace(hit, face_angle=-hit.face_angle), driver.left_handed())
    assert np.allclose(left.launch.launch_direction, -right.launch.launch_direction, atol=1e-12)
    assert np.allclose(left.launch.spin_axis_tilt, -right.launch.spin_axis_tilt, atol=1e-11)
    assert np.allclose(left.head_velocity_after, right.head_velocity_after * [-1, 1, 1], atol=1e-11)
    assert np.allclose(left.head_rotation_after, right.head_rotation_after * [1, -1, -1], atol=1e-9)


def test_a_drivers_toe_strike_starts_to_the_toe_side_and_curves_back(driver, driven):
    """Common practice: bulge and gear effect."""
    launch = wb.strike(replace(driven, strike_toe=14 * mm), driver).launch
    assert launch.launch_direction > 2 * deg and launch.spin_axis_tilt < -5 * deg
    high, low = (wb.strike(replace(driven, strike_high=h * mm), driver).launch for h in (12, -12))
    assert high.spin_rate < low.spin_rate and high.launch_angle > low.launch_angle


def test_an_iron_struck_toward_the_toe_loses_speed_and_turns_open(hit, iron):
    """Common practice."""
    centre, toe = wb.strike(hit, iron), wb.strike(replace(hit, strike_toe=15 * mm), iron)
    assert toe.smash_factor < 0.98 * centre.smash_factor
    assert toe.head_rotation_after[2] < -50 < centre.head_rotation_after[2]  # rad/s, clockwise from above


def test_a_closing_face_speeds_the_toe_slows_the_heel_and_leaves_a_centred_launch_as_it_is(hit, iron):
    """The path is the face centre's; the geometry is frozen, so that the face does not turn during contact."""
    for club in (iron, iron.left_handed()):
        still, closing = (
            wb.strike(replace(hit, closure_rate=c, strike_toe=np.array([-15, 0, 15]) * mm), club)
            for c in (0.0, 40.0)
        )
        faster = closing.launch.ball_speed - still.launch.ball_speed
        assert faster[0] < -0.5 and faster[2] > 0.5  # m/s: 40 rad/s at 15 mm are 0.6 of the club's
        assert abs(faster[1]) < 1e-12
        assert closing.launch.launch_direction[1] == pytest.approx(still.launch.launch_direction[1], abs=1e-14)


def test_strike_points_speeds_and_clubs_broadcast(driver, driven):
    grid = replace(
        driven, strike_toe=np.linspace(-40, 40, 5) * mm, strike_high=np.array([[-10.0], [0.0], [10.0]]) * mm
    )
    heads = replace(driver, inertia_vertical=np.array([4e-4, 6e-4]).reshape(2, 1, 1))
    impact = wb.strike(grid, heads)
    assert impact.shape == impact.launch.spin_rate.shape == impact.contact_time.shape == (2, 3, 5)
    assert impact.head_rotation_after.shape == (2, 3, 5, 3)
    assert impact.out_of_range["approach_speed"].shape == (2, 3, 5)
    one = wb.strike(
        replace(driven, strike_toe=20 * mm, strike_high=10 * mm), replace(driver, inertia_vertical=6e-4)
    )
    assert one.launch.spin_rate == impact.launch.spin_rate[1, 2, 3]
    assert np.array_equal(one.head_rotation_after, impact.head_rotation_after[1, 2, 3])


def test_low_friction_and_slow_approaches_are_flagged_by_how_far_they_left_the_range(driver, driven):
    balls = wb.Ball(face_friction=np.array([0.11, 0.16, 0.20]))
    friction = wb.strike(driven, driver, ball=balls).out_of_range["face_friction"]
    assert friction == pytest.approx([-0.05, 0.0, 0.0], abs=1e-15)
    speeds = np.array([5.0, 20.0])
    slow = wb.strike(wb.Delivery(speeds, dynamic_loft=30 * deg), driver).out_of_range["approach_speed"]
    assert slow == pytest.approx([5.0 * np.cos(30 * deg) - 10.0, 0.0], abs=1e-12)


def test_the_rigid_model_has_no_contact_time_and_turns_no_head(hit, iron):
    rigid = wb.strike(hit, iron, impact="rigid")
    assert (rigid.contact_time, rigid.slip_time) == (0.0, 0.0)
    assert not rigid.head_rotation_after.any()
    assert rigid.launch.spin_rate < 0.95 * wb.strike(hit, iron).launch.spin_rate  # its stated bias
    assert wb.play(hit, iron, impact="rigid").launch == rigid.launch


@pytest.mark.parametrize(
    ("changes", "says"),
    [
        (
            {"strike_toe": 58 * mm},
            ["strike_toe", "missed the face", "0.058 m (58 mm)", "-0.0575 m (-57.5 mm) to 0.0575 m (57.5 mm)"],
        ),
        (
            {"strike_high": -30 * mm},
            ["strike_high", "missed the face", "-0.03 m (-30 mm)", "-0.029 m (-29 mm) to 0.029 m (29 mm)"],
        ),
        ({"strike_toe": np.array([0.0, 0.06])}, ["row 1", "strike_toe", "0.06 m"]),
        ({"strike_toe": np.nan}, ["strike_toe is nan"]),
        ({"strike_toe": 0.2}, ["strike_toe is 0.2 m (200 mm)", "-0.1 m (-100 mm) to 0.1 m (100 mm)"]),
        ({"lie_tilt": 40 * deg}, ["lie_tilt is", "40 deg", "30 deg"]),
        ({"closure_rate": 300.0}, ["closure_rate is 300 rad/s", "200 rad/s"]),
        ({"attack_angle": -80 * deg}, ["face is not approaching the ball", "93 deg", "89.9 deg"]),
    ],
    ids=str,
)
def test_a_strike_that_cannot_be_names_field_value_and_range(driver, driven, changes, says):
    with pytest.raises(wb.InputError) as error:
        wb.strike(replace(driven, **changes), driver)
    for words in says:
        assert words in str(error.value)


@pytest.mark.parametrize(
    ("field", "value", "says"),
    [
        ("inertia_target", 0.0, "inertia_target is 0 kg m^2; accepted: 1e-05"),
        ("inertia_vertical", -1e-4, "inertia_vertical is -0.0001"),
        ("inertia_heel_toe", np.nan, "inertia_heel_toe is nan"),
        ("cg_depth", 0.2, "cg_depth is 0.2 m (200 mm); accepted: 0 m to 0.1 m (100 mm)"),
        ("bulge_radius", 0.0, "bulge_radius is 0 m; accepted: 0.1 m"),
        ("face_width", 0.0, "face_width is 0 m; accepted: 0.01 m"),
    ],
)
def test_a_head_out_of_range_names_field_value_and_range(driver, driven, field, value, says):
    with pytest.raises(wb.InputError, match=re.escape(says)):
        wb.strike(driven, replace(driver, **{field: value}))


@pytest.mark.parametrize("offset", ["strike_toe", "strike_high"])
def test_the_rigid_model_refuses_strikes_off_the_centre(driver, driven, offset):
    with pytest.raises(wb.InputError, match=rf"{offset}.*rigid model knows centred strikes only; accepted: 0"):
        wb.strike(replace(driven, **{offset: 5 * mm}), driver, impact="rigid")


@pytest.mark.parametrize("call", [wb.strike, wb.play])
def test_an_unknown_impact_is_refused_by_name(hit, iron, call):
    with pytest.raises(wb.InputError, match="impact is 'elastic'; accepted: compliant, rigid"):
        call(hit, iron, impact="elastic")
