"""Regions of any outline for balls to finish in, beside the shapes of ``aim``, and the share of shots in one."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from ..core.value import Array, as_numbers
from ..errors import InputError
from .best_aim import Target, wilson


@dataclass(frozen=True)
class Polygon:
    """A region inside a closed line of straight edges. corners: (offline, downrange) of each in order, m.

    Where the line crosses itself, what it goes around twice is outside.
    """

    corners: tuple[tuple[float, float], ...]

    def __init__(self, corners: Sequence[Sequence[float]] | Array) -> None:
        points = as_numbers(corners, "polygon: corners")
        if points.ndim != 2 or points.shape[1] != 2 or len(points) < 3 or not np.isfinite(points).all():
            raise InputError(
                "polygon: corners are at least three finite pairs (offline, downrange), m; "
                f"these have the shape {points.shape}"
            )
        object.__setattr__(self, "corners", tuple((float(x), float(y)) for x, y in points))
        if self.area == 0.0:
            raise InputError("polygon: its corners lie on a line, it has no inside")

    @property
    def area(self) -> float:
        """m², of a line that does not cross itself."""
        x, y = np.array(self.corners).T
        x, y = x - x[0], y - y[0]
        return float(abs(np.sum(x * np.roll(y, -1) - np.roll(x, -1) * y)) / 2)

    def holds(self, offline: Array, downrange: Array) -> Array:
        """Which points lie inside: a ray from them crosses the line an odd number of times."""
        x, y = np.broadcast_arrays(np.asarray(offline, float), np.asarray(downrange, float))
        inside = np.zeros(x.shape, bool)
        for (x1, y1), (x2, y2) in zip(self.corners, (*self.corners[1:], self.corners[0]), strict=True):
            if y1 != y2:
                beside = x < x1 + (y - y1) * (x2 - x1) / (y2 - y1)
                inside ^= ((y1 > y) != (y2 > y)) & beside
        return inside


#: What a share of the landings can be asked for.
Region = Target | Polygon


class Share(NamedTuple):
    """The share of the samples that finish in a region, with its standard error and 95 % Wilson interval.

    hits of n samples. Samples that failed count as outside.
    """

    region: Region
    hits: int
    n: int
    share: float
    standard_error: float
    low: float
    high: float


def share_of(region: Region, hits: int, n: int) -> Share:
    """The share that hits of n samples are."""
    p = hits / n
    return Share(region, hits, n, p, math.sqrt(p * (1 - p) / n), *wilson(hits, n))
