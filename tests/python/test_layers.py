"""The house of the Python package: every sub-package imports only from those above it, and nothing goes round."""

import ast
import re
from collections import defaultdict
from importlib import import_module
from inspect import ismodule
from pathlib import Path

import pytest

import whimbrel

#: Sub-packages, each importing only from those before it; what is at the top comes before all of them.
LAYERS = ("core", "row", "statistics", "strikes", "questions", "inverse", "sweeps", "clouds", "sessions", "words",
          "plots", "pages", "cli")  # fmt: skip
#: Modules beside the sub-packages that every module may import; `__init__` gathers what is public and is exempt.
TOP = ("_core", "errors", "units")
#: The one module that finds others by their name when it is asked: results do not import their words and pictures.
FINDER = "core.result"
#: Part of the public interface of named tuples.
OF_NAMED_TUPLES = {"_asdict", "_fields", "_make", "_replace"}

ROOT = Path(whimbrel.__file__).parent


def module_of(path, root):
    parts = path.relative_to(root).with_suffix("").parts
    return ".".join(parts[:-1] if parts[-1] == "__init__" else parts)


def sources(root=ROOT):
    """Every module but the package's own `__init__`, by its name inside the package, as a syntax tree."""
    found = {module_of(path, root): ast.parse(path.read_text("utf-8")) for path in sorted(root.rglob("*.py"))}
    del found[""]
    return found


def in_package(name):
    """The parts of an absolute name inside the package, or None."""
    first, *rest = (name or "").split(".")
    return rest if first == "whimbrel" else None


def imported(module, tree, modules):
    """The modules of the package that one imports anywhere: at its top, in functions, under TYPE_CHECKING."""
    is_package = any(other.startswith(f"{module}.") for other in modules)
    inside = module.split(".") if is_package else module.split(".")[:-1]
    for node in ast.walk(tree):
        paths = []
        if isinstance(node, ast.Import):
            paths = [in_package(name.name) for name in node.names]
        elif isinstance(node, ast.ImportFrom):
            start = inside[: len(inside) - node.level + 1] if node.level else in_package(node.module)
            if start is not None:
                base = [*start, *node.module.split(".")] if node.level and node.module else start
                paths = [[*base, name.name] for name in node.names]
        for path in paths:
            if path is not None:
                full = ".".join(path)
                yield full if full in modules or full in TOP else ".".join(path[:-1])


def found_by_name(tree):
    """The modules of the package that are imported by a text."""
    for node in ast.walk(tree):
        if (
            isinstance(node, ast.Call)
            and "import_module" in ast.unparse(node.func)
            and "whimbrel" in ast.unparse(node)
        ):
            yield node.lineno


def graph(trees):
    return {module: set(imported(module, tree, trees)) - {module} for module, tree in trees.items()}


def upward(edges):
    """Imports of a lower layer, or of the package itself, and modules that are in no layer."""
    for module, targets in edges.items():
        here = module.split(".")[0]
        if here not in (*LAYERS, *TOP):
            yield f"{module} is in no sub-package that has a layer"
            continue
        for target in targets - set(TOP):
            there = target.split(".")[0]
            if here in TOP or there not in LAYERS or LAYERS.index(there) > LAYERS.index(here):
                yield f"{module} imports {target or 'whimbrel'}"


def circles(edges):
    """Modules that import themselves by way of others, each with the way."""
    done = set()

    def follow(module, way):
        if module in way:
            yield " -> ".join([*way[way.index(module) :], module])
            return
        if module not in done:
            for target in sorted(edges.get(module, ())):
                yield from follow(target, [*way, module])
            done.add(module)

    for module in edges:
        yield from follow(module, [])


def private(name):
    return name is not None and re.fullmatch(r"_[a-zA-Z0-9]\w*", name) and name not in {*OF_NAMED_TUPLES, "_core"}


def written(tree):
    """The private names that a module gives to something of its own."""
    for node in ast.walk(tree):
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef | ast.ClassDef):
            yield node.name
        elif isinstance(node, ast.Name) and isinstance(node.ctx, ast.Store):
            yield node.id
        elif isinstance(node, ast.Attribute) and isinstance(node.ctx, ast.Store):
            yield node.attr
        elif isinstance(node, ast.arg):
            yield node.arg


def borrowed(tree):
    """The private names that a module takes from something else than its own ``self`` and ``cls``."""
    for node in ast.walk(tree):
        if isinstance(node, ast.ImportFrom) and (node.level or (node.module or "").split(".")[0] == "whimbrel"):
            yield from ((name.name, node.lineno) for name in node.names)
        elif isinstance(node, ast.keyword):
            yield node.arg, node.value.lineno
        elif isinstance(node, ast.Attribute):
            owner = node.value.func if isinstance(node.value, ast.Call) else node.value
            if not (isinstance(owner, ast.Name) and owner.id in ("self", "cls", "super")):
                yield node.attr, node.lineno


