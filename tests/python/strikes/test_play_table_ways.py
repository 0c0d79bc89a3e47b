"""Every way a row of a table can start a shot, held against the shot played alone."""

from functools import partial

import numpy as np
import pandas as pd
import pytest

import whimbrel as wb
from whimbrel.units import celsius, deg, hPa, mm, mph, percent, rpm, yd

CLUB = wb.clubs["7 iron"]
table_of = partial(wb.table, accuracy="reference")


def same(row, shot):
    """A row's computed columns, in yards, against a shot."""
    assert row["computed_status"] == shot.status
    for name, unit in (("carry_yd", yd), ("offline_yd", yd), ("apex_yd", yd), ("descent_angle_deg", deg)):
        assert row["computed_" + name] == pytest.approx(
            getattr(shot.flight, name.rsplit("_", 1)[0]) / unit, rel=1e-14, abs=1e-13
        )
    assert row["computed_ball_speed_mph"] == pytest.approx(shot.launch.ball_speed / mph, rel=1e-14)
    assert row["computed_spin_rate_rpm"] == pytest.approx(shot.launch.spin_rate / rpm, rel=1e-14)


def test_a_launch_by_spin_rate_and_tilt():
    table = table_of(
        pd.DataFrame(
            {
                "ball_speed_mph": [120.0],
                "launch_angle_deg": [16.0],
                "spin_rate_rpm": [7000.0],
                "launch_direction_deg": [2.0],
                "spin_axis_tilt_deg": [-5.0],
            }
        )
    )
    same(table.iloc[0], wb.play(wb.Launch(120 * mph, 16 * deg, 2 * deg, 7000 * rpm, -5 * deg)))
    assert np.isnan(table["computed_smash_factor"][0])


def test_a_launch_by_backspin_and_sidespin():
    table = table_of(
        pd.DataFrame(
            {
                "ball_speed_mps": [55.0],
                "launch_angle_rad": [0.3],
                "backspin_rate_radps": [600.0],
                "sidespin_rate_rpm": [900.0],
            }
        )
    )
    launch = wb.Launch.from_backspin(55.0, 0.3, backspin_rate=600.0, sidespin_rate=900 * rpm)
    same(table.iloc[0], wb.play(launch))


def test_a_delivery_with_its_club():
    table = table_of(
        pd.DataFrame(
            {
                "club": ["7 iron", "driver"],
                "clubhead_speed_mph": [84.0, 100.0],
                "dynamic_loft_deg": [24.0, 13.0],
                "club_path_deg": [4.0, -2.0],
                "attack_angle_deg": [-6.0, 2.0],
                "face_angle_deg": [-1.0, 0.5],
            }
        )
    )
    same(table.iloc[0], wb.play(wb.Delivery(84 * mph, 4 * deg, -6 * deg, -1 * deg, 24 * deg), CLUB))
    driven = wb.play(wb.Delivery(100 * mph, -2 * deg, 2 * deg, 0.5 * deg, 13 * deg), wb.clubs["driver"])
    same(table.iloc[1], driven)
    assert table["computed_smash_factor"][1] == pytest.approx(driven.impact.smash_factor, rel=1e-15)


def test_a_delivery_by_shaft_lean_is_presented():
    frame = pd.DataFrame(
        {
            "clubhead_speed_mph": [84.0, 84.0],
            "shaft_lean_deg": [6.0, 8.0],
            "face_angle_deg": [2.0, -2.0],
            "lie_tilt_deg": [1.0, 0.0],
            "club_path_deg": [0.0, 3.0],
            "attack_angle_deg": [-4.0, -4.0],
        }
    )
    table = table_of(frame, club="7 iron")
    for row, (lean, face, tilt, path) in zip(table.iloc, [(6, 2, 1, 0), (8, -2, 0, 3)], strict=True):
        hit = wb.present(
            CLUB,
            clubhead_speed=84 * mph,
            shaft_lean=lean * deg,
            face_angle=face * deg,
            lie_tilt=tilt * deg,
            club_path=path * deg,
            attack_angle=-4 * deg,
        )
        same(row, wb.play(hit, CLUB))


