"""Whole shots: one and many, and what they broadcast over."""

import copy
import pickle

import numpy as np
import pytest

import whimbrel as wb
from whimbrel.units import celsius, deg, rpm


def flown(shot):
    """Every number of a shot's launch and flight, stacked last."""
    numbers = [*shot.launch._numbers().values(), *shot.flight._numbers().values()]
    return np.stack(np.broadcast_arrays(*numbers), axis=-1)


def row(value, i):
    """One row of a value of arrays."""
    return type(value)(**{name: float(np.broadcast_to(x, value.shape)[i]) for name, x in value._numbers().items()})


def test_an_array_of_deliveries_is_each_delivery_bit_for_bit(random_deliveries, iron):
    many = flown(wb.play(random_deliveries, iron, accuracy="reference"))
    for i in range(0, 1000, 25):
        assert np.array_equal(many[i], flown(wb.play(row(random_deliveries, i), iron)), equal_nan=True), i


def test_any_number_of_threads_gives_the_same_bits(random_deliveries, iron):
    shots = [wb.play(random_deliveries, iron, threads=n) for n in (1, 2, 3, 0)]
    for shot in shots[1:]:
        assert np.array_equal(flown(shots[0]), flown(shot), equal_nan=True)
        assert np.array_equal(shots[0].status, shot.status)


def test_every_argument_broadcasts():
    """One axis an argument: ball, air, wind, terrain, club, delivery."""

    def along(axis, *values):
        return np.array(values).reshape([-1 if i == axis else 1 for i in range(6)])

    club = wb.Club("two", 0.5, 1.1, 0.94, along(4, 0.26, 0.28))
    shots = wb.play(
        wb.Delivery(40.0, dynamic_loft=along(5, 0.3, 0.4)),
        club,
        ball=wb.Ball(mass=along(0, 0.0445, 0.0459)),
        weather=wb.Weather(temperature=celsius(along(1, 5.0, 30.0))),
        wind=wb.Wind(3.0, along(2, 0.0, 1.0)),
        terrain=wb.Terrain(height=along(3, -2.0, 1.0)),
        accuracy="reference",
    )
    assert shots.shape == shots.carry.shape == shots.status.shape == (2, 2, 2, 2, 2, 2)
    assert len(np.unique(shots.carry)) == 64
    one = wb.play(
        wb.Delivery(40.0, dynamic_loft=0.3),
        wb.Club("two", 0.5, 1.1, 0.94, 0.28),
        ball=wb.Ball(mass=0.0445),
        weather=wb.Weather(temperature=celsius(30.0)),
        wind=wb.Wind(3.0, 1.0),
        terrain=wb.Terrain(height=-2.0),
    )
    assert one.carry == shots.carry[0, 1, 1, 0, 1, 0]


def test_an_array_of_one_stays_an_array_and_an_empty_one_stays_empty(iron):
    assert wb.play(wb.Delivery(np.array([40.0]), dynamic_loft=0.4), iron).carry.shape == (1,)
    empty = wb.play(wb.Delivery(np.array([]), dynamic_loft=0.4), iron)
    assert empty.carry.shape == empty.status.shape == (0,)
    assert wb.play(wb.Delivery(40.0, dynamic_loft=0.4), iron).carry.__class__ is float


def test_the_input_arrays_are_not_changed(iron):
    speeds = np.array([40.0, 45.0])
    kept = speeds.copy()
    wb.play(wb.Delivery(speeds, dynamic_loft=0.4), iron)
    assert np.array_equal(speeds, kept)


def test_play_is_strike_and_then_fly(hit, iron, shot):
    impact = wb.strike(hit, iron)
    assert shot.impact.launch == impact.launch == shot.launch
    assert wb.fly(impact.launch).carry == shot.carry
    assert (shot.delivery, shot.club) == (hit, iron)
    from_launch = wb.play(impact.launch)
    assert (from_launch.delivery, from_launch.club, from_launch.impact) == (None, None, None)


def test_the_shortcuts_of_a_shot_are_its_flights(shot):
    assert (shot.carry, shot.offline, shot.status) == (shot.flight.carry, shot.flight.offline, "ok")
    assert shot.shape == ()


def test_out_of_range_is_the_impacts_the_flights_and_the_bounces_together(shot):
    assert set(shot.impact.out_of_range) == {"face_friction", "approach_speed"}
    assert set(shot.flight.out_of_range) == {"spin_ratio", "reynolds"}
    bounce = {name: shot.out_of_range[name] for name in ("bounce_speed", "bounce_angle")}
    assert shot.out_of_range == shot.impact.out_of_range | shot.flight.out_of_range | bounce
    slow = wb.play(wb.Delivery(np.array([5.0, 40.0]), dynamic_loft=0.4), wb.clubs["7 iron"]).out_of_range
    assert slow["approach_speed"][0] < 0 == slow["approach_speed"][1]
    assert slow["reynolds"][0] < 0 == slow["reynolds"][1]
    flown_and_run = {"spin_ratio", "reynolds", "bounce_speed", "bounce_angle"}
    assert set(wb.play(wb.Launch(60.0, 0.2)).out_of_range) == flown_and_run


