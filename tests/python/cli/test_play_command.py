"""The command `whimbrel play`: the first job without writing Python."""

import json
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

import whimbrel as wb
from whimbrel.units import celsius, deg, mph, percent, rpm, yd

HIT = (
    "play",
    "--club",
    "7 iron",
    "--clubhead-speed",
    "84mph",
    "--attack-angle=-6deg",
    "--club-path",
    "4deg",
    "--face-angle=-1deg",
    "--dynamic-loft",
    "24deg",
)
LAUNCH = ("play", "--ball-speed", "120mph", "--launch-angle", "16deg", "--spin-rate", "7000rpm")
WITHOUT_LOFT = ("play", "--club", "7 iron", "--clubhead-speed", "84mph")
LAUNCHED = wb.Launch(120 * mph, 16 * deg, spin_rate=7000 * rpm)


@pytest.mark.parametrize(
    "asks",
    [
        "from whimbrel.cli.app import main; main()",
        "import whimbrel as wb\ntry: wb.fly(wb.Launch([60.0, 61.0], 0.2, spin_rate=0.0))\n"
        "except wb.InputError as error: sys.exit(f'whimbrel: {error}')",
    ],
    ids=["the command", "an array"],
)
def test_an_unknown_cpu_level_is_one_clear_line_that_names_the_levels(asks):
    args = [sys.executable, "-c", f"import sys\n{asks}", "sensitivity", *LAUNCH[1:]]
    done = subprocess.run(
        args, env=os.environ | {"WHIMBREL_CPU_LEVEL": "v9"}, capture_output=True, text=True, check=False
    )
    assert done.returncode == (2 if "main" in asks else 1)
    assert re.fullmatch(r'whimbrel: WHIMBREL_CPU_LEVEL: it is "v9"; the levels are .+\n', done.stderr)


def test_a_delivery_is_told_in_words_and_numbers(command, shot):
    code, out, err = command(*HIT)
    assert (code, err) == (0, "")
    assert " ".join(shot.in_words().split()) in out
    for words in (
        "impact",
        "smash factor",
        "contact time",
        "slip time",
        "launch",
        "flight",
        f"carry {shot.carry / yd:.1f} yd",
    ):
        assert words in out
    assert "rigid-body model" not in out and "balls, clubs and turfs of one name differ" in out


def test_a_measured_launch_has_no_impact_and_no_word_on_it(command):
    code, out, _ = command(*LAUNCH)
    assert code == 0
    assert f"carried {wb.play(LAUNCHED).carry / yd:.1f} ± " in out
    assert "smash" not in out and "rigid-body" not in out and "balls, clubs and turfs of one name differ" in out


def test_shaft_lean_stands_in_for_dynamic_loft(command, iron):
    hit = wb.present(iron, clubhead_speed=84 * mph, shaft_lean=6 * deg, attack_angle=-4 * deg)
    _, out, _ = command(
        "play",
        "--club",
        "7 iron",
        "--clubhead-speed",
        "84mph",
        "--attack-angle=-4deg",
        "--shaft-lean",
        "6deg",
    )
    assert f"carried {wb.play(hit, iron).carry / yd:.1f} ± " in out


def test_json_is_every_stage_in_si(command, shot, hit):
    code, out, _ = command(*HIT, "--json")
    told = json.loads(out)
    assert code == 0 and told["status"] == "ok"
    assert told["club"] == {"name": "7 iron", "hand": "right"}
    assert told["delivery"]["clubhead_speed"] == pytest.approx(hit.clubhead_speed, rel=1e-15)
    for stage in ("launch", "flight", "impact"):
        for name, x in getattr(shot, stage)._numbers().items():
            assert told[stage][name] == pytest.approx(float(x), rel=1e-12, abs=1e-12), (stage, name)
    assert told["doubt"]["carry"] == pytest.approx(wb.doubt(shot).sd("carry"), rel=1e-9)


def test_json_has_null_where_there_is_no_number(command):
    code, out, _ = command(
        "play",
        "--ball-speed",
        "20m/s",
        "--launch-angle",
        "20deg",
        "--spin-rate",
        "0rpm",
        "--rise",
        "100m",
        "--json",
    )
    told = json.loads(out)
    assert code == 0 and told["status"] == "no_landing" and told["flight"]["carry"] is None


def test_metric_output_is_metric(command, shot):
    _, out, _ = command(*HIT, "--units", "metric")
    assert f"carry {shot.carry:.1f} m" in out
    assert "mph" not in out and " yd " not in out.replace("(20 yd)", "")


