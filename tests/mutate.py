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
from collections.abc import Iterator
from pathlib import Path

ROOT = Path(__file__).parents[1]
OPERATORS = {
    ast.Add: ast.Sub, ast.Sub: ast.Add, ast.Mult: ast.Div, ast.Div: ast.Mult, ast.Pow: ast.Mult, ast.And: ast.Or,
    ast.Or: ast.And, ast.BitAnd: ast.BitOr, ast.BitOr: ast.BitAnd, ast.USub: ast.UAdd, ast.Lt: ast.GtE,
    ast.LtE: ast.Lt, ast.Gt: ast.GtE, ast.GtE: ast.Lt, ast.Eq: ast.NotEq, ast.NotEq: ast.Eq,
}  # fmt: skip
PAIRS = (
    "mean median, nanmean nanmedian, min max, minimum maximum, argmin argmax, std var, nanstd nanvar, sin cos, "
    "any all, floor ceil, ppf isf, sf cdf, sum prod, sqrt square"
)
NAMES = {a: b for pair in PAIRS.split(", ") for a, b in (pair.split(), reversed(pair.split()))}


def changes(tree: ast.Module) -> Iterator[tuple[ast.AST, str, object]]:
    """What can be changed outside annotations: a node, its attribute, and what to set it to."""
    for node in ast.walk(tree):
        op = node.ops[0] if isinstance(node, ast.Compare) else getattr(node, "op", None)
        if type(op) in OPERATORS:
            new = OPERATORS[type(op)]()
            yield (node, "ops", [new, *node.ops[1:]]) if isinstance(node, ast.Compare) else (node, "op", new)
        elif isinstance(node, ast.Constant) and isinstance(node.value, int | float):
            x = node.value
            yield node, "value", not x if isinstance(x, bool) else x + 1 if isinstance(x, int) else x * 1.1 + 0.1
        elif isinstance(node, ast.Attribute) and node.attr in NAMES:
            yield node, "attr", NAMES[node.attr]
        elif isinstance(node, ast.Name) and node.id in NAMES and isinstance(node.ctx, ast.Load):
            yield node, "id", NAMES[node.id]


def survives(file: Path, at: int, test: list[str]) -> bool:
    """Whether the tests pass with the change of this number; says which it was."""
    text = file.read_text()
    tree = ast.parse(text)
    node, attribute, new = list(changes(tree))[at]
    before = ast.unparse(node)
    setattr(node, attribute, new)
    file.write_text(ast.unparse(tree))
    try:
        done = subprocess.run(test, capture_output=True, timeout=600).returncode
    except subprocess.TimeoutExpired:
        done = 1
    file.write_text(text)
    fate = {0: "LIVED", 1: "died"}.get(done, f"pytest says {done}")
    print(f"{fate}: {file.parent.name}/{file.name}:{node.lineno}: {before}  ->  {ast.unparse(node)}", flush=True)
    return done == 0


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawTextHelpFormatter)
    parser.add_argument("modules", nargs="+")
    parser.add_argument("--tests", nargs="+", required=True)
    parser.add_argument("--count", type=int, default=20)
    parser.add_argument("--seed", type=int, default=0)
    asked = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        for name in ("python", "tests", "validation", "examples"):
            shutil.copytree(ROOT / name, Path(folder, name))
        shutil.copy(ROOT / "pyproject.toml", folder)
        package = Path(folder, "python", "whimbrel")
        files = [f for m in asked.modules for f in (sorted((package / m).glob("*.py")) or [package / m])]
        places = [(f, i) for f in files for i, _ in enumerate(changes(ast.parse(f.read_text())))]
        chosen = sorted(random.Random(asked.seed).sample(places, min(asked.count, len(places))))
        os.environ |= {"PYTHONPATH": str(package.parent), "PYTHONDONTWRITEBYTECODE": "1"}
        os.chdir(folder)
        test = [sys.executable, "-m", "pytest", "-x", "-p", "no:cacheprovider"]
        test += [f"tests/python/{name}" for name in asked.tests]
        if subprocess.run(test, capture_output=True).returncode:
            sys.exit("the tests fail before anything is changed")
        lived = sum([survives(file, at, test) for file, at in chosen])
    print(f"{len(chosen)} changes, {lived} lived")


if __name__ == "__main__":
    main()
