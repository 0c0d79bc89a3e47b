"""Files that are none, and numbers that are none: one message that names the file, the key and what is accepted."""

import numpy as np
import pytest

import whimbrel as wb
from whimbrel.errors import short
from whimbrel.statistics.best_aim import target_play
from whimbrel.statistics.targets import Circle
from whimbrel.strikes.reading import load_reading

CLUB = '[[club]]\nname = "mine"\nloft_deg = {}\nlie_angle_deg = 62\nlength_in = 37\nmass_g = 270\n'
NUMBERS = [
    ("9" * 400, "too large"),
    ("9" * 5000, "not a TOML file"),
    ("0x" + "f" * 9000, "too large"),
    ("nan", "not a number"),
    ("inf", "loft"),
    ("true", "not a number"),
    ("[" * 90 + "]" * 90, "not a number"),
]


@pytest.fixture
def file(tmp_path):
    def made(text, name="mine.toml"):
        path = tmp_path / name
        path.write_bytes(text if isinstance(text, bytes) else text.encode())
        return path

    return made


@pytest.mark.parametrize(("number", "says"), NUMBERS)
def test_a_number_that_is_none_is_named_by_file_and_key(file, number, says):
    path = file(CLUB.format(number))
    with pytest.raises(wb.InputError) as error:
        wb.load_clubs(path)
    message = str(error.value)
    assert message.startswith(str(path)) and says in message and len(message) < 400
    assert says == "not a TOML file" or "loft" in message


@pytest.mark.parametrize(("number", "says"), [*NUMBERS[:4], ("inf", "at least 0"), *NUMBERS[5:]])
def test_so_is_one_of_a_file_that_says_how_to_read_a_table(file, number, says):
    path = file(f"[noise]\nface_angle_deg = {number}\n")
    with pytest.raises(wb.InputError) as error:
        load_reading(path)
    message = str(error.value)
    assert message.startswith(str(path)) and says in message and len(message) < 400


@pytest.mark.parametrize("load", [wb.load_clubs, wb.load_turfs, load_reading])
def test_a_file_too_deep_to_read_a_folder_and_none_are_told_as_such(file, tmp_path, load):
    for path, says in (
        (file("a = " + "[" * 5000 + "]" * 5000), "too deep"),
        (file(b'a = "\xe9"', "latin.toml"), "not a TOML file"),
        (tmp_path, "a folder"),
        (tmp_path / "none.toml", "no such file"),
    ):
        with pytest.raises(wb.InputError, match=says) as error:
            load(path)
        assert str(path) in str(error.value) and "\n" not in str(error.value)


def test_a_byte_order_mark_is_no_part_of_a_file(file):
    assert list(wb.load_clubs(file("\ufeff" + CLUB.format(31)))) == ["mine"]
    assert load_reading(file("\ufeff[noise]\nface_angle_deg = 0.3\n")).noise.keys() == {"face_angle"}


def test_a_table_that_is_none_is_one_message_of_one_line_in_every_command_that_reads_one(file, command, tmp_path):
    parquet = file(b"no", "x.parquet"), "not a Parquet file"
    commands = (("table",), ("session",), ("lesson", "--out", str(tmp_path / "x.html")),
                ("course", "--distance", "140yd", "--strikes"), ("conditions", "--strikes"),
                ("dispersion", "--club", "7 iron", "--strikes"))  # fmt: skip
    for path, says in (
        parquet,
        (tmp_path, "a folder"),
        (file("", "x.csv"), "is empty"),
        (file(b"", "e.pq"), "not a"),
    ):
        for before in commands:
            code, out, err = command(*before, str(path))
            assert (code, out) == (2, "") and err.startswith(f"whimbrel: {path}: ") and says in err, (before, err)


def test_long_and_deep_values_are_told_short():
    deep = {}
    for _ in range(3000):
        deep = {"a": deep}
    for x in (deep, "x" * 10_000, 10**9000, [1] * 9000):
        assert len(short(x)) < 200
    assert short("7 iron") == "'7 iron'" and short(-1) == "-1"


@pytest.mark.parametrize("seed", ["-1", "9223372036854775808"])
def test_a_seed_out_of_range_is_refused_with_the_range(command, seed):
    table = "examples/data/invented_practice.csv"
    hit = ("--club", "7 iron", "--clubhead-speed", "84mph", "--dynamic-loft", "24deg")
    swept = ("--axis", "face_angle=0deg:1deg", "--design", "latin", "--samples", "4")
    cloud = ("dispersion", *hit, "--sd", "face_angle=1deg")
    for before in (("session", table), ("lesson", table), cloud, ("sweep", *hit, *swept)):
        code, out, err = command(*before, f"--seed={seed}")
        assert (code, out) == (2, "") and f"seed is {seed}; accepted: a whole number" in err, (before, err)


def test_seeds_of_the_library_are_whole_numbers_in_range(iron, hit):
    spread = {"face_angle": 0.1, "club_path": 0.1}
    for seed in (-1, 2**64, 1.5, True, "1"):
        with pytest.raises(wb.InputError, match=r"seed is .*; accepted: a whole number from 0"):
            target_play(np.zeros(9), np.full(9, 100.0), Circle(100.0, 5.0), seed=seed)
        with pytest.raises(wb.InputError, match=r"seed is .*; accepted: a whole number from 1, below 2"):
            wb.global_sensitivity(hit, iron, spread=spread, seed=seed)


@pytest.mark.parametrize("number", ["1e999deg", "-1e999deg", "9" * 5000 + "deg"])
def test_a_number_too_large_for_one_is_no_number_with_a_unit(command, number):
    code, out, err = command("arc", "--club-path=0deg", f"--attack-angle={number}", "--plane=60deg")
    assert (code, out) == (2, "") and "--attack-angle" in err and "too large" in err and len(err) < 200


def test_a_vertical_plane_is_a_plane_and_the_path_lies_along_its_base_line(command):
    code, out, _ = command("arc", "--club-path=2deg", "--attack-angle=-5deg", "--plane=90deg")
    assert code == 0 and "points 2.0° right of the target" in out and "does not move the path" in out
    code, _, err = command("arc", "--club-path=2deg", "--attack-angle=-5deg", "--plane=91deg")
    assert code == 2 and "plane_inclination is" in err
    code, _, err = command(
        "arc", "--club-path=2deg", "--attack-angle=-5deg", "--plane=60deg", "--plane-range=-1deg"
    )
    assert code == 2 and "plane_range is -1 deg; accepted: 0 deg or more" in err


def test_a_face_turned_beyond_the_target_line_s_right_angle_is_refused_by_the_arc(command):
    arc = ("arc", "--club-path=2deg", "--attack-angle=-5deg", "--plane=60deg")
    code, out, err = command(*arc, "--face-angle=-1e308deg")
    assert (code, out) == (2, "") and "face_angle is -1e308 deg; accepted: -90 deg to 90 deg" in err


def test_ground_so_steep_that_the_clubs_that_reach_never_land_on_it_is_answered_without_a_traceback(command):
    code, _, err = command("course", "--distance", "140yd", "--slope-up=-1")
    assert code in (0, 2) and (code == 0 or err.startswith("whimbrel: "))
