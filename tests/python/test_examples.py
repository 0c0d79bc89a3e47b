"""The examples run and do their users' main jobs, on demo data that come out of their script."""

import os
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
        env={"MPLBACKEND": "Agg", "PATH": "/usr/bin:/bin", "PYTHONPATH": os.environ.get("PYTHONPATH", "")},
        capture_output=True,
        text=True,
    )


JOBS = {
    "player": ["plays like", "7 iron"],
    "coach": ["curved 13.8 yd left because", "did it change", "What to work on", "Lesson: lesson.html"],
    "fitter": ["low drag ball", "20 g heavier", "run on the green"],
    "researcher": ["<xarray.Dataset>", "The longest of 90,000", "one step more"],
}
WRITTEN = {"coach": ["lesson.html"], "researcher": ["attack_and_loft.png"]}


@pytest.mark.parametrize("example", JOBS)
def test_an_example_does_its_users_main_job(example, tmp_path):
    done = run(f"examples/{example}.py", folder=tmp_path)
    assert done.returncode == 0, done.stderr
    for words in JOBS[example]:
        assert words in done.stdout
    assert [path.name for path in tmp_path.iterdir()] == WRITTEN.get(example, [])


def test_every_example_is_known_here_and_short():
    scripts = list((ROOT / "examples").glob("*.py"))
    assert sorted(path.stem for path in scripts) == sorted(JOBS)
    assert all(len(path.read_text(encoding="utf-8").splitlines()) < 60 for path in scripts)


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