def test_every_condition_counts(command):
    _, out, _ = command(
        *LAUNCH,
        "--temperature",
        "12C",
        "--altitude",
        "1600m",
        "--relative-humidity",
        "60%",
        "--wind",
        "8mph",
        "--wind-from",
        "30deg",
        "--rise",
        "5yd",
        "--tee-height",
        "10mm",
        "--ball",
        "low drag",
        "--json",
    )
    shot = wb.play(
        LAUNCHED,
        ball=wb.balls["low drag"],
        weather=wb.Weather(temperature=celsius(12.0), altitude=1600.0, relative_humidity=60 * percent),
        wind=wb.Wind(8 * mph, 30 * deg),
        terrain=wb.Terrain(0.01, 5 * yd),
    )
    assert json.loads(out)["flight"]["carry"] == pytest.approx(shot.carry, rel=1e-13)


def test_the_other_models_are_named_by_aero(command):
    _, out, _ = command(*LAUNCH, "--aero", "smits-smith", "--json")
    assert json.loads(out)["flight"]["carry"] == wb.play(LAUNCHED, ball=wb.Ball(aero=wb.aero.SmitsSmith())).carry


def test_a_left_hander_is_told_a_left_handers_shape(command):
    _, right, _ = command(*HIT)
    _, left, _ = command(*HIT, "--hand", "left")
    assert "for a right-hander" in right and "draw" in right
    assert "for a left-hander" in left and "fade" in left


def test_a_club_of_ones_own_is_played(command, tmp_path):
    (tmp_path / "bag.toml").write_text(
        '[[club]]\nname = "mine"\nhand = "left"\nloft_deg = 30\nlie_angle_deg = 62\nlength_in = 37\nmass_g = 260\n'
    )
    code, out, _ = command(*HIT[:1], "--clubs", tmp_path / "bag.toml", "--club", "mine", *HIT[3:])
    assert code == 0 and "for a left-hander" in out
    code, out, _ = command("clubs", "--clubs", tmp_path / "bag.toml")
    assert code == 0 and "mine left 30.0°" in out and "invented" not in out


def test_a_picture_is_drawn_into_the_file_named(command, tmp_path):
    for name, start in (("shot.png", b"\x89PNG"), ("shot.svg", b"<?xml"), ("shot.pdf", b"%PDF")):
        code, out, _ = command(*HIT, "--picture", tmp_path / name)
        assert code == 0 and "Picture:" in out
        assert (tmp_path / name).read_bytes().startswith(start)


def test_a_flight_out_of_the_models_range_is_noted(command):
    _, out, _ = command("play", "--ball-speed", "15m/s", "--launch-angle", "45deg", "--spin-rate", "9000rpm")
    assert "the spin ratio" in out and "Reynolds number" in out and "holds its edge value" in out
    _, out, _ = command(*HIT[:4], "15mph", "--dynamic-loft", "13deg")
    assert (
        "the approach speed in m/s went to 6.5" in out
        and "contact model's stated range (10 up); there it is not calibrated" in out
    )


