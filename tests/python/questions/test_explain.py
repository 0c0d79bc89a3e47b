"""The ledgers of one shot: they add up, null causes get nothing, and replays say what a change does."""

import math

import numpy as np
import pytest

import whimbrel as wb
from whimbrel.questions.explain import CAUSES, NUDGES
from whimbrel.units import cm, deg, mm, mph, rpm

EXACT = 1e-9  # m: what the ledgers promise to add up to


def shares(told, of="offline"):
    return {s.cause: s.share for s in getattr(told, of)}


def mirrored(hit):
    return wb.Delivery(
        hit.clubhead_speed, -hit.club_path, hit.attack_angle, -hit.face_angle, hit.dynamic_loft, hit.strike_toe,
        hit.strike_high, hit.lie_tilt, hit.closure_rate,
    )  # fmt: skip


def random_shots(draw, n):
    for _ in range(n):
        club = list(wb.clubs.values())[draw.integers(len(wb.clubs))]
        club = club if draw.integers(2) else club.left_handed()
        loft = max(8 * deg, club.loft - draw.uniform(0, 8) * deg)
        hit = wb.Delivery(
            draw.uniform(28, 50), draw.uniform(-6, 6) * deg, draw.uniform(-6, 4) * deg, draw.uniform(-6, 6) * deg,
            loft, draw.uniform(-15, 15) * mm, draw.uniform(-7, 7) * mm, draw.uniform(-4, 4) * deg,
        )  # fmt: skip
        yield wb.play(
            hit, club, weather=wb.Weather(temperature=draw.uniform(275, 310)),
            wind=wb.Wind(draw.uniform(0, 9), draw.uniform(-3, 3)), terrain=wb.Terrain(0.0, draw.uniform(-8, 4)),
        )  # fmt: skip


def test_both_ledgers_add_up_to_the_shot_with_every_cause_in_it(draw):
    for shot in random_shots(draw, 12):
        aim, uphill = draw.uniform(-4, 4) * deg, draw.uniform(-5, 5) * deg
        told = wb.explain(shot, driver_speed=95 * mph, aim=aim, uphill=uphill)
        assert told.replays == 256
        assert abs(told.reference_carry + sum(shares(told, "carry").values()) - shot.carry) < EXACT
        assert abs(told.reference_offline + sum(shares(told).values()) - shot.offline) < EXACT
        assert abs(told.start.total + told.curve.total + told.wind.total - shot.offline) < EXACT


def test_causes_that_are_the_references_own_get_exactly_nothing(iron):
    usual = wb.Delivery(80 * mph, 0.0, -4 * deg, 0.0, 27 * deg)
    shot = wb.play(wb.Delivery(80 * mph, 0.0, -4 * deg, 2 * deg, 27 * deg), iron)
    told = wb.explain(shot, usual)
    assert told.replays == 2
    assert {s.cause for s in (*told.carry, *told.offline) if s.share or s.least or s.most} == {"face angle"}
    assert shares(told)["face angle"] == pytest.approx(shot.offline, abs=EXACT)
    assert all(s.partner is None for s in told.offline if not s.share)


def test_in_default_weather_air_and_terrain_are_no_cause(shot):
    told = wb.explain(shot)
    assert shares(told, "carry")["air and terrain"] == 0.0
    assert shares(told, "carry")["wind"] == 0.0


def test_the_reference_is_the_clubs_own_and_square(shot, iron):
    told = wb.explain(shot)
    assert (told.reference.club_path, told.reference.face_angle, told.reference.strike_toe) == (0.0, 0.0, 0.0)
    played = wb.play(told.reference, iron)
    assert told.reference_carry == pytest.approx(played.carry, abs=EXACT)
    assert abs(told.reference_offline) < 1e-6


