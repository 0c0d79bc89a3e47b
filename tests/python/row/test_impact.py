"""Between club and ball: the impact, its laws and its refusals."""

from dataclasses import replace

import numpy as np
import pytest

import whimbrel as wb
from whimbrel.units import deg, mph


@pytest.fixture
def struck(random_deliveries, iron):
    return wb.strike(random_deliveries, iron)


def velocity(speed, azimuth, elevation):
    level = speed * np.cos(elevation)
    return np.stack([level * np.sin(azimuth), level * np.cos(azimuth), speed * np.sin(elevation)], axis=-1)


def test_momentum_is_conserved_to_rounding(random_deliveries, iron, struck):
    d, launch = random_deliveries, struck.launch
    before = (iron.mass + iron.shaft_mass) * velocity(d.clubhead_speed, d.club_path, d.attack_angle)
    ball = velocity(launch.ball_speed, launch.launch_direction, launch.launch_angle)
    after = (iron.mass + iron.shaft_mass) * struck.head_velocity_after + wb.Ball().mass * ball
    assert np.abs(after - before).max() < 1e-9 * np.abs(before).max()


def test_energy_is_lost_and_accounts_for_what_the_bodies_keep(random_deliveries, iron, struck):
    ball, launch = wb.Ball(), struck.launch
    before = 0.5 * (iron.mass + iron.shaft_mass) * random_deliveries.clubhead_speed**2
    head = 0.5 * (iron.mass + iron.shaft_mass) * np.sum(struck.head_velocity_after**2, axis=-1)
    face, rotation = random_deliveries.face_angle, struck.head_rotation_after
    along = (np.sin(face) * rotation[:, 0] + np.cos(face) * rotation[:, 1], rotation[:, 2],
             np.cos(face) * rotation[:, 0] - np.sin(face) * rotation[:, 1])  # fmt: skip
    inertias = iron.inertia_target, iron.inertia_vertical, iron.inertia_heel_toe
    head = head + sum(0.5 * inertia * w**2 for inertia, w in zip(inertias, along, strict=True))
    kept = head + 0.5 * ball.mass * launch.ball_speed**2 + 0.5 * ball.inertia * launch.spin_rate**2
    assert np.allclose(struck.energy_lost, before - kept, rtol=1e-9, atol=1e-9)
    assert struck.energy_lost.min() > 0


def test_the_spin_axis_tilt_of_a_strike_is_close_to_that_of_the_d_plane(random_deliveries, struck):
    """The axis is the D-plane's; the launch's tilt is read against the start direction."""
    tilt = wb.d_plane(random_deliveries).tilt
    turned = np.abs(random_deliveries.face_angle - random_deliveries.club_path)
    assert np.all(np.abs(struck.launch.spin_axis_tilt - tilt) < turned + 0.5 * deg)
    assert np.abs(struck.launch.axial_spin_rate).max() < 1e-9


def test_the_ball_starts_between_path_and_face_closer_to_the_face(random_deliveries, struck):
    d = random_deliveries
    wide = np.abs(d.face_angle - d.club_path) > 2 * deg
    assert np.all((struck.start_fraction[wide] > 0.5) & (struck.start_fraction[wide] < 1.0))
    apart = struck.launch.launch_direction - d.club_path
    assert np.allclose(struck.start_fraction, apart / (d.face_angle - d.club_path), rtol=1e-9)


def test_a_straight_strike_starts_at_the_face_by_definition(iron):
    assert wb.strike(wb.Delivery(40.0, dynamic_loft=0.4), iron).start_fraction == 1.0


def test_smash_factor_is_ball_speed_over_clubhead_speed(random_deliveries, struck):
    ratio = struck.launch.ball_speed / random_deliveries.clubhead_speed
    assert np.allclose(struck.smash_factor, ratio, rtol=1e-15)


