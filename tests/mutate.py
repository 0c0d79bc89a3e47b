"""Changes one operator, number, comparison or function at a time, in a copy, and lists what no test notices.

    python tests/mutate.py sweeps statistics/ellipse.py --tests sweeps clouds --count 20

Modules, and folders of them, lie in ``python/whimbrel``, tests in ``tests/python``.
"""

import argparse
import ast
import os
import random
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).parents[1]
OPERATORS = {
    ast.Add: ast.Sub, ast.Sub: ast.Add, ast.Mult: ast.Div, ast.Div: ast.Mult, ast.Pow: ast.Mult, ast.And: ast.Or,
    ast.Or: ast.And, ast.BitAnd: ast.BitOr, ast.BitOr: ast.BitAnd, ast.USub: ast.UAdd, ast.Lt: ast.GtE,
    ast.LtE: ast.Lt, ast.Gt: ast.GtE, ast.GtE: ast.Lt, ast.Eq: ast.NotEq, ast.NotEq: ast.Eq,
}  # fmt: skip
PAIRS = "mean median, nanmean nanmedian, min max, maximum minimum, argmin argmax, std var, sin cos, ppf isf"
NAMES = {a: b for pair in PAIRS.split(", ") for a, b in (pair.split(), reversed(pair.split()))}


def changes(tree):
    """What can be changed outside annotations: a node, its attribute, and what to set it to."""
    types = [getattr(node, name, None) for node in ast.walk(tree) for name in ("annotation", "returns")]
    typed = {id(node) for part in types if part for node in ast.walk(part)}
    for node in (node for node in ast.walk(tree) if id(node) not in typed):
        if isinstance(node, ast.Compare) and type(node.ops[0]) in OPERATORS:
            yield node, "ops", [OPERATORS[type(node.ops[0])](), *node.ops[1:]]
        elif type(getattr(node, "op", None)) in OPERATORS:
            yield node, "op", OPERATORS[type(node.op)]()
        elif isinstance(node, ast.Constant) and isinstance(node.value, int | float):
            x = node.value
            yield node, "value", not x if isinstance(x, bool) else x + 1 if isinstance(x, int) else x * 1.1 + 0.1
        elif isinstance(node, ast.Attribute | ast.Name) and isinstance(node.ctx, ast.Load):
            key = "attr" if isinstance(node, ast.Attribute) else "id"
            if (name := getattr(node, key)) in NAMES:
                yield node, key, NAMES[name]


def survives(file, at, test):
    """Whether the tests pass with a change, by its place among those of the file; says which it was."""
    text = file.read_text()
    node, key, new = list(changes(tree := ast.parse(text)))[at]
    before = ast.unparse(node)
    setattr(node, key, new)
    file.write_text(ast.unparse(tree))
    lived = subprocess.run(["timeout", "600", *test], capture_output=True).returncode == 0
    file.write_text(text)
    print("LIVED" if lived else "died", f"{file}:{node.lineno}: {before}  ->  {ast.unparse(node)}", flush=True)
    return lived


parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawTextHelpFormatter)
parser.add_argument("modules", nargs="+")
parser.add_argument("--tests", nargs="+", required=True)
for option, default in (("--count", 20), ("--seed", 0)):
    parser.add_argument(option, type=int, default=default)
asked = parser.parse_args()
with tempfile.TemporaryDirectory() as folder:
    for name in ("python", "tests", "validation", "examples"):
        shutil.copytree(ROOT / name, Path(folder, name))
    shutil.copy(ROOT / "pyproject.toml", folder)
    os.chdir(folder)
    os.environ |= {"PYTHONPATH": str(Path("python").absolute()), "PYTHONDONTWRITEBYTECODE": "1"}
    given = [Path("python/whimbrel", module) for module in asked.modules]
    files = [file for path in given for file in (sorted(path.glob("*.py")) if path.is_dir() else [path])]
    places = [(file, at) for file in files for at, _ in enumerate(changes(ast.parse(file.read_text())))]
    chosen = sorted(random.Random(asked.seed).sample(places, min(asked.count, len(places))))
    test = [sys.executable, "-m", "pytest", "-x", "-q", *(f"tests/python/{name}" for name in asked.tests)]
    if subprocess.run(test, capture_output=True).returncode:
        sys.exit("the tests fail before anything is changed")
    print(f"{len(chosen)} changes, {sum([survives(file, at, test) for file, at in chosen])} lived")
