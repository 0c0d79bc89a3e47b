"""Carries of a set by air and by wind, as tables and pictures."""

import matplotlib
import matplotlib.pyplot as plt
import numpy as np
import pytest

import whimbrel as wb
from whimbrel.questions.bag import Bag
from whimbrel.questions.conditions import ALTITUDES, SPEEDS, TEMPERATURES, WINDS, carry_by_air, carry_by_wind
from whimbrel.units import celsius, deg, ft, mph, yd

matplotlib.use("Agg")


@pytest.fixture(autouse=True)
def closed():
    yield
    plt.close("all")


@pytest.fixture(scope="module")
def bag():
    usual = wb.usual_bag()
    return Bag({name: usual[name] for name in ("driver", "7 iron", "lob wedge")})


@pytest.fixture(scope="module")
def air(bag):
    return carry_by_air(bag, temperature=celsius(np.array([5.0, 35.0])), altitude=np.array([0.0, 1500.0]))


@pytest.fixture(scope="module")
def wind(bag):
    return carry_by_wind(bag, speed=np.array([0.0, 4.0]))


def test_every_carry_by_air_is_the_shot_played_alone(bag, air):
    assert air.names == list(bag) and air.carry.shape == (3, 2, 2)
    for i, name in enumerate(bag):
        for t, temperature in enumerate(air.temperature):
            for a, altitude in enumerate(air.altitude):
                weather = wb.Weather(temperature, altitude=altitude, relative_humidity=0.5)
                assert air.carry[i, t, a] == wb.play(bag[name].delivery, bag[name].club, weather=weather).carry


def test_tables_run_from_a_cold_day_to_a_hot_one_up_to_a_mountain_and_a_fresh_breeze():
    assert TEMPERATURES == pytest.approx(np.array([278.15, 288.15, 298.15, 308.15]), abs=1e-9)
    assert ALTITUDES == pytest.approx(np.array([0.0, 609.6, 1219.2, 1828.8]), abs=1e-9)
    assert SPEEDS == pytest.approx(np.array([0.0, 2.2352, 4.4704, 6.7056, 8.9408]), abs=1e-9)


def test_a_cell_of_the_frame_is_the_carry_of_its_club_altitude_and_temperature(bag, air):
    frame = air.frame()
    for i, name in enumerate(bag):
        for t in range(2):
            for a in range(2):
                assert frame.loc[name].iloc[a, t] * yd == pytest.approx(air.carry[i, t, a], rel=1e-12)


def test_humidity_and_ball_count_by_air(bag):
    ball = wb.balls["low drag"]
    table = carry_by_air(bag, temperature=300.0, altitude=500.0, relative_humidity=0.9, ball=ball)
    weather = wb.Weather(300.0, altitude=500.0, relative_humidity=0.9)
    shot = wb.play(bag["driver"].delivery, bag["driver"].club, weather=weather, ball=ball)
    assert table.carry.shape == (3, 1, 1) and table.carry[0, 0, 0] == shot.carry


def test_every_carry_and_drift_by_wind_is_the_shot_played_alone(bag, wind):
    assert wind.directions == ["ahead", "behind", "the left", "the right"] and wind.carry.shape == (3, 2, 4)
    from_direction = {"ahead": 0.0, "behind": 180 * deg, "the left": -90 * deg, "the right": 90 * deg}
    for i, name in enumerate(bag):
        calm = wb.play(bag[name].delivery, bag[name].club).offline
        for s, speed in enumerate(wind.speed):
            for d, direction in enumerate(wind.directions):
                blows = wb.Wind(speed, from_direction[direction])
                flight = wb.play(bag[name].delivery, bag[name].club, wind=blows).flight
                assert wind.carry[i, s, d] == flight.downrange and wind.drift[i, s, d] == flight.offline - calm


def test_a_wind_drifts_the_ball_away_from_where_it_comes(wind):
    at = wind.directions.index
    assert (wind.drift[:, 1, at("the left")] > 1.0).all()
    assert wind.drift[:, 1, at("the right")] == pytest.approx(-wind.drift[:, 1, at("the left")], abs=1e-6)
    assert (wind.carry[:, 1, at("ahead")] < wind.carry[:, 0, at("ahead")]).all()
    assert np.ptp(wind.carry[:, 0], axis=1) == pytest.approx(0.0, abs=1e-9)


def test_the_tables_run_over_usual_conditions_if_nothing_is_said(bag):
    one = Bag({"7 iron": bag["7 iron"]})
    assert carry_by_air(one).carry.shape == (1, TEMPERATURES.size, ALTITUDES.size) == (1, 4, 4)
    assert carry_by_wind(one).carry.shape == (1, SPEEDS.size, len(WINDS)) == (1, 5, 4)


