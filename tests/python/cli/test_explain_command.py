"""``whimbrel explain``: the same flags as play, both ledgers, changes, pictures."""

import pytest

import whimbrel as wb
from whimbrel.units import deg, mm, mph, yd

SHOT = (
    "explain", "--club", "7 iron", "--clubhead-speed", "84mph", "--attack-angle=-6deg", "--club-path", "4deg",
    "--face-angle=-1deg", "--dynamic-loft", "24deg",
)  # fmt: skip


def test_it_tells_story_ledgers_and_changes_and_keeps_the_cautions(command, shot):
    code, out, err = command(*SHOT)
    assert (code, err) == (0, "")
    told = wb.explain(shot)
    for paragraph in told.in_words().splitlines()[:4]:
        assert paragraph in out
    path = next(s for s in told.offline if s.cause == "path")
    assert f"path −{-next(s for s in told.carry if s.cause == 'path').share / yd:.1f} " in out
    assert f"{-path.share / yd:.1f} left {-path.least / yd:.1f} to {-path.most / yd:.1f} left" in out
    assert "carry, yd" in out and "side, yd" in out
    assert (
        f"the reference {told.reference_carry / yd:.1f} 0.0" in out
        and f"the shot {shot.carry / yd:.1f} {-shot.offline / yd:.1f} left" in out
    )
    assert "start line" in out and "1 mph more clubhead speed" in out
    assert (
        "can injure or kill" in out and "Swing changes can strain the body" in out and "two times in three" in out
    )
    assert "wind" not in out.split("against the reference")[1].split("sideways, yd")[0]


def test_the_ledgers_fit_80_columns(monkeypatch, capsys):
    from whimbrel.cli import app as cli
    from whimbrel.cli import output as console

    monkeypatch.setattr(console.console, "_width", 80)
    more = ("--wind", "8mph", "--wind-from", "70deg", "--strike-toe", "9mm", "--lie-tilt", "3deg")
    monkeypatch.setattr("sys.argv", ["whimbrel", *SHOT, *more])
    with pytest.raises(SystemExit):
        cli.main()
    ledger = capsys.readouterr().out.split("against the reference")[1].split("±: two times")[0].splitlines()
    firsts = [line[:10].strip() for line in ledger[1:] if line.strip()]
    assert len(firsts) == 2 + 6 + 4 + 1 + 7 and "" not in firsts  # a wrapped row would start with blanks


def test_what_if_replays_with_the_change_as_often_as_it_is_given(command, shot):
    _, out, _ = command(*SHOT, "--what-if", "face_angle=0deg", "--what-if", "strike-toe=8mm")
    square = wb.what_if(shot, delivery={"face_angle": 0.0})
    toe = wb.what_if(shot, delivery={"strike_toe": 8 * mm})
    assert f"With face_angle=0deg it would have started {square.launch.launch_direction / deg:.1f}° right" in out
    for moved in (square, toe):
        assert f"carried {moved.carry / yd:.1f} yd" in out
        assert f"come down {-moved.offline / yd:.1f} yd left of the target line" in out


def test_aim_stance_plane_and_turf_are_asked_by_flags(command):
    _, out, _ = command(*SHOT, "--aim", "1deg", "--uphill", "3deg", "--plane", "62deg", "--height=-5mm")
    assert "The body was aimed 1.0° right" in out and "stance and lie" in out
    assert "for a plane within ±4.0° of 62.0°" in out and "Fat: " in out
    _, sure, _ = command(*SHOT, "--plane", "62deg", "--plane-range", "0deg")
    assert "for a plane within" not in sure and "what the eye sees" in sure


def test_a_slope_turns_the_swing_of_a_leaned_shaft_and_is_already_in_a_measured_loft(command, iron):
    _, out, _ = command(*SHOT[:-2], "--shaft-lean", "6deg", "--uphill", "5deg")
    level = wb.present(iron, clubhead_speed=84 * mph, shaft_lean=6 * deg, attack_angle=-6 * deg, club_path=4 * deg,
                       face_angle=-1 * deg)  # fmt: skip
    assert f"carried {wb.play(wb.arcs.on_uphill_stance(level, 5 * deg), iron).carry / yd:.1f} ± " in out
    _, measured, _ = command(*SHOT, "--uphill", "5deg")
    hit = wb.Delivery(84 * mph, 4 * deg, -6 * deg, -1 * deg, 24 * deg)
    assert f"carried {wb.play(hit, iron).carry / yd:.1f} ± " in measured


def test_it_takes_the_conditions_that_play_takes(command):
    _, out, _ = command(*SHOT, "--wind", "8mph", "--wind-from", "90deg", "--altitude", "1600m", "--rise", "4yd")
    assert "The wind drifted it" in out and "air and terrain" in out
    _, left, _ = command(*SHOT, "--hand", "left")
    assert "4.0° right of the target (out-to-in)" in left
    _, metric, _ = command(*SHOT, "--units", "metric")
    assert " yd" not in metric.split("±: two times")[0]


def test_the_ledgers_are_drawn_into_the_file_named(command, tmp_path):
    code, out, _ = command(*SHOT, "--picture", tmp_path / "why.svg")
    assert code == 0 and "why.svg" in out
    drawn = (tmp_path / "why.svg").read_text()
    assert drawn.lstrip().startswith("<?xml") and len(drawn) > 10_000


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        ((*SHOT, "--what-if", "face_angle"), ["--what-if", "face_angle=0deg"]),
        ((*SHOT, "--what-if", "loft=30deg"), ["--what-if", "'loft=30deg'", "dynamic_loft"]),
        ((*SHOT, "--what-if", "face_angle=2mm"), ["'mm' is not its unit"]),
        ((*SHOT, "--what-if", "strike_toe=90mm"), ["missed the face"]),
        ((*SHOT, "--height=-5mm"), ["need --plane"]),
        ((*SHOT, "--aim", "80deg"), ["aim is 80 deg", "-45 deg to 45 deg"]),
        ((*SHOT, "--plane", "5deg"), ["plane_inclination"]),
        (("explain", "--clubhead-speed", "84mph"), ["--dynamic-loft"]),
        ((*SHOT, "--picture", "why.xyz"), ["picture why.xyz"]),
    ],
)
def test_a_mistake_is_one_message_without_a_traceback_and_exit_code_2(command, arguments, says):
    code, _, err = command(*arguments)
    assert code == 2 and "Traceback" not in err
    for part in says:
        assert part in err, err


def test_help_names_every_question(command):
    code, out, _ = command("explain", "--help")
    assert code == 0
    for flag in (
        "--what-if",
        "--aim",
        "--uphill",
        "--plane",
        "--plane-range",
        "--height",
        "--sole-depth",
        "--picture",
    ):
        assert flag in out


def test_the_same_shot_is_the_same_through_the_command_and_python(command):
    _, out, _ = command("explain", "--club", "driver", "--clubhead-speed", "97mph", "--attack-angle", "2deg",
                        "--dynamic-loft", "13deg", "--strike-toe", "14mm", "--tee-height", "38mm")  # fmt: skip
    hit = wb.Delivery(97 * mph, 0.0, 2 * deg, 0.0, 13 * deg, 14 * mm)
    told = wb.explain(wb.play(hit, wb.clubs["driver"], terrain=wb.Terrain(38 * mm)))
    assert " ".join(told.in_words().splitlines()[0].split()) in out
