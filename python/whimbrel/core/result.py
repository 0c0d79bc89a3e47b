"""What results share: modules found when asked say them in words and draw them."""

from __future__ import annotations

from importlib import import_module
from typing import Any, ClassVar


class Result:
    """Base of results that ``whimbrel.words.<view>`` says in words and ``whimbrel.plots.<view>`` draws.

    Both are found by name when a result is asked, so that data need neither prose nor matplotlib.
    """

    _view: ClassVar[str]

    def __init_subclass__(cls, view: str = "", **more: Any) -> None:
        super().__init_subclass__(**more)
        if view:
            cls._view = view

    def _words(self) -> Any:
        """The module that says such results in words."""
        return import_module(f"whimbrel.words.{self._view}")

    def _plots(self) -> Any:
        """The module that draws such results; needs the ``plots`` extra."""
        return import_module(f"whimbrel.plots.{self._view}")