OFF_CENTRE = {
    "strike_toe_mm": [12.0],
    "strike_high_mm": [-5.0],
    "lie_tilt_deg": [2.0],
    "closure_rate_degps": [2300.0],
}
STRUCK = {"strike_toe": 12 * mm, "strike_high": -5 * mm, "lie_tilt": 2 * deg, "closure_rate": 2300 * deg}


@pytest.mark.parametrize("way", ["dynamic_loft", "shaft_lean"])
def test_where_on_the_face_the_lie_and_the_closing_are_read(way):
    frame = pd.DataFrame({"clubhead_speed_mph": [84.0], way + "_deg": [8.0], "face_angle_deg": [2.0], **OFF_CENTRE})
    angles = {way: 8 * deg, "face_angle": 2 * deg}
    start = wb.Delivery if way == "dynamic_loft" else partial(wb.present, CLUB)
    hit = start(clubhead_speed=84 * mph, **angles, **STRUCK)
    table = table_of(frame, club="7 iron")
    same(table.iloc[0], wb.play(hit, CLUB))
    for column in OFF_CENTRE:  # every one counts
        less = table_of(frame.assign(**{column: 0.0}), club="7 iron")
        assert abs(less.computed_offline_yd[0] - table.computed_offline_yd[0]) > 0.005, column


def test_a_row_that_missed_the_face_is_bad_and_says_so():
    frame = pd.DataFrame(
        {"clubhead_speed_mph": [84.0] * 2, "dynamic_loft_deg": [24.0] * 2, "strike_toe_mm": [9, 41]}
    )
    table = table_of(frame, club="7 iron")
    assert list(table.computed_status) == ["ok", "bad_input"]
    assert "missed the face" in table.computed_reason[1] and "0.041 m" in table.computed_reason[1]


def test_rows_of_every_way_mix_and_each_takes_the_first_it_has_the_numbers_for():
    nan = np.nan
    frame = pd.DataFrame(
        {
            "club": ["", "", "7 iron", "7 iron", "7 iron"],
            "ball_speed_mph": [120.0, 120.0, nan, nan, 120.0],
            "launch_angle_deg": [16.0, 16.0, nan, nan, 16.0],
            "spin_rate_rpm": [7000.0, nan, nan, nan, 7000.0],
            "backspin_rate_rpm": [nan, 6500.0, nan, nan, nan],
            "clubhead_speed_mph": [nan, nan, 84.0, 84.0, 84.0],
            "dynamic_loft_deg": [nan, nan, 24.0, nan, 24.0],
            "shaft_lean_deg": [nan, nan, nan, 6.0, nan],
        }
    )
    table = table_of(frame)
    launch = wb.play(wb.Launch(120 * mph, 16 * deg, spin_rate=7000 * rpm))
    same(table.iloc[0], launch)
    same(table.iloc[1], wb.play(wb.Launch(120 * mph, 16 * deg, spin_rate=6500 * rpm)))
    same(table.iloc[2], wb.play(wb.Delivery(84 * mph, dynamic_loft=24 * deg), CLUB))
    same(table.iloc[3], wb.play(wb.present(CLUB, clubhead_speed=84 * mph, shaft_lean=6 * deg), CLUB))
    same(table.iloc[4], launch)


def test_each_rows_weather_wind_and_tee_are_its_own():
    frame = pd.DataFrame(
        {
            "ball_speed_mph": [150.0] * 3,
            "launch_angle_deg": [12.0] * 3,
            "spin_rate_rpm": [2700.0] * 3,
            "temperature_c": [5.0, 20.0, 35.0],
            "pressure_hpa": [1030.0, 1000.0, 850.0],
            "relative_humidity_pct": [20.0, 50.0, 90.0],
            "wind_speed_mph": [0.0, 10.0, 15.0],
            "wind_from_deg": [0.0, 90.0, -45.0],
            "tee_height_mm": [0.0, 20.0, 40.0],
        }
    )
    for i, row in enumerate(table_of(frame).iloc):
        given = frame.iloc[i]
        shot = wb.play(
            wb.Launch(150 * mph, 12 * deg, spin_rate=2700 * rpm),
            weather=wb.Weather(
                temperature=celsius(given.temperature_c),
                pressure=given.pressure_hpa * hPa,
                relative_humidity=given.relative_humidity_pct * percent,
            ),
            wind=wb.Wind(given.wind_speed_mph * mph, given.wind_from_deg * deg),
            terrain=wb.Terrain(tee_height=given.tee_height_mm * mm),
        )
        same(row, shot)


