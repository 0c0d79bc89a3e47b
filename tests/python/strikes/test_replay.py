"""Replays: the conditions of a group of strikes, and which of its rows say how their shots started."""

import numpy as np
import pandas as pd
import pytest

import whimbrel as wb
from whimbrel.strikes.play_table import WAYS, Defaults
from whimbrel.strikes.replay import conditions, player_of, read_deliveries
from whimbrel.strikes.rows import read_strikes
from whimbrel.units import celsius, deg, mph, percent

DELIVERED = next(way for way in WAYS if way.needs == ("clubhead_speed", "dynamic_loft"))


def strikes_of(**columns):
    frame = pd.DataFrame({"club": "7 iron", "clubhead_speed_mph": 84.0, "dynamic_loft_deg": 24.0, **columns})
    return read_strikes(frame, columns={}, club=None, club_set=wb.clubs, defaults=Defaults())


def test_strikes_are_replayed_under_the_median_conditions_of_their_group():
    strikes = strikes_of(
        temperature_c=[10.0, 12.0, 29.0, 40.0], relative_humidity_pct=[20.0, 30.0, np.nan, 95.0],
        wind_speed_mps=[1.0, 2.0, 9.0, 30.0], wind_from_deg=[0.0, 10.0, 50.0, 0.0],
        tee_height_mm=[0.0, 5.0, 40.0, 0.0],
    )  # fmt: skip
    there = conditions(np.array([0, 1, 2]), strikes, Defaults())
    assert there["weather"].temperature == pytest.approx(celsius(12), rel=1e-14)
    assert there["weather"].relative_humidity == pytest.approx(25 * percent, rel=1e-14)
    assert (there["wind"].speed, there["wind"].from_direction) == pytest.approx((2.0, 10 * deg), rel=1e-14)
    assert there["terrain"].tee_height == pytest.approx(0.005, rel=1e-14)


def test_what_a_table_does_not_say_of_the_conditions_is_the_callers():
    strikes, weather, wind = strikes_of(temperature_c=[np.nan] * 3), wb.Weather(celsius(3)), wb.Wind.head(4.0)
    there = conditions(np.arange(3), strikes, Defaults(weather=weather, wind=wind))
    assert (there["weather"], there["wind"], there["terrain"]) == (weather, wind, wb.Terrain())


def test_a_replay_is_the_shot_under_those_conditions_and_nan_where_it_cannot_be_played():
    strikes = strikes_of(temperature_c=[10.0, 12.0, 29.0])
    club = wb.clubs["7 iron"]
    played = player_of(np.arange(3), strikes, club, Defaults())
    hits = wb.Delivery(84 * mph, face_angle=np.array([1.0, 0.0]) * deg, dynamic_loft=np.array([24.0, -30.0]) * deg)
    carry, offline = played(hits)
    shot = wb.play(wb.Delivery(84 * mph, face_angle=1 * deg, dynamic_loft=24 * deg), club,
                   weather=wb.Weather(celsius(12)))  # fmt: skip
    assert (carry[0], offline[0]) == pytest.approx((shot.carry, shot.offline), rel=1e-6)
    assert np.isnan([carry[1], offline[1]]).all()


def test_rows_without_a_number_that_others_have_are_not_replayed():
    strikes = strikes_of(face_angle_deg=[1.0, np.nan, 3.0])
    rows, delivery = read_deliveries(np.arange(3), strikes, DELIVERED, wb.clubs["7 iron"])
    assert rows.tolist() == [0, 2] and delivery.face_angle == pytest.approx(np.array([1.0, 3.0]) * deg, rel=1e-14)
