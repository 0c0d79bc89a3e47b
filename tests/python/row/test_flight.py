"""Launch and flight of a ball."""

import numpy as np
import pytest

import whimbrel as wb
from whimbrel.row.flight import Flight
from whimbrel.units import deg, rpm

DRIVE = wb.Launch(70.0, 11 * deg, 2 * deg, 2700 * rpm, 8 * deg)


def vectors(launch):
    """Launch velocity and spin vector, rad/s, from the definitions of the angles."""
    a, e, t = launch.launch_direction, launch.launch_angle, launch.spin_axis_tilt
    u = np.stack([np.cos(e) * np.sin(a), np.cos(e) * np.cos(a), np.sin(e)], axis=-1)
    right = np.stack([np.cos(a), -np.sin(a), np.zeros_like(a)], axis=-1)
    up = np.cross(right, u)
    across = np.sqrt(launch.spin_rate**2 - launch.axial_spin_rate**2)[..., None]
    tilt = np.asarray(t)[..., None]
    spin = across * (np.cos(tilt) * right - np.sin(tilt) * up) + launch.axial_spin_rate[..., None] * u
    return launch.ball_speed[..., None] * u, spin


def test_backspin_and_sidespin_are_spin_rate_and_tilt(draw):
    back, side = draw.uniform(-100, 900, 1000), draw.uniform(-300, 300, 1000)
    launch = wb.Launch.from_backspin(60.0, 0.2, backspin_rate=back, sidespin_rate=side)
    assert np.allclose(launch.spin_rate * np.cos(launch.spin_axis_tilt), back, atol=1e-10)
    assert np.allclose(launch.spin_rate * np.sin(launch.spin_axis_tilt), side, atol=1e-10)
    assert isinstance(wb.Launch.from_backspin(60.0, 0.2, backspin_rate=300.0).spin_rate, float)


def test_sidespin_to_the_right_curves_right():
    right = wb.Launch.from_backspin(60.0, 0.2, backspin_rate=300.0, sidespin_rate=60.0)
    assert wb.fly(right).curve > 1 > 0 > wb.fly(wb.Launch(60.0, 0.2, 0.0, 300.0, -0.2)).curve


def test_the_spin_vector_of_a_strike_is_perpendicular_to_path_and_face(random_deliveries, iron):
    d, impact = random_deliveries, wb.strike(random_deliveries, iron)
    _, spin = vectors(impact.launch)
    normal = np.stack(
        [
            np.cos(d.dynamic_loft) * np.sin(d.face_angle),
            np.cos(d.dynamic_loft) * np.cos(d.face_angle),
            np.sin(d.dynamic_loft),
        ],
        axis=-1,
    )
    assert np.abs(np.sum(spin * normal, axis=-1)).max() < 1e-9 * impact.launch.spin_rate.max()


def test_positions_have_the_shape_of_flight_then_time_then_three():
    one = wb.fly(DRIVE)
    assert one.position_at(1.0).shape == (3,)
    assert one.position_at([0.0, 1.0]).shape == (2, 3)
    many = wb.fly(wb.Launch(np.linspace(40, 70, 6).reshape(2, 3), 0.2, 0.0, 300.0))
    assert many.position_at(1.0).shape == (2, 3, 3)
    assert many.position_at(np.zeros((4, 5))).shape == (2, 3, 4, 5, 3)


def test_the_position_of_one_of_many_flights_is_that_of_the_flight_alone():
    speeds, times = np.array([[40.0, 50.0], [60.0, 70.0]]), np.linspace(0, 6, 13)
    many = wb.fly(wb.Launch(speeds, 0.2, 0.0, 300.0)).position_at(times)
    for i, j in np.ndindex(2, 2):
        assert np.array_equal(many[i, j], wb.fly(wb.Launch(speeds[i, j], 0.2, 0.0, 300.0)).position_at(times))


def test_the_path_starts_at_the_tee_and_ends_at_the_landing():
    flight = wb.fly(DRIVE, terrain=wb.Terrain(tee_height=0.04))
    path = flight.path(50)
    assert path.shape == (50, 3)
    assert path[0] == pytest.approx([0, 0, 0.04 + wb.Ball().radius], abs=1e-15)
    assert path[-1] == pytest.approx([flight.offline, flight.downrange, wb.Ball().radius], abs=1e-9)
    assert np.hypot(*path[-1, :2]) == pytest.approx(flight.carry, abs=1e-9)


