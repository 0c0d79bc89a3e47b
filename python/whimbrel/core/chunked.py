"""Numbers in chunks, Dask's, known without importing Dask."""

from __future__ import annotations

import sys
from typing import Any

from ..errors import InputError


def chunks_in(x: Any) -> Any:
    """The Dask array that ``x`` is, or that an xarray.DataArray holds; None for anything else."""
    if isinstance(x, float):  # nearly always, and asked often
        return None
    dask, xarray = sys.modules.get("dask.array"), sys.modules.get("xarray")
    if dask is None:
        return None
    if xarray is not None and isinstance(x, xarray.DataArray) and x.chunks is not None:
        x = x.data
    return x if isinstance(x, dask.Array) else None


def check_chunks(x: Any, name: str) -> Any:
    """A Dask array as one of double numbers, still in its chunks. Raises InputError if it cannot be one."""
    if x.dtype.kind not in "iuf":
        raise InputError(f"{name} is a Dask array of {x.dtype}, not of numbers")
    if any(n != n for n in x.shape):
        raise InputError(f"{name} has chunks of unknown length: call its compute_chunk_sizes() first")
    return x.astype("f8")


def describe_chunks(x: Any) -> str:
    """How a Dask array reads where its numbers are not known yet."""
    return f"not computed, shape {x.shape}, chunks {x.chunksize}"
