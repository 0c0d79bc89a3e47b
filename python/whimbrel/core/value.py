"""What the library's value types share: named SI numbers, each a scalar or an array, that broadcast."""

from __future__ import annotations

import html
from collections.abc import Sequence
from dataclasses import fields as dataclass_fields
from typing import Any, ClassVar, Self, TypeVar

import numpy as np

from .. import _core
from ..errors import InputError
from .chunked import chunks_in, describe_chunks
from .given_numbers import NUMBERS, freeze, has_labels, keep_frozen, own
from .given_numbers import Array as Array
from .labels import labels_of
from .quantity import reading

#: A number of a value: a scalar or an array.
Number = float | Array
Shape = tuple[int, ...]
Kind = TypeVar("Kind")
V = TypeVar("V", bound="Value")


def columns_of(kind: str) -> dict[str, str]:
    """The numbers of a C++ value type, in its order: name to SI unit."""
    return {name.split()[-1]: unit for name, unit, _, _ in _core.fields[kind]}


def as_numbers(x: Any, name: str, unit: str | None = None, wanted: str = NUMBERS) -> Array:
    """Numbers as a read-only array: Dask's are computed, labels left out."""
    return np.asarray(own(x, name, unit, wanted), dtype=np.float64)


class Value:
    """Base of the value types: frozen dataclasses whose numbers are those of the C++ type.

    A value owns its numbers: floats, read-only copies of what was given, Dask arrays, or arrays with labels.
    """

    _columns: ClassVar[dict[str, str]] = {}
    #: Whether any number has labels, xarray's or pandas'.
    _labelled: ClassVar[bool] = False

    def __init_subclass__(cls, kind: str = "", **more: Any) -> None:
        super().__init_subclass__(**more)
        if kind:
            cls._columns = columns_of(kind)

    def __post_init__(self) -> None:
        numbers = self.__dict__
        for name, unit in self._columns.items():
            x = numbers[name]
            if type(x) is float or (x is None and getattr(type(self), name, 0.0) is None):
                continue
            numbers[name] = x = own(x, name, unit)
            if has_labels(x):
                numbers["_labelled"] = True

    def __setstate__(self, state: dict[str, Any]) -> None:
        self.__dict__.update(keep_frozen(state))

    def _numbers(self) -> dict[str, Any]:
        """Every number as an array, NumPy's or Dask's; labelled ones along the dimensions of all of them."""
        numbers = {name: self.__dict__[name] for name in self._columns}
        if self._labelled:
            labels = labels_of(numbers)
            numbers = {name: labels.plain(x) for name, x in numbers.items()}
        return {name: np.asarray(x) if chunks_in(x) is None else x for name, x in numbers.items()}

    @property
    def shape(self) -> Shape:
        """The broadcast shape of the numbers; ``()`` for scalars."""
        return np.broadcast_shapes(*(x.shape for x in self._numbers().values()))

    def compute(self, **how: Any) -> Self:
        """The same with plain arrays for Dask's, all computed together; keywords go to ``dask.compute``."""
        plain: Self = compute_value(self, **how) if is_lazy(self) else self
        return plain

    def _described(self) -> list[tuple[str, str]]:
        """Each public field and how it reads."""
        lines = []
        for field in dataclass_fields(self):  # type: ignore[arg-type]
            if not field.repr:
                continue
            x = getattr(self, field.name)
            unit = self._columns.get(field.name)
            if (chunks := chunks_in(x)) is not None:
                words = describe_chunks(chunks)
            else:
                words = repr(x) if unit is None or x is None else reading(x, field.name, unit)
            lines.append((field.name, words))
        return lines

    def __repr__(self) -> str:
        inside = ", ".join(f"{name}={words}" for name, words in self._described())
        return f"{type(self).__name__}({inside})"

    def _repr_html_(self) -> str:
        return html_table({type(self).__name__: self._described()})


def units_of(kind: type[Value] | Value) -> dict[str, str]:
    """The numbers of a value or a type of values, in their order: name to SI unit."""
    return kind._columns


def numbers_of(value: Value) -> dict[str, Any]:
    """Every number of a value as an array, NumPy's or Dask's; labelled ones along the dimensions of all of them."""
    return value._numbers()


def from_table(kind: type[V], table: Array, shape: Shape, **others: Any) -> V:
    """A value from rows of the compiled half, in the user's shape; others: its fields that are no numbers."""
    numbers = {name: unpack(table[:, i], shape) for i, name in enumerate(units_of(kind))}
    return kind(**numbers, **others)


def is_labelled(value: Value) -> bool:
    """Whether any number of a value has labels, xarray's or pandas'."""
    return value._labelled


def describe_fields(value: Value) -> list[tuple[str, str]]:
    """Each public field of a value and how it reads."""
    return value._described()


def is_lazy(*values: Value) -> bool:
    """Whether any number of any value is still to be computed by Dask."""
    return any(chunks_in(getattr(value, name)) is not None for value in values for name in value._columns)


def compute_value(value: Any, **how: Any) -> Any:
    """A value, or a dataclass of values, with plain arrays for Dask's."""
    from dask.base import compute

    return compute(value, **how)[0]  # type: ignore[no-untyped-call]


def unpack(column: Any, shape: Shape) -> Any:
    """A column of a result as the user's shape, read-only: a plain scalar for shape ()."""
    return column[0].item() if shape == () else freeze(column).reshape(shape)


def html_table(groups: dict[str, list[tuple[str, str]]]) -> str:
    """Groups of named readings as a small table for notebooks."""
    left, right = 'style="text-align:left;vertical-align:top"', 'style="text-align:right"'
    rows = []
    for group, lines in groups.items():
        for i, (name, words) in enumerate(lines):
            stage = f'<th rowspan="{len(lines)}" {left}>{html.escape(group)}</th>' if i == 0 else ""
            label = html.escape(name.replace("_", " "))
            rows.append(f"<tr>{stage}<td {left}>{label}</td><td {right}>{html.escape(words)}</td></tr>")
    return "<table>" + "".join(rows) + "</table>"


def of_kind(value: object, name: str, *kinds: type) -> None:
    """Refuses an argument of the wrong kind by its name."""
    if not isinstance(value, kinds):
        wanted = " or ".join(kind.__name__ for kind in kinds)
        raise InputError(f"{name} is {value!r}; it takes a {wanted}")


def value_or_default(value: Any, name: str, kind: type[Kind], *others: type) -> Any:
    """An argument, or the default of its first kind for None. Raises InputError for other kinds."""
    if value is None:
        return kind()
    of_kind(value, name, kind, *others)
    return value


def common_shape(values: Sequence[Value], **numbers: Array) -> Shape:
    """The shape that all numbers of all values, and other numbers, broadcast to."""
    shapes = {
        f"{type(v).__name__.lstrip('_')}.{name}": x.shape
        for v in values
        for name, x in v._numbers().items()
        if x.ndim
    } | {name: x.shape for name, x in numbers.items() if x.ndim}
    try:
        return np.broadcast_shapes(*shapes.values())
    except ValueError:
        listed = ", ".join(f"{name} {shape}" for name, shape in shapes.items())
        raise InputError(f"these shapes do not broadcast together: {listed}") from None


def table_of(value: Value, shape: Shape) -> Array:
    """A value as rows for the compiled half: one row where all its numbers are scalars."""
    numbers = [np.asarray(x) for x in value._numbers().values()]
    if all(x.ndim == 0 for x in numbers):
        return np.array([[float(x) for x in numbers]])
    return np.stack([np.broadcast_to(x, shape).ravel() for x in numbers], axis=1)