def test_a_smaller_ball_of_the_same_numbers_flies_differently_but_lands(hit, iron, shot):
    assert wb.play(hit, iron, ball=wb.Ball(radius=0.0205)).carry != shot.carry
    assert wb.play(hit, iron, ball=wb.balls["low drag"]).carry > shot.carry


@pytest.mark.parametrize("errors", ["raise", "mask"])
def test_a_single_bad_shot_always_raises(iron, errors):
    with pytest.raises(wb.InputError, match=r"^clubhead_speed is -1 m/s"):
        wb.play(wb.Delivery(-1.0, dynamic_loft=0.4), iron, errors=errors)


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        ((wb.Delivery(40.0), None), "a delivery needs a club"),
        ((wb.Launch(60.0, 0.2), wb.clubs["driver"]), "takes no club"),
        ((wb.Landing(20.0, 0.8), wb.clubs["driver"]), "takes no club"),
        ((60.0, None), "takes a Delivery, a Launch or a Landing, not float"),
    ],
)
def test_what_cannot_be_played_together_is_refused(arguments, says):
    with pytest.raises(wb.InputError, match=says):
        wb.play(*arguments)


@pytest.mark.parametrize(
    ("name", "value"), [("club", "7 iron"), ("ball", "standard"), ("wind", 5.0), ("weather", wb.Wind())]
)
def test_an_argument_of_the_wrong_kind_is_refused_by_name(hit, iron, name, value):
    with pytest.raises((wb.InputError, TypeError), match=name):
        wb.play(hit, **({"club": iron} | {name: value}))


def test_an_unknown_way_with_errors_is_refused(hit, iron):
    with pytest.raises(wb.InputError, match="accepted: raise, mask"):
        wb.play(hit, iron, errors="ignore")


def test_at_standard_conditions_is_flying_in_the_defaults():
    launch = wb.Launch(np.array([60.0, 70.0]), 0.2, 0.01, 3000 * rpm)
    away = wb.play(launch, weather=wb.Weather(altitude=2000.0), wind=wb.Wind.head(8), terrain=wb.Terrain(0.05, 3.0))
    expected = wb.play(launch)
    for shot in (wb.at_standard_conditions(launch), wb.at_standard_conditions(away)):
        assert np.array_equal(flown(shot), flown(expected))


def test_at_standard_conditions_keeps_bad_rows_bad(iron):
    masked = wb.play(wb.Delivery(np.array([40.0, -1.0]), dynamic_loft=0.4), iron, errors="mask")
    standard = wb.at_standard_conditions(masked)
    assert list(standard.status) == ["ok", "bad_input"]
    assert standard.carry[0] == masked.carry[0]


@pytest.mark.parametrize(
    "again", [lambda x: pickle.loads(pickle.dumps(x)), copy.deepcopy], ids=["pickled", "copied"]
)
@pytest.mark.parametrize("speed", [45.0, np.array([40.0, 45.0])], ids=["one", "many"])
def test_a_shot_survives_being_pickled_and_copied(iron, speed, again):
    shot = wb.play(wb.Delivery(speed, dynamic_loft=0.4), iron)
    twin = again(shot)
    assert np.array_equal(flown(shot), flown(twin))
    assert np.array_equal(shot.flight.position_at([0.0, 1.0]), twin.flight.position_at([0.0, 1.0]))


@pytest.mark.parametrize(
    "value",
    [
        wb.Delivery(40.0),
        wb.clubs["driver"],
        wb.clubs,
        wb.balls,
        wb.Ball(),
        wb.Weather(altitude=10.0),
        wb.Wind.head(3),
        wb.Terrain(),
    ],
    ids=lambda v: type(v).__name__,
)
def test_what_a_shot_is_played_with_survives_being_pickled(value):
    assert repr(pickle.loads(pickle.dumps(value))) == repr(value)


def test_the_repr_of_a_shot_tells_every_stage(shot, random_deliveries, iron):
    text = repr(shot)
    for words in ("delivery, 7 iron", "impact", "launch", "flight", "84.0 mph", "carry", "status"):
        assert words in text
    assert "shape (1000,)" in repr(wb.play(random_deliveries, iron))
    assert "<table>" in shot._repr_html_()


def test_an_impossible_number_of_threads_is_refused(random_deliveries, iron):
    with pytest.raises((wb.InputError, TypeError)):
        wb.play(random_deliveries, iron, threads=-1)


def test_spin_lost_and_speed_lost_are_lost_in_flight(random_deliveries, iron):
    shots = wb.play(random_deliveries, iron)
    flying = shots.status == "ok"
    assert np.all(shots.flight.landing_spin_rate[flying] < shots.launch.spin_rate[flying])
    assert np.all(shots.flight.landing_speed[flying] < shots.launch.ball_speed[flying])
    assert np.all(shots.flight.descent_angle[flying] > 0 * deg)
