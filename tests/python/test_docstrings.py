"""Every public docstring has numpydoc's sections, and every number its unit, by numpydoc's own validation."""

import importlib.util
import inspect
from pathlib import Path

import pytest
from numpydoc.docscrape import NumpyDocString, get_doc_object
from numpydoc.validate import ERROR_MSGS, Validator, validate

from whimbrel.core.value import Value, units_of

EXTENSION = Path(__file__).resolve().parents[2] / "examples" / "guide" / "extensions" / "modules.py"
_spec = importlib.util.spec_from_file_location("modules_of_the_guide", EXTENSION)
_modules = importlib.util.module_from_spec(_spec)
_spec.loader.exec_module(_modules)

#: Checks left out: each says why.
LEFT_OUT = {
    "GL01": "the summary stands beside the opening quotes",
    "GL02": "a docstring may be one line",
    "ES01": "a summary may say all there is",
    "SA01": "names in the text link to their pages",
    "EX01": "an example is given where one line helps; the guide has the others",
}
CHECKS = sorted(set(ERROR_MSGS) - set(LEFT_OUT))
#: The unit of a number that has none.
NO_UNIT = "1"


class Documented(Validator):
    """A validator for which the fields of a result may stand under Attributes, and private ones nowhere."""

    def __init__(self, obj_name):
        super().__init__(get_doc_object(self._load_obj(obj_name)))

    @property
    def doc_all_parameters(self):
        sections = ("Parameters", *(("Attributes",) if inspect.isclass(self.obj) else ()))
        written = NumpyDocString(self.clean_doc)
        return {
            name: (described.type, " ".join(described.desc))
            for section in sections
            for described in written[section]
            for name in described.name.split(", ")
        }

    @property
    def signature_parameters(self):
        if inspect.isclass(self.obj) and issubclass(self.obj, Exception) and "__init__" not in vars(self.obj):
            return ()
        return tuple(name for name in super().signature_parameters if name.strip("*")[0] != "_")


def _members(name, value):
    """A public name, and those of the methods and properties that its class defines."""
    yield name
    if inspect.isclass(value):
        for member, kind in vars(value).items():
            if member[0] != "_" and (
                inspect.isfunction(kind)
                or isinstance(kind, property | classmethod | staticmethod)
                or type(kind).__name__ == "cached_property"
            ):
                yield f"{name}.{member}"


NAMES = [
    member
    for names in _modules.public_names().values()
    for name, value in names.items()
    if inspect.isclass(value) or inspect.isroutine(value)
    for member in _members(name, value)
]


@pytest.mark.parametrize("name", NAMES)
def test_a_public_docstring_passes_every_check(name):
    found = [error for error in validate(name, Documented)["errors"] if error[0] in CHECKS]
    assert found == []


def _numbers():
    """Every number of every public value, with its unit."""
    for name in NAMES:
        value = Validator._load_obj(name)
        if inspect.isclass(value) and issubclass(value, Value):
            for field, unit in units_of(value).items():
                yield name, field, unit


@pytest.mark.parametrize(("name", "field", "unit"), [x for x in _numbers() if x[2] != NO_UNIT])
def test_a_number_of_a_value_is_documented_with_its_unit(name, field, unit):
    description = Documented(name).doc_all_parameters[field][1]
    assert unit.replace("^2", "²").replace("^3", "³") in description, description


def test_the_public_names_are_all_there():
    assert len(NAMES) > 200
    assert {"whimbrel.play", "whimbrel.aero.AeroTable.from_csv", "whimbrel.row.shot.Shot.carry"} <= set(NAMES)


@pytest.mark.parametrize(
    ("docstring", "error"),
    [
        ("Play a shot.\n\n    Returns\n    -------\n    float\n        Carry, m.\n", "PR01"),
        ("Play a shot.\n\n    Parameters\n    ----------\n    speed : float\n        Ball speed, m/s.\n", "RT01"),
        ("Plays a shot.\n\n    Parameters\n    ----------\n    speed\n        Ball speed\n", "SS05"),
    ],
)
def test_a_docstring_that_leaves_something_out_is_noticed(monkeypatch, docstring, error):
    def play(speed):
        return speed

    play.__doc__ = docstring
    monkeypatch.setattr("whimbrel.play", play)
    assert error in [code for code, _ in validate("whimbrel.play", Documented)["errors"]]
