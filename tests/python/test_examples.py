"""The examples run, and the README says what its code prints."""

import subprocess
import sys
from pathlib import Path

import pandas as pd
import pytest

ROOT = Path(__file__).resolve().parents[2]


def run(script, *arguments, folder):
    return subprocess.run(
        [sys.executable, str(ROOT / script), *map(str, arguments)],
        cwd=folder,
        env={"MPLBACKEND": "Agg", "PATH": "/usr/bin:/bin"},
        capture_output=True,
        text=True,
    )


@pytest.mark.parametrize("example", ["fitter", "coach"])
def test_a_small_example_runs_and_prints(example, tmp_path):
    done = run(f"examples/{example}.py", folder=tmp_path)
    assert done.returncode == 0, done.stderr
    assert len(done.stdout.splitlines()) >= 3


def test_the_readme_says_what_its_code_prints_and_draws_its_pictures(tmp_path):
    done = run("validation/readme.py", "--check", folder=tmp_path)
    assert done.returncode == 0, done.stdout + done.stderr


def test_the_demo_data_come_out_of_their_script(tmp_path):
    done = run("examples/data/make_practice.py", tmp_path / "made.csv", folder=tmp_path)
    assert done.returncode == 0, done.stderr
    made, kept = (
        pd.read_csv(path) for path in (tmp_path / "made.csv", ROOT / "examples/data/invented_practice.csv")
    )
    pd.testing.assert_frame_equal(made, kept)


def test_the_demo_data_have_the_spreads_their_readme_states():
    table = pd.read_csv(ROOT / "examples/data/invented_practice.csv")
    iron, driver = (table[table["club"] == name] for name in ("7 iron", "driver"))
    assert (len(iron), len(driver)) == (40, 15)
    stated = {"club_path_deg": (2.0, 1.2), "attack_angle_deg": (-6.0, 1.2), "face_angle_deg": (0.5, 1.8)}
    for column, (mean, spread) in stated.items():  # two printed decimals
        assert iron[column].mean() == pytest.approx(mean, abs=0.005)
        assert iron[column].std() == pytest.approx(spread, abs=0.005)
        blocks = iron.groupby("block")[column].std()
        assert blocks["after"] < 0.7 * blocks["before"]
    assert iron["club_path_deg"].corr(iron["face_angle_deg"]) == pytest.approx(0.5, abs=0.005)
    for column, mean in (("club_path_deg", 4.0), ("attack_angle_deg", 1.0)):
        assert driver[column].std() == pytest.approx(1.5, abs=0.005)
        assert driver[column].mean() == pytest.approx(mean, abs=0.005)
