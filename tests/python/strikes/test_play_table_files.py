"""Table files: nothing lost on the way in or out, written whole or not at all."""

import os

import numpy as np
import pandas as pd
import pytest

import whimbrel as wb
from whimbrel.core.files import read, write

TEXT = """id,club,clubhead_speed_mph,dynamic_loft_deg,note
007,7 iron,84.0,24.00,"said ""hello"", and left"
008, 7 iron ,8.4e1,24,NA
009,7 iron,84,x,ünïcode ⛳
,7 iron,84,24,
"""


@pytest.fixture
def practice(tmp_path):
    path = tmp_path / "practice.csv"
    path.write_text(TEXT, encoding="utf-8")
    return path


def test_the_text_of_every_original_cell_comes_through_to_the_letter(practice, tmp_path):
    write(wb.table(practice), tmp_path / "out.csv")
    before, after = read(practice)[0], read(tmp_path / "out.csv")[0]
    for name in before.columns:
        assert before[name].tolist() == after[name].tolist(), name
    assert before["note"].tolist()[0] == 'said "hello", and left'
    assert before["id"].tolist()[0] == "007"
    assert after["computed_carry_yd"].tolist()[2] == ""
    assert float(after["computed_carry_yd"].iloc[0]) == pytest.approx(float(after["computed_carry_yd"].iloc[1]))


def test_a_data_frame_comes_through_bit_for_bit_and_is_not_changed(draw):
    frame = pd.DataFrame(
        {
            "ball_speed_mph": draw.uniform(100, 150, 50),
            "launch_angle_deg": draw.uniform(5, 30, 50),
            "spin_rate_rpm": draw.integers(2000, 9000, 50),
            "when": pd.date_range("2024-01-01", periods=50, tz="UTC"),
            "player": pd.Categorical(["a", "b"] * 25),
        },
        index=pd.MultiIndex.from_product([range(5), range(10)]),
    )
    kept = frame.copy(deep=True)
    table = wb.table(frame)
    pd.testing.assert_frame_equal(frame, kept, check_exact=True)
    pd.testing.assert_frame_equal(table[kept.columns.tolist()], kept, check_exact=True)
    assert (table["computed_status"] == "ok").all()


@pytest.fixture
def floats(draw):
    return pd.DataFrame(
        {
            "ball_speed_mph": draw.uniform(100, 150, 20),
            "launch_angle_deg": draw.uniform(5, 30, 20),
            "spin_rate_rpm": draw.uniform(2000, 9000, 20),
            "stamp": 1.7e9 + draw.uniform(0, 1, 20),
        }
    )


@pytest.mark.parametrize("ending", ["parquet", "pq", "PARQUET"])
def test_parquet_in_and_out_keeps_every_bit(floats, tmp_path, ending):
    floats.to_parquet(tmp_path / f"in.{ending}")
    table = wb.table(tmp_path / f"in.{ending}")
    write(table, tmp_path / f"out.{ending}")
    back = pd.read_parquet(tmp_path / f"out.{ending}")
    for name in floats.columns:
        assert np.array_equal(back[name], floats[name]), name
    assert np.array_equal(back["computed_carry_yd"], table["computed_carry_yd"])
    assert list(table.index) == list(range(1, 21))


def test_parquet_in_and_csv_out_loses_no_digit_of_the_original_columns(floats, tmp_path):
    floats.to_parquet(tmp_path / "in.parquet")
    write(wb.table(tmp_path / "in.parquet"), tmp_path / "out.csv")
    back = read(tmp_path / "out.csv")[0]
    for name in floats.columns:
        assert [float(text) for text in back[name]] == floats[name].tolist(), name


def test_a_csv_written_as_parquet_can_be_played_again(practice, tmp_path):
    table = wb.table(practice)
    write(table[[name for name in table if not name.startswith("computed_")]], tmp_path / "again.parquet")
    again = wb.table(tmp_path / "again.parquet")
    assert again["computed_status"].tolist() == table["computed_status"].tolist()
    assert again["computed_carry_yd"].tolist()[:2] == table["computed_carry_yd"].tolist()[:2]


class Full(Exception):
    pass


@pytest.mark.parametrize(("ending", "method"), [("csv", "to_csv"), ("parquet", "to_parquet")])
def test_a_write_that_fails_leaves_the_old_file_and_nothing_else(practice, tmp_path, monkeypatch, ending, method):
    out = tmp_path / f"out.{ending}"
    out.write_bytes(b"the old file")
    table = wb.table(practice)

    def half(self, path, **_):
        with open(path, "w") as file:
            file.write("half of ")
        raise Full("no space left")

    monkeypatch.setattr(pd.DataFrame, method, half)
    with pytest.raises(Full):
        write(table, out)
    assert out.read_bytes() == b"the old file"
    assert sorted(p.name for p in tmp_path.iterdir()) == [out.name, practice.name]


