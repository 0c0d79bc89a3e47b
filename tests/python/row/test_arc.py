"""The swing arc: from a measured path and attack and back, the ball moved on it, ground, and what it delivers."""

from dataclasses import replace

import numpy as np
import pytest

import whimbrel as wb
from whimbrel.units import cm, deg, mm, mph

TINY = 1e-12
HANDS = pytest.mark.parametrize("hand", ["right", "left"])


@pytest.fixture
def down():
    """An iron five degrees down, its path at the target."""
    return wb.Delivery(38.0, 0.0, -5 * deg, 1 * deg, 25 * deg)


@pytest.fixture
def arc(down):
    return wb.arcs.arc_of(down, plane_inclination=60 * deg, radius=1.6)


@pytest.fixture
def random_arcs(draw):
    n = 1000
    return wb.SwingArc(
        radius=draw.uniform(1.2, 1.9, n),
        plane_inclination=draw.uniform(40, 75, n) * deg,
        base_direction=draw.uniform(-10, 10, n) * deg,
        low_point_ahead=draw.uniform(-0.3, 0.3, n),
        low_point_height=draw.uniform(-0.03, 0.05, n),
    )


@HANDS
def test_any_arc_comes_back_from_what_it_does_at_the_ball(random_arcs, hand):
    met = random_arcs.at_ball(hand)
    back = wb.arcs.arc_of(
        wb.Delivery(40.0, met.club_path, met.attack_angle),
        plane_inclination=random_arcs.plane_inclination,
        radius=random_arcs.radius,
        height=met.edge_height,
        hand=hand,
    )
    for name, x in random_arcs._numbers().items():
        assert np.allclose(getattr(back, name), x, rtol=0, atol=TINY), name


@HANDS
def test_any_path_and_attack_come_back_from_their_arc(random_deliveries, draw, hand):
    plane, height = draw.uniform(40, 75, 1000) * deg, draw.uniform(0, 0.05, 1000)
    arcs = wb.arcs.arc_of(random_deliveries, plane_inclination=plane, height=height, hand=hand)
    met = arcs.at_ball(hand)
    assert np.allclose(met.club_path, random_deliveries.club_path, rtol=0, atol=TINY)
    assert np.allclose(met.attack_angle, random_deliveries.attack_angle, rtol=0, atol=TINY)
    assert np.allclose(met.edge_height, height, rtol=0, atol=TINY)
    assert np.array_equal(met.beta < 0, arcs.low_point_ahead > 0)


def test_a_left_hander_with_the_mirrored_path_has_the_mirrored_base(random_deliveries):
    d = random_deliveries
    image = replace(d, club_path=-d.club_path, face_angle=-d.face_angle)
    right = wb.arcs.arc_of(d, plane_inclination=60 * deg)
    left = wb.arcs.arc_of(image, plane_inclination=60 * deg, hand="left")
    assert np.array_equal(left.base_direction, -right.base_direction)
    for name in ("low_point_ahead", "low_point_height"):
        assert np.array_equal(getattr(left, name), getattr(right, name))


def test_a_driver_on_the_arc_of_its_low_point_goes_along_the_base_line():
    met = wb.SwingArc(base_direction=2 * deg, low_point_height=0.01).at_ball()
    assert (met.club_path, met.attack_angle, met.beta, met.edge_height) == (2 * deg, 0.0, 0.0, 0.01)


def test_the_drawn_points_of_an_arc_pass_the_ball_and_the_low_point_at_their_heights(arc):
    along, height = arc.points(span=arc.low_point_ahead, count=3).T
    assert along.tolist() == [-arc.low_point_ahead, 0.0, arc.low_point_ahead]
    assert height[1] == pytest.approx(arc.at_ball().edge_height, abs=TINY)
    assert height[2] == pytest.approx(arc.low_point_height, abs=TINY)
    assert height[0] > height[1] > height[2]


def test_planes_attacks_and_radii_broadcast(down):
    planes = np.array([58.0, 62.0, 66.0]) * deg
    hits = replace(down, attack_angle=np.array([[-5.0], [-3.0]]) * deg)
    arcs = wb.arcs.arc_of(hits, plane_inclination=planes, height=np.array([[[0.0]], [[0.01]]]))
    assert arcs.shape == arcs.base_direction.shape == (2, 2, 3)
    one = wb.arcs.arc_of(replace(down, attack_angle=-3 * deg), plane_inclination=66 * deg, height=0.01)
    assert one.base_direction == arcs.base_direction[1, 1, 2]
    assert one.low_point_height == arcs.low_point_height[1, 1, 2]
    assert one.shape == () and isinstance(one.low_point_ahead, float)


