"""Many rows computed some at a time: between two calls of the compiled half Python hears Ctrl-C."""

from __future__ import annotations

import time
from collections.abc import Callable
from typing import Any

import numpy as np

#: Results by name: arrays of a row each, lists of (row, what is wrong with it), or such results again.
Results = dict[str, Any]
#: Rows of the first call; the next take twice as many while a call is shorter than this, s, and half as many when
#: it is longer.
FIRST = 1024
SHORTEST, LONGEST = 0.1, 0.3


def in_pieces(rows: int, compute: Callable[[slice], Results]) -> Results:
    """The results of ``compute(some rows)`` for all rows: the bits of one call, as no row depends on another."""
    if rows <= FIRST:
        return compute(slice(0, rows))
    whole: Results = {}
    first, size = 0, FIRST
    while first < rows:
        some = slice(first, min(first + size, rows))
        began = time.perf_counter()
        _put(whole, compute(some), some, rows)
        took = time.perf_counter() - began
        if took < SHORTEST:
            size *= 2
        elif took > LONGEST:
            size = max(size // 2, 1)
        first = some.stop
    return whole


def some_of(numbers: Any, rows: slice) -> Any:
    """Some rows of numbers, of which a single one stands for all rows."""
    return numbers if len(numbers) == 1 else numbers[rows]


def _put(whole: Results, part: Results, some: slice, rows: int) -> None:
    """Puts the results of some rows among those of all."""
    for name, x in part.items():
        if isinstance(x, dict):
            _put(whole.setdefault(name, {}), x, some, rows)
        elif isinstance(x, np.ndarray):
            if name not in whole:
                order: Any = (
                    "F" if x.flags.f_contiguous else "C"
                )  # as it comes: the columns in one piece, or the rows
                whole[name] = np.empty((rows, *x.shape[1:]), x.dtype, order)
            whole[name][some] = x
        else:
            whole.setdefault(name, []).extend((some.start + row, words) for row, words in x)
