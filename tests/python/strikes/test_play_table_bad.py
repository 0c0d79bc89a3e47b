"""Bad tables and bad rows: every one named, with its line and what is wrong with it."""

import numpy as np
import pandas as pd
import pytest

import whimbrel as wb

HEADER = "club,clubhead_speed_mph,dynamic_loft_deg,note"
GOOD = "7 iron,84,24,fine"


@pytest.fixture
def reasons(tmp_path):
    """The reasons of the rows of a CSV file, by line, "" for a good row."""

    def played(*lines, header=HEADER, **options):
        path = tmp_path / "practice.csv"
        path.write_text("\n".join([header, *lines]) + "\n", encoding="utf-8")
        table = wb.table(path, **options)
        good = table["computed_reason"] == ""
        assert np.array_equal(good, table["computed_status"].isin(["ok", "not_airborne", "no_landing"]))
        assert np.array_equal(good, table["computed_carry_yd"].notna())
        return dict(table["computed_reason"])

    return played


@pytest.mark.parametrize(
    ("line", "says"),
    [
        ("7 iron,fast,24,", ["clubhead_speed_mph: 'fast' is not a number"]),
        ("7 iron,84mph,24,", ["clubhead_speed_mph: '84mph' is not a number"]),
        ('7 iron,"1,084",24,', ["clubhead_speed_mph: '1,084' is not a number"]),
        ("7 iron,nan,24,", ["clubhead_speed_mph", "nan"]),
        ("7 iron,inf,24,", ["clubhead_speed_mph is inf; accepted: 0.5 m/s"]),
        ("7 iron,-84,24,", ["clubhead_speed_mph is -84; accepted: 0.5 m/s (1.118 mph) to 100 m/s"]),
        ("7 iron,84,200,", ["dynamic_loft_deg is 200; accepted"]),
        ("7 iron,,24,", ["needs", "empty: clubhead_speed_mph"]),
        ("7 iron,84,  ,", ["needs", "empty: dynamic_loft_deg"]),
        ("7 wood,84,24,", ["no club is called '7 wood'", "driver"]),
        (",84,24,", ["a delivery needs a club"]),
        ("7 iron,84,24", ["has 3 cells, the header 4"]),
        ("7 iron,84,24,fine,5,6", ["has 6 cells, the header 4", "left over: ['5', '6']"]),
        ("7 iron,84,-89,", ["dynamic_loft_deg is -89", "attack_angle_deg is 20", "not approaching"]),
    ],
)
def test_a_bad_row_is_named_by_its_line_with_the_reason_and_the_others_are_played(reasons, line, says):
    if "-89" in line:
        header, good, line = HEADER + ",attack_angle_deg", GOOD + ",0", line + ",20"
    else:
        header, good = HEADER, GOOD
    found = reasons(good, line, good, header=header)
    assert (found[2], found[4]) == ("", "")
    for words in says:
        assert words in found[3]


def test_lines_are_counted_as_an_editor_does_over_blank_lines_and_line_breaks_in_cells(reasons):
    found = reasons(GOOD, "", '7 iron,84,24,"two\nlines"', "7 iron,x,24,")
    assert {line for line, why in found.items() if why} == {6}
    assert len(found) == 3


def test_an_empty_optional_cell_is_named_not_taken_as_zero(reasons):
    found = reasons(GOOD + ",1", GOOD + ",", header=HEADER + ",face_angle_deg")
    assert found[2] == "" and found[3] == "face_angle_deg is empty"


def test_an_empty_cell_of_the_weather_is_named(reasons):
    found = reasons(GOOD + ",12", GOOD + ",", GOOD + ",900", header=HEADER + ",temperature_c")
    assert found[2] == "" and found[3] == "temperature_c is empty"
    assert found[4].startswith("temperature_c is 900; accepted")


def test_a_lean_out_of_range_is_a_reason(reasons):
    found = reasons("7 iron,84,6,", "7 iron,84,80,", header="club,clubhead_speed_mph,shaft_lean_deg,note")
    assert found[2] == "" and found[3].startswith("shaft_lean_deg is 80; accepted")


def test_all_rows_bad_is_still_a_table(reasons):
    assert all(reasons("x,84,24,", "7 iron,x,24,").values())


def refused(source, *says, **options):
    with pytest.raises(wb.InputError) as error:
        wb.table(source, **options)
    for words in says:
        assert words in str(error.value), error.value


@pytest.mark.parametrize(
    ("header", "says"),
    [
        (
            "club,speed,loft",
            ["columns are missing", "clubhead_speed, dynamic_loft", "there are: club, speed, loft"],
        ),
        ("club,clubhead_speed,dynamic_loft_deg", ["'clubhead_speed' has no unit", "clubhead_speed_mph"]),
        ("club,clubhead_speed_deg,dynamic_loft_deg", ["ends with 'deg'", "clubhead_speed_mph"]),
        ("club,clubhead_speed_mph,clubhead_speed_mps,dynamic_loft_deg", ["both give clubhead_speed"]),
        (
            "club,clubhead_speed_mph,clubhead_speed_mph,dynamic_loft_deg",
            ["'clubhead_speed_mph'", "more than once"],
        ),
        ("ball_speed_mph,launch_angle_deg,club", ["columns are missing"]),
        (HEADER + ",pressure_hpa,altitude_m", ["pressure and altitude", "keep one"]),
        (HEADER + ",computed_carry_yd", ["already has computed_carry_yd", "drop or rename"]),
        (HEADER + ",computed_reason", ["already has computed_reason"]),
    ],
)
def test_a_table_that_cannot_be_read_says_why(tmp_path, header, says):
    path = tmp_path / "x.csv"
    path.write_text(header + "\n" + ",".join("1" for _ in header.split(",")) + "\n")
    refused(path, *says)


