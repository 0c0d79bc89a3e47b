"""Deliveries, the D-plane and the presented face."""

import numpy as np
import pytest

import whimbrel as wb
from whimbrel.units import deg


def test_the_d_plane_of_an_array_is_that_of_each_delivery(random_deliveries):
    planes = wb.d_plane(random_deliveries)
    assert planes.shape == planes.tilt.shape == (1000,)
    for i in (0, 499, 999):
        names = ("clubhead_speed", "club_path", "attack_angle", "face_angle", "dynamic_loft")
        one = wb.d_plane(wb.Delivery(*(getattr(random_deliveries, name)[i] for name in names)))
        assert (one.spin_loft, one.tilt) == (planes.spin_loft[i], planes.tilt[i])


def test_the_d_plane_is_the_plane_of_path_and_normal(random_deliveries):
    """From the definition: the spin axis is along path × normal."""

    def unit(azimuth, elevation):
        level = np.cos(elevation)
        return np.array([level * np.sin(azimuth), level * np.cos(azimuth), np.sin(elevation)])

    d = random_deliveries
    path, normal = unit(d.club_path, d.attack_angle), unit(d.face_angle, d.dynamic_loft)
    axis = np.cross(path, normal, axis=0)
    planes = wb.d_plane(d)
    assert np.allclose(planes.spin_loft, np.arccos(np.sum(path * normal, axis=0)), atol=1e-10)
    assert np.allclose(planes.tilt, np.arctan2(-axis[2], np.hypot(axis[0], axis[1])), atol=1e-12)


def test_face_right_of_path_tilts_right_and_a_mirrored_delivery_mirrors_the_tilt(random_deliveries):
    d = random_deliveries
    mirrored = wb.Delivery(d.clubhead_speed, -d.club_path, d.attack_angle, -d.face_angle, d.dynamic_loft)
    planes, images = wb.d_plane(d), wb.d_plane(mirrored)
    assert np.allclose(planes.spin_loft, images.spin_loft, rtol=1e-13)
    assert np.allclose(planes.tilt, -images.tilt, atol=1e-13)
    lofted = planes.spin_loft > 15 * deg
    assert (np.sign(planes.tilt) == np.sign(d.face_angle - d.club_path))[lofted].mean() > 0.95


def test_hitting_up_lowers_spin_loft():
    down, up = (wb.d_plane(wb.Delivery(45.0, attack_angle=a * deg, dynamic_loft=12 * deg)) for a in (-5, 5))
    assert down.spin_loft == pytest.approx(17 * deg, rel=1e-12)
    assert up.spin_loft == pytest.approx(7 * deg, rel=1e-12)


def test_a_club_held_as_built_shows_its_loft(iron):
    shown = wb.present(iron, clubhead_speed=40.0)
    assert (shown.dynamic_loft, shown.face_angle) == (pytest.approx(iron.loft), pytest.approx(0.0, abs=1e-15))


def test_presenting_keeps_path_attack_and_speed_and_turns_the_face_where_told(iron):
    face = np.linspace(-8, 8, 33) * deg
    shown = wb.present(
        iron,
        clubhead_speed=40.0,
        shaft_lean=5 * deg,
        face_angle=face,
        club_path=2 * deg,
        attack_angle=-4 * deg,
    )
    assert np.allclose(shown.face_angle, face, atol=1e-14)
    assert (shown.clubhead_speed, shown.club_path, shown.attack_angle) == (40.0, 2 * deg, -4 * deg)
    assert np.all(np.diff(shown.dynamic_loft) > 0)  # an open face shows more loft


def test_presentations_of_both_hands_mirror_each_other(iron, draw):
    lean, face, tilt = (draw.uniform(-a, a, 1000) * deg for a in (12, 10, 8))
    right = wb.present(iron, clubhead_speed=40.0, shaft_lean=lean, face_angle=face, lie_tilt=tilt)
    left = wb.present(iron.left_handed(), clubhead_speed=40.0, shaft_lean=lean, face_angle=-face, lie_tilt=tilt)
    assert np.allclose(right.dynamic_loft, left.dynamic_loft, rtol=1e-13)
    assert np.allclose(right.face_angle, -left.face_angle, atol=1e-14)


@pytest.mark.parametrize(
    ("hands", "says"),
    [
        ({"shaft_lean": 60 * deg}, ["shaft_lean is", "60 deg", "accepted", "45 deg"]),
        ({"face_angle": np.nan}, ["face_angle is nan"]),
        ({"lie_tilt": -40 * deg}, ["lie_tilt is", "-40 deg"]),
        ({"shaft_lean": np.array([0.0, 0.1, np.inf])}, ["row 2", "shaft_lean is inf"]),
    ],
    ids=str,
)
def test_a_presentation_out_of_range_says_field_value_and_range(iron, hands, says):
    with pytest.raises(wb.InputError) as error:
        wb.present(iron, clubhead_speed=40.0, **hands)
    for words in says:
        assert words in str(error.value)


def test_a_club_that_cannot_be_turned_so_far_says_so():
    flat = wb.Club("shovel", loft=77.5 * deg, lie_angle=78.7 * deg, length=0.9, mass=0.3)
    with pytest.raises(wb.InputError, match=r"cannot be turned about its shaft as far as .*40 deg"):
        wb.present(flat, clubhead_speed=40.0, face_angle=40 * deg, shaft_lean=23 * deg)


def test_a_presented_face_points_where_told_or_is_refused(draw):
    for _ in range(1000):
        club = wb.Club("any", draw.uniform(-10, 80) * deg, draw.uniform(40, 90) * deg, length=0.9, mass=0.3)
        lean, face = draw.uniform(-45, 45) * deg, draw.uniform(-60, 60) * deg
        try:
            shown = wb.present(club, clubhead_speed=40.0, shaft_lean=lean, face_angle=face)
        except wb.InputError:
            continue
        assert shown.face_angle == pytest.approx(face, abs=1e-9), (club, lean / deg, face / deg)


@pytest.mark.parametrize("bad", [np.nan, np.inf, 200 * deg], ids=str)
def test_the_d_plane_of_a_delivery_out_of_range_is_refused(bad):
    with pytest.raises(wb.InputError, match="face_angle is"):
        wb.d_plane(wb.Delivery(40.0, face_angle=bad, dynamic_loft=0.3))