def test_clubs_are_listed_in_both_systems_and_hands(command):
    code, out, _ = command("clubs", "--hand", "left")
    assert code == 0 and "7 iron left 33.0°" in out and "invented set" in out.lower()
    assert "45.50 in" in out and "115.6 cm" in command("clubs", "--units", "metric")[1]


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        (
            ("play", "--ball-speed", "120", *LAUNCH[3:]),
            ["--ball-speed", "bare number needs a unit", "120m/s", "mph"],
        ),
        (("play", "--ball-speed", "120yd", *LAUNCH[3:]), ["--ball-speed", "'yd' is not its unit", "mph"]),
        (("play", "--ball-speed", "quick", *LAUNCH[3:]), ["--ball-speed", "'quick' is not a number"]),
        (("play", "--ball-speed", "999mph", *LAUNCH[3:]), ["ball_speed", "999 mph", "accepted", "335.5 mph"]),
        (("play", "--ball-speed", "120mph"), ["a launch also needs --launch-angle, --spin-rate"]),
        (("play",), ["give a delivery", "--clubhead-speed", "--ball-speed"]),
        (WITHOUT_LOFT, ["--dynamic-loft or --shaft-lean"]),
        (
            (*WITHOUT_LOFT, "--dynamic-loft", "24deg", "--shaft-lean", "6deg"),
            ["--dynamic-loft or --shaft-lean, not both"],
        ),
        ((*HIT, "--ball-speed", "120mph"), ["a delivery or a launch, not both"]),
        ((*LAUNCH, "--club", "7 iron"), ["takes no --club"]),
        ((HIT[0], *HIT[3:]), ["a delivery needs a club", "whimbrel clubs"]),
        (("play", "--club", "spoon", *HIT[3:]), ["no club is called 'spoon'", "driver"]),
        ((*LAUNCH, "--ball", "hard"), ["no ball is called 'hard'", "standard"]),
        ((*LAUNCH, "--aero", "cubist"), ["no model is called 'cubist'", "smits-smith"]),
        ((*LAUNCH, "--aero", "constant", "--ball", "low drag"), ["--ball or --aero, not both"]),
        ((*LAUNCH, "--wind-from", "90deg"), ["--wind-from needs --wind"]),
        ((*LAUNCH, "--pressure", "1000hPa", "--altitude", "10m"), ["pressure or altitude, not both"]),
        ((*LAUNCH, "--temperature", "900C"), ["temperature", "accepted"]),
        ((*LAUNCH, "--relative-humidity", "60"), ["relative_humidity", "60", "accepted"]),
        ((*HIT[:1], "--clubs", "nowhere.toml", *HIT[1:]), ["nowhere.toml"]),
        (
            (*LAUNCH, "--hand", "left"),
            ["a measured launch, or a landing, takes no --impact, --hand, --clubs or --face-wetness"],
        ),
        ((*HIT, "--picture", "shot.xyz"), ["picture shot.xyz", "xyz"]),
        ((*HIT, "--picture", "nowhere/shot.png"), ["nowhere"]),
        ((*HIT, "--strike-toe", "60mm"), ["strike_toe", "missed the face", "0.06 m", "0.04 m"]),
        ((*HIT, "--strike-high=-21mm"), ["strike_high", "missed the face", "-0.021 m", "0.02 m"]),
        ((*HIT, "--strike-toe", "6mm", "--impact", "rigid"), ["strike_toe", "centred strikes only"]),
        ((*HIT, "--closure-rate", "30deg"), ["--closure-rate", "'deg' is not its unit", "deg/s"]),
        ((*HIT, "--closure-rate", "9000rpm"), ["closure_rate", "accepted"]),
        ((*HIT, "--lie-tilt", "31deg"), ["lie_tilt", "31 deg", "30 deg"]),
        ((*HIT, "--impact", "soft"), ["soft", "compliant", "rigid"]),
        ((*LAUNCH, "--strike-toe", "6mm"), ["a delivery or a launch, not both"]),
        ((*LAUNCH, "--impact-picture", "i.png"), ["--impact-picture needs a delivery"]),
        ((*HIT, "--units", "furlongs"), ["furlongs", "yards", "metric"]),
        ((*HIT, "--hand", "both"), ["both", "right", "left"]),
        ((*HIT, "--speed", "1"), ["--speed"]),
        (("fly",), ["fly"]),
    ],
)
def test_a_mistake_is_one_message_without_a_traceback_and_exit_code_2(command, arguments, says):
    code, out, err = command(*arguments)
    assert code == 2
    assert out == ""
    assert "Traceback" not in err
    for words in says:
        assert words in err, err


def test_the_installed_command_runs_as_a_process_and_fails_with_code_2():
    program = Path(sys.executable).with_name("whimbrel")
    done = subprocess.run([program, *LAUNCH, "--json"], capture_output=True, text=True, timeout=60)
    assert done.returncode == 0 and json.loads(done.stdout)["flight"]["carry"] == wb.play(LAUNCHED).carry
    done = subprocess.run([program, "play", "--ball-speed", "120"], capture_output=True, text=True, timeout=60)
    assert (done.returncode, done.stdout) == (2, "")
    assert done.stderr.startswith("whimbrel: --ball-speed") and "Traceback" not in done.stderr
    assert done.stderr.strip().count("\n") <= 2


def test_help_names_every_flag_and_carries_the_caution(command):
    code, out, _ = command("--help")
    assert code == 0 and "not for siting" in out
    code, out, _ = command("play", "--help")
    assert code == 0
    for flag in ("--clubhead-speed", "--shaft-lean", "--spin-rate", "--temperature", "--picture", "--json"):
        assert flag in out


def test_a_ball_that_never_flew_has_no_picture_and_says_so(command, tmp_path):
    grounded = ("play", "--ball-speed", "60mph", "--launch-angle=-3deg", "--spin-rate", "500rpm")
    code, _, err = command(*grounded, "--picture", tmp_path / "shot.png")
    assert code == 2 and "no flight to draw" in err and "Traceback" not in err
    code, out, _ = command(*grounded)
    assert code == 0 and "never left the ground" in out and "descent" not in out
