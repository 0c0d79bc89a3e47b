"""The command `whimbrel play`: where on the face, how it closes, and which impact."""

import json
from dataclasses import replace

import pytest

import whimbrel as wb
from whimbrel.units import deg, mm, mph, yd

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
OFF_CENTRE = ("--strike-toe", "12mm", "--strike-high=-5mm", "--lie-tilt", "2deg", "--closure-rate", "2300deg/s")


def test_the_strikes_place_the_lie_and_the_closing_of_the_face_are_flags(command, hit, iron):
    struck = replace(hit, strike_toe=12 * mm, strike_high=-5 * mm, lie_tilt=2 * deg, closure_rate=2300 * deg)
    _, out, _ = command(*HIT, *OFF_CENTRE, "--json")
    told = json.loads(out)
    assert told["flight"]["offline"] == pytest.approx(wb.play(struck, iron).offline, rel=1e-12)
    for name in ("strike_toe", "strike_high", "lie_tilt", "closure_rate"):
        assert told["delivery"][name] == pytest.approx(getattr(struck, name), rel=1e-14)
        without = wb.play(replace(struck, **{name: 0.0}), iron)
        assert abs(without.offline - told["flight"]["offline"]) > 0.01, name  # every flag counts


def test_they_go_with_shaft_lean_too(command, iron):
    given = {"strike_toe": 12 * mm, "strike_high": -5 * mm, "closure_rate": 2300 * deg}
    hit = wb.present(iron, clubhead_speed=84 * mph, shaft_lean=6 * deg, lie_tilt=2 * deg, **given)
    _, out, _ = command(*WITHOUT_LOFT, "--shaft-lean", "6deg", *OFF_CENTRE, "--json")
    assert json.loads(out)["flight"]["offline"] == pytest.approx(wb.play(hit, iron).offline, rel=1e-12)


def test_the_impact_is_drawn_into_the_file_named(command, tmp_path):
    code, out, _ = command(*HIT, "--impact-picture", tmp_path / "i.png", "--picture", tmp_path / "s.svg")
    assert code == 0 and out.count("Picture:") == 2
    assert (tmp_path / "i.png").read_bytes().startswith(b"\x89PNG") and (tmp_path / "s.svg").is_file()


def test_the_rigid_models_bias_is_told_where_it_is_used_and_only_there(command, hit, iron):
    _, out, _ = command(*HIT, "--impact", "rigid")
    assert f"carried {wb.play(hit, iron, impact='rigid').carry / yd:.1f} yd" in out
    assert "rigid-body model" in out and "5 % too much spin with a driver" in out
    for compliant in (command(*HIT), command(*HIT, "--impact", "compliant")):
        assert compliant[0] == 0 and "rigid" not in compliant[1]
