"""What a shot on the course plays like, and which club it asks for."""

from dataclasses import replace

import matplotlib
import matplotlib.pyplot as plt
import numpy as np
import pytest
from scipy.optimize import brentq

import whimbrel as wb
from whimbrel.plots import holding_green as plot_holding
from whimbrel.questions.bag import Bag, Swing
from whimbrel.questions.course import TargetPoint, rules_of_thumb
from whimbrel.units import celsius, deg, fahrenheit, ft, mph, percent, rpm, yd

matplotlib.use("Agg")

SOLVED = 1e-5  # m, from the target where the solved swing comes down; also what a flight of 300 m is sure to
ROUND_TRIP = 2 * SOLVED
HAND_SIZED = 1e-9


@pytest.fixture(autouse=True)
def closed():
    yield
    plt.close("all")


@pytest.fixture(scope="module")
def bag():
    return wb.usual_bag()


@pytest.fixture
def usual(bag):
    """A usual 7 iron, as the arguments of level_distance: its delivery and the club."""
    return bag["7 iron"].delivery, bag["7 iron"].club


def numbers(course):
    return np.stack(np.broadcast_arrays(course.level_distance, course.speed_share, course.aim), axis=-1)


# One shot


def test_a_flat_still_standard_target_is_as_far_as_it_is(bag):
    for name, (club, delivery) in bag.items():
        carry = wb.play(delivery, club).carry
        course = wb.level_distance(delivery, club, distance=0.9 * carry)
        assert course.status == "ok", name
        assert course.level_distance == pytest.approx(0.9 * carry, abs=ROUND_TRIP)
        assert course.aim == pytest.approx(0.0, abs=1e-12)
        assert all(x == pytest.approx(0.0, abs=ROUND_TRIP) for x in course.alone.values())
        assert all(x == 0.0 for x in course.rules_of_thumb.values())


def test_the_shot_comes_down_on_the_target_and_goes_to_rest(usual):
    course = wb.level_distance(
        *usual, distance=130 * yd, rise=5.0, slope_right=0.03, slope_downrange=-0.02,
        wind=wb.Wind(4.0, 60 * deg), weather=wb.Weather(celsius(8)), turf=wb.turfs["soft green"],
    )  # fmt: skip
    shot = course.shot
    assert shot.flight.downrange == pytest.approx(130 * yd, abs=SOLVED)
    assert shot.flight.offline == pytest.approx(0.0, abs=SOLVED)
    assert shot.flight.position_at(shot.flight.flight_time)[2] == pytest.approx(5.0 + 0.0213, abs=2e-3)
    assert shot.turf == wb.turfs["soft green"] and shot.run.status == "ok"
    assert course.past == shot.run.total_downrange - 130 * yd
    swing = shot.delivery
    assert swing.clubhead_speed == course.speed_share * usual[0].clubhead_speed
    assert swing.club_path == swing.face_angle == course.aim
    still = wb.play(wb.Delivery(swing.clubhead_speed, 0.0, swing.attack_angle, 0.0, swing.dynamic_loft), usual[1])
    assert course.level_distance == pytest.approx(still.carry, abs=ROUND_TRIP)


def test_a_measured_launch_plays_too():
    launch = wb.Launch(120 * mph, 16 * deg, 0.0, 7000 * rpm)
    course = wb.level_distance(launch, distance=150 * yd, rise=-10.0)
    assert course.level_distance < 150 * yd - 5.0
    assert course.shot.launch.spin_rate == pytest.approx(course.speed_share * launch.spin_rate, rel=1e-14)
    assert course.shot.flight.downrange == pytest.approx(150 * yd, abs=SOLVED)
    assert course.in_words().count("With this launch it takes") == 1


def test_a_wind_from_the_right_is_aimed_right_by_either_hand(usual):
    delivery, club = usual
    for hand_club in (club, wb.clubs.left_handed()["7 iron"]):
        right = wb.level_distance(delivery, hand_club, distance=120 * yd, wind=wb.Wind(5.0, 90 * deg))
        left = wb.level_distance(delivery, hand_club, distance=120 * yd, wind=wb.Wind(5.0, -90 * deg))
        assert right.aim > 1 * deg
        assert left.aim == pytest.approx(-right.aim, abs=1e-6)
        assert left.level_distance == pytest.approx(right.level_distance, abs=ROUND_TRIP)
        assert right.aim_off == pytest.approx(120 * yd * np.tan(right.aim), rel=1e-14)


