"""Runs the notebooks and writes their figures to examples/pictures: python examples/notebooks/draw.py [NAME …]"""

import base64
import sys
from pathlib import Path

import nbformat
from nbclient import NotebookClient

FOLDER = Path(__file__).resolve().parent


def executed(path):
    """The notebook, run from top to bottom in a fresh kernel."""
    notebook = nbformat.read(path, as_version=4)
    return NotebookClient(notebook, timeout=120, kernel_name="python3").execute()


def outputs(notebook):
    """Everything the code cells gave, in order."""
    return [output for cell in notebook.cells if cell.cell_type == "code" for output in cell.outputs]


def figures(notebook):
    """The figures of a notebook that has run, PNG, in order."""
    shown = [output.data for output in outputs(notebook) if output.output_type == "display_data"]
    return [base64.b64decode(data["image/png"]) for data in shown if "image/png" in data]


if __name__ == "__main__":
    for name in sys.argv[1:] or sorted(path.stem for path in FOLDER.glob("*.ipynb")):
        for i, picture in enumerate(figures(executed(FOLDER / f"{name}.ipynb")), 1):
            (FOLDER.parent / "pictures" / f"{name}_{i}.png").write_bytes(picture)
