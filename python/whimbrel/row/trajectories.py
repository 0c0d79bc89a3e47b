"""Positions of many shots in flight, as labelled arrays."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from ..core.optional import import_xarray
from ..core.value import as_numbers, of_kind
from ..errors import InputError
from .shot import Shot

if TYPE_CHECKING:
    import xarray as xr


def trajectories(shot: Shot, times: Any) -> xr.Dataset:
    """Compute the positions of shots in flight as a Dataset; needs the ``grids`` extra.

    Parameters
    ----------
    shot : Shot
        The shots; those of more dimensions are flattened.
    times : array
        Times after launch, s, shape (n,). Before launch and after landing the ball is where it started and landed.

    Returns
    -------
    Dataset
        Position of the ball's centre, m, over (shot, time): x right, y downrange and z up.

    Raises
    ------
    InputError
        For times that are not finite numbers, and for shots from Dask arrays that are not computed.
    """
    xarray = import_xarray()
    of_kind(shot, "shot", Shot)
    seconds = np.atleast_1d(as_numbers(times, "times", "s"))
    if seconds.ndim > 1 or not seconds.size or not np.isfinite(seconds).all():
        raise InputError("times: accepted: one or more finite numbers of seconds, shape (n,)")
    where = shot.flight.position_at(seconds).reshape(-1, seconds.size, 3)
    ways = {"x": "right of the target line", "y": "downrange", "z": "height above the ground at the origin"}
    variables = {
        name: (("shot", "time"), where[..., i], {"units": "m", "long_name": long})
        for i, (name, long) in enumerate(ways.items())
    }
    axis = {"time": ("time", seconds, {"units": "s", "long_name": "time after launch"})}
    ways_in_air: xr.Dataset = xarray.Dataset(variables, axis)
    return ways_in_air