def test_the_slope_at_the_target_moves_the_ball_after_it_lands(usual):
    def at(**slope):
        return wb.level_distance(*usual, distance=130 * yd, turf=wb.turfs["medium green"], **slope)

    flat = at()
    assert at(slope_downrange=3 * percent).past < flat.past < at(slope_downrange=-3 * percent).past
    falls_right = at(slope_right=-3 * percent)
    assert falls_right.shot.run.total_offline > 0.2 > abs(flat.shot.run.total_offline)
    # The pitch mark is on the target all the same, but for the ball's radius: its centre comes down on a plane.
    assert falls_right.shot.flight.downrange == pytest.approx(130 * yd, abs=SOLVED)
    assert falls_right.level_distance == pytest.approx(flat.level_distance, abs=0.01)


def test_a_target_of_which_only_the_distance_is_said_lies_on_level_ground():
    assert TargetPoint(150.0).terrain() == wb.Terrain(0.0, 0.0, 0.0, 0.0)


def test_the_ground_around_a_target_passes_through_it():
    target = TargetPoint(np.array([100.0, 150.0]), 5.0, 0.02, 0.04)
    ground = target.terrain(0.01)
    assert ground.height == pytest.approx([1.0, -1.0]) and ground.tee_height == 0.01
    assert (ground.slope_right, ground.slope_downrange) == (0.02, 0.04)


def test_a_condition_alone_adds_what_a_shot_in_it_alone_plays_more(usual):
    wind, weather = wb.Wind(4.0, 20 * deg), wb.Weather(celsius(5), altitude=900.0, relative_humidity=0.8)
    course = wb.level_distance(*usual, distance=120 * yd, rise=6.0, wind=wind, weather=weather)

    def added(**conditions):
        return wb.level_distance(*usual, distance=120 * yd, **conditions).level_distance - 120 * yd

    assert list(course.alone) == list(course.rules_of_thumb) == ["rise", "wind", "temperature", "altitude"]
    for name, conditions in {
        "rise": {"rise": 6.0},
        "wind": {"wind": wind},
        "temperature": {"weather": wb.Weather(celsius(5), relative_humidity=0.8)},
        "altitude": {"weather": wb.Weather(celsius(15), altitude=900.0)},
    }.items():
        assert course.alone[name] == pytest.approx(added(**conditions), abs=HAND_SIZED), name
    assert course.alone["rise"] > 4 and course.alone["wind"] > 4
    assert course.alone["temperature"] > 0 > course.alone["altitude"]


def test_air_of_its_own_density_is_one_condition(usual):
    course = wb.level_distance(*usual, distance=120 * yd, weather=wb.setting.Air(1.0))
    assert list(course.alone) == list(course.rules_of_thumb) == ["rise", "wind", "air"]
    assert course.alone["air"] < -1.0 and np.isnan(course.rules_of_thumb["air"])


# Rules of thumb


@pytest.mark.parametrize(
    ("conditions", "name", "yards"),
    [
        ({"rise": 9 * yd}, "rise", 9.0),
        ({"rise": -4 * yd}, "rise", -4.0),
        ({"wind": wb.Wind(10 * mph)}, "wind", 15.0),
        ({"wind": wb.Wind(10 * mph, 180 * deg)}, "wind", -7.5),
        ({"wind": wb.Wind(10 * mph, 60 * deg)}, "wind", 7.5),
        ({"wind": wb.Wind(10 * mph, 120 * deg)}, "wind", -3.75),
        ({"wind": wb.Wind(10 * mph, 90 * deg)}, "wind", 0.0),
        ({"weather": wb.Weather(fahrenheit(79))}, "temperature", -4.0),
        ({"weather": wb.Weather(fahrenheit(39))}, "temperature", 4.0),
        ({"weather": wb.Weather(altitude=3000 * ft)}, "altitude", -9.0),
        # The ISO atmosphere is 6.5 K colder a km: 11.7 degF in 1 km.
        ({"weather": wb.Weather(altitude=1000.0)}, "temperature", 2.34),
        ({"weather": wb.Weather(celsius(15), altitude=1000.0)}, "temperature", 0.0),
        ({"weather": wb.Weather(pressure=90000.0)}, "altitude", np.nan),
    ],
)
def test_a_rule_of_thumb_is_the_one_worked_by_hand(conditions, name, yards):
    given = {"weather": wb.Weather(), "wind": wb.Wind()} | conditions
    target = TargetPoint(150 * yd, given.pop("rise", 0.0))
    # The geopotential height the atmosphere is made for is 0.02 % less than 1,000 m.
    ruled = rules_of_thumb(target, **given)
    assert ruled[name] / yd == pytest.approx(yards, abs=1e-3, nan_ok=True)
    assert (
        all(x == pytest.approx(0.0, abs=1e-9) for other, x in ruled.items() if other != name)
        or "weather" in conditions
    )


