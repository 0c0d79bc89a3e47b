"""Names are only text: on the terminal, in written tables and in pictures; and tables fit the terminal."""

import os
import subprocess
import sys

import numpy as np
import pandas as pd
import pytest
from rich.cells import cell_len

import whimbrel as wb
from whimbrel.cli.terminal import Listing, Terminal
from whimbrel.core.files import as_text, read, write
from whimbrel.core.plain_text import spell_out, without_steering
from whimbrel.plots import holding_green as plot_holding
from whimbrel.plots import style

HEADER = "club,note,ball_speed_mph,launch_angle_deg,spin_rate_rpm\n"
NAMES = [
    "7 iron [new]",
    "[/red]",
    "[bold]x",
    ":smile:",
    "bran\x1b[31mded\x1b]0;title\x07",
    "sp\x9b2Joon",
    "x\u202ey",
    "$a$ wood",
]
SEEN = ["7 iron [new]", "[/red]", "[bold]x", ":smile:", "branded", "spoon", "xy", "$a$ wood"]
PLAY = ("play", "--club", "7 iron", "--clubhead-speed", "84mph", "--dynamic-loft", "24deg")


def whimbrel(*arguments, **environment):
    """The command in a process of its own, with what it printed as bytes."""
    return subprocess.run([sys.executable, "-m", "whimbrel.cli", *map(str, arguments)], capture_output=True,
                          env={**os.environ, "COLUMNS": "80", **environment})  # fmt: skip


@pytest.fixture
def named(tmp_path):
    """A table of a strike of each name."""
    path = tmp_path / "named.csv"
    path.write_text(HEADER + "".join(f'"{name}",,118,17,7000\n' for name in NAMES), encoding="utf-8")
    return path


def test_names_are_printed_as_they_are_without_what_steers_a_terminal(command, named):
    for arguments in (("table", named), ("session", named), ("dispersion", "--strikes", named, "--samples", "100")):
        code, out, err = command(*arguments)
        told = out + err
        assert code == (2 if arguments[0] == "dispersion" else 0), (arguments, err)
        for name in SEEN:
            assert name.lower() in told.lower(), (arguments, name)  # a sentence begins with a capital
        assert not set(told) & {"\x1b", "\x07", "\x9b", "\u202e"}


def test_a_club_file_may_name_its_clubs_as_it_likes(command, tmp_path):
    (tmp_path / "clubs.toml").write_text(
        '[[club]]\nname = "[/red] \\u001b[2J$5$"\nclub_mass_g = 270\nloft_deg = 34\nlie_deg = 62\n',
        encoding="utf-8",
    )
    _, out, err = command("clubs", "--clubs", tmp_path / "clubs.toml")
    assert "[/red] $5$" in out + err and "\x1b" not in out + err and "Traceback" not in err


def test_steering_is_taken_out_and_text_is_not():
    assert (
        without_steering("\x1b[1;31mred\x1b[0m \x1b]8;;http://x\x1b\\link\x1b]8;;\x1b\\ \x00\x7f\x85\u2066a")
        == "red link a"
    )
    assert without_steering("ünïcode ⛳ ±1°\n\tמועדון") == "ünïcode ⛳ ±1°\n\tמועדון"


@pytest.mark.parametrize(
    ("cell", "written"),
    [
        ("=cmd|' /C calc'!A0", "'=cmd|' /C calc'!A0"),
        ("+1+1", "'+1+1"),
        ("-2+3", "'-2+3"),
        ("@SUM(A1)", "'@SUM(A1)"),
        ("\t=1", "'\t=1"),
        ("\r=1", "'\r=1"),
        ("-6", "-6"),
        ("+6.5e3", "+6.5e3"),
        ("-.5", "-.5"),
        ("7 iron", "7 iron"),
        ("-", "-"),
        ("'=x", "'=x"),
        ("", ""),
    ],
)
def test_a_cell_like_a_formula_is_marked_as_text_and_a_number_is_not(cell, written):
    assert as_text(cell) == written


def test_written_csv_runs_nothing_in_a_spreadsheet_and_parquet_keeps_every_cell(command, tmp_path):
    path = tmp_path / "in.csv"
    header = HEADER.replace("note", "@note").replace("launch_angle_deg", "launch_angle_deg,launch_direction_deg")
    path.write_text(header + "=cmd|x,-6,118,17,-6,7000\n7 iron,-x,119,17,-1.5,7000\n")
    code, out, _ = command("table", path, "--out", tmp_path / "out.csv")
    assert code == 0 and "out.csv: 3 cells begin like a formula: an apostrophe in front" in out
    written, _ = read(tmp_path / "out.csv")
    assert written["club"].tolist() == ["'=cmd|x", "7 iron"]
    assert written["'@note"].tolist() == ["-6", "'-x"]
    assert written["launch_direction_deg"].tolist() == ["-6", "-1.5"]
    code, out, _ = command("table", path, "--out", tmp_path / "out.parquet")
    assert code == 0 and "apostrophe" not in out
    assert pd.read_parquet(tmp_path / "out.parquet")["club"].tolist() == ["=cmd|x", "7 iron"]


