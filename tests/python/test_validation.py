"""The validation scripts also run as scripts, and print what they compare."""

import subprocess
import sys
from pathlib import Path

import pytest

FOLDER = Path(__file__).parents[2] / "validation"
SLOW = {"independent_integrator"}  # 5 s; its numbers are in its README


def scripts():
    return sorted(FOLDER.glob("*/check.py"))


def test_every_folder_has_a_readme_that_the_index_links():
    index = (FOLDER / "README.md").read_text(encoding="utf-8")
    folders = [path for path in FOLDER.iterdir() if path.is_dir() and not path.name.startswith("_")]
    assert len(folders) > 10
    for folder in folders:
        assert (folder / "README.md").is_file(), folder
        assert f"]({folder.name}/README.md)" in index, folder


@pytest.mark.parametrize("script", [s for s in scripts() if s.parent.name not in SLOW], ids=lambda s: s.parent.name)
def test_a_check_prints_its_table(script, tmp_path):
    done = subprocess.run([sys.executable, script], capture_output=True, text=True, timeout=60, cwd=tmp_path)
    assert done.returncode == 0, done.stderr
    assert len(done.stdout.splitlines()) > 2
    assert done.stderr == ""