# Arrays


def test_an_array_of_targets_is_each_target_bit_for_bit(usual, draw):
    n = 12
    given = {"distance": draw.uniform(60, 140, n), "rise": draw.uniform(-10, 10, n)}
    given |= {name: draw.uniform(-0.03, 0.03, n) for name in ("slope_right", "slope_downrange")}
    wind = wb.Wind(draw.uniform(0, 6, n), draw.uniform(-3, 3, n))
    weather = wb.Weather(celsius(draw.uniform(0, 30, n)), altitude=draw.uniform(0, 2000, n))
    many = wb.level_distance(*usual, **given, wind=wind, weather=weather)
    assert many.shape == (n,) and (many.status == "ok").all()
    for i in range(n):
        one = wb.level_distance(
            *usual,
            **{name: float(x[i]) for name, x in given.items()},
            wind=wb.Wind(wind.speed[i], wind.from_direction[i]),
            weather=wb.Weather(weather.temperature[i], altitude=weather.altitude[i]),
        )
        assert np.array_equal(numbers(many)[i], numbers(one)), i
        assert many.shot.run.total[i] == one.shot.run.total
        assert many.past[i] == one.past and many.aim_off[i] == one.aim_off
        for name in one.alone:
            assert many.alone[name][i] == one.alone[name], name
            assert many.rules_of_thumb[name][i] == pytest.approx(one.rules_of_thumb[name], rel=1e-14), name


def test_clubs_broadcast_against_targets_and_threads_change_nothing(bag):
    club, delivery = bag.stack()
    distance = np.array([[60.0], [75.0]])
    courses = [wb.level_distance(delivery, club, distance=distance, threads=n) for n in (1, 2)]
    assert courses[0].shape == courses[0].shot.carry.shape == (2, 13)
    assert np.array_equal(numbers(courses[0]), numbers(courses[1]))
    assert courses[0].level_distance == pytest.approx(np.broadcast_to(distance, (2, 13)), abs=ROUND_TRIP)


def test_bad_rows_are_masked_with_their_reason_and_the_others_solved(usual):
    distance = np.array([100.0, 900.0, 400.0])
    course = wb.level_distance(*usual, distance=distance, errors="mask")
    assert course.status.tolist() == ["ok", "bad_input", "out_of_reach"]
    assert course.mistakes == {1: "distance is 900 m; accepted: 1 m to 500 m"}
    assert np.isnan(numbers(course)[1:]).all() and np.isnan(course.past[1:]).all()
    assert course.level_distance[0] == wb.level_distance(*usual, distance=100.0).level_distance
    with pytest.raises(wb.InputError, match="1 row is bad, of 3:\n  row 1: distance is 900 m"):
        wb.level_distance(*usual, distance=distance)


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ({"distance": 0.5}, r"^distance is 0.5 m; accepted: 1 m to 500 m"),
        ({"distance": "far"}, "distance: 'far' is not a number"),
        ({"rise": 400.0}, r"^rise is 400 m; accepted: -300 m to 300 m"),
        ({"slope_right": 2.0}, r"^slope_right is 2; accepted: -1 to 1"),
        ({"tee_height": -1.0}, "tee_height is -1 m"),
        ({"weather": wb.Weather(celsius(99))}, "temperature"),
        ({"weather": wb.Wind()}, "weather is .*it takes a Weather or Air"),
        ({"wind": 5.0}, "wind is 5.0; it takes a Wind"),
        ({"wind": wb.Wind(-1.0)}, "wind speed is -1|speed is -1"),
        ({"rise": np.zeros(2), "distance": np.ones(3) * 100}, "do not broadcast"),
    ],
)
def test_what_is_no_course_shot_is_refused_by_field_value_and_range(usual, change, says):
    with pytest.raises(wb.InputError, match=says):
        wb.level_distance(*usual, **({"distance": 100.0} | change))


