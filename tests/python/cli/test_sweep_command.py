"""The command `whimbrel sweep`."""

import itertools

import numpy as np
import pytest
import xarray as xr

import whimbrel as wb
from whimbrel.sweeps import run as sweep_played
from whimbrel.units import deg, mph, yd

DRIVER = ("sweep", "--club", "driver", "--clubhead-speed", "100mph")
AXES = ("--axis", "attack_angle=-5deg:5deg:6", "--axis", "dynamic_loft=8deg:20deg:5")


def test_a_grid_to_a_picture_and_a_file(command, tmp_path):
    picture, out = tmp_path / "carry.png", tmp_path / "carry.nc"
    code, told, err = command(*DRIVER, *AXES, "--ridge", "dynamic_loft", "--picture", picture, "--out", out)
    assert (code, err) == (0, "")
    attack, loft = np.linspace(-5, 5, 6) * deg, np.linspace(8, 20, 5) * deg
    hits = wb.Delivery(100 * mph, attack_angle=attack[:, None], dynamic_loft=loft)
    carry = wb.play(hits, wb.clubs["driver"]).carry
    i, j = np.unravel_index(carry.argmax(), carry.shape)
    assert "6 × 5 shots, driver, over attack angle, dynamic loft" in told
    most = f"attack angle {attack[i] / deg:.1f}°, dynamic loft {loft[j] / deg:.1f}°"
    assert f"Most carry: {carry.max() / yd:.1f} yd at {most}" in told
    assert i == 5 and "(at the end of attack angle: there may be more beyond)." in told
    assert "Lyu" in told and "injure" in told
    with xr.open_dataset(out) as back:
        np.testing.assert_allclose(back.carry, carry, rtol=0, atol=2e-3)
        assert back.attack_angle.attrs["units"] == "rad"
    assert picture.read_bytes().startswith(b"\x89PNG")


def test_a_lean_of_the_shaft_and_the_rigid_impact_are_as_in_play(command):
    lean = ("--shaft-lean", "6deg", "--impact", "rigid")
    code, told, err = command("sweep", "--club", "7 iron", "--clubhead-speed", "84mph", *lean,
                              *("--axis", "club_path=0deg,3deg"))  # fmt: skip
    assert (code, err) == (0, "")
    iron = wb.clubs["7 iron"]
    hit = wb.present(iron, clubhead_speed=84 * mph, shaft_lean=6 * deg)
    carry = wb.play(hit, iron, impact="rigid", accuracy="fast").carry
    assert f"Most carry: {carry / yd:.1f} yd at club path 0.0°." in told


def test_a_launch_over_air_in_metric(command):
    code, told, _ = command(
        *("sweep", "--ball-speed", "60m/s", "--launch-angle", "14deg", "--spin-rate", "3000rpm"),
        *("--axis", "altitude=0m,1000m,2000m", "--of", "carry", "--of", "descent_angle", "--units", "metric"),
    )
    assert code == 0
    assert "3 shots, launch, over altitude" in told and "Most carry" in told and "Most descent angle" in told


def test_the_run_of_a_landing_over_axes_that_say_it_is_one(command):
    code, told, err = command(
        *("sweep", "--landing-spin-rate", "5000rpm", "--stimp", "10ft"),
        *("--axis", "landing_speed=45mph,55mph", "--axis", "descent_angle=40deg:50deg:3"),
    )
    assert (code, err) == (0, "")
    angle = np.linspace(40, 50, 3) * deg
    landing = wb.Landing(np.array([[45.0], [55.0]]) * mph, angle, landing_spin_rate=5000 * wb.units.rpm)
    run = wb.play(landing, turf=wb.green()).run
    assert "2 × 3 shots, landing, over landing speed, descent angle" in told
    assert f"Most distance: {run.distance.max() / yd:.1f} yd" in told
    assert "injure" in told and "Lyu" not in told  # which speaks of carry


