"""The notebooks run from top to bottom, draw their figures, end with the caution, and are kept without outputs."""

import importlib.util
from pathlib import Path

import nbformat
import pytest

from whimbrel.core.cautions import CAUTION

ROOT = Path(__file__).resolve().parents[2]
FOLDER = ROOT / "examples/notebooks"
FIGURES = {
    "a_players_cloud": 2,
    "accuracy_against_speed": 2,
    "attack_against_spin": 2,
    "what_makes_curve": 2,
    "which_ball_model": 2,
}

_spec = importlib.util.spec_from_file_location("draw", FOLDER / "draw.py")
draw = importlib.util.module_from_spec(_spec)
_spec.loader.exec_module(draw)


def test_every_notebook_is_known_here():
    assert sorted(path.stem for path in FOLDER.glob("*.ipynb")) == sorted(FIGURES)


@pytest.mark.parametrize("name", FIGURES)
def test_a_notebook_is_kept_without_outputs(name):
    notebook = nbformat.read(FOLDER / f"{name}.ipynb", as_version=4)
    nbformat.validate(notebook)
    assert draw.outputs(notebook) == []
    assert all(cell.execution_count is None for cell in notebook.cells if cell.cell_type == "code")


@pytest.mark.parametrize("name", FIGURES)
def test_a_notebook_runs_draws_its_figures_and_ends_with_the_caution(name):
    notebook = draw.executed(FOLDER / f"{name}.ipynb")
    pictures = draw.figures(notebook)
    assert len(pictures) == FIGURES[name]
    assert all(picture.startswith(b"\x89PNG") for picture in pictures)
    for i in range(FIGURES[name]):
        kept = f"{name}_{i + 1}.png"
        assert (ROOT / "examples/pictures" / kept).is_file()
        assert f"../pictures/{kept}" in (FOLDER / "README.md").read_text(encoding="utf-8")
    assert CAUTION in notebook.cells[-1].outputs[-1].text
    assert not [output for output in draw.outputs(notebook) if output.get("name") == "stderr"]