def test_a_launch_takes_no_club_and_a_delivery_needs_one(usual):
    with pytest.raises(wb.InputError, match="a measured launch takes no club"):
        wb.level_distance(wb.Launch(60.0, 0.3), usual[1], distance=100.0)
    with pytest.raises(wb.InputError, match="a delivery needs a club"):
        wb.level_distance(usual[0], distance=100.0)


# Words


def test_an_uphill_shot_is_told_in_full(usual):
    course = wb.level_distance(*usual, distance=120 * yd, rise=5 * yd, wind=wb.Wind(3.0, 90 * deg))
    run = course.shot.run
    stops = f"{abs(course.past) / yd:.1f} yd {'past' if course.past > 0 else 'short of'} it"
    hit, club = course.shot.delivery, course.shot.club
    sure = (wb.doubt(wb.play(hit, club)) - wb.doubt(course.shot)).sd("carry")
    assert course.in_words() == (
        f"120.0 yd, 5.0 yd uphill, plays like {course.level_distance / yd:.1f} ± {sure / yd:.1f} yd on the "
        "level in still standard air. "
        f"With the 7 iron it takes {100 * course.speed_share:.0f} % of the usual speed, "
        f"aimed {course.aim_off / yd:.1f} yd right of the target. The ball comes down on the target at "
        f"{course.shot.flight.descent_angle / deg:.1f}°. On the firm fairway it stops {stops}, "
        f"{-run.total_offline / yd:.1f} yd left of the target line."
    )


def test_a_downhill_level_or_left_aimed_shot_is_told_so(usual):
    downhill = wb.level_distance(*usual, distance=120.0, rise=-6.0, wind=wb.Wind(3.0, -90 * deg)).in_words("metric")
    assert downhill.startswith("120.0 m, 6.0 m downhill, plays like 11")
    assert " m left of the target. The ball" in downhill and " right of the target line." in downhill
    level = wb.level_distance(*usual, distance=120.0).in_words("metric")
    assert level.startswith("120.0 m plays like 120.0 m on the level")
    assert "aimed at the target." in level and level.endswith("on the target line.")


def test_a_shot_out_of_reach_and_one_that_never_rests_are_told_so(usual):
    told = wb.level_distance(*usual, distance=400.0).in_words("metric")
    assert told == "400.0 m is out of reach: no speed of this swing carries to the target."
    ice = wb.Turf("ice", friction=0.0, rolling_deceleration=0.0)
    course = wb.level_distance(*usual, distance=120.0, turf=ice)
    assert "it was still moving 30 s after its last bounce, " in course.in_words()
    assert course.in_words().endswith("from the start: it has no place of rest.")
    assert np.isnan(course.past) and course.level_distance == pytest.approx(120.0, abs=ROUND_TRIP)


def test_words_and_a_picture_are_for_one_shot(usual):
    many = wb.level_distance(*usual, distance=np.array([100.0, 110.0]))
    with pytest.raises(ValueError, match="one shot"):
        many.in_words()
    with pytest.raises(ValueError, match="one shot"):
        many.plot()
    with pytest.raises(wb.InputError, match="there is no shot to draw: no speed of this swing"):
        wb.level_distance(*usual, distance=400.0).plot()


# Pictures


@pytest.mark.parametrize(("units", "symbol", "factor"), [("yards", "yd", yd), ("metric", "m", 1.0)])
def test_the_picture_has_the_flight_the_target_and_units(usual, units, symbol, factor):
    course = wb.level_distance(*usual, distance=120.0, rise=6.0, wind=wb.Wind(4.0, 90 * deg))
    side, above = course.plot(units).axes
    assert side.get_ylabel() == f"height, {symbol}" and above.get_ylabel() == f"sideways, {symbol}"
    assert above.get_xlabel() == f"downrange, {symbol}"
    assert f"{course.level_distance / factor:.1f} {symbol}" in side.get_title(loc="left")
    path = course.shot.flight.path() / factor
    assert any(
        np.allclose(line.get_xydata(), path[:, 1:]) for line in side.lines if len(line.get_xdata()) == len(path)
    )
    target = [line.get_xydata()[0] for line in side.lines if line.get_marker() == "D"]
    assert np.allclose(target, [[120.0 / factor, 6.0 / factor]])
    legend = {text.get_text() for text in above.get_legend().get_texts()}
    assert f"aim {course.aim_off / factor:.1f} {symbol} right" in legend
    lower, upper = above.get_ylim()
    assert lower > upper  # the player's right is down


