"""What the words of an explained shot say, and what they must not say, for both hands."""

import re

import pytest

import whimbrel as wb
from whimbrel.questions.explain import Share
from whimbrel.units import cm, deg, mm, mph

HANDS = ("right", "left")


def told(club, hand="right", swing=(), strike=(), **asked):
    """A shot of a right-hander's numbers, or its mirror image for a left-hander, explained."""
    speed, path, attack, face, loft = swing
    side = 1.0 if hand == "right" else -1.0
    member = wb.clubs[club] if hand == "right" else wb.clubs[club].left_handed()
    hit = wb.Delivery(speed * mph, side * path * deg, attack * deg, side * face * deg, loft * deg, *strike)
    wind = asked.pop("wind", 0.0)
    blowing = wb.Wind(abs(wind), side * (90 if wind > 0 else -90) * deg)
    for name in ("aim",):
        asked[name] = side * asked.get(name, 0.0)
    return wb.explain(wb.play(hit, member, wind=blowing), **asked)


def swapped(words):
    """Left and right exchanged."""
    return re.sub(r"\b(left|right)\b", lambda m: {"left": "right", "right": "left"}[m[0]], words)


def story(explained):
    """The words without the changes, which are told to the right for either hand."""
    return explained.in_words().split("One change alone")[0]


IN_TO_OUT_HOOK = dict(club="7 iron", swing=(84, 4, -6, -1, 24))
IN_TO_OUT_STAYS = dict(club="7 iron", swing=(84, 4, -4, 4.5, 25))
TOE = dict(club="driver", swing=(97, 0, 2, 1.0, 13), strike=(14 * mm,))
HEEL = dict(club="driver", swing=(97, 0, 2, -1.0, 13), strike=(-14 * mm,))
LOOKS = dict(club="7 iron", swing=(84, 2, -6, 0.5, 24), plane_inclination=62 * deg)


@pytest.mark.parametrize(
    "shot",
    [
        IN_TO_OUT_HOOK,
        IN_TO_OUT_STAYS,
        TOE,
        HEEL,
        LOOKS,
        dict(club="7 iron", swing=(84, -4, -5, -4, 25), aim=-4 * deg, plane_inclination=62 * deg),
        dict(club="5 iron", swing=(86, -5, -3, 1, 20), wind=5.0),
    ],
)
def test_a_left_handers_mirrored_shot_is_told_with_left_and_right_exchanged(shot):
    assert story(told(hand="left", **shot)) == swapped(story(told(**shot)))


@pytest.mark.parametrize("hand", HANDS)
def test_in_to_out_and_still_a_hook(hand):
    out, back = ("right", "left") if hand == "right" else ("left", "right")
    it = told(hand=hand, **IN_TO_OUT_HOOK)
    sign = 1.0 if hand == "right" else -1.0
    assert sign * it.shot.offline < -10.0 and sign * it.curve.total < -10.0
    assert sign * it.curve.face < 0.0 and sign * it.curve.path < 0.0 and sign * it.start.path > 0.0
    words = it.in_words()
    assert f"travelling 4.0° {out} of the target (in-to-out)" in words
    assert f"curved 13.8 yd {back} because the face was 5.0° closed to the path (it looked {back} of" in words
    assert "In-to-out and still a draw or hook: " in words and f"curves it {back}." in words
    assert "stayed" not in words


@pytest.mark.parametrize("hand", HANDS)
def test_in_to_out_that_starts_away_and_stays_away(hand):
    out = "right" if hand == "right" else "left"
    it = told(hand=hand, **IN_TO_OUT_STAYS)
    sign = 1.0 if hand == "right" else -1.0
    assert sign * it.shot.offline > 10.0 and 0.0 < sign * it.curve.total < 3.0
    words = it.in_words()
    assert f"It started 4.4° {out} of the target because the face pointed 4.5° {out}" in words
    assert f"it started {out} and stayed {out}" in words and f"the face looked 0.5° {out} of it" in words
    assert "hook" not in words


@pytest.mark.parametrize("hand", HANDS)
@pytest.mark.parametrize(("shot", "struck"), [(TOE, "toe"), (HEEL, "heel")])
def test_a_strike_whose_gear_effect_goes_against_the_face_to_path(hand, shot, struck):
    it = told(hand=hand, **shot)
    sign = (1.0 if hand == "right" else -1.0) * (1.0 if struck == "toe" else -1.0)
    started, curved = ("right", "left") if sign > 0 else ("left", "right")
    by_swing = it.curve.face + it.curve.path
    assert sign * by_swing > 3.0 and sign * it.curve.strike_and_stance < -10.0 and sign * it.curve.total < -5.0
    assert sign * it.start.strike_and_stance > 5.0
    words = it.in_words()
    assert f"because the strike 14 mm toward the {struck} sent it {started} (there the bulged face looks" in words
    state = "open" if struck == "toe" else "closed"
    assert f" {curved} although the face was 1.0° {state} to the path" in words
    assert f"which alone would have curved it {abs(by_swing) / 0.9144:.1f} yd {started}" in words
    assert "gear effect" in words and f"the strike 14 mm toward the {struck} outweighed it" in words