@pytest.mark.parametrize(
    ("attack", "plane", "says"),
    [
        # the ball may lie 1 m from the low point of the arc of 1.5 m: sin(attack) = sin(plane) / 1.5
        (-61.5, 62.0, ["attack_angle is", "-61.5 deg", "accepted", "-36.06 deg", "36.06 deg"]),
        (50.0, 45.0, ["attack_angle is", "50 deg", "28.13 deg"]),
        (np.nan, 60.0, ["attack_angle is nan"]),
        (np.array([-5.0, -60.0]), 60.0, ["row 1", "-60 deg"]),
        (-5.0, 95.0, ["plane_inclination is", "95 deg", "20 deg", "90 deg"]),
    ],
    ids=str,
)
def test_an_attack_steeper_than_the_plane_is_refused_with_value_and_range(down, attack, plane, says):
    with pytest.raises(wb.InputError) as error:
        wb.arcs.arc_of(replace(down, attack_angle=attack * deg), plane_inclination=plane * deg)
    for words in says:
        assert words in str(error.value)


@pytest.mark.parametrize(
    ("field", "value"), [("radius", 5.0), ("low_point_ahead", 1.2), ("base_direction", np.nan)]
)
def test_an_arc_out_of_range_is_refused_by_field(field, value):
    with pytest.raises(wb.InputError, match=f"{field} is"):
        wb.SwingArc(**{field: value}).at_ball()


def test_moving_the_ball_moves_only_the_low_point_the_other_way(arc):
    moved = arc.ball_moved(np.array([-0.1, 0.0, 0.1]))
    assert np.allclose(moved.low_point_ahead, arc.low_point_ahead + np.array([0.1, 0.0, -0.1]), atol=TINY)
    assert replace(moved, low_point_ahead=arc.low_point_ahead) == arc
    assert np.all(np.diff(moved.at_ball().attack_angle) > 0)  # farther forward is hit less down


@HANDS
def test_a_face_that_turns_with_the_arc_keeps_its_spin_loft_and_comes_back(
    random_deliveries, random_arcs, draw, hand
):
    met = random_arcs.at_ball(hand)
    hit = replace(random_deliveries, club_path=met.club_path, attack_angle=met.attack_angle)
    end = random_arcs.ball_moved(draw.uniform(-0.2, 0.2, 1000))
    carried = wb.arcs.carried_along(hit, random_arcs, end, hand=hand)
    assert np.allclose(wb.d_plane(carried).spin_loft, wb.d_plane(hit).spin_loft, rtol=0, atol=1e-10)
    assert np.abs(carried.face_angle - hit.face_angle).max() > 1 * deg
    back = wb.arcs.carried_along(carried, end, random_arcs, hand=hand)
    for name, x in hit._numbers().items():
        assert np.allclose(getattr(back, name), x, rtol=0, atol=1e-10), name


def test_a_face_held_by_the_hands_stays_and_takes_path_and_attack_of_the_new_place(down, arc):
    end = arc.ball_moved(np.array([-0.1, 0.05]))
    held = wb.arcs.carried_along(replace(down, strike_toe=4 * mm), arc, end, face="held")
    met = end.at_ball()
    assert np.array_equal(held.club_path, met.club_path) and np.array_equal(held.attack_angle, met.attack_angle)
    for name, x in (("face_angle", 1 * deg), ("dynamic_loft", 25 * deg), ("strike_toe", 4 * mm)):
        assert np.all(getattr(held, name) == x)


def test_an_uphill_stance_turns_a_square_swing_by_the_slope_and_keeps_every_spin_loft(random_deliveries):
    square = wb.arcs.on_uphill_stance(
        wb.Delivery(38.0, 0.0, -4 * deg, 0.0, 25 * deg), np.array([-5.0, 0.0, 8.0]) * deg
    )
    assert np.allclose(square.attack_angle, np.array([-9.0, -4.0, 4.0]) * deg, atol=TINY)
    assert np.allclose(square.dynamic_loft, np.array([20.0, 25.0, 33.0]) * deg, atol=TINY)
    assert np.abs([square.club_path, square.face_angle]).max() < TINY
    turned = wb.arcs.on_uphill_stance(random_deliveries, 6 * deg)
    assert np.allclose(wb.d_plane(turned).spin_loft, wb.d_plane(random_deliveries).spin_loft, rtol=0, atol=1e-10)
    back = wb.arcs.on_uphill_stance(turned, -6 * deg)
    assert np.allclose(back.club_path, random_deliveries.club_path, rtol=0, atol=TINY)