def test_a_picture_of_what_holds_a_green_marks_the_landing_and_has_units():
    landing = wb.Landing(22.0, 47 * deg, landing_spin_rate=6000 * rpm)
    figure = plot_holding.stopping(landing, wb.turfs["soft green"], depth=8.0, units="metric")
    axes, bar = figure.axes
    assert axes.get_xlabel() == "backspin at landing, rpm" and axes.get_ylabel() == "descent angle, °"
    assert bar.get_ylabel() == "run past the pitch mark, m"
    assert axes.get_title(loc="left") == "Run on the soft green at 22.0 m/s"
    assert "just holds 8.0 m" in {text.get_text() for text in axes.get_legend().get_texts()}
    marks = [line.get_xydata()[0] for line in axes.lines if line.get_marker() == "o"]
    assert np.allclose(marks, [[6000.0, 47.0]])


# Clubs


def test_the_club_chosen_is_the_one_whose_usual_carry_comes_nearest(bag):
    wind = wb.Wind(4.0, 30 * deg)
    choice = wb.choose_club(bag, distance=130 * yd, rise=4.0, wind=wind)
    assert choice.names == list(bag)
    assert choice.best == choice.names[int(np.argmin(np.abs(choice.gap)))]
    assert np.abs(choice.gap).min() < np.abs(np.diff(choice.carry)).max()
    assert choice.gap == pytest.approx(choice.carry - 130 * yd, abs=1e-12)
    best = wb.level_distance(
        bag[choice.best].delivery, bag[choice.best].club, distance=130 * yd, rise=4.0, wind=wind
    )
    assert numbers(choice.course_shot).tolist() == numbers(best).tolist()


def test_a_clubs_line_is_its_usual_swing_aimed_and_played(bag):
    wind, turf = wb.Wind(4.0, 60 * deg), wb.turfs["medium green"]
    choice = wb.choose_club(bag, distance=130 * yd, rise=-4.0, wind=wind, turf=turf)
    for i, name in enumerate(choice.names):
        delivery, club = bag[name].delivery, bag[name].club

        def struck(aim, hit=delivery, with_club=club):
            aimed = replace(hit, club_path=aim, face_angle=aim)
            return wb.play(aimed, with_club, wind=wind, turf=turf, terrain=wb.Terrain(height=-4.0))

        here = struck(brentq(lambda aim, struck=struck: struck(aim).offline, -0.5, 0.5, xtol=1e-10))
        assert choice.carry[i] == pytest.approx(here.flight.downrange, abs=SOLVED)
        assert choice.rests[i] == pytest.approx(here.run.total_downrange - 130 * yd, abs=1e-3)
        assert choice.level_carry[i] == pytest.approx(wb.play(delivery, club).carry, abs=SOLVED)


def test_a_bag_of_one_club_chooses_it_however_far_it_is(bag):
    one = Bag({"lob wedge": bag["lob wedge"]})
    choice = wb.choose_club(one, distance=200.0)
    assert choice.best == "lob wedge" and choice.course_shot.status == "out_of_reach"
    assert choice.gap[0] == pytest.approx(choice.level_carry[0] - 200.0, abs=SOLVED)


def test_a_bag_that_cannot_choose_says_why(bag):
    left = wb.usual_bag(club_set=wb.clubs.left_handed())
    with pytest.raises(wb.InputError, match="the bag is empty"):
        wb.choose_club(Bag({}), distance=100.0)
    with pytest.raises(wb.InputError, match="right-handed and left-handed"):
        wb.choose_club(Bag({"7 iron": bag["7 iron"], "driver": left["driver"]}), distance=100.0)
    with pytest.raises(wb.InputError, match=r"^distance is 900 m; accepted: 1 m to 500 m$"):
        wb.choose_club(bag, distance=900.0)
    with pytest.raises(wb.InputError, match="one target: its distance and conditions must be scalars"):
        wb.choose_club(bag, distance=np.full((2, 1), 100.0))
    with pytest.raises(wb.InputError, match="no club's ball comes down on the ground at the target"):
        wb.choose_club(bag, distance=100.0, rise=250.0)


def test_a_bad_club_of_the_bag_is_named(bag):
    bad = Bag({**bag, "8 iron": Swing(bag["8 iron"].club, wb.Delivery(-3.0, dynamic_loft=0.5))})
    with pytest.raises(wb.InputError, match="row 8 iron: clubhead_speed is -3 m/s"):
        wb.choose_club(bad, distance=100.0)
