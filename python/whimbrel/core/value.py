"""What the library's value types share: named SI numbers, each a scalar or an array, that broadcast."""

from __future__ import annotations

import html
from collections.abc import Collection, Sequence
from dataclasses import MISSING
from dataclasses import fields as dataclass_fields
from functools import cache, cached_property
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
V = TypeVar("V", bound="Value")


def columns_of(kind: str) -> dict[str, str]:
    """The numbers of a C++ value type, in its order: name to SI unit."""
    return {name.split()[-1]: unit for name, unit, _, _ in _core.fields[kind]}


def ranges_of(kind: str) -> dict[str, tuple[float, float]]:
    """What the numbers of a value type accept, SI: name to least and most."""
    return {name.split()[-1]: (lower, upper) for name, _, lower, upper in _core.fields[kind]}


def as_numbers(x: Any, name: str, unit: str | None = None, wanted: str = NUMBERS) -> Array:
    """Numbers as a read-only array: Dask's are computed, labels left out."""
    return np.asarray(own(x, name, unit, wanted), dtype=np.float64)


class Column:
    """A number of a value: on the class its default, of a result read from its column when first asked for."""

    def __init__(self, name: str, at: int, default: Any) -> None:
        self.name, self.at, self.default = name, at, default

    def __get__(self, value: Value | None, kind: type[Value]) -> Any:
        if value is not None and value._result is not None:
            columns, shape = value._result
            x = value.__dict__[self.name] = unpack(columns[self.at], shape)
            return x
        if value is not None or self.default is MISSING:
            raise AttributeError(f"{kind.__name__} has no {self.name}")
        return self.default


class Value:
    """Base of the value types: frozen dataclasses whose numbers are those of the C++ type.

    A value owns its numbers: floats, read-only copies of what was given, Dask arrays, or arrays with labels. One
    that is a result holds the columns that were computed, and unpacks a number when it is asked for. What else
    follows from the numbers is worked out once, as they never change, and no copy takes it along.
    """

    _columns: ClassVar[dict[str, str]] = {}
    #: Of a result: its columns, a number each, and the user's shape.
    _result: tuple[Any, Shape] | None = None
    #: The names of the numbers that are arrays, of any kind; none where all are scalars.
    _arrays: Collection[str] = ()
    #: Whether any of them has labels, xarray's or pandas'.
    _labelled: bool = False

    def __init_subclass__(cls, kind: str = "", **more: Any) -> None:
        super().__init_subclass__(**more)
        if kind:
            cls._columns = columns_of(kind)
            for at, name in enumerate(cls._columns):
                setattr(cls, name, Column(name, at, cls.__dict__.get(name, MISSING)))

    def __post_init__(self) -> None:
        numbers = self.__dict__
        for name, unit in self._columns.items():
            x = numbers[name]
            if type(x) is float or (x is None and getattr(type(self), name, 0.0) is None):
                continue
            numbers[name] = own(x, name, unit)
        self._note_arrays()

    def _note_arrays(self) -> None:
        numbers = self.__dict__
        arrays = [
            name for name in self._columns if numbers[name] is not None and not isinstance(numbers[name], float)
        ]
        if arrays:
            numbers |= {"_arrays": arrays, "_labelled": any(has_labels(numbers[name]) for name in arrays)}

    def __getstate__(self) -> dict[str, Any]:
        return {field.name: getattr(self, field.name) for field in dataclass_fields(self)}  # type: ignore[arg-type]

    def __setstate__(self, state: dict[str, Any]) -> None:
        self.__dict__.update(keep_frozen(state))
        self._note_arrays()

    @cached_property
    def _row(self) -> Array:
        """Scalars as one row for the compiled half."""
        row = np.array([[getattr(self, name) for name in self._columns]])
        row.flags.writeable = False
        return row

    def _array_numbers(self) -> dict[str, Any]:
        """The numbers that are arrays, NumPy's or Dask's; labelled ones along the dimensions of all of them."""
        arrays = {name: getattr(self, name) for name in self._arrays}
        if self._labelled:
            labels = labels_of(arrays)
            arrays = {name: labels.plain(x) for name, x in arrays.items()}
        return arrays

    def _numbers(self) -> dict[str, Any]:
        """Every number as an array, NumPy's or Dask's; labelled ones along the dimensions of all of them."""
        arrays = self._array_numbers()
        return {name: arrays[name] if name in arrays else np.asarray(getattr(self, name)) for name in self._columns}

    @property
    def shape(self) -> Shape:
        """The broadcast shape of the numbers; ``()`` for scalars."""
        if self._result is not None:
            return self._result[1]
        return np.broadcast_shapes(*(x.shape for x in self._array_numbers().values()))

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