LAUNCH = {"ball_speed_mph": [150.0], "launch_angle_deg": [12.0], "spin_rate_rpm": [2700.0]}
LAUNCHED = wb.Launch(150 * mph, 12 * deg, spin_rate=2700 * rpm)


def test_columns_go_before_the_weather_and_wind_of_the_call():
    weather, wind = wb.Weather(temperature=celsius(30.0), altitude=1000.0), wb.Wind(4.0, 30 * deg)
    plain = table_of(pd.DataFrame(LAUNCH), weather=weather, wind=wind)
    same(plain.iloc[0], wb.play(LAUNCHED, weather=weather, wind=wind))
    own = table_of(
        pd.DataFrame(LAUNCH | {"pressure_hpa": [1000.0], "wind_from_deg": [90.0]}), weather=weather, wind=wind
    )
    expected = wb.play(
        LAUNCHED, weather=wb.Weather(temperature=celsius(30.0), pressure=1e5), wind=wb.Wind(4.0, 90 * deg)
    )
    same(own.iloc[0], expected)


def test_an_altitude_column_stands_in_for_pressure():
    own = table_of(pd.DataFrame(LAUNCH | {"altitude_m": [1500.0]}), weather=wb.Weather(pressure=1e5))
    same(own.iloc[0], wb.play(LAUNCHED, weather=wb.Weather(altitude=1500.0)))


def test_the_ball_of_the_call_is_every_rows():
    same(
        table_of(pd.DataFrame(LAUNCH), ball=wb.balls["high drag"]).iloc[0],
        wb.play(LAUNCHED, ball=wb.balls["high drag"]),
    )


def test_standard_columns_are_the_same_launch_in_standard_still_air():
    ball = wb.balls["low lift"]
    frame = pd.DataFrame(LAUNCH | {"wind_speed_mph": [12.0], "temperature_c": [35.0]})
    table = table_of(frame, standard=True, ball=ball)
    standard = wb.at_standard_conditions(LAUNCHED, ball=ball)
    for name in ("carry", "offline", "apex"):
        assert table[f"computed_standard_{name}_yd"][0] == pytest.approx(getattr(standard.flight, name) / yd)
    assert table["computed_carry_yd"][0] != table["computed_standard_carry_yd"][0]


def test_metric_columns_are_metric():
    table = table_of(pd.DataFrame(LAUNCH), units="metric")
    shot = wb.play(LAUNCHED)
    assert table["computed_carry_m"][0] == pytest.approx(shot.carry)
    assert table["computed_ball_speed_mps"][0] == pytest.approx(shot.launch.ball_speed)
    assert not [name for name in table.columns if name.startswith("computed_") and name.endswith(("_yd", "_mph"))]


def test_a_left_handed_set_presents_left_handed():
    frame = pd.DataFrame({"clubhead_speed_mph": [84.0], "shaft_lean_deg": [6.0], "face_angle_deg": [2.0]})
    left = wb.clubs.left_handed()
    hit = wb.present(left["7 iron"], clubhead_speed=84 * mph, shaft_lean=6 * deg, face_angle=2 * deg)
    same(table_of(frame, club="7 iron", club_set=left).iloc[0], wb.play(hit, left["7 iron"]))


def test_a_rows_own_club_goes_before_the_club_of_the_call():
    frame = pd.DataFrame(
        {"club": ["driver", " ", None], "clubhead_speed_mph": [84.0] * 3, "dynamic_loft_deg": [24.0] * 3}
    )
    table = table_of(frame, club="7 iron")
    hit = wb.Delivery(84 * mph, dynamic_loft=24 * deg)
    for row, name in zip(table.iloc, ("driver", "7 iron", "7 iron"), strict=True):
        same(row, wb.play(hit, wb.clubs[name]))


def test_the_results_do_not_depend_on_the_index_or_the_order_of_columns():
    frame = pd.DataFrame(
        {"spin_rate_rpm": [3000, 4000], "launch_angle_deg": [12, 14], "ball_speed_mph": [140, 130]},
        index=[7, 7],
    )
    table = table_of(frame)
    assert list(table.index) == [7, 7]
    same(table.iloc[1], wb.play(wb.Launch(130 * mph, 14 * deg, spin_rate=4000 * rpm)))