def test_what_is_no_text_is_written_as_it_is(tmp_path):
    frame = pd.DataFrame({"n": [-1.5, np.nan], "o": ["", -2], "c": pd.Categorical(["=a", "b"]), "t": ["-", "-x"]})
    assert write(frame, tmp_path / "a.csv") == 2
    assert (tmp_path / "a.csv").read_text() == "n,o,c,t\n-1.5,,'=a,-\n,-2,b,'-x\n"
    assert frame["c"].tolist() == ["=a", "b"]


def test_a_dollar_sign_in_a_name_starts_no_formula_in_a_picture(hit, iron):
    from matplotlib import pyplot

    for name in ("$a$ wood", r"\$5 $x_1$"):
        figure, ax = pyplot.subplots()
        ax.set_title(style.literal(name))
        parsed, math = ax.title._preprocess_math(ax.title.get_text())
        assert (parsed, math) == (name, False)
        pyplot.close(figure)


def test_pictures_with_dollar_signs_in_club_and_turf_are_drawn(hit, iron, tmp_path):
    from dataclasses import replace

    from matplotlib import pyplot

    from whimbrel.plots import shot as plot

    club, turf = replace(iron, name="$\\frac$ 7"), replace(wb.turfs["medium green"], name="$\\frac$ green")
    figure = plot.face(club, hit).figure
    figure.savefig(tmp_path / "face.svg")
    stopping = plot_holding.stopping(wb.Landing(22.0, 0.8, landing_spin_rate=500.0), turf)
    stopping.savefig(tmp_path / "turf.svg")
    pyplot.close("all")


def test_a_terminal_of_ascii_letters_gets_all_the_text(tmp_path):
    (tmp_path / "clubs.csv").write_text(HEADER + "Übung ⛳,,118,17,7000\n", encoding="utf-8")
    for arguments in (PLAY, ("table", tmp_path / "clubs.csv"), ("play", "--help"), ("table", "nö.csv")):
        ran = whimbrel(*arguments, PYTHONIOENCODING="ascii", LANG="C", LC_ALL="C")
        assert ran.returncode == (2 if "nö.csv" in arguments else 0) and b"Traceback" not in ran.stderr, ran.stderr
        told = (ran.stdout + ran.stderr).decode("ascii")
        words = {PLAY: "18.5 deg"}.get(
            arguments, {"nö.csv": "no.csv", "--help": "Usage"}.get(arguments[1], "Ubung ?")
        )
        assert words in told, told


def test_signs_that_an_encoding_lacks_are_spelled_and_others_kept():
    assert spell_out("−1.5° ± 2 µs, ü × ⛳ – ρ\udcff", "ascii") == "-1.5 deg +/- 2 us, u x ? - rho?"
    assert spell_out("1.5° ü ⛳", "latin-1") == "1.5° ü ?"
    assert spell_out("1.5° ü ⛳", "utf-8") == "1.5° ü ⛳"


@pytest.mark.parametrize("width", [20, 40, 80])
@pytest.mark.parametrize(
    "arguments",
    [
        PLAY,
        ("clubs",),
        ("course", "--distance", "150yd"),
        ("dispersion", *PLAY[1:], "--sd", "face_angle=1deg", "--samples", "200"),
        ("sensitivity", *PLAY[1:]),
        ("explain", *PLAY[1:]),
    ],
    ids=lambda arguments: arguments[0],
)
def test_every_number_is_whole_at_any_width(command, monkeypatch, capsys, width, arguments):
    from whimbrel.cli import output as console

    def words_at(columns):
        monkeypatch.setattr(console.console, "_width", columns)
        code, out, err = command(*arguments)
        assert (code, err) == (0, "")
        return out

    wide, narrow = words_at(400), words_at(width)
    assert "…" not in narrow
    numbers = {word for word in wide.split() if any(sign.isdigit() for sign in word)}
    missing = {word for word in numbers if len(word) < 12 and word not in narrow}
    assert not missing


@pytest.mark.parametrize("width", [20, 40, 80])
def test_a_table_fits_the_terminal_or_is_told_line_by_line(width):
    listing = Listing("club", "carry, yd", "shortest to longest", "offline, yd", "total, yd", right=range(1, 5))
    listing.add_row("7 iron [new]", "163.4", "162.7 to 164.1", "0.0", "167.9")
    terminal = Terminal()
    terminal._width = width
    with terminal.capture() as kept:
        terminal.print(listing)
    lines = kept.get().splitlines()
    assert max(map(cell_len, lines)) <= width
    if width == 80:
        assert lines[-1].split() == "7 iron [new] 163.4 162.7 to 164.1 0.0 167.9".split()
    else:
        assert " ".join(" ".join(lines).split()) == (
            "7 iron [new] carry, yd: 163.4 shortest to longest: 162.7 to 164.1 offline, yd: 0.0 total, yd: 167.9"
        )