@pytest.mark.parametrize(
    ("name", "speed", "attack", "loft", "window"),
    [
        ("driver", 50.0, 0.0, 13.0, (1.44, 1.50)),
        ("7 iron", 38.0, -4.0, 26.0, (1.30, 1.42)),
        ("sand wedge", 34.0, -4.0, 40.0, (1.10, 1.28)),
    ],
)
def test_smash_factors_lie_in_the_windows_of_the_trade(name, speed, attack, loft, window):
    """Common practice."""
    hit = wb.Delivery(speed, attack_angle=attack * deg, dynamic_loft=loft * deg)
    assert window[0] <= wb.strike(hit, wb.clubs[name]).smash_factor <= window[1]


def test_a_heavier_head_and_a_livelier_face_give_more_ball_speed():
    def smash(mass, restitution):
        return wb.strike(
            wb.Delivery(45.0, dynamic_loft=0.2), wb.Club("x", 0.2, 1.0, 1.1, mass, restitution)
        ).smash_factor

    assert smash(0.25, 0.8) > smash(0.2, 0.8) > smash(0.2, 0.75)


def test_the_hand_of_the_club_changes_no_strike_in_the_target_frame(random_deliveries, iron, struck):
    left = wb.strike(random_deliveries, iron.left_handed())
    assert np.array_equal(left.launch.launch_direction, struck.launch.launch_direction)
    assert np.array_equal(left.launch.spin_axis_tilt, struck.launch.spin_axis_tilt)


def test_arrays_of_clubs_and_deliveries_broadcast(iron):
    clubs = wb.Club("grid", iron.loft, iron.lie_angle, iron.length, np.array([[0.25], [0.30]]))
    impact = wb.strike(wb.Delivery(np.array([35.0, 40.0, 45.0]), dynamic_loft=0.4), clubs)
    assert impact.shape == impact.smash_factor.shape == (2, 3)
    assert impact.head_velocity_after.shape == (2, 3, 3)
    one = wb.strike(
        wb.Delivery(45.0, dynamic_loft=0.4), wb.Club("one", iron.loft, iron.lie_angle, iron.length, 0.30)
    )
    assert one.smash_factor == impact.smash_factor[1, 2]
    assert one.head_velocity_after.shape == (3,)


@pytest.mark.parametrize(
    ("delivery", "says"),
    [
        (
            wb.Delivery(-40.0, dynamic_loft=0.4),
            ["clubhead_speed is -40 m/s", "accepted", "0.5 m/s", "100 m/s"],
        ),
        (wb.Delivery(0.0, dynamic_loft=0.4), ["clubhead_speed is 0 m/s"]),
        (wb.Delivery(40.0, dynamic_loft=200 * deg), ["dynamic_loft is", "200 deg", "90 deg"]),
        (
            wb.Delivery(40.0, attack_angle=-60 * deg, dynamic_loft=40 * deg),
            ["face is not approaching the ball", "100 deg"],
        ),
        (wb.Delivery(40.0, club_path=np.nan, dynamic_loft=0.4), ["club_path is nan"]),
        (wb.Delivery(np.array([40.0, np.inf]), dynamic_loft=0.4), ["row 1", "clubhead_speed is inf"]),
    ],
)
def test_a_delivery_out_of_range_says_field_value_and_range(iron, delivery, says):
    with pytest.raises(wb.InputError) as error:
        wb.strike(delivery, iron)
    for words in says:
        assert words in str(error.value)


def test_a_wet_wedge_spins_less_and_a_wet_driver_is_refused():
    dry = wb.clubs["sand wedge"]
    hit = wb.usual_delivery(dry, 95 * mph)
    spin = [wb.strike(hit, replace(dry, face_wetness=w)).launch.spin_rate for w in (0.0, 0.5, 1.0)]
    assert spin[0] > spin[1] > spin[2] > 0.55 * spin[0]
    driver = replace(wb.clubs["driver"], face_wetness=0.5)
    with pytest.raises(wb.InputError, match=r"face_wetness is 0\.5 on a loft of .*: wet faces are calibrated from"):
        wb.strike(wb.usual_delivery(wb.clubs["driver"]), driver)