def test_a_body_aimed_left_makes_neither_face_nor_path_a_cause(iron):
    shot = wb.play(wb.Delivery(84 * mph, -4 * deg, -5 * deg, -4 * deg, 25 * deg), iron)
    aimed, straight = wb.explain(shot, aim=-4 * deg), wb.explain(shot)
    assert shares(aimed)["face angle"] == shares(aimed)["path"] == 0.0
    assert aimed.reference_offline < -8.0
    assert aimed.start.square == pytest.approx(shot.offline, abs=0.05)
    assert shares(straight)["face angle"] < -10.0


@pytest.mark.parametrize("hand", ["right", "left"])
def test_a_lie_too_upright_is_told_as_stance_and_lie_not_as_a_face(iron, hand):
    club = iron if hand == "right" else iron.left_handed()
    hit = wb.present(club, clubhead_speed=80 * mph, shaft_lean=6 * deg, attack_angle=-4 * deg, lie_tilt=4 * deg)
    told = wb.explain(wb.play(hit, club))
    assert abs(shares(told)["face angle"]) < EXACT
    sign = -1 if hand == "right" else 1  # toe up turns the face to the player's side
    assert sign * shares(told)["stance and lie"] > 4.0
    assert abs(float(told.level.face_angle)) < 1e-12


def test_an_uphill_stance_takes_its_share_and_leaves_the_swing_as_it_is(iron):
    level = wb.present(iron, clubhead_speed=80 * mph, shaft_lean=6 * deg, attack_angle=-4 * deg)
    told = wb.explain(wb.play(wb.arcs.on_uphill_stance(level, 6 * deg), iron), level, uphill=6 * deg)
    assert told.replays == 2
    carry = shares(told, "carry")
    assert [cause for cause in CAUSES if carry[cause]] == ["stance and lie"]
    unasked = shares(wb.explain(wb.play(wb.arcs.on_uphill_stance(level, 6 * deg), iron), level), "carry")
    assert unasked["stance and lie"] == 0.0 and unasked["attack and dynamic loft"] == pytest.approx(
        carry["stance and lie"], abs=EXACT
    )


def test_a_left_handers_mirrored_shot_has_the_mirrored_ledger():
    driver = wb.clubs["driver"]
    hit = wb.Delivery(97 * mph, 3 * deg, 2 * deg, -1 * deg, 13 * deg, 12 * mm, 4 * mm, 2 * deg, 30.0)
    right = wb.explain(wb.play(hit, driver, wind=wb.Wind.from_right(4)))
    left = wb.explain(wb.play(mirrored(hit), driver.left_handed(), wind=wb.Wind.from_left(4)))
    for cause in CAUSES:
        assert shares(left, "carry")[cause] == pytest.approx(shares(right, "carry")[cause], abs=1e-7)
        assert shares(left)[cause] == pytest.approx(-shares(right)[cause], abs=1e-7)


def test_a_share_that_depends_on_the_order_names_its_partner(iron):
    usual = wb.Delivery(80 * mph, 0.0, -4 * deg, 0.0, 27 * deg)
    open_faced = wb.play(wb.Delivery(88 * mph, 0.0, -4 * deg, 6 * deg, 27 * deg), iron)
    speed = next(s for s in wb.explain(open_faced, usual).offline if s.cause == "clubhead speed")
    # Alone, speed moves a straight shot nowhere; with the open face it carries the ball farther right.
    assert speed.least == pytest.approx(0.0, abs=1e-6) and speed.most > 1.0
    assert speed.together and speed.partner == "face angle"
    assert speed.share == pytest.approx((speed.least + speed.most) / 2, abs=EXACT)


def test_what_if_plays_the_shot_with_that_change_and_nothing_else(shot, iron):
    square = wb.what_if(shot, delivery={"face_angle": 0.0})
    assert square.delivery.face_angle == 0.0 and square.delivery.club_path == shot.delivery.club_path
    by_hand = wb.play(wb.Delivery(84 * mph, 4 * deg, -6 * deg, 0.0, 24 * deg), iron)
    assert square.carry == by_hand.carry and square.offline == by_hand.offline
    blown = wb.what_if(shot, wind=wb.Wind.head(5))
    assert blown.carry < shot.carry and blown.delivery is not None
    rigid = wb.play(shot.delivery, iron, impact="rigid")
    assert wb.what_if(rigid, delivery={"face_angle": 0.0}).impact.contact_time == 0.0


