"""Laws that whole shots obey, on random ones."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import whimbrel as wb
from whimbrel.units import deg, rpm

QUICK = settings(max_examples=100, deadline=None, derandomize=True)
ODD = ("offline", "curve")  # numbers of a flight that a mirror turns round


def angle(limit):
    return st.floats(-limit, limit).map(lambda x: x * deg)


deliveries = st.builds(
    wb.Delivery,
    st.floats(1.0, 70.0),
    angle(20),
    angle(12),
    angle(20),
    st.floats(0.0, 60.0).map(lambda x: x * deg),
)
winds = st.builds(wb.Wind, st.floats(0.0, 20.0), st.floats(-6.0, 6.0))
launches = st.builds(
    wb.Launch,
    st.floats(0.0, 100.0),
    angle(80),
    angle(90),
    st.floats(0.0, 12000.0).map(lambda x: x * rpm),
    angle(90),
)


def mirrored_delivery(d):
    """Target-frame angles turn round; toe, high, toe up and closing belong to the club, which is mirrored."""
    return replace(d, club_path=-d.club_path, face_angle=-d.face_angle)


def assert_mirrored(shot, image, tolerance):
    for name, x in shot.flight._numbers().items():
        sign = -1 if name in ODD else 1
        assert np.allclose(x, sign * getattr(image.flight, name), rtol=tolerance, atol=tolerance, equal_nan=True), (
            name
        )
    assert np.array_equal(shot.status, image.status)


@pytest.mark.parametrize("name", ["driver", "7 iron"])
def test_strikes_all_over_the_face_with_the_other_hand_in_mirrored_wind_and_slope_land_mirrored(
    random_deliveries, draw, name
):
    club = wb.clubs[name]
    hit = replace(
        random_deliveries,
        dynamic_loft=random_deliveries.dynamic_loft / (2 if name == "driver" else 1),
        strike_toe=draw.uniform(-0.5, 0.5, 1000) * club.face_width,
        strike_high=draw.uniform(-0.5, 0.5, 1000) * club.face_height,
        lie_tilt=draw.uniform(-8, 8, 1000) * deg,
        closure_rate=draw.uniform(-10, 60, 1000),
    )
    wind = draw.uniform(0, 10, 1000), draw.uniform(-np.pi, np.pi, 1000)
    slope = draw.uniform(-0.02, 0.02, 1000)
    shot = wb.play(hit, club, wind=wb.Wind(*wind), terrain=wb.Terrain(0.03, slope_right=slope))
    image = wb.play(
        mirrored_delivery(hit),
        club.left_handed(),
        wind=wb.Wind(wind[0], -wind[1]),
        terrain=wb.Terrain(0.03, slope_right=-slope),
    )
    assert (shot.status == "ok").mean() > 0.9
    assert_mirrored(shot, image, 1e-6)  # m; steps of 1e-9 whose errors need not mirror
    for odd in ("launch_direction", "spin_axis_tilt"):
        assert np.allclose(getattr(shot.launch, odd), -getattr(image.launch, odd), atol=1e-10)
    assert np.abs(shot.launch.launch_direction - image.launch.launch_direction).max() > 10 * deg


def test_square_shots_in_still_air_stay_on_line(draw):
    shots = wb.play(
        wb.Delivery(
            draw.uniform(20, 55, 1000),
            0.0,
            draw.uniform(-8, 6, 1000) * deg,
            0.0,
            draw.uniform(8, 55, 1000) * deg,
        ),
        wb.clubs["7 iron"],
    )
    assert np.abs(shots.offline).max() < 1e-9
    assert np.abs(shots.flight.position_at(np.linspace(0, 6, 7))[..., 0]).max() < 1e-9
    head_and_tail = wb.fly(wb.Launch(60.0, 0.2, 0.0, 300.0), wind=wb.Wind(5.0, np.array([0.0, np.pi])))
    assert np.abs(head_and_tail.offline).max() < 1e-9


def test_turning_everything_about_the_vertical_turns_the_landing(draw):
    n, turn = 1000, draw.uniform(-1, 1, 1000)
    speed, up, spin, tilt = (draw.uniform(*r, n) for r in ((30, 75), (0.1, 0.6), (200, 800), (-0.4, 0.4)))
    wind = draw.uniform(0, 10, n), draw.uniform(-2, 2, n)
    base = wb.fly(wb.Launch(speed, up, 0.0, spin, tilt), wind=wb.Wind(*wind))
    turned = wb.fly(wb.Launch(speed, up, turn, spin, tilt), wind=wb.Wind(wind[0], wind[1] + turn))
    assert np.allclose(base.carry, turned.carry, atol=1e-6)
    assert np.allclose(base.curve, turned.curve, atol=1e-6)
    assert np.allclose(turned.offline, base.offline * np.cos(turn) + base.downrange * np.sin(turn), atol=1e-6)


def test_in_a_vacuum_spin_and_wind_do_nothing_and_the_path_is_a_parabola(draw):
    speed, up = draw.uniform(5, 100, 1000), draw.uniform(0.05, 1.4, 1000)
    flight = wb.fly(
        wb.Launch(speed, up, 0.0, draw.uniform(0, 1000, 1000)),
        weather=wb.setting.Air(density=0.0),
        wind=wb.Wind.head(10.0),
    )
    assert np.allclose(flight.carry, speed**2 * np.sin(2 * up) / 9.80665, rtol=1e-8)
    assert np.allclose(flight.apex, (speed * np.sin(up)) ** 2 / (2 * 9.80665), rtol=1e-8)
    assert np.allclose(flight.flight_time, 2 * speed * np.sin(up) / 9.80665, rtol=1e-8)


def test_more_backspin_climbs_higher_up_to_a_point_and_drops_steeper():
    spun = wb.fly(wb.Launch(60.0, 12 * deg, spin_rate=np.linspace(2000, 9000, 30) * rpm))
    assert np.all(np.diff(spun.apex) > 0)
    assert np.all(np.diff(spun.descent_angle) > 0)


def test_a_crosswind_from_the_left_drifts_right_and_more_wind_drifts_more():
    drift = wb.fly(wb.Launch(55.0, 0.3, spin_rate=600.0), wind=wb.Wind.from_left(np.linspace(0, 12, 25))).offline
    assert drift[0] == pytest.approx(0.0, abs=1e-9)
    assert np.all(np.diff(drift) > 0)


def test_without_lift_a_launch_flies_lower_than_a_parabola_and_loses_energy(draw):
    speed, up = draw.uniform(10, 90, 1000), draw.uniform(0.05, 1.3, 1000)
    flight = wb.fly(wb.Launch(speed, up), ball=wb.Ball(aero=wb.aero.ConstantCoefficients(lift=0.0)))
    assert np.all(flight.apex < (speed * np.sin(up)) ** 2 / (2 * 9.80665))
    assert np.all(flight.landing_speed < speed)
    assert np.all(flight.descent_angle > up)


@QUICK
@given(deliveries, winds)
def test_any_delivery_mirrors(delivery, wind):
    club = wb.clubs["5 iron"]
    try:
        shot = wb.play(delivery, club, wind=wind)
    except wb.InputError as error:
        with pytest.raises(wb.InputError) as of_image:
            wb.play(mirrored_delivery(delivery), club)
        assert str(of_image.value) == str(error)
        return
    image = wb.play(mirrored_delivery(delivery), club, wind=wb.Wind(wind.speed, -wind.from_direction))
    assert_mirrored(shot, image, 1e-6)


@QUICK
@given(launches, winds)
def test_any_launch_has_numbers_or_a_status_that_says_why_not(launch, wind):
    flight = wb.fly(launch, wind=wind)
    finite = [np.isfinite(x) for x in flight._numbers().values()]
    assert all(finite) if flight.status in ("ok", "not_airborne") else not any(finite)
    assert flight.status in ("ok", "not_airborne", "no_landing")
    if flight.status == "not_airborne":
        assert launch.ball_speed * np.sin(launch.launch_angle) < 1e-3  # m/s: as good as not up
