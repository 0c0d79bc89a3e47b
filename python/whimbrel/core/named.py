"""Things known by name, with a helpful answer to a wrong one."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any, ClassVar, TypeVar

from ..errors import InputError

T = TypeVar("T")


class Named(Mapping[str, T]):
    """A mapping by name whose ``[]`` raises InputError listing the names there are."""

    kind: ClassVar[str]

    def __init__(self, members: Mapping[str, T]) -> None:
        self._members = dict(members)

    def __getitem__(self, name: str) -> T:
        if name not in self._members:
            raise InputError(f"no {self.kind} is called {name!r}; there are: {', '.join(self._members)}")
        return self._members[name]

    def __contains__(self, name: object) -> bool:
        return name in self._members

    def get(self, name: str, default: Any = None) -> Any:
        return self._members.get(name, default)

    def __iter__(self) -> Iterator[str]:
        return iter(self._members)

    def __len__(self) -> int:
        return len(self._members)

    def __repr__(self) -> str:
        return f"{type(self).__name__}({', '.join(self._members)})"