def test_one_change_alone_is_a_replay(shot):
    told = {n.change: n for n in wb.explain(shot).nudges}
    assert len(told) == len(NUDGES)
    for name, step, words in NUDGES:
        moved = wb.what_if(shot, delivery={name: getattr(shot.delivery, name) + step})
        assert told[words].carry == moved.carry - shot.carry
        assert told[words].offline == moved.offline - shot.offline
    assert told["face 1° more to the right"].offline > 3.0
    assert told["path 1° more to the right"].offline < -1.0
    assert told["1 mph more clubhead speed"].carry > 1.0


def test_a_change_that_would_miss_the_face_is_no_number(iron):
    edge = wb.play(wb.Delivery(37.0, 0.0, -4 * deg, 0.0, 25 * deg, strike_toe=38 * mm), iron)
    toe = next(n for n in wb.explain(edge).nudges if "toe" in n.change)
    assert math.isnan(toe.carry)


def test_replays_that_never_leave_the_ground_are_counted(iron):
    topped = wb.Delivery(80 * mph, 0.0, -6 * deg, 0.0, -3 * deg)
    told = wb.explain(wb.play(wb.Delivery(80 * mph, 0.0, -4 * deg, 1 * deg, 27 * deg), iron), topped)
    assert told.grounded == 2 and told.reference_carry == 0.0
    assert "2 of the 4 replays never left the ground" in told.in_words()


def test_a_surface_of_the_users_own_is_replayed(hit, iron):
    bowl = wb.Terrain(surface=lambda x, y: 2e-4 * (x * x + y * y))
    told = wb.explain(wb.play(hit, iron, terrain=bowl))
    assert shares(told, "carry")["air and terrain"] < -0.5


@pytest.mark.parametrize(
    ("make", "says"),
    [
        (lambda s: wb.explain(wb.play(s.launch)), "explain takes a shot with a delivery"),
        (lambda s: wb.what_if(wb.play(s.launch)), "what_if takes a shot with a delivery"),
        (lambda s: wb.explain(wb.play(wb.Delivery(np.array([30.0, 40.0]), dynamic_loft=0.4), s.club)), "shape"),
        (lambda s: wb.explain(s, aim=60 * deg), "aim is 60 deg; accepted: -45 deg to 45 deg"),
        (lambda s: wb.explain(s, aim=float("nan")), "aim is nan"),
        (lambda s: wb.explain(s, uphill=1.0), "uphill"),
        (lambda s: wb.explain(s, wb.Delivery(500.0, dynamic_loft=0.4)), "clubhead_speed is 500"),
        (lambda s: wb.explain(s, wb.Delivery(np.array([30.0, 40.0]), dynamic_loft=0.4)), "reference"),
        (lambda s: wb.explain(s, plane_inclination=95 * deg), "plane_inclination"),
        (lambda s: wb.explain(s, plane_inclination=1.0, plane_range=-0.1), "plane_range"),
        (lambda s: wb.explain(s, height=0.01), "height needs plane_inclination"),
        (lambda s: wb.what_if(s, delivery={"loft": 0.3}), "'loft' is not a field of a delivery"),
    ],
)
def test_a_mistake_names_what_is_wrong(shot, make, says):
    with pytest.raises(wb.InputError, match=says):
        make(shot)


def test_a_mix_of_reference_and_shot_that_is_no_shot_says_so(iron):
    sideways = wb.play(wb.Delivery(37.0, 89 * deg, -4 * deg, 89 * deg, 26 * deg), iron)
    with pytest.raises(wb.InputError, match="replayed with the shot's face angle"):
        wb.explain(sideways)


