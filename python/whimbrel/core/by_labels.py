"""Functions of values whose numbers have labels: numbers pair by label, and results get the labels."""

from __future__ import annotations

import inspect
from collections.abc import Callable
from copy import copy
from dataclasses import dataclass, fields, is_dataclass
from functools import wraps
from typing import Any, ParamSpec, TypeVar

import numpy as np

from .chunked import chunks_in
from .given_numbers import has_labels, own
from .labels import Labels, labels_of
from .value import Value, is_labelled, units_of, with_fields

P = ParamSpec("P")
T = TypeVar("T")


def by_labels(verb: Callable[P, T]) -> Callable[P, T]:
    """The verb, for labelled numbers too: it is called with plain ones, its results get the labels."""

    @wraps(verb)
    def paired(*given: P.args, **named: P.kwargs) -> T:
        if not any(map(_is_labelled, given)) and not any(map(_is_labelled, named.values())):
            return verb(*given, **named)
        called = inspect.signature(verb).bind(*given, **named)
        arguments = {name: _own(x, name) for name, x in _flat(called).items()}
        labels = labels_of(_numbers_of(arguments))
        plain = {name: _plain(x, labels) for name, x in arguments.items()}
        positional = [plain[name] for name in list(called.arguments)[: len(given)]]
        keywords = {name: x for name, x in plain.items() if name not in list(called.arguments)[: len(given)]}
        result: T = wear(verb(*positional, **keywords), labels)
        return result

    return paired


@dataclass(frozen=True)
class WornLater:
    """What a call will give, with labels."""

    call: Callable[[], Any]
    labels: Labels

    def __call__(self) -> Any:
        return wear(self.call(), self.labels)


def wear(result: Any, labels: Labels, name: str = "", unit: str | None = None) -> Any:
    """A result with labelled arrays for its arrays."""
    if isinstance(result, np.ndarray) or chunks_in(result) is not None:
        return labels.labelled(result, name, unit)
    if isinstance(result, dict):
        return {key: wear(x, labels, key if isinstance(key, str) else "_by_".join(map(str, key)), None)
                if isinstance(key, str | tuple) else x for key, x in result.items()}  # fmt: skip
    if isinstance(result, tuple) and type(result) is tuple:
        return tuple(wear(x, labels) for x in result)
    if not is_dataclass(result) or isinstance(result, type):
        return result
    units = units_of(result) if isinstance(result, Value) else {}
    worn = {}
    for field in fields(result):
        x = getattr(result, field.name)
        worn[field.name] = (
            WornLater(x, labels) if field.name == "play_run" else wear(x, labels, field.name, units.get(field.name))
        )
    if isinstance(result, Value):
        return with_fields(result, **worn)
    new = copy(result)
    new.__dict__.update(worn)
    return new


def _is_labelled(x: Any) -> bool:
    return is_labelled(x) if isinstance(x, Value) else has_labels(x)


def _flat(called: inspect.BoundArguments) -> dict[str, Any]:
    """The arguments by name, those of ``**`` among them."""
    flat = {}
    for name, x in called.arguments.items():
        if called.signature.parameters[name].kind is inspect.Parameter.VAR_KEYWORD:
            flat.update(x)
        else:
            flat[name] = x
    return flat


def _own(x: Any, name: str) -> Any:
    return own(x, name) if has_labels(x) else x


def _numbers_of(arguments: dict[str, Any]) -> dict[str, Any]:
    numbers: dict[str, Any] = {}
    for argument, x in arguments.items():
        if isinstance(x, Value):
            numbers |= {f"{type(x).__name__.lstrip('_')}.{name}": getattr(x, name) for name in units_of(x)}
        elif has_labels(x) or isinstance(x, np.ndarray):
            numbers[argument] = x
    return numbers


def _plain(x: Any, labels: Labels) -> Any:
    if not isinstance(x, Value):
        return labels.plain(x)
    if not is_labelled(x):
        return x
    return with_fields(x, **{name: labels.plain(getattr(x, name)) for name in units_of(x)})
