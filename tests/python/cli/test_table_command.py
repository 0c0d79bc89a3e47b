"""The command `whimbrel table`."""

import pandas as pd
import pytest

import whimbrel as wb
from whimbrel.units import deg, mph, yd

HEADER = "club,clubhead_speed_mph,dynamic_loft_deg,note\n"
ROWS = "7 iron,84,24,a\n7 iron,80,25,b\ndriver,100,13,c\n7 iron,fast,24,d\n"


@pytest.fixture
def practice(tmp_path):
    path = tmp_path / "practice.csv"
    path.write_text(HEADER + ROWS)
    return path


def test_the_table_is_told_by_club_with_its_bad_rows_and_what_was_assumed(command, practice):
    code, out, err = command("table", practice)
    carries = [
        wb.play(wb.Delivery(v * mph, dynamic_loft=a * deg), wb.clubs["7 iron"]).carry / yd
        for v, a in ((84, 24), (80, 25))
    ]
    assert (code, err) == (0, "")
    assert f"7 iron 2 {sum(carries) / 2:.1f} {min(carries):.1f} to {max(carries):.1f}" in out
    assert "4 rows: 3 played, 1 bad." in out
    assert "line 5: clubhead_speed_mph: 'fast' is not a number" in out
    assert "taken as 0: club_path, attack_angle, face_angle" in out
    assert "Columns not used: note" in out
    assert "--out" in out


@pytest.mark.parametrize("ending", ["csv", "parquet"])
def test_out_writes_the_whole_table(command, practice, tmp_path, ending):
    out = tmp_path / f"out.{ending}"
    code, told, _ = command("table", practice, "--out", out)
    assert code == 0 and "out." in told
    frame = pd.read_csv(out) if ending == "csv" else pd.read_parquet(out)
    assert frame["note"].tolist() == ["a", "b", "c", "d"]
    assert frame["computed_status"].tolist() == ["ok", "ok", "ok", "bad_input"]
    assert frame["computed_carry_yd"].tolist()[:3] == pytest.approx(
        wb.table(practice)["computed_carry_yd"].tolist()[:3], rel=1e-6
    )


def test_metric_and_standard_and_left_handed(command, practice, tmp_path):
    out = tmp_path / "out.csv"
    code, told, _ = command(
        "table", practice, "--out", out, "--units", "metric", "--standard", "--wind", "5m/s", "--hand", "left"
    )
    assert code == 0 and "carry, m" in told
    columns = pd.read_csv(out).columns
    assert {"computed_carry_m", "computed_standard_carry_m"} <= set(columns)


def test_a_club_for_the_rows_that_name_none(command, tmp_path):
    (tmp_path / "x.csv").write_text("clubhead_speed_mph,dynamic_loft_deg\n84,24\n")
    code, out, _ = command("table", tmp_path / "x.csv")
    assert "a delivery needs a club" in out
    code, out, _ = command("table", tmp_path / "x.csv", "--club", "7 iron")
    assert code == 0 and "1 row: 1 played, 0 bad." in out


def test_more_than_ten_bad_rows_are_counted(command, tmp_path):
    (tmp_path / "x.csv").write_text(HEADER + "7 iron,84,24,\n" + "7 iron,x,24,\n" * 14)
    code, out, _ = command("table", tmp_path / "x.csv")
    assert code == 0 and "15 rows: 1 played, 14 bad." in out
    assert "line 12:" in out and "line 13:" not in out and "and 4 more" in out


def test_a_table_of_bad_rows_only_fails_with_code_1_but_says_why(command, tmp_path):
    (tmp_path / "x.csv").write_text(HEADER + "7 iron,x,24,\n")
    code, out, _ = command("table", tmp_path / "x.csv")
    assert code == 1 and "line 2" in out and "'x' is not a number" in out


def test_markup_in_a_cell_is_printed_as_it_is(command, tmp_path):
    (tmp_path / "x.csv").write_text(HEADER + "[red]7 iron[/red],84,24,\n7 iron,[bold],24,\n7 iron,84,24,\n")
    _, out, err = command("table", tmp_path / "x.csv")
    assert "'[red]7 iron[/red]'" in out and "'[bold]'" in out and err == ""


@pytest.mark.parametrize(
    ("content", "options", "says"),
    [
        (None, (), ["no such file"]),
        (b"", (), ["empty"]),
        (b"a,b\n1,2\n", (), ["columns are missing", "clubhead_speed"]),
        (b"\xff\xfe\x00", (), ["not UTF-8"]),
        ((HEADER + ROWS).encode(), ("--club", "spoon"), ["no club is called 'spoon'"]),
        ((HEADER + ROWS).encode(), ("--out", "nowhere/out.csv"), ["nowhere"]),
        ((HEADER + ROWS).encode(), ("--wind", "5"), ["--wind", "bare number needs a unit"]),
        ((HEADER + ROWS).encode(), ("--clubs", "nowhere.toml"), ["nowhere.toml"]),
        (HEADER.replace("_mph", "").encode(), (), ["'clubhead_speed' has no unit"]),
    ],
)
def test_a_mistake_is_one_message_without_a_traceback_and_exit_code_2(
    command, tmp_path, monkeypatch, content, options, says
):
    monkeypatch.chdir(tmp_path)
    path = tmp_path / "x.csv"
    if content is not None:
        path.write_bytes(content)
    code, out, err = command("table", path, *options)
    assert (code, out) == (2, "")
    assert "Traceback" not in err
    for words in says:
        assert words in err, err
    assert {p.name for p in tmp_path.iterdir()} <= {"x.csv"}


def test_a_header_alone_is_told_and_nothing_is_written(command, tmp_path):
    (tmp_path / "x.csv").write_text(HEADER)
    code, out, err = command("table", tmp_path / "x.csv", "--out", tmp_path / "out.csv")
    assert code == 2 and out == "" and "x.csv: the table has a header but no rows" in err
    assert [path.name for path in tmp_path.iterdir()] == ["x.csv"]


def test_what_never_flew_and_what_stretched_a_model_is_told(command, tmp_path):
    (tmp_path / "x.csv").write_text(
        "ball_speed_mph,launch_angle_deg,spin_rate_rpm\n120,16,7000\n60,-3,500\n40,50,9000\n"
    )
    code, told, _ = command("table", tmp_path / "x.csv", "--out", tmp_path / "out.csv")
    assert code == 0
    assert "1 of them never left the ground; no mean includes them" in told
    assert "2 left a model's stated range" in told
    written = pd.read_csv(tmp_path / "out.csv")["computed_out_of_range"].fillna("").tolist()
    assert written == ["", "bounce_angle", "spin_ratio reynolds"]  # the second skips along the ground


def test_columns_parted_by_semicolons_are_refused_with_what_would_do(command, tmp_path):
    (tmp_path / "x.csv").write_text("ball_speed_mph;launch_angle_deg\n120;16\n")
    code, _, err = command("table", tmp_path / "x.csv")
    assert code == 2 and "separated by commas" in err