def test_a_shot_that_never_flew_has_nothing_to_explain(iron):
    with pytest.raises(wb.InputError, match="no flight to explain: the ball never left the ground"):
        wb.explain(wb.play(wb.Delivery(37.0, 0.0, -8 * deg, 0.0, -4 * deg), iron))


def test_hitting_up_lowers_backspin_and_never_makes_topspin_while_spin_loft_is_above_0():
    loft = 14 * deg
    attack = np.linspace(-5, 13.9, 40) * deg
    shots = wb.play(wb.Delivery(42.0, 0.0, attack, 0.0, loft), wb.clubs["driver"])
    backspin = shots.launch.spin_rate * np.cos(shots.launch.spin_axis_tilt)
    assert (np.diff(backspin) < 0.0).all()
    assert (backspin > 0.0).all() and backspin[-1] < 30 * rpm


def test_a_ball_moved_back_on_the_same_arc_is_hit_steeper_and_more_in_to_out(iron):
    shot = wb.play(wb.Delivery(84 * mph, 0.5 * deg, -5 * deg, 0.0, 25 * deg), iron)
    back = wb.swing_plane.ball_moved(shot, -5 * cm, plane_inclination=60 * deg)
    for moved in (back.turning, back.held):
        assert moved.delivery.attack_angle < shot.delivery.attack_angle - 1 * deg
        assert moved.delivery.club_path > shot.delivery.club_path + 0.5 * deg
        assert moved.delivery.strike_high < -3 * mm  # the arc is higher there
    assert back.held.delivery.face_angle == 0.0 and back.turning.delivery.face_angle > 0.5 * deg
    assert back.held.offline < shot.offline < back.turning.offline
    for one in (back.turning, back.held):
        spin = wb.d_plane(one.delivery).spin_loft - wb.d_plane(shot.delivery).spin_loft
        assert abs(spin) < 1e-9 if one is back.turning else spin > 1 * deg
    same = wb.swing_plane.ball_moved(shot, 0.0, plane_inclination=60 * deg)
    assert same.turning.carry == pytest.approx(shot.carry, abs=1e-6)


def test_a_comparison_reads_both_clubs_of_a_player_by_replays():
    iron = wb.play(wb.Delivery(80 * mph, 1 * deg, -4 * deg, 0.5 * deg, 26 * deg), wb.clubs["7 iron"])
    driver = wb.play(
        wb.Delivery(94 * mph, -3 * deg, 3 * deg, -0.5 * deg, 14 * deg),
        wb.clubs["driver"],
        terrain=wb.Terrain(40 * mm),
    )
    both = wb.compare(iron, driver)
    first, second = both.first, both.second
    assert first.look.plane_inclination == pytest.approx(62 * deg)
    assert second.look.plane_inclination == pytest.approx(48 * deg)
    assert first.low_point_ahead > 0.0 > second.low_point_ahead
    assert first.look.down_hit > 0.0 > second.look.down_hit
    assert first.spin_loft > second.spin_loft and first.face.tilt < second.face.tilt
    for read in (first, second):
        assert read.face.start > read.path.start > 0.0 > read.path.tilt
        assert read.attack.spin_rate < 0.0
        moved = wb.what_if(read.shot, delivery={"face_angle": read.shot.delivery.face_angle + 1 * deg})
        assert read.face.offline == moved.offline - read.shot.offline
        centred, heel, toe = (wb.what_if(read.shot, delivery={"strike_toe": x * mm}) for x in (0, -10, 10))
        assert (read.heel_carry, read.heel_offline) == (heel.carry - centred.carry, heel.offline - centred.offline)
        assert (read.toe_carry, read.toe_offline) == (toe.carry - centred.carry, toe.offline - centred.offline)
    given = wb.compare(iron, driver, planes=(60 * deg, None), plane_range=0.0)
    assert not given.first.plane_assumed and given.second.plane_assumed
    assert given.first.look.base_range[0] == given.first.look.base_range[1]
