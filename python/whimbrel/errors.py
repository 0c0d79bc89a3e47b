"""Mistakes in what a user gave."""

from __future__ import annotations

import sys
import warnings
from collections.abc import Sequence
from numbers import Integral
from reprlib import Repr
from types import FrameType

SHOWN = 10


class InputError(ValueError):
    """A caller's mistake: the message names the field, its value and what is accepted.

    Parameters
    ----------
    message : str
        What is wrong.
    rows : sequence of (row, message)
        The bad rows of an array; empty for a single value.
    """

    def __init__(self, message: str, rows: Sequence[tuple[object, str]] = ()) -> None:
        super().__init__(message)
        self.rows = list(rows)


class InputWarning(UserWarning):
    """An accepted value, or a missing one, that is probably a mistake."""


def warn(message: str) -> None:
    """Warns of something likely not meant, at the line of the caller's that led to it."""
    frame: FrameType | None = sys._getframe(1)
    level = 2
    while frame is not None and _is_ours(frame):
        frame, level = frame.f_back, level + 1
    warnings.warn(message, InputWarning, stacklevel=level)


def made_by_caller() -> bool:
    """Whether the value under construction, which asks, was asked for from outside the library."""
    frame: FrameType | None = sys._getframe(3)  # past __post_init__ and __init__
    while frame is not None and frame.f_globals.get("__name__") in ("dataclasses", "copy"):
        frame = frame.f_back
    return frame is None or not _is_ours(frame)


def _is_ours(frame: FrameType) -> bool:
    name = frame.f_globals.get("__name__", "")
    return name in ("dataclasses", "copy") or name.partition(".")[0] == __name__.partition(".")[0]


def bad_rows(rows: Sequence[tuple[object, str]], of: int) -> InputError:
    """One error for the bad rows of an array: the first ten are named; what is wrong with all is said once."""
    if len(rows) == of and len({message for _, message in rows}) == 1:
        return InputError(rows[0][1], rows)
    lines = first_of([f"row {row}: {message}" for row, message in rows])
    count = "1 row is" if len(rows) == 1 else f"{len(rows)} rows are"
    return InputError(f"{count} bad, of {of}:\n  " + "\n  ".join(lines), rows)


_SHORT = Repr()
_SHORT.maxstring = _SHORT.maxother = _SHORT.maxlong = 60


def short(x: object) -> str:
    """A value as Python writes it, cut where it is long or deep."""
    try:
        return _SHORT.repr(x)
    except ValueError:  # Python writes no whole number of more than 4300 digits
        return "a number of thousands of digits"


def whole(x: object, name: str, least: int, below: int, accepted: str) -> int:
    """A whole number in its range, or an InputError that says which are ``accepted``."""
    if isinstance(x, bool) or not isinstance(x, Integral) or not least <= int(x) < below:
        raise InputError(f"{name} is {short(x)}; accepted: a whole number {accepted}")
    return int(x)


def first_of(lines: Sequence[str]) -> list[str]:
    """The first ten of some lines, and how many more there are."""
    more = len(lines) - SHOWN
    return [*lines[:SHOWN], *([f"and {more:,} more."] if more > 0 else [])]


def refuse(mistakes: Sequence[tuple[object, str]], of: int) -> None:
    """Raises the error of the bad rows, if there are any."""
    if mistakes:
        raise bad_rows(mistakes, of)


class MissingPackage(ImportError):
    """An optional package is not installed; the message says how to get it."""


def missing(package: str, extra: str) -> MissingPackage:
    """The one-line hint for a package of an optional extra."""
    return MissingPackage(f"this needs {package}: pip install 'whimbrel[{extra}]'")
