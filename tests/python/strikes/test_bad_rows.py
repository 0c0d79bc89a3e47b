"""One bad cell never stops an answer: its line, column and cell are named, and the rest counts."""

import csv
from pathlib import Path

import numpy as np
import pandas as pd
import pytest

import whimbrel as wb

TABLE = Path(__file__).parents[3] / "examples" / "data" / "invented_practice.csv"
LINE = 17
REFUSED = [
    ("plane_inclination_deg", "6.2", "accepted: 20 to 90"),
    ("attack_angle_deg", "-57.5", "too steep for a plane"),
    ("club_path_deg", "-89.9", "the face is not approaching the ball"),
]


@pytest.fixture
def spoilt(tmp_path):
    """The invented practice with one cell replaced."""

    def table(column, cell, line=LINE, drop=()):
        rows = list(csv.reader(TABLE.open(newline="", encoding="utf-8")))
        rows[line - 1][rows[0].index(column)] = cell
        kept = [i for i, name in enumerate(rows[0]) if name not in drop]
        path = tmp_path / "spoilt.csv"
        with path.open("w", newline="", encoding="utf-8") as file:
            csv.writer(file).writerows([[row[i] for i in kept] for row in rows])
        return path

    return table


@pytest.mark.parametrize(("column", "cell", "why"), REFUSED)
def test_a_strike_that_no_swing_makes_is_named_and_left_out_of_the_session_and_the_page(spoilt, column, cell, why):
    told = wb.session(spoilt(column, cell))
    assert [label for label, _ in told.bad] == [LINE]
    reason = told.bad[0][1]
    assert reason.startswith(f"{column} is {cell}") and why in reason
    name = column.rsplit("_", 1)[0]
    assert np.isnan(told.read.numbers[name][LINE - 2])
    page = wb.lesson(told)
    for text in (told.in_words(), page):
        assert f"line {LINE}: {column} is {cell}" in text
    assert "Low point along the ground" in page and "1 with something wrong" in page


@pytest.mark.parametrize(("column", "cell", "why"), REFUSED)
def test_the_lesson_command_names_the_cell_and_writes_the_page(command, spoilt, tmp_path, column, cell, why):
    page = tmp_path / "lesson.html"
    code, out, _ = command("lesson", str(spoilt(column, cell)), "--out", str(page))
    assert code == 0 and f"line {LINE}: {column} is {cell}" in out
    assert f"line {LINE}: {column} is {cell}" in page.read_text(encoding="utf-8")


def test_without_a_measured_plane_the_cell_stays_and_only_its_low_point_is_missing(spoilt):
    told = wb.session(spoilt("attack_angle_deg", "-57.5", drop=["plane_inclination_deg"]))
    ((line, why),) = told.bad
    assert line == LINE and why.startswith("attack_angle_deg is -57.5; no low point can be told")
    assert np.isfinite(told.read.numbers["attack_angle"][LINE - 2])
    assert "Low point along the ground" in wb.lesson(told)


def test_a_delivery_that_cannot_be_is_named_though_its_landing_was_measured():
    good = {"club": "7 iron", "clubhead_speed_mph": 84.0, "dynamic_loft_deg": 24.0, "club_path_deg": 1.0,
            "carry_yd": 150.0, "offline_yd": 1.0}  # fmt: skip
    rows = [good | {"carry_yd": 150.0 + i} for i in range(6)]
    rows[3]["club_path_deg"] = -89.9
    told = wb.session(pd.DataFrame(rows))
    ((line, why),) = told.bad
    assert line == 3 and why.startswith("club_path_deg is -89.9")
    assert told.groups[0].spreads["carry"].n == 6 and told.groups[0].spreads["club_path"].n == 5


def test_a_table_names_the_column_and_the_cell_as_it_is_written(spoilt):
    for column, cell in (("club_path_deg", "-89.90"), ("clubhead_speed_mph", "1e999"), ("tee_height_mm", "4e2")):
        played = wb.table(spoilt(column, cell))
        reasons = played["computed_reason"]
        assert list(reasons[reasons != ""].index) == [LINE]
        assert reasons[LINE].startswith(f"{column} is {cell}")


def test_weather_that_cannot_be_is_named_by_its_cell_and_goes_into_no_typical_weather(spoilt):
    frame = pd.read_csv(TABLE).assign(temperature_c=15.0, wind_speed_mph=5.0)
    frame.loc[3, "temperature_c"] = 900.0
    frame.loc[4, "wind_speed_mph"] = -3.0
    told = wb.session(frame)
    assert dict(told.bad) == {
        3: "temperature_c is 900.0; accepted: -60 to 60",
        4: "wind_speed_mph is -3.0; accepted: 0 to 223.7",
    }


def test_a_cloud_of_strikes_and_a_bag_say_what_they_are_drawn_without(spoilt, command):
    path = spoilt("dynamic_loft_deg", "spoilt")
    told = f"line {LINE}: dynamic_loft_deg: 'spoilt' is not a number"
    cloud = wb.dispersion_of_strikes(path, "7 iron", samples=200)
    assert cloud.left_out == 1 and cloud.wrong == (told,) and told in cloud.in_words()
    assert wb.typical_bag(path).left_out == (told,)
    code, out, _ = command("course", "--distance", "140yd", "--strikes", str(path))
    assert code == 0 and "1 row of it could not be used" in out and told in out
    code, out, _ = command("dispersion", "--strikes", str(path), "--club", "7 iron", "--samples", "200")
    assert code == 0 and told in out


NUMBERS = ("nan", "-inf", "1e999", "", "--", "１２", "6.2", "-57.5", "-89.9", "89.9", "-90", "1e308", "1e-320",
           "-0", "180", "21", "0x10", "1,5", "x" * 5000, "[bold]", '"', "\u202e")  # fmt: skip
WORDS = ("", "nan", "spoon", "DRIVER", "[red]", "x" * 5000, "\n", "before")


def test_whatever_stands_in_one_cell_every_answer_is_given(spoilt):
    columns = TABLE.read_text(encoding="utf-8").split("\n", 1)[0].split(",")
    draw = np.random.default_rng(5)
    for _ in range(25):
        column, line = str(draw.choice(columns[1:])), int(draw.integers(2, 57))
        cell = str(draw.choice(WORDS if column in ("club", "block") else NUMBERS))
        path, where = spoilt(column, cell, line), (column, line, cell)
        played = wb.table(path)
        reasons = played["computed_reason"]
        assert len(played) == 55 and (reasons != "").sum() <= 1, where
        told = wb.session(path)
        assert len(told.bad) <= 1 and told.strikes == 55, where
        if column not in ("club", "block", "plane_inclination_deg"):
            for line_told, why in [*told.bad, *reasons[reasons != ""].items()]:
                assert abs(line_told - line) <= cell.count("\n") and column in why, (where, why)
        cloud = wb.dispersion_of_strikes(path, "driver", samples=100)
        assert column == "club" or len(cloud.wrong) == len(told.bad), where  # a row without a club is the driver's
        assert len(wb.typical_bag(path).left_out) == (reasons != "").sum(), where
