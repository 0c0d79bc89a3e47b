"""The API of Python: a page for every module that defines what users name or are given, found by walking them all.

That is what ``whimbrel`` exports, what the modules that it exports define, and the classes of results. A name is
shown as users write it: ``whimbrel.play``, ``whimbrel.targets.Circle``; else with the module that defines it.
"""

import importlib
import inspect
import pkgutil
import re
from pathlib import Path

from sphinx.util.inspect import stringify_signature

import whimbrel
from whimbrel.core.result import Result
from whimbrel.core.value import Value

EXPORTED = {name: getattr(whimbrel, name) for name in whimbrel.__all__}
SUBJECTS = {value.__name__: f"whimbrel.{name}" for name, value in EXPORTED.items() if inspect.ismodule(value)}


def own_names(module):
    """The public names that a module defines itself, with what they are."""
    source = inspect.getsource(module)

    def is_own(name, value):
        if inspect.isclass(value) or inspect.isroutine(value):
            return getattr(value, "__module__", None) == module.__name__ and bool(value.__doc__)
        return re.search(rf"^{name}\b[^=\n]* = ", source, re.MULTILINE) is not None

    return {name: value for name, value in vars(module).items() if name[0] != "_" and is_own(name, value)}


def given_classes(modules):
    """The classes of results and values, and those that their fields are."""
    classes = {value for names in modules.values() for value in names.values() if inspect.isclass(value)}
    given, more = set(), {value for value in classes if issubclass(value, Result | Value)} - {Result, Value}
    while more:
        given |= more
        more = {found for value in more for found in _of_its_fields(value)} & classes - given
    return given


def _of_its_fields(value):
    known = vars(importlib.import_module(value.__module__))
    fields = inspect.get_annotations(value)
    words = re.findall(r"\w+", " ".join(str(kind) for name, kind in fields.items() if name[0] != "_"))
    return [known[word] for word in words if inspect.isclass(known.get(word))]


def public_names():
    """By module: its public names as users write them, and what they are."""
    walked = pkgutil.walk_packages(whimbrel.__path__, "whimbrel.")
    modules = {name: own_names(importlib.import_module(name)) for _, name, _ in walked if "._" not in name}
    given = given_classes(modules)
    found = {}
    for module, names in modules.items():
        for name, value in names.items():
            if EXPORTED.get(name) is value:
                found.setdefault(module, {})[f"whimbrel.{name}"] = value
            elif (module in SUBJECTS and _tells(value)) or (inspect.isclass(value) and value in given):
                found.setdefault(module, {})[f"{SUBJECTS.get(module, module)}.{name}"] = value
    return found


def _tells(value):
    """Whether a page can say what a value is: a class, a function, a number or a text."""
    return inspect.isclass(value) or inspect.isroutine(value) or isinstance(value, float | int | str)


def described(names):
    """The directives that describe names, reStructuredText."""
    lines = []
    for name, value in names.items():
        if inspect.isclass(value):
            lines += ["", f".. autoclass:: {name}", "   :members:"]
        elif inspect.isroutine(value):
            lines += ["", f".. autofunction:: {name}"]
        else:
            module, _, short = name.rpartition(".")
            about = f":value: {value!r}" if isinstance(value, float | int) else f":type: {type(value).__name__}"
            lines += ["", f".. py:data:: {short}", f"   :module: {module}", f"   {about}"]
    return lines


def page(module, names):
    """The page of a module, under the name that users know it by."""
    title = f"``{SUBJECTS.get(module, module)}``"
    about = [f".. automodule:: {module}", "   :no-index:"]  # a function may share its name
    return "\n".join([title, "=" * len(title), "", *about, *described(names), ""])


def front_page(modules):
    """What there is, by module, and what the package itself defines."""
    rows = [f"   * - :doc:`python/{module}`\n     - {', '.join(f':any:`{name}`' for name in names)}"
            for module, names in modules.items()]  # fmt: skip
    own = {f"whimbrel.{name}": value for name, value in own_names(whimbrel).items() if name in EXPORTED}
    tree = ["", ".. toctree::", "   :hidden:", "", *[f"   python/{module}" for module in modules], ""]
    head = ["Python", "======", "", ".. automodule:: whimbrel", "", ".. list-table::", ""]
    return "\n".join([*head, *rows, *described(own), *tree])


def write_pages(app):
    folder = Path(app.srcdir, "api", "python")
    folder.mkdir(parents=True, exist_ok=True)
    modules = public_names()
    for module, names in modules.items():
        (folder / f"{module}.rst").write_text(page(module, names), encoding="utf-8")
    (folder.parent / "python.rst").write_text(front_page(modules), encoding="utf-8")


def shorten(app, what, name, value, options, signature, returned):
    """Signatures of classes as the code has them; of a result, which only the library makes, none."""
    if what != "class" or not signature:
        return signature, returned and re.sub(r"TypeAliasForwardRef\('(\w+)'\)", r"\1", returned)
    own = inspect.signature(value)
    private = [field for field in own.parameters.values() if field.name.startswith("_")]
    if any(field.default is field.empty for field in private):
        return "", returned
    public = [field for field in own.parameters.values() if field not in private]
    shown = stringify_signature(own.replace(parameters=public), show_return_annotation=False)
    return shown.replace("<factory>", "..."), returned


def setup(app):
    app.connect("builder-inited", write_pages)
    app.connect("autodoc-process-signature", shorten)
    return {"parallel_read_safe": True}
