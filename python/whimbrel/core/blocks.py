"""A function of values whose numbers are in Dask's chunks, called once a block."""

from __future__ import annotations

import warnings
from collections.abc import Callable
from dataclasses import fields, replace
from functools import partial
from itertools import chain
from typing import Any

import numpy as np

from ..errors import InputError
from .chunked import chunks_in
from .optional import import_dask_array
from .value import Shape, Value, numbers_of

#: Arguments by name, values among them.
Given = dict[str, Any]
#: Of a value's number: the argument and the field.
Name = tuple[str, str]
#: The steps to an array inside a result: attributes, keys and indices.
Way = tuple[Any, ...]


def in_blocks(function: Callable[..., Any], given: Given) -> Any:
    """A Dask array whose blocks are what the function makes of each block's numbers, objects of any kind."""
    da = import_dask_array()
    varying = _varying(given)
    numbers = [da.from_array(x, chunks=-1) if chunks_in(x) is None else x for x in varying.values()]
    blank = _fill(given, dict.fromkeys(varying, np.nan))
    task = partial(_on_block, function, blank, tuple(varying))
    rows = [(x, range(x.ndim)[::-1]) for x in numbers]  # the last dimension is 0: so they broadcast
    ndim = max(x.ndim for x in numbers)
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", da.PerformanceWarning)  # of many chunks: axes that multiply are meant
        return da.blockwise(
            task, range(ndim)[::-1], *chain(*rows), dtype=object, meta=_no_rows(ndim), token="block"
        )


def next_in_blocks(function: Callable[[Any], Any], blocks: Any) -> Any:
    """As ``in_blocks``, of the results there; the function may ask for Dask's ``block_info``."""
    return blocks.map_blocks(function, dtype=object, meta=_no_rows(blocks.ndim))


def in_chunks(given: Given, chunks: Any, shape: Shape) -> Given:
    """The arguments with Dask arrays for their arrays, cut as chunks, as Dask takes them, cut the whole shape."""
    da = import_dask_array()
    try:
        whole = da.core.normalize_chunks(chunks, shape, dtype=np.float64)
    except (TypeError, ValueError) as error:
        raise InputError(f"chunks is {chunks!r}: {error}") from None
    cut = {
        name: da.from_array(x, tuple(c if n > 1 else 1 for c, n in zip(whole[-x.ndim :], x.shape, strict=True)))
        for name, x in _varying(given).items()
    }
    return _fill(given, cut)


def pattern_of(function: Callable[..., Any], given: Given, shape: Shape) -> Any:
    """The function's result for one row without numbers: shows which arrays a result has, and of which kind."""
    row = np.full((1,) * max(1, len(shape)), np.nan)
    return function(**_fill(given, dict.fromkeys(_varying(given), row)))


def views_of(pattern: Any, blocks: Any, way: Way = ()) -> Any:
    """The pattern with Dask arrays for its arrays, each a view of all blocks; ``way`` leads to it in a block."""
    if isinstance(pattern, np.ndarray):
        beyond = dict(enumerate(pattern.shape[max(1, blocks.ndim) :], blocks.ndim))  # of vectors
        rows = tuple(range(blocks.ndim))
        return import_dask_array().blockwise(
            partial(_there, way),
            (*rows, *beyond),
            blocks,
            rows,
            new_axes=beyond,
            token=str(way[-1]),
            dtype=pattern.dtype,
            meta=np.empty((0,) * (len(rows) + len(beyond)), pattern.dtype),
        )
    if isinstance(pattern, dict):
        return {name: views_of(x, blocks, (*way, name)) for name, x in pattern.items()}
    if isinstance(pattern, Value):
        own = [field.name for field in fields(pattern)]  # type: ignore[arg-type]
        return replace(pattern, **{name: views_of(getattr(pattern, name), blocks, (*way, name)) for name in own})  # type: ignore[type-var]
    return pattern


def _no_rows(ndim: int) -> Any:
    return np.empty((0,) * ndim, object)


def _varying(given: Given) -> dict[Name, Any]:
    """Every number of the values that is an array, plain or in chunks."""
    return {
        (argument, name): x
        for argument, value in given.items()
        if isinstance(value, Value)
        for name, x in numbers_of(value).items()
        if x.ndim or chunks_in(x) is not None
    }


def _fill(given: Given, numbers: dict[Name, Any]) -> Given:
    """The arguments with other numbers in some fields of their values."""
    changed: dict[str, dict[str, Any]] = {}
    for (argument, name), x in numbers.items():
        changed.setdefault(argument, {})[name] = x
    return {**given, **{argument: replace(given[argument], **new) for argument, new in changed.items()}}


def _on_block(function: Callable[..., Any], blank: Given, names: tuple[Name, ...], *numbers: Any) -> Any:
    return function(**_fill(blank, dict(zip(names, numbers, strict=True))))


def _there(way: Way, result: Any) -> Any:
    for step in way:
        result = result[step] if isinstance(result, dict | tuple) else getattr(result, step)
    return np.asarray(result)
