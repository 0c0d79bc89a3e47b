"""Things of a user's own from a TOML file: one ``[[kind]]`` each, numbers with their unit in the key."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping
from pathlib import Path
from types import MappingProxyType
from typing import Any, TypeVar

from ..errors import InputError, short
from .quantity import Written, assign
from .toml_files import number_of, read_toml

T = TypeVar("T")


def load(path: str | Path, kind: str, make: Callable[[str, dict[str, Any]], T]) -> dict[str, T]:
    """What ``make(name, entry)`` gives for every ``[[kind]]`` of the file, by name.

    Raises InputError naming the file, the entry and what is wrong.
    """
    entries = read_toml(path).get(kind, [])
    if not isinstance(entries, list) or not entries:
        raise InputError(f"{path}: it has no [[{kind}]]")
    found: dict[str, T] = {}
    for place, entry in enumerate(entries, start=1):
        where = f"{path}, {kind} {place}"
        if not isinstance(entry, dict):
            raise InputError(f"{where}: {short(entry)} is not a [[{kind}]]")
        entry = dict(entry)
        name = entry.pop("name", None)
        if not isinstance(name, str) or not name:
            raise InputError(f"{where}: needs a name")
        if name in found:
            raise InputError(f"{where}: {name!r} is given twice")
        try:
            found[name] = make(name, entry)
        except InputError as error:
            raise InputError(f"{where} ({name}): {error}") from None
    return found


def numbers(
    entry: Mapping[str, Any],
    fields: Mapping[str, str],
    needs: Collection[str] = (),
    ranges: Mapping[str, tuple[float, float]] = MappingProxyType({}),
) -> dict[str, float]:
    """The numbers of an entry in SI, by field; unknown keys, text, missing fields and what is outside its range are
    an InputError."""
    keys = assign(entry, fields)
    known = {key for key, _ in keys.values()}
    given: dict[str, float] = {}
    for key, x in entry.items():
        if key not in known:
            raise InputError(f"{short(key)} is not known; known: {', '.join(fields)}, name")
        given[key] = number_of(x, key)
    missing = [field for field in needs if field not in keys]
    if missing:
        raise InputError(f"lacks {', '.join(missing)}")
    found = {}
    for field, (key, unit) in keys.items():
        written = Written(f"{given[key]:g}", unit, unit.to_si(given[key]))
        found[field] = written.check(field, *ranges[field]) if field in ranges else written.si
    return found