def test_a_strike_that_helps_and_one_that_hinders_are_told_apart():
    helped = told("driver", swing=(97, 0, 2, -1.0, 13), strike=(2 * mm,)).in_words()
    assert "The strike 2 mm toward the toe added" in helped and "took off" not in helped
    mostly = told("driver", swing=(97, 0, 2, -1.0, 13), strike=(8 * mm,)).in_words()
    assert re.search(r"curved [\d.]+ yd left, [\d.]+ yd of it because of the strike 8 mm toward the toe", mostly)
    assert "and the rest because the face was 1.0° closed to the path" in mostly
    hindered = told("driver", swing=(97, 0, 2, 4.0, 13), strike=(6 * mm,)).in_words()
    assert "Against that, the strike 6 mm toward the toe took off" in hindered


@pytest.mark.parametrize("hand", HANDS)
def test_a_look_over_the_top_that_the_numbers_support(hand):
    base, out = ("left", "right") if hand == "right" else ("right", "left")
    it = told(hand=hand, **LOOKS)
    look, away = it.look, 1.0 if hand == "right" else -1.0
    assert look.supported == "yes"
    assert away * look.base_direction / deg == pytest.approx(-1.204, abs=0.001)
    assert away * look.down_hit / deg == pytest.approx(3.204, abs=0.001)  # the worked 6 degrees on 62
    assert away * max(look.base_range, key=lambda x: away * x) < 0.0
    words = look.in_words()
    assert f"points 1.2° {base} of the target" in words and "for a plane within ±4.0° of 62.0°" in words
    assert f"6.0° down moves the path 3.2° to the {out} of it (2.7° to 3.8° over that range)" in words
    assert "here 3.2°, and the path is 2.0°. That is so here over the whole range of the plane" in words
    assert "something else" not in words


@pytest.mark.parametrize("hand", HANDS)
@pytest.mark.parametrize(
    ("path", "attack", "supported", "says"),
    [
        (4.0, -6.0, "no", "something else causes it: hands or shaft leaving the plane early"),
        (0.0, -6.0, "no", "a body aimed elsewhere, or a camera off the target line"),
        (-2.0, -6.0, "no", "the path is out-to-in, as over-the-top swings measure"),
        (3.2, -6.0, "in part", "over a part of the plane's range only: measure the plane"),
        (1.0, 2.0, "no", "here the hit is not downward"),
        (1.0, 0.0, "no", "Hitting level adds nothing to the path"),
    ],
)
def test_a_look_that_the_numbers_do_not_support_says_what_else_makes_it(hand, path, attack, supported, says):
    side = 1.0 if hand == "right" else -1.0
    hit = wb.Delivery(38.0, side * path * deg, attack * deg)
    look = wb.swing_plane.look_of(hit, plane_inclination=62 * deg, hand=hand)
    assert look.supported == supported
    assert says in look.in_words()
    assert "the downward hit makes the difference" not in look.in_words()


def test_aiming_left_is_not_read_as_a_swing_fault():
    aimed = told("7 iron", swing=(84, -3, -5, -3, 25), aim=-4 * deg, plane_inclination=62 * deg)
    words = aimed.in_words()
    assert "The body was aimed 4.0° left of the target" in words
    assert "the clubhead was travelling 1.0° right of the body's line (in-to-out)" in words
    assert aimed.look.supported == "yes"  # against its own line the swing does look and measure so
    unaimed = told("7 iron", swing=(84, -3, -5, -3, 25), plane_inclination=62 * deg)
    assert "(out-to-in)" in unaimed.in_words() and "body" not in unaimed.in_words().split("causes it")[0]
    parallel = told("7 iron", swing=(84, -1, -5, -1, 25), aim=-4 * deg, plane_inclination=62 * deg)
    assert "The plane points left because the body does: that is aim, not the swing." in parallel.in_words()


def test_a_sloped_stance_is_told_as_what_sent_the_ball():
    hit = wb.present(wb.clubs["7 iron"], clubhead_speed=37, shaft_lean=6 * deg, attack_angle=-4 * deg,
                     lie_tilt=5 * deg)  # fmt: skip
    it = wb.explain(wb.play(wb.arcs.on_uphill_stance(hit, 6 * deg), wb.clubs["7 iron"]), uphill=6 * deg)
    words = it.in_words()
    assert "because the toe 5.0° up with the 6.0° uphill stance sent it left" in words
    assert "the face pointed" not in words and "stance and lie" in words
    down = wb.explain(wb.play(wb.arcs.on_uphill_stance(hit, -6 * deg), wb.clubs["7 iron"]), uphill=-6 * deg)
    assert "6.0° downhill stance" in down.in_words()


