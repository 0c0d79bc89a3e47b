"""``whimbrel dispersion`` as a user types it."""

import json

import numpy as np
import pandas as pd
import pytest
from invented import DEMO

import whimbrel as wb
from whimbrel.units import deg, mph, yd

SWING = ("--clubhead-speed", "84mph", "--attack-angle=-4deg", "--dynamic-loft", "24deg")
IRON = ("dispersion", "--club", "7 iron", *SWING, "--samples", "400")
FACE = ("--sd", "face_angle=1.5deg")


def test_it_tells_the_spread_the_share_and_what_it_does_not_know(command):
    code, out, _ = command(*IRON, *FACE, "--sd", "clubhead-speed=1.2mph", "--target", "circle:155yd,10yd",
                           "--target", "corridor:25yd", "--ask", "descent_angle")  # fmt: skip
    assert code == 0
    for part in ("400 shots with the 7 iron", "face angle 0.0° ± 1.5°", "clubhead speed 84.0 mph ± 1.2 mph",
                 "In the circle of radius 10.0 yd at 155.0 yd:", "In the corridor 25.0 yd wide:", "descent angle",
                 "Not included", "injure or kill", "qualified professional"):  # fmt: skip
        assert part in out, part
    assert "failed" not in out


def test_its_numbers_are_those_of_python(command):
    code, out, _ = command(*IRON, *FACE, "--sd", "club_path=1deg", "--correlation", "club_path,face_angle=0.5",
                           "--target", "green:155yd,20yd,15yd", "--seed", 3, "--at", "rest", "--json")  # fmt: skip
    told = json.loads(out)
    covariance = np.array([[1.5**2, 0.75], [0.75, 1.0]]) * deg**2
    cloud = wb.dispersion(
        wb.Delivery(84 * mph, attack_angle=-4 * deg, dynamic_loft=24 * deg), wb.clubs["7 iron"],
        covariance=covariance, fields=["face_angle", "club_path"], samples=400, seed=3, at="rest",
        target=wb.targets.Rectangle(155 * yd, 20 * yd, 15 * yd),
    )  # fmt: skip
    assert code == 0 and list(told["outputs"]) == ["total_offline", "total_downrange", "total", "carry"]
    assert told["outputs"]["total"]["mean"] == pytest.approx(cloud.mean["total"], rel=1e-9)
    np.testing.assert_allclose(told["covariance"], cloud.moments.covariance, rtol=1e-6)
    assert told["targets"][0]["hits"] == cloud.shares[0].hits and told["targets"][0]["shape"] == "rectangle"


def test_the_rigid_impact_is_as_in_python(command):
    code, out, _ = command(*IRON, *FACE, "--impact", "rigid", "--json")
    hit = wb.Delivery(84 * mph, attack_angle=-4 * deg, dynamic_loft=24 * deg)
    cloud = wb.dispersion(hit, wb.clubs["7 iron"], sd={"face_angle": 1.5 * deg}, samples=400, impact="rigid")
    assert code == 0 and json.loads(out)["outputs"]["carry"]["mean"] == pytest.approx(cloud.mean["carry"], rel=1e-9)


def test_a_breeze_that_varies_around_none_may_come_from_a_side(command):
    code, out, err = command(*IRON, "--sd", "wind_speed=4mph", "--wind-from", "90deg", "--json")
    outputs = json.loads(out)["outputs"]
    assert (code, err) == (0, "") and outputs["offline"]["sd"][0] > 2 * outputs["carry"]["sd"][0]


def test_a_share_of_none_has_its_bound_once(command):
    code, out, _ = command(*IRON, *FACE, "--samples", 20_000, "--target", "circle:400yd,5yd")
    assert code == 0 and "In the circle of radius 5.0 yd at 400.0 yd: 0.0 % (below 0.1 %), 0 of 20,000." in out


def test_it_draws_and_writes_every_sample(command, tmp_path):
    picture, out = tmp_path / "cloud.png", tmp_path / "cloud.csv"
    code, said, _ = command(*IRON, *FACE, "--units", "metric", "--picture", picture, "--out", out)
    assert code == 0 and f"Picture: {picture}" in said and picture.stat().st_size > 10_000
    table = pd.read_csv(out)
    assert len(table) == 400 and {"face_angle_deg", "carry_m"} <= set(table.columns)