def test_computed_columns_of_another_unit_do_not_clash_unseen():
    frame = pd.DataFrame({"ball_speed_mph": [120.0], "launch_angle_deg": [16.0], "spin_rate_rpm": [7000.0]})
    once = wb.table(frame)
    refused(once, "already has", "computed_status")
    again = wb.table(once.drop(columns=[name for name in once if name.startswith("computed_")]))
    pd.testing.assert_frame_equal(once, again)


def test_a_file_that_is_not_there_is_named(tmp_path):
    refused(tmp_path / "none.csv", "none.csv: no such file")
    refused(tmp_path, "a folder, not a file")


@pytest.mark.parametrize("content", [b"", b"\n", b"\xef\xbb\xbf"], ids=["nothing", "a line", "a byte-order mark"])
def test_an_empty_file_is_named(tmp_path, content):
    (tmp_path / "x.csv").write_bytes(content)
    refused(tmp_path / "x.csv", "x.csv")


def test_a_header_alone_is_a_table_without_rows(tmp_path):
    (tmp_path / "x.csv").write_text(HEADER + "\n")
    table = wb.table(tmp_path / "x.csv")
    assert len(table) == 0 and "computed_carry_yd" in table.columns


@pytest.mark.parametrize("encoding", ["latin-1", "utf-16"])
def test_a_file_that_is_not_utf_8_says_so(tmp_path, encoding):
    (tmp_path / "x.csv").write_text(HEADER + "\n7 iron,84,24,café\n", encoding=encoding)
    refused(tmp_path / "x.csv", "x.csv", "not UTF-8")


def test_a_byte_order_mark_and_windows_line_ends_are_no_trouble(tmp_path):
    (tmp_path / "x.csv").write_bytes(b"\xef\xbb\xbf" + f"{HEADER}\r\n{GOOD}\r\n".encode())
    table = wb.table(tmp_path / "x.csv")
    assert list(table.columns[:4]) == HEADER.split(",")
    assert table["computed_status"].tolist() == ["ok"] and table["note"].tolist() == ["fine"]


def test_binary_rubbish_is_an_input_error(tmp_path, draw):
    (tmp_path / "x.csv").write_bytes(bytes(draw.integers(0, 128, 2000, dtype=np.uint8)))
    refused(tmp_path / "x.csv")
    (tmp_path / "x.parquet").write_bytes(b"not parquet at all")
    refused(tmp_path / "x.parquet", "x.parquet", "not a Parquet file")


def test_an_unknown_club_for_the_table_is_refused_before_any_work(tmp_path):
    (tmp_path / "x.csv").write_text(f"{HEADER}\n{GOOD}\n")
    refused(tmp_path / "x.csv", "no club is called 'spoon'", club="spoon")


def test_text_and_missing_values_in_a_data_frame_are_reasons():
    frame = pd.DataFrame(
        {
            "club": ["7 iron", "7 iron", pd.NA, 7],
            "clubhead_speed_mph": [84, "x", 84, None],
            "dynamic_loft_deg": [24.0] * 4,
        }
    )
    reasons = wb.table(frame)["computed_reason"].tolist()
    assert reasons[0] == ""
    assert (
        "'x' is not a number" in reasons[1] and "needs a club" in reasons[2] and "clubhead_speed_mph" in reasons[3]
    )


@pytest.mark.parametrize("kind", ["bool", "datetime64[ns]", "complex"])
def test_columns_of_a_kind_that_is_no_number_give_reasons_or_an_error(kind):
    column = pd.Series([1, 0]).astype(kind)
    frame = pd.DataFrame({"ball_speed_mph": column, "launch_angle_deg": 16.0, "spin_rate_rpm": 7000.0})
    assert (wb.table(frame)["computed_status"] == "bad_input").all()


LAUNCH = {"ball_speed_mph": [120.0], "launch_angle_deg": [16.0], "spin_rate_rpm": [7000.0]}


@pytest.mark.parametrize("name", [0, ("a", "b"), None], ids=repr)
def test_columns_whose_names_are_no_text_are_carried_over(name):
    table = wb.table(pd.DataFrame(LAUNCH).assign(**{"extra": [5]}).rename(columns={"extra": name}))
    assert table["computed_status"].tolist() == ["ok"]
    assert table.iloc[0, 3] == 5


def test_two_columns_named_club_are_refused():
    frame = pd.DataFrame([["7 iron", "driver", 84, 24]])
    frame.columns = ["club", "club", "clubhead_speed_mph", "dynamic_loft_deg"]
    refused(frame, "club")


def test_an_unknown_system_of_units_is_refused():
    refused(pd.DataFrame(LAUNCH), "imperial", "yards", "metric", units="imperial")


def test_air_of_the_call_and_weather_columns_together_are_refused():
    """Density and viscosity say nothing on the humidity or the pressure that a row leaves open."""
    refused(pd.DataFrame(LAUNCH | {"temperature_c": [20.0]}), "weather", weather=wb.setting.Air(1.0, 1.8e-5))