@pytest.mark.parametrize(
    ("attack", "height", "says"),
    [
        (-5, -6 * mm, ["Fat: the sole enters the turf", "fat by height", "6.0 mm too low at the ball"]),
        (2, -2 * mm, ["Fat: ", "fat by the low point", "already rising at the ball", "2.0 mm low"]),
        (-5, 12 * mm, ["Thin: ", "thin by height", "12.0 mm above the turf"]),
        (6, 13 * mm, ["Thin: ", "thin by the low point", "has risen 9.3 mm"]),
        (-5, 0.0, ["Clean: no turf before the ball", "ahead of the ball"]),
    ],
)
def test_thin_and_fat_are_told_by_height_and_by_low_point(attack, height, says):
    it = told("7 iron", swing=(84, 0, attack, 0, 25), plane_inclination=62 * deg, height=height)
    words = it.in_words()
    for part in says:
        assert part in words, words
    assert ("What the turf does to the head is not modelled" in words) == ("Fat" in words)


def test_a_ball_moved_is_told_for_both_things_the_hands_may_do():
    shot = wb.play(wb.Delivery(84 * mph, 0.5 * deg, -5 * deg, 0.0, 25 * deg), wb.clubs["7 iron"])
    words = wb.swing_plane.ball_moved(shot, -5 * cm, plane_inclination=60 * deg, height=2 * mm).in_words()
    assert "1.97 in back on the same arc" in words
    assert "With face and shaft turning with the arc: attack −6.7°, path 1.5° right" in words
    assert "With face and loft held by the hands: attack −6.7°, path 1.5° right of the target, face at" in words
    assert "thin contact" in words
    forward = wb.swing_plane.ball_moved(shot, 5 * cm, plane_inclination=60 * deg, height=2 * mm).in_words(
        units="metric"
    )
    assert "5.0 cm forward" in forward and "fat contact" in forward and "not modelled" in forward


def test_two_clubs_of_a_player_are_told_beside_each_other():
    iron = wb.play(wb.Delivery(80 * mph, 1 * deg, -4 * deg, 0.5 * deg, 26 * deg), wb.clubs["7 iron"])
    driver = wb.play(wb.Delivery(94 * mph, -3 * deg, 3 * deg, -0.5 * deg, 14 * deg), wb.clubs["driver"],
                     terrain=wb.Terrain(40 * mm))  # fmt: skip
    words = wb.compare(iron, driver).in_words()
    assert "taking a plane of 62.0° ±4.0°" in words and "taking a plane of 48.0° ±4.0°" in words
    assert (
        "moves the path 2.1° to the right with the 7 iron and moves the path 2.7° to the left with the driver"
        in words
    )
    assert "ahead of the ball" in words and "behind the ball (" in words
    assert "The axis tilts more with the driver, whose spin loft is smaller" in words
    assert "The 7 iron's ball lies on the ground" in words and "The driver's ball stands on a tee" in words
    assert "backspin as long as spin loft is above 0" in words and "makes no topspin" in words
    assert "4,800 against 2,500 g cm²" in words


def test_a_share_that_is_not_its_own_says_together_with():
    usual = wb.Delivery(80 * mph, 0.0, -4 * deg, 0.0, 27 * deg)
    it = wb.explain(wb.play(wb.Delivery(88 * mph, 0.0, -4 * deg, 6 * deg, 27 * deg), wb.clubs["7 iron"]), usual)
    assert re.search(
        r"clubhead speed [\d.]+ yd right together with face angle \(between 0\.0 yd and", it.in_words()
    )
    assert re.search(r"face angle [\d.]+ yd right[.,]", it.in_words())
    assert not Share("path", 1.0, 0.8, 1.2, "wind").together
    assert Share("path", 0.4, -0.5, 1.2, "wind").together
    assert not Share("path", 0.4, -0.5, 1.2, None).together


def test_wind_is_told_apart_from_what_the_spin_did():
    it = told("7 iron", swing=(84, 0, -4, 0, 26), wind=5.0)
    words = it.in_words()
    assert "The wind drifted it" in words and "almost straight" in words
    assert it.wind.total < -5.0 and f"drifted it {-it.wind.total / 0.9144:.1f} yd left" in words
    assert "Its spin curved it" in told("7 iron", swing=(84, 0, -4, 3, 26), wind=5.0).in_words()


def test_metric_words_know_no_yards(shot):
    words = wb.explain(shot, plane_inclination=62 * deg, height=-5 * mm).in_words("metric")
    assert " yd" not in words and " m left" in words
    assert " in ahead" not in words and " cm ahead" in words
    assert "m/s, attack" in words


def test_a_straight_shot_is_told_without_a_reason_it_does_not_have():
    words = told("7 iron", swing=(84, 0, -4, 0, 26)).in_words()
    assert "It started at the target." in words and "It flew almost straight" in words
    assert "because" not in words and "came down on the target line" in words
    cancelled = told("7 iron", swing=(84, 3.0, -4, -1.0, 24)).in_words()
    assert "(in-to-out)" in cancelled


def test_it_prints_as_its_words_and_shows_its_ledgers_in_a_notebook(shot):
    it = wb.explain(shot)
    assert str(it) == it.in_words()
    html = it._repr_html_()
    assert html.startswith("<table>") and "one change alone" in html and "clubhead speed" in html
    assert "stance and lie" not in html
