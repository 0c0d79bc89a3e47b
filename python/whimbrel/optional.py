"""Optional packages, asked for where they are first needed."""

from __future__ import annotations

from typing import Any

from .errors import missing


def import_stats() -> Any:
    """scipy.stats, or the one-line hint."""
    try:
        import scipy.stats
    except ImportError:
        raise missing("scipy", "statistics") from None
    return scipy.stats


def import_special() -> Any:
    """scipy.special, or the one-line hint."""
    try:
        import scipy.special
    except ImportError:
        raise missing("scipy", "statistics") from None
    return scipy.special


def import_dask_array() -> Any:
    """dask.array, or the one-line hint."""
    try:
        import dask.array
    except ImportError:
        raise missing("dask", "cluster") from None
    return dask.array


def import_xarray() -> Any:
    """xarray, or the one-line hint."""
    try:
        import xarray
    except ImportError:
        raise missing("xarray", "grids") from None
    return xarray