def from_columns(kind: type[V], columns: Any, shape: Shape, **others: Any) -> V:
    """A result from columns of the compiled half, in the user's shape, each unpacked when it is asked for.

    A column of one number stands for all rows. others: every field that is no number and has no plain default.
    """
    value = object.__new__(kind)
    value.__dict__.update(others, _result=(columns, shape), _arrays=kind._columns if shape else ())
    return value


def with_fields(value: V, **fields: Any) -> V:
    """The same with other fields, which are the library's own already."""
    new = object.__new__(type(value))
    new.__setstate__(value.__getstate__() | fields)
    return new


def from_table(kind: type[V], table: Array, shape: Shape, **others: Any) -> V:
    """The same from rows of the compiled half."""
    return from_columns(kind, table.T, shape, **others)


def is_labelled(value: Value) -> bool:
    """Whether any number of a value has labels, xarray's or pandas'."""
    return value._labelled


def describe_fields(value: Value) -> list[tuple[str, str]]:
    """Each public field of a value and how it reads."""
    return value._described()


def is_lazy(*values: Value) -> bool:
    """Whether any number of any value is still to be computed by Dask."""
    return any(
        chunks_in(getattr(value, name)) is not None
        for value in values
        if value._result is None
        for name in value._arrays
    )


def is_scalar(value: Value) -> bool:
    """Whether every number of a value is a scalar."""
    return not value._arrays


def compute_value(value: Any, **how: Any) -> Any:
    """A value, or a dataclass of values, with plain arrays for Dask's."""
    from dask.base import compute

    return compute(value, **how)[0]  # type: ignore[no-untyped-call]


def unpack(column: Any, shape: Shape) -> Any:
    """A column of a result as the user's shape, read-only: a plain scalar for shape ()."""
    if shape == ():
        return column[0].item()
    return np.broadcast_to(freeze(column), shape) if len(column) == 1 else freeze(column).reshape(shape)


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


@cache
def default_of(kind: type) -> Any:
    """The default of a kind: one for all calls, as values never change."""
    return kind()


def value_or_default(value: Any, name: str, kind: type, *others: type) -> Any:
    """An argument, or the default of its first kind for None. Raises InputError where it is of no such kind."""
    if value is None:
        return default_of(kind)
    of_kind(value, name, kind, *others)
    return value


def common_shape(values: Sequence[Value], **numbers: Array) -> Shape:
    """The shape that all numbers of all values, and other numbers, broadcast to."""
    shapes = {
        f"{type(v).__name__.lstrip('_')}.{name}": x.shape
        for v in values
        if v._arrays
        for name, x in v._array_numbers().items()
        if x.ndim
    } | {name: x.shape for name, x in numbers.items() if x.ndim}
    different = set(shapes.values())
    if len(different) < 2:
        return different.pop() if different else ()
    try:
        return np.broadcast_shapes(*shapes.values())
    except ValueError:
        listed = ", ".join(f"{name} {shape}" for name, shape in shapes.items())
        raise InputError(f"these shapes do not broadcast together: {listed}") from None


def table_of(value: Value, shape: Shape) -> Array:
    """A value as rows for the compiled half: one row where all its numbers are scalars."""
    if not value._arrays:
        return value._row
    if value._result is not None and value._result[1] == shape and isinstance(value._result[0], np.ndarray):
        return value._result[0].T
    return np.stack([np.broadcast_to(np.asarray(x), shape).ravel() for x in value._numbers().values()], axis=1)
