"""The API of Python: a page for every module of the package that defines a public name, found by walking it.

A name is shown as users write it, ``whimbrel.play``, on the page of the module that defines it.
"""

import importlib
import inspect
import pkgutil
import re
from pathlib import Path
from types import ModuleType

import whimbrel

KINDS = ((inspect.isclass, "autoclass"), (callable, "autofunction"), (lambda _: True, "autodata"))


def public_modules():
    """Every module by its name, with the public names that it defines; first those of the package itself."""
    walked = pkgutil.walk_packages(whimbrel.__path__, "whimbrel.")
    modules = [importlib.import_module(name) for _, name, _ in walked if "._" not in name]
    found = {module: [name for name in whimbrel.__all__ if _defines(module, name)] for module in modules}
    return {module.__name__: names for module, names in found.items() if names or _is_public(module)}


def _is_public(module):
    name = module.__name__.rpartition(".")[2]
    return name in whimbrel.__all__ and getattr(whimbrel, name) is module


def _defines(module, name):
    """Whether a public name is this module's own: made there, not imported."""
    value = getattr(whimbrel, name)
    if isinstance(value, ModuleType) or getattr(module, name, None) is not value:
        return False
    if inspect.isclass(value) or inspect.isfunction(value):
        return value.__module__ == module.__name__
    return re.search(rf"^{name}\b[^=\n]* = ", inspect.getsource(module), re.MULTILINE) is not None


def page(module, names):
    """The page of a module, reStructuredText."""
    title = f"``{module}``"
    shown = ["   :no-index:"] if names else ["   :members:", "   :undoc-members:"]  # a function may share its name
    head = [title, "=" * len(title), "", f".. automodule:: {module}", *shown]
    body = []
    for name in names:
        value = getattr(whimbrel, name)
        kind = next(kind for fits, kind in KINDS if fits(value))
        body += ["", f".. {kind}:: whimbrel.{name}", *(["   :members:"] if kind == "autoclass" else [])]
    return "\n".join([*head, *body, ""])


def write_pages(app):
    folder = Path(app.srcdir, "api", "python")
    folder.mkdir(parents=True, exist_ok=True)
    modules = public_modules()
    for module, names in modules.items():
        (folder / f"{module}.rst").write_text(page(module, names), encoding="utf-8")
    summary = [f"   * - :doc:`python/{module}`\n     - {', '.join(f':any:`whimbrel.{name}`' for name in names)}"
               for module, names in modules.items()]  # fmt: skip
    lines = ["Python", "======", "", ".. automodule:: whimbrel", "", ".. list-table::", "", *summary, "",
             ".. toctree::", "   :hidden:", "", *[f"   python/{module}" for module in modules], ""]  # fmt: skip
    (folder.parent / "python.rst").write_text("\n".join(lines), encoding="utf-8")


def setup(app):
    app.connect("builder-inited", write_pages)
    return {"parallel_read_safe": True}
