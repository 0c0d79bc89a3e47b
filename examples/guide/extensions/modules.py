"""The API of Python: a page for every module of the package that defines a public name, found by walking it.

A name is shown as users write it, ``whimbrel.play``, on the page of the module that defines it.
"""

import importlib
import inspect
import pkgutil
import re
from pathlib import Path

from sphinx.util.inspect import stringify_signature

import whimbrel

KINDS = ((inspect.isclass, "autoclass"), (callable, "autofunction"), (lambda _: True, "autodata"))


def public_modules():
    """Every module by its name, with the public names that it defines."""
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
    if inspect.ismodule(value) or getattr(module, name, None) is not value:
        return False
    if inspect.isclass(value) or inspect.isfunction(value):
        return value.__module__ == module.__name__
    return re.search(rf"^{name}\b[^=\n]* = ", inspect.getsource(module), re.MULTILINE) is not None


def described(names):
    """The directives that describe public names, reStructuredText."""
    lines = []
    for name in names:
        kind = next(kind for fits, kind in KINDS if fits(getattr(whimbrel, name)))
        lines += ["", f".. {kind}:: whimbrel.{name}", *(["   :members:"] if kind == "autoclass" else [])]
    return lines


def page(module, names):
    """The page of a module."""
    title = f"``{module}``"
    shown = ["   :no-index:"] if names else ["   :members:", "   :undoc-members:"]  # a function may share its name
    return "\n".join([title, "=" * len(title), "", f".. automodule:: {module}", *shown, *described(names), ""])


def front_page(modules):
    """What there is, by module, and what the package itself defines."""
    rows = [f"   * - :doc:`python/{module}`\n     - {', '.join(f':any:`whimbrel.{name}`' for name in names)}"
            for module, names in modules.items()]  # fmt: skip
    known = {name for names in modules.values() for name in names}
    own = [name for name in whimbrel.__all__ if not (name in known or inspect.ismodule(getattr(whimbrel, name)))]
    tree = ["", ".. toctree::", "   :hidden:", "", *[f"   python/{module}" for module in modules], ""]
    head = ["Python", "======", "", ".. automodule:: whimbrel", "", ".. list-table::", ""]
    return "\n".join([*head, *rows, *described(own), *tree])


def write_pages(app):
    folder = Path(app.srcdir, "api", "python")
    folder.mkdir(parents=True, exist_ok=True)
    modules = public_modules()
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