def test_the_wind_and_the_warmth_vary_with_their_units(command):
    code, out, _ = command(*IRON, "--wind", "8mph", "--sd", "wind_speed=3mph", "--sd", "temperature=9F",
                           "--units", "metric", "--json")  # fmt: skip
    assert code == 0 and json.loads(out)["outputs"]["carry"]["sd"][0] > 1
    code, out, _ = command(*IRON, "--sd", "temperature=9F", "--units", "metric")
    assert "temperature 15.0 °C ± 5.0 °C" in out


def test_a_launch_has_a_cloud_too(command):
    launch = ("--ball-speed", "120mph", "--launch-angle", "16deg", "--spin-rate", "7000rpm")
    code, out, _ = command("dispersion", *launch, "--sd", "ball_speed=2mph", "--samples", 200)
    assert code == 0 and "200 shots, one standard deviation" in out


def test_strikes_of_a_table_are_drawn_again(command):
    code, out, _ = command("dispersion", "--strikes", DEMO, "--club", "7 iron", "--samples", 300)
    assert code == 0 and "300 shots with the 7 iron, drawn from 40 strikes." in out
    assert "drawn again from 40 rows" in out


def test_failed_samples_are_told(command):
    code, out, _ = command(*IRON, "--sd", "strike_high=12mm")
    assert code == 0 and "failed; they count as outside" in out and "missed the face" in out


@pytest.mark.parametrize(
    ("flags", "says"),
    [
        (IRON, "say how the shots spread, e.g. --sd face_angle=1.5deg"),
        ((*IRON, "--sd", "face_angle"), "'face_angle' is not like face_angle=1.5deg"),
        ((*IRON, "--sd", "face_angle=1.5"), "--sd face_angle: a bare number needs a unit"),
        ((*IRON, "--sd", "face_angle=1.5mph"), "'mph' is not its unit"),
        ((*IRON, "--sd", "face_angle=-1.5deg"), "--sd face_angle: -1.5deg; accepted: 0 or more"),
        ((*IRON, "--sd", "twist=1deg"), "'twist' is not a known field"),
        ((*IRON, "--sd", "carry=5yd"), "'carry' is not a known field; there are: clubhead_speed,"),
        ((*IRON, "--sd", "temperature=5"), "a bare number needs a unit"),
        ((*IRON, *FACE, *FACE), "face_angle is given twice"),
        ((*IRON, *FACE, "--sd", "ball_speed=1mph"), "'ball_speed' is not a field of a delivery"),
        ((*IRON, *FACE, "--correlation", "face_angle"), "is not like club_path,face_angle=0.5"),
        ((*IRON, *FACE, "--correlation", "club_path,face_angle=0.5"), "both must spread"),
        (
            (*IRON, *FACE, "--sd", "club_path=1deg", "--correlation", "club_path,face_angle=1.5"),
            "accepted: -1 to 1",
        ),
        ((*IRON, *FACE, "--target", "square:5yd"), "--target: 'square:5yd' is not like"),
        ((*IRON[:-1], 50, *FACE), "samples is 50"),
        ((*IRON, *FACE, "--ask", "kerry"), "'kerry' is not known"),
        ((*IRON, *FACE, "--strikes", DEMO), "give --strikes without a delivery"),
        (("dispersion", "--strikes", DEMO), "choose one"),
        (("dispersion", "--strikes", "none.csv"), "no such file"),
        ((*IRON, *FACE, "--reading", "names.toml"), "--reading goes with --strikes"),
        (("dispersion", *FACE), "give a delivery"),
        ((*IRON, *FACE, "--picture", "cloud.xyz"), "picture cloud.xyz"),
        ((*IRON, *FACE, "--picture", "nowhere/cloud.png"), "nowhere/cloud.png: there is no such folder"),
        ((*IRON, *FACE, "--out", "cloud.txt"), "--out cloud.txt: accepted: .csv, .parquet"),
        ((*IRON, "--sd", "face_angel=1deg"), "'face_angel' is not a known field; nearest: face_angle"),
        (
            (
                *IRON,
                *FACE,
                "--sd",
                "club_path=1deg",
                "--correlation",
                "club_path,face_angle=0.5",
                "--correlation",
                "face_angle,club_path=0.5",
            ),
            "are given twice",
        ),
    ],
)
def test_a_mistake_is_one_clear_line(command, flags, says):
    code, out, error = command(*flags)
    assert code == 2 and says in error and not out, (out, error)
