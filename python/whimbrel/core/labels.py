"""Labels of xarray's and pandas' arrays: numbers pair by label, and results wear the labels of what went in."""

from __future__ import annotations

import sys
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np

from ..errors import InputError
from .chunked import chunks_in
from .given_numbers import attributes, has_labels, own

#: The dimension of what has a part along x (right), y (downrange) and z (up).
AXES = ("x", "y", "z")


@dataclass(frozen=True)
class Dims:
    """Dimensions of xarray's: their sizes, in the order of the results, and all coordinates."""

    sizes: dict[Any, int]
    coords: Any

    def plain(self, x: Any) -> Any:
        """A number without its labels, along its dimensions of all of them, to broadcast."""
        if not has_labels(x):
            return x
        x = self._in_order(x)
        x = x.transpose(*(dim for dim in self.sizes if dim in x.dims))
        return x.data.reshape(tuple(x.sizes.get(dim, 1) for dim in self.sizes))

    def labelled(self, x: Any, name: str, unit: str | None) -> Any:
        """An array of a result with the labels; one that does not lie along the dimensions as it is."""
        n = len(self.sizes)
        whole, beyond = tuple(self.sizes.values()), x.shape[n:]
        if x.ndim < n or beyond not in ((), (len(AXES),)):
            return x
        if any(size not in (1, full) for size, full in zip(x.shape, whole, strict=False)):
            return x
        there = [size == full for size, full in zip(x.shape, whole, strict=False)]
        dims = [dim for dim, kept in zip(self.sizes, there, strict=True) if kept]
        x = x[tuple(slice(None) if kept else 0 for kept in there)]
        coords = {k: c for k, c in self.coords.items() if set(c.dims) <= set(dims)}
        coords |= {"axis": list(AXES)} if beyond else {}
        if not dims:
            return x.item() if isinstance(x, np.ndarray) else x
        array = _xarray().DataArray(x, dims=[*dims, *(["axis"] if beyond else [])], name=name)
        return array.assign_coords(coords).assign_attrs(attributes(name, unit))

    def _in_order(self, x: Any) -> Any:
        """The same labels in the order of the first array that had them."""
        for dim in x.dims:
            if (
                dim in self.coords.indexes
                and dim in x.indexes
                and not x.indexes[dim].equals(self.coords.indexes[dim])
            ):
                x = x.sel({dim: self.coords.indexes[dim]})
        return x


@dataclass(frozen=True)
class Rows:
    """The index of pandas' series."""

    index: Any

    def plain(self, x: Any) -> Any:
        """The numbers of a series in the order of the index."""
        if not has_labels(x):
            return x
        numbers = x.to_numpy() if x.index.equals(self.index) else x.reindex(self.index).to_numpy()
        return own(numbers, str(x.name))

    def labelled(self, x: Any, name: str, unit: str | None) -> Any:
        """An array of a result, a number a row, with the index; any other as it is."""
        if x.shape != self.index.shape or chunks_in(x) is not None:
            return x
        return sys.modules["pandas"].Series(x, index=self.index, name=name, copy=False)


Labels = Dims | Rows


def labels_of(numbers: Mapping[str, Any]) -> Labels:
    """The labels of numbers by name, some of them labelled. Raises InputError where they cannot be paired."""
    labelled = {name: x for name, x in numbers.items() if has_labels(x)}
    series = [name for name, x in labelled.items() if type(x).__name__ == "Series"]
    if series and len(series) < len(labelled):
        other = next(name for name in labelled if name not in series)
        raise InputError(f"{series[0]} is a pandas Series and {other} an xarray.DataArray; give both the same way")
    return _index_of(labelled) if series else _dims_of(labelled, numbers)


def _index_of(labelled: Mapping[str, Any]) -> Rows:
    (first, x), *others = labelled.items()
    for name, other in others:
        _check_labels(x.index, other.index, first, name, "rows")
    return Rows(x.index)


def _dims_of(labelled: Mapping[str, Any], numbers: Mapping[str, Any]) -> Dims:
    for name, x in numbers.items():
        if name not in labelled and np.ndim(x):
            raise InputError(
                f"{name} has the shape {x.shape} and no labels, beside {next(iter(labelled))}, which has: give it "
                "as an xarray.DataArray, with dims"
            )
    sizes: dict[Any, int] = {}
    first: dict[Any, str] = {}
    coords = _xarray().Dataset().coords
    for name, x in labelled.items():
        for dim, size in x.sizes.items():
            if dim not in sizes:
                sizes[dim], first[dim] = size, name
            elif sizes[dim] != size:
                raise InputError(f"{first[dim]} and {name} have {sizes[dim]} and {size} values along {dim!r}")
            elif dim in coords.indexes and dim in x.indexes:
                _check_labels(coords.indexes[dim], x.indexes[dim], first[dim], name, f"labels along {dim!r}")
        own_order = {dim: coords.indexes[dim] for dim in x.dims if dim in coords.indexes and dim in x.indexes}
        coords = coords.merge(x.sel(own_order).coords).coords
    return Dims(sizes, coords)


def _check_labels(these: Any, those: Any, one: str, other: str, what: str) -> None:
    """Refuses labels that are not the same ones, in whatever order."""
    if these.equals(those):
        return
    if not these.is_unique or not those.is_unique or len(these) != len(those) or not these.isin(those).all():
        only = [*these.difference(those)[:3], *those.difference(these)[:3]]
        raise InputError(
            f"{one} and {other} have different {what}" + (f" ({', '.join(map(str, only))} …)" if only else "")
            + ": pair them first, so that each has the same labels once"
        )  # fmt: skip


def _xarray() -> Any:
    return sys.modules["xarray"]
