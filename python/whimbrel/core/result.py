"""The base of results, which describes and draws them by modules that are imported when needed."""

from __future__ import annotations

from importlib import import_module
from typing import Any, ClassVar


class Result:
    """Base of results that ``whimbrel.words.<view>`` describes and ``whimbrel.plots.<view>`` draws.

    Both are imported when needed: a result by itself needs neither.
    """

    _view: ClassVar[str]

    def __init_subclass__(cls, view: str = "", **more: Any) -> None:
        super().__init_subclass__(**more)
        if view:
            cls._view = view

    def _words(self) -> Any:
        """The module that describes such results."""
        return import_module(f"whimbrel.words.{self._view}")

    def _plots(self) -> Any:
        """The module that draws such results; needs the ``plots`` extra."""
        return import_module(f"whimbrel.plots.{self._view}")
