"""Optional packages, asked for where they are first needed: each the module, or the one-line hint how to get it."""

from __future__ import annotations

from importlib import import_module
from typing import Any

from ..errors import missing


def _module(name: str, extra: str) -> Any:
    try:
        return import_module(name)
    except ImportError:
        raise missing(name.partition(".")[0], extra) from None


def import_stats() -> Any:
    """scipy.stats."""
    return _module("scipy.stats", "statistics")


def import_special() -> Any:
    """scipy.special."""
    return _module("scipy.special", "statistics")


def import_dask_array() -> Any:
    """dask.array."""
    return _module("dask.array", "cluster")


def import_delayed() -> Any:
    """dask.delayed, the function."""
    return _module("dask.delayed", "cluster").delayed


def import_xarray() -> Any:
    """xarray."""
    return _module("xarray", "grids")


def import_pyplot() -> Any:
    """matplotlib.pyplot."""
    return _module("matplotlib.pyplot", "plots")


def import_tqdm() -> Any:
    """tqdm.auto."""
    return _module("tqdm.auto", "grids")


def import_jinja() -> Any:
    """jinja2."""
    return _module("jinja2", "pages")