def test_the_highest_position_is_the_apex():
    flight = wb.fly(DRIVE)
    path = flight.path(20_001)
    top = path[np.argmax(path[:, 2])]
    assert top[2] - wb.Ball().radius == pytest.approx(flight.apex, abs=1e-6)
    assert np.hypot(*top[:2]) == pytest.approx(flight.apex_distance, abs=0.05)  # flat at the top


def test_before_launch_and_after_landing_the_ball_is_where_it_started_and_landed():
    flight = wb.fly(DRIVE)
    before, start, landing, after = flight.position_at([-5.0, 0.0, flight.flight_time, 100.0])
    assert np.array_equal(before, start) and np.array_equal(after, landing)


def test_positions_move_at_launch_and_landing_speed():
    flight, dt = wb.fly(DRIVE), 1e-5
    a, b = flight.position_at([0.0, dt])
    assert np.linalg.norm(b - a) / dt == pytest.approx(70.0, rel=1e-4)
    a, b = flight.position_at([flight.flight_time - dt, flight.flight_time])
    assert np.linalg.norm(b - a) / dt == pytest.approx(flight.landing_speed, rel=1e-4)
    assert (a[2] - b[2]) / np.hypot(*(b - a)[:2]) == pytest.approx(np.tan(flight.descent_angle), rel=1e-4)


def test_curve_is_measured_from_the_start_line():
    flight = wb.fly(DRIVE)
    direction = 2 * deg
    expected = flight.offline * np.cos(direction) - flight.downrange * np.sin(direction)
    assert flight.curve == pytest.approx(expected, abs=1e-9)


@pytest.mark.parametrize("bad", [np.nan, np.inf, [0.0, np.nan], "now"], ids=repr)
def test_times_that_are_no_numbers_are_refused(bad):
    with pytest.raises(ValueError, match="time"):
        wb.fly(DRIVE).position_at(bad)


def test_the_path_of_many_flights_is_refused_with_a_way_out():
    with pytest.raises(ValueError, match="position_at"):
        wb.fly(wb.Launch(np.array([60.0, 70.0]), 0.2)).path()


def test_a_flight_put_together_by_hand_has_no_positions():
    numbers = {name: 1.0 for name in Flight._columns}
    with pytest.raises(ValueError, match="no trajectory"):
        Flight(**numbers).position_at(0.0)


def test_a_topped_ball_has_no_carry_and_says_so():
    flight = wb.fly(wb.Launch(40.0, -5 * deg, spin_rate=100.0))
    assert flight.status == "not_airborne"
    assert (flight.carry, flight.apex, flight.flight_time) == (0.0, 0.0, 0.0)
    assert flight.position_at([0.0, 3.0]) == pytest.approx(np.array([[0, 0, wb.Ball().radius]] * 2))


def test_a_ball_hit_down_off_a_tee_flies_to_the_ground():
    flight = wb.fly(wb.Launch(40.0, -2 * deg), terrain=wb.Terrain(tee_height=0.05))
    assert flight.status == "ok"
    down, g = 40 * np.sin(2 * deg), 9.80665
    fall = (np.sqrt(down**2 + 2 * g * 0.05) - down) / g  # s, without drag
    assert flight.carry == pytest.approx(40 * np.cos(2 * deg) * fall, rel=0.005)
    assert flight.apex == pytest.approx(0.05, abs=1e-12)


def test_a_ball_that_never_meets_the_raised_ground_has_not_landed():
    flight = wb.fly(wb.Launch(20.0, 20 * deg), terrain=wb.Terrain(height=100.0))
    assert flight.status == "no_landing"
    assert np.isnan(flight.carry)


@pytest.mark.parametrize(
    ("launch", "says"),
    [
        (wb.Launch(-60.0, 0.2), "ball_speed is -60 m/s (-134.2 mph); accepted: 0 m/s to 150 m/s (335.5 mph)"),
        (wb.Launch(60.0, 100 * deg), "launch_angle is 1.74533 rad (100 deg); accepted"),
        (wb.Launch(60.0, 0.2, spin_rate=1e5), "spin_rate is 100000 rad/s"),
        (wb.Launch(60.0, 0.2, spin_rate=-1.0), "spin_rate is -1 rad/s"),
        (wb.Launch(60.0, 0.2, spin_rate=10.0, axial_spin_rate=20.0), "axial_spin_rate is 20 rad/s"),
        (wb.Launch(np.nan, 0.2), "ball_speed is nan m/s; accepted"),
    ],
)
def test_a_launch_out_of_range_says_field_value_and_range(launch, says):
    with pytest.raises(wb.InputError) as error:
        wb.fly(launch)
    assert says in str(error.value)