def test_a_wind_that_is_an_axis_may_come_from_a_side(command):
    code, told, err = command(*DRIVER, "--dynamic-loft", "14deg", "--wind-from", "90deg", "--of", "offline",
                              *("--axis", "wind_speed=0mph,10mph"))  # fmt: skip
    assert (code, err) == (0, "")
    hit = wb.Delivery(100 * mph, dynamic_loft=14 * deg)
    blown = wb.play(hit, wb.clubs["driver"], wind=wb.Wind.from_right(10 * mph)).offline / yd
    assert blown < -5 and f"Least offline: −{-blown:.1f} yd at wind speed 10.0 mph" in told


def test_samples_of_ranges(command, tmp_path):
    out = tmp_path / "drawn.nc"
    code, told, _ = command(
        *DRIVER, "--dynamic-loft", "14deg", "--axis", "temperature=0C:35C", "--design", "latin",
        "--samples", "16", "--out", out,
    )  # fmt: skip
    assert code == 0 and "16 shots" in told
    with xr.open_dataset(out) as back:
        assert back.sizes["shot"] == 16 and 273.15 <= back.temperature.min() <= back.temperature.max() <= 308.15


def test_an_interruption_is_told_and_what_is_done_is_written_beside_the_old_file(command, tmp_path, monkeypatch):
    calls, out, picture = itertools.count(), tmp_path / "carry.nc", tmp_path / "carry.png"
    for path in (out, picture):
        path.write_bytes(b"whole")

    def play(*arguments, **keywords):
        if next(calls) == 3:  # the trial and two chunks are done
            raise KeyboardInterrupt
        return wb.play(*arguments, **keywords)

    monkeypatch.setattr(sweep_played, "CHUNK", 6)
    monkeypatch.setattr(sweep_played, "play", play)
    code, told, err = command(*DRIVER, *AXES, "--out", out, "--picture", picture)
    assert (code, err) == (130, "") and "Stopped after 40 %" in told and "no landing" not in told
    assert "carry.partial.nc" in told and "No picture" in told
    assert out.read_bytes() == picture.read_bytes() == b"whole"
    with xr.open_dataset(tmp_path / "carry.partial.nc") as back:
        assert int(back.carry.notnull().sum()) == 12 and back.attrs["completed"] == 0.4


@pytest.mark.parametrize(
    ("flags", "words"),
    [
        (
            ("--axis", "attack=1deg:2deg:3"),
            "'attack' is not a known axis of a sweep from a delivery; nearest: attack_angle",
        ),
        (("--axis", "attack_angle"), "is not like attack_angle=-5deg:5deg:300"),
        (("--axis", "attack_angle=1:2:3"), "a bare number needs a unit"),
        (("--axis", "attack_angle=1deg:2deg:few"), "'few' is not a number of values"),
        (("--axis", "attack_angle=1deg", "--axis", "attack_angle=2deg"), "is given twice"),
        (
            ("--axis", "attack_angle=1deg,2deg", "--of", "cary"),
            "'cary' is not a known output of a sweep from a delivery; nearest: carry",
        ),
        (("--axis", "attack_angle=1deg:2deg", "--design", "sobol"), "needs samples"),
        (("--axis", "attack_angle=1deg,2deg", "--ridge", "club_path", "--picture", "a.png"), "--ridge club_path"),
        (("--axis", "attack_angle=1deg,2deg", "--picture", "a.foo"), "--picture a.foo: accepted: .png"),
        (("--axis", "attack_angle=1deg,2deg", "--out", "a.txt"), "--out a.txt: accepted: .nc"),
        (("--axis", "attack_angle=1deg:2deg:9", "--most-points", "8"), "9 points (attack_angle 9)"),
        (("--axis", "attack_angle=1deg,2deg", "--out", "no/such/a.nc"), "there is no such folder"),
        (
            ("--axis", "attack_angle=1deg:2deg", "--design", "latin", "--samples", "4", "--picture", "a.png"),
            "--picture draws a grid",
        ),
    ],
)
def test_a_mistake_is_one_clear_message(command, flags, words):
    code, _, err = command(*DRIVER, "--dynamic-loft", "14deg", *flags)
    assert code == 2 and words in err
