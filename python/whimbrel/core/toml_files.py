"""TOML files of the user, with one sentence for each mistake in them."""

from __future__ import annotations

import os
import tomllib
from typing import Any

from ..errors import InputError, short
from .files import readable


def read_toml(path: str | os.PathLike[str]) -> dict[str, Any]:
    """The content of a TOML file. Raises InputError for a file that cannot be read or is not TOML."""
    path = readable(path)
    try:
        return tomllib.loads(path.read_text(encoding="utf-8-sig"))
    except RecursionError:
        raise InputError(f"{path}: cannot be read: its arrays or tables are nested too deeply") from None
    except ValueError as error:  # of the syntax, of the encoding, or a number of thousands of digits
        raise InputError(f"{path}: not a TOML file: {error}") from None


def number_of(x: object, name: str) -> float:
    """The number of a TOML file, or InputError: text, nan, and what is too large for one."""
    try:
        number = float(x) if isinstance(x, int | float) and not isinstance(x, bool) else None
    except OverflowError:
        raise InputError(f"{name} is too large for a number: more than 308 digits") from None
    if number is None or number != number:
        raise InputError(f"{name} is {short(x)}, not a number")
    return number