def test_the_frame_by_air_has_a_row_a_club_and_altitude_and_a_column_a_temperature(bag, air):
    frame = air.frame()
    assert frame.index.names == ["club", "altitude_ft"]
    assert list(frame.columns) == ["carry_yd_at_41f", "carry_yd_at_95f"]
    high = round(1500 / ft, 6)
    assert list(frame.index) == [(name, x) for name in bag for x in (0.0, high)]
    assert frame.loc[("7 iron", high), "carry_yd_at_95f"] == pytest.approx(air.carry[1, 1, 1] / yd, rel=1e-15)
    metric = air.frame("metric")
    assert metric.index.names == ["club", "altitude_m"] and list(metric.columns) == [
        "carry_m_at_5c",
        "carry_m_at_35c",
    ]
    assert metric.loc[("driver", 0.0), "carry_m_at_5c"] == air.carry[0, 0, 0]


def test_the_frame_by_wind_has_a_row_a_club_and_speed_and_columns_a_direction(bag, wind):
    frame = wind.frame("metric")
    assert frame.index.names == ["club", "wind_mps"]
    assert list(frame.columns) == [
        "carry_m_ahead", "carry_m_behind", "carry_m_from_left", "drift_m_from_left", "carry_m_from_right",
        "drift_m_from_right",
    ]  # fmt: skip
    assert list(frame.index) == [(name, x) for name in bag for x in (0.0, 4.0)]
    assert frame.loc[("7 iron", 4.0), "drift_m_from_right"] == wind.drift[1, 1, 3]
    yards = wind.frame()
    assert yards.index.names == ["club", "wind_mph"] and "drift_yd_from_left" in yards.columns
    speed = round(4.0 / mph, 6)
    assert yards.loc[("driver", speed), "carry_yd_behind"] == pytest.approx(wind.carry[0, 1, 1] / yd, rel=1e-15)


@pytest.mark.parametrize(
    ("make", "says"),
    [
        (lambda bag: carry_by_air(bag, temperature=400.0), "temperature is 400 K; accepted"),
        (lambda bag: carry_by_air(bag, altitude=99999.0), r"^altitude is 99999 m; accepted: -500 m to 10000 m"),
        (lambda bag: carry_by_air(bag, temperature="warm"), "temperature: 'warm' is not a number"),
        (lambda bag: carry_by_air(bag, relative_humidity=2.0), "relative_humidity is 2"),
        (lambda bag: carry_by_wind(bag, speed=-1.0), "speed is -1 m/s"),
        (
            lambda bag: carry_by_wind(bag, speed=np.array([4.0, 400.0])),
            r"12 rows are bad, of 24:\n  row \(0, 1, 0\): ",
        ),
        (lambda bag: carry_by_wind(Bag({})), "the bag is empty"),
    ],
)
def test_conditions_out_of_range_are_refused_by_field_value_and_range(bag, make, says):
    with pytest.raises(wb.InputError, match=says):
        make(bag)


@pytest.mark.parametrize(
    ("units", "length", "height", "warm"), [("yards", "yd", "ft", "41 °F"), ("metric", "m", "m", "5.0 °C")]
)
def test_the_picture_by_air_has_a_panel_a_temperature_a_line_a_club_and_units(air, units, length, height, warm):
    figure = air.plot(units)
    assert len(figure.axes) == 2
    assert figure.axes[0].get_ylabel() == f"carry gained, {length}"
    assert figure.get_supxlabel() == f"altitude, {height}"
    assert figure.axes[0].get_title(loc="left") == warm
    assert [len(axes.lines) for axes in figure.axes] == [3, 3]
    names = [text.get_text() for text in figure.legends[0].get_texts()]
    assert [name.split(",")[0] for name in names] == air.names and all(
        name.endswith(f" {length}") for name in names
    )
    factor = yd if units == "yards" else 1.0
    gained = figure.axes[1].lines[1].get_ydata()
    assert gained == pytest.approx((air.carry[1, 1] - air.carry[1, 0, 0]) / factor)


@pytest.mark.parametrize(("units", "length", "speed"), [("yards", "yd", "mph"), ("metric", "m", "m/s")])
def test_the_picture_by_wind_has_a_line_a_club_and_units(wind, units, length, speed):
    along, across = wind.plot(units).axes
    assert speed in along.get_xlabel() and along.get_ylabel() == f"carry, {length}"
    assert across.get_xlabel() == f"wind from the left, {speed} at 10 m"
    assert across.get_ylabel() == f"drift to the right, {length}"
    assert len(along.lines) == len(across.lines) == 3
    factor = yd if units == "yards" else 1.0
    x, y = along.lines[0].get_xdata(), along.lines[0].get_ydata()
    assert x[0] == -x[-1] < 0  # tail wind left, head wind right
    assert y[0] == pytest.approx(wind.carry[0, 1, 1] / factor) and y[-1] == pytest.approx(
        wind.carry[0, 1, 0] / factor
    )
