"""Mistakes in what a user gave."""

from __future__ import annotations

from collections.abc import Sequence
from numbers import Integral
from reprlib import Repr

SHOWN = 10


class InputError(ValueError):
    """A caller's mistake: the message names the field, its value and what is accepted.

    ``rows`` lists the bad rows of an array, as ``(row, message)``; it is empty for a single value.
    """

    def __init__(self, message: str, rows: Sequence[tuple[object, str]] = ()) -> None:
        super().__init__(message)
        self.rows = list(rows)


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