def strike_of(arc, iron, **more):
    return wb.arcs.ground_strike(arc, iron, dynamic_loft=25 * deg, **more)


def test_a_leading_edge_that_just_meets_turf_and_ball_is_clean_and_meets_the_ball_where_geometry_says(arc, iron):
    strike = strike_of(arc, iron)
    touch = wb.Ball().radius * (1 - np.sin(25 * deg)) / np.cos(25 * deg)  # up the face from its lower edge
    assert strike.contact == "clean"
    assert strike.strike_high == pytest.approx(touch - 20 * mm, abs=TINY)
    assert strike.turf_entry == pytest.approx(0.0, abs=1e-9)
    assert strike.divot_depth == pytest.approx(-arc.low_point_height, abs=TINY)


@pytest.mark.parametrize(
    ("forward", "higher", "contact"),
    [
        (0, 0, "clean"),
        (10, 0, "fat"),
        (0, -4, "fat"),
        (-10, 0, "thin"),
        (0, 10, "thin"),
        (-2, 0, "clean"),
        (2, 0, "fat"),
    ],
)
def test_ground_first_is_fat_and_low_on_the_face_is_thin_by_height_and_by_low_point(
    arc, iron, forward, higher, contact
):
    moved = arc.ball_moved(forward * cm)
    strike = strike_of(replace(moved, low_point_height=arc.low_point_height + higher * mm), iron)
    assert strike.contact == contact
    assert (strike.turf_entry < -5 * mm) == (contact == "fat")


def test_an_arc_above_the_turf_never_enters_it_and_a_deep_sole_enters_sooner(iron):
    above = strike_of(wb.SwingArc(low_point_height=2 * mm), iron)
    assert np.isnan(above.turf_entry) and above.divot_depth == 0.0
    low = wb.SwingArc(low_point_ahead=0.15, low_point_height=-3 * mm)
    shallow, deep = strike_of(low, iron), strike_of(low, iron, sole_depth=4 * mm)
    assert deep.turf_entry < shallow.turf_entry
    assert deep.divot_depth == pytest.approx(7 * mm, abs=TINY)
    assert deep.strike_high == shallow.strike_high


def test_a_tee_puts_the_ball_up_the_face_and_off_the_turf(arc, iron):
    tees = np.array([0.0, 10 * mm, 30 * mm])
    strikes = strike_of(arc.ball_moved(0.1), iron, tee_height=tees)
    rise = tees / np.cos(25 * deg)
    assert np.allclose(strikes.strike_high - strikes.strike_high[0], rise, atol=TINY)
    assert list(strikes.contact) == ["fat", "fat", "clean"]  # under a ball teed above its own radius there is room


def test_ground_strikes_broadcast_over_arcs_lofts_and_tees(arc, iron):
    arcs = arc.ball_moved(np.array([[-0.05], [0.0], [0.05]]))
    strikes = wb.arcs.ground_strike(arcs, iron, dynamic_loft=np.array([20.0, 30.0]) * deg)
    assert strikes.shape == strikes.contact.shape == (3, 2)
    one = wb.arcs.ground_strike(arc.ball_moved(0.05), iron, dynamic_loft=30 * deg)
    assert (one.strike_high, one.contact) == (strikes.strike_high[2, 1], strikes.contact[2, 1])


@HANDS
def test_one_arc_hits_an_iron_down_and_a_driver_up_from_a_teed_ball_farther_forward(iron, hand):
    members = wb.clubs if hand == "right" else wb.clubs.left_handed()
    arc = wb.SwingArc(radius=1.55, low_point_ahead=0.12, low_point_height=-4 * mm)
    ironed = wb.arcs.delivered_on(arc, members["7 iron"], clubhead_speed=84 * mph, shaft_lean=7 * deg)
    driven = wb.arcs.delivered_on(arc, members["driver"], clubhead_speed=97 * mph, shaft_lean=-2 * deg,
                             ball_forward=0.2, tee_height=25 * mm)  # fmt: skip
    assert ironed.attack_angle < -3 * deg and driven.attack_angle > 2 * deg
    away = 1 if hand == "right" else -1
    assert away * ironed.club_path > 0 > away * driven.club_path  # down: away from the player; up: toward him
    assert driven.strike_high > ironed.strike_high
    met = arc.at_ball(hand)
    assert (ironed.club_path, ironed.attack_angle) == (met.club_path, met.attack_angle)
    shots = [wb.play(ironed, members["7 iron"]), wb.play(driven, members["driver"])]
    assert shots[1].carry > shots[0].carry > 100.0