def test_a_replace_that_fails_leaves_the_old_file_and_nothing_else(practice, tmp_path, monkeypatch):
    out = tmp_path / "out.csv"
    out.write_bytes(b"the old file")

    def refused(*_):
        raise PermissionError("not yours")

    monkeypatch.setattr(os, "replace", refused)
    with pytest.raises(PermissionError):
        write(wb.table(practice), out)
    assert out.read_bytes() == b"the old file"
    assert sorted(p.name for p in tmp_path.iterdir()) == ["out.csv", "practice.csv"]


def test_a_written_file_has_the_permissions_of_any_new_file(practice, tmp_path):
    (tmp_path / "plain").write_text("")
    write(wb.table(practice), tmp_path / "out.csv")
    assert (tmp_path / "out.csv").stat().st_mode == (tmp_path / "plain").stat().st_mode


def test_writing_into_a_folder_that_is_not_there_is_an_error_naming_it(practice, tmp_path):
    with pytest.raises(OSError, match="nowhere"):
        write(wb.table(practice), tmp_path / "nowhere" / "out.csv")


def test_a_table_may_be_written_over_the_file_it_came_from(practice):
    write(wb.table(practice), practice)
    assert read(practice)[0]["note"].tolist()[2] == "ünïcode ⛳"
    with pytest.raises(wb.InputError, match="already has computed_"):
        wb.table(practice)


def test_20_000_rows_with_a_few_bad_ones_are_played_and_the_bad_ones_found(tmp_path, draw):
    n = 20_000
    frame = pd.DataFrame(
        {
            "club": draw.choice(["driver", "7 iron", "lob wedge"], n),
            "clubhead_speed_mph": draw.uniform(60, 110, n).round(1).astype(str),
            "dynamic_loft_deg": draw.uniform(8, 40, n).round(1).astype(str),
            "face_angle_deg": draw.normal(0, 3, n).round(2).astype(str),
        }
    )
    bad = {
        17: ("clubhead_speed_mph", "fast"),
        4321: ("club", "spoon"),
        9999: ("dynamic_loft_deg", ""),
        19_999: ("face_angle_deg", "inf"),
        0: ("clubhead_speed_mph", "-5"),
    }
    for i, (name, text) in bad.items():
        frame.loc[i, name] = text
    frame.to_csv(tmp_path / "big.csv", index=False)
    table = wb.table(tmp_path / "big.csv")
    assert len(table) == n
    wrong = np.flatnonzero(table["computed_reason"] != "")
    assert wrong.tolist() == sorted(bad)
    assert table.index[wrong].tolist() == [i + 2 for i in sorted(bad)]  # lines of the file
    assert table["computed_carry_yd"].notna().sum() == n - len(bad)
    i = 12_345
    alone = wb.table(frame.iloc[[i]])
    assert alone["computed_carry_yd"].item() == table["computed_carry_yd"].iloc[i]


def test_the_demo_data_are_read_completely():
    from pathlib import Path

    demo = Path(__file__).parents[3] / "examples" / "data" / "invented_practice.csv"
    table = wb.table(demo)
    assert (table["computed_status"] == "ok").all()
    assert len(table) == 55


@pytest.mark.parametrize("ending", [".xlsx", ".json", ""])
def test_a_kind_of_file_that_is_not_known_is_refused_not_written_as_csv(practice, tmp_path, ending):
    with pytest.raises(wb.InputError, match="csv"):
        write(wb.table(practice), tmp_path / f"out{ending}")
    assert [p.name for p in tmp_path.iterdir()] == [practice.name]


def test_a_file_of_20000_columns_is_answered_and_a_column_that_is_there_twice_is_still_named(tmp_path):
    path = tmp_path / "wide.csv"
    names = ["club", "clubhead_speed_mph", "dynamic_loft_deg", *(f"note{i}" for i in range(20_000))]
    row = ["7 iron", "84", "24", *["x"] * 20_000]
    path.write_text("\n".join([",".join(names), ",".join(row)]) + "\n")
    assert wb.table(path)["computed_status"].tolist() == ["ok"]
    assert wb.session(path).strikes == 1
    path.write_text("\n".join([",".join([*names, "note7"]), ",".join([*row, "x"])]) + "\n")
    with pytest.raises(wb.InputError, match="column 'note7' appears more than once"):
        wb.table(path)