def of_others(trees):
    """Uses of a private name that another module of the package made."""
    owners = defaultdict(set)
    for module, tree in trees.items():
        for name in filter(private, written(tree)):
            owners[name].add(module)
    for module, tree in trees.items():
        for name, line in borrowed(tree):
            if private(name) and owners[name] and module not in owners[name]:
                yield f"{module}, line {line}: {name} of {', '.join(sorted(owners[name]))}"


def hidden(package):
    """The modules of a package whose name is also that of something else in it."""
    folder = Path(package.__file__).parent
    names = {path.stem for path in folder.glob("*.py")} | {
        path.parent.name for path in folder.glob("*/__init__.py")
    }
    names -= {"__init__"}
    for name in names:
        import_module(f"{package.__name__}.{name}")
    return sorted(name for name in names if not ismodule(getattr(package, name)))


def asked_of_views(tree):
    """What the results of a module ask of the modules of their view: ``words.shot`` and the name there."""
    for result in ast.walk(tree):
        if isinstance(result, ast.ClassDef):
            views = [keyword.value.value for keyword in result.keywords if keyword.arg == "view"]
            for node in ast.walk(result) if views else ():
                if isinstance(node, ast.Attribute) and isinstance(node.value, ast.Call):
                    finder = re.fullmatch(r"self\._(words|plots)", ast.unparse(node.value.func))
                    if finder:
                        yield f"{finder[1]}.{views[0]}", node.attr


def test_every_module_imports_only_from_layers_above_its_own():
    assert list(upward(graph(sources()))) == []


def test_no_modules_import_each_other_in_a_circle():
    assert list(circles(graph(sources()))) == []


def test_no_module_uses_a_private_name_of_another():
    assert list(of_others(sources())) == []


@pytest.mark.parametrize("name", ["", *(layer for layer in LAYERS if (ROOT / layer).is_dir())])
def test_no_function_or_class_hides_a_module(name):
    assert hidden(import_module(f"whimbrel.{name}".rstrip("."))) == []


def test_every_sub_package_has_its_layer():
    assert {path.parent.name for path in ROOT.glob("*/__init__.py")} <= set(LAYERS)


def test_only_results_find_modules_of_the_package_by_name():
    assert {module for module, tree in sources().items() if list(found_by_name(tree))} == {FINDER}


def test_what_results_ask_of_their_views_is_there():
    asked = [pair for tree in sources().values() for pair in asked_of_views(tree)]
    assert ("words.shot", "of_shot") in asked and ("plots.shot", "shot") in asked
    missing = [pair for pair in asked if not callable(getattr(import_module(f"whimbrel.{pair[0]}"), pair[1], None))]
    assert missing == []


@pytest.mark.parametrize(
    "line",
    [
        "from ..words import phrases",
        "from ..words.phrases import side",
        "import whimbrel.words.phrases",
        "from whimbrel.words import phrases",
        "from whimbrel import words",
        "from .. import play",
        "import whimbrel",
        "def f():\n    from ..words.phrases import side",
        "if TYPE_CHECKING:\n    from ..words.phrases import side",
    ],
)
def test_an_import_upward_is_found(line):
    trees = {"row.shot": ast.parse(line), "words": ast.parse(""), "words.phrases": ast.parse("")}
    assert len(list(upward(graph(trees)))) == 1


def test_a_module_beside_the_sub_packages_is_found():
    assert list(upward({"helpers": set()})) == ["helpers is in no sub-package that has a layer"]
    assert list(upward({"units": {"row.ball"}})) == ["units imports row.ball"]


def test_imports_in_a_circle_are_found_with_their_way():
    lines = {"row.a": "from .b import x", "row.b": "def f():\n    from . import c", "row.c": "from .a import y"}
    trees = {module: ast.parse(line) for module, line in lines.items()}
    assert list(circles(graph(trees))) == ["row.a -> row.b -> row.c -> row.a"]


@pytest.mark.parametrize("line", ["from .a import _made", "a._made()", "A(_made=1)", "self.x._made"])
def test_a_private_name_of_another_module_is_found(line):
    made = ast.parse("class A:\n    def f(self):\n        self._made = 1\ndef _made(): ...")
    assert len(list(of_others({"row.a": made, "row.b": ast.parse(line)}))) == 1
    assert list(of_others({"row.a": made, "row.b": ast.parse("self._made; super()._made")})) == []


def test_a_module_found_by_its_name_is_found():
    assert list(found_by_name(ast.parse('import_module(f"whimbrel.words.{view}")'))) == [1]
