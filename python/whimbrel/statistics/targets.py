"""Targets, regions of the ground of several shapes, and the share of shots that finish in one."""

from __future__ import annotations

import math
from abc import ABC, abstractmethod
from collections.abc import Sequence
from dataclasses import dataclass
from typing import ClassVar, NamedTuple

import numpy as np

from ..core.optional import import_stats
from ..core.value import Array, as_numbers
from ..errors import InputError


class Target(ABC):
    """Where balls should finish: a region of the ground.

    Every function that takes a target takes any of these shapes. Derive a class from this one for another shape;
    ``called`` is its name in text and files.
    """

    called: ClassVar[str]

    @abstractmethod
    def holds(self, offline: Array, downrange: Array) -> Array:
        """Test which points lie inside.

        Parameters
        ----------
        offline : array
            Right of the target line, m.
        downrange : array
            Along the target line, m.

        Returns
        -------
        array of bool
            Of the common shape.
        """

    @property
    @abstractmethod
    def middle(self) -> tuple[float, float] | None:
        """Middle (offline, downrange), m; None for a shape without an end."""


@dataclass(frozen=True)
class Circle(Target):
    """A circle on the target line.

    Parameters
    ----------
    distance : float
        Distance of its middle, m.
    radius : float
        Radius, m.
    """

    called = "circle"

    distance: float
    radius: float

    def __post_init__(self) -> None:
        _above_0(self)

    def holds(self, offline: Array, downrange: Array) -> Array:
        """Test which points lie inside.

        Parameters
        ----------
        offline : array
            Right of the target line, m.
        downrange : array
            Along the target line, m.

        Returns
        -------
        array of bool
            Of the common shape.
        """
        return np.asarray(np.hypot(offline, downrange - self.distance) <= self.radius)

    @property
    def middle(self) -> tuple[float, float]:
        """Middle (offline, downrange), m."""
        return 0.0, self.distance


@dataclass(frozen=True)
class Rectangle(Target):
    """A rectangle across the target line.

    Parameters
    ----------
    distance : float
        Distance of its middle, m.
    width : float
        Width, m.
    depth : float
        Depth, m.
    """

    called = "green"

    distance: float
    width: float
    depth: float

    def __post_init__(self) -> None:
        _above_0(self)

    def holds(self, offline: Array, downrange: Array) -> Array:
        """Test which points lie inside.

        Parameters
        ----------
        offline : array
            Right of the target line, m.
        downrange : array
            Along the target line, m.

        Returns
        -------
        array of bool
            Of the common shape.
        """
        inside = np.abs(offline) <= self.width / 2
        return np.asarray(inside & (np.abs(downrange - self.distance) <= self.depth / 2))

    @property
    def middle(self) -> tuple[float, float]:
        """Middle (offline, downrange), m."""
        return 0.0, self.distance


@dataclass(frozen=True)
class Corridor(Target):
    """A strip along the target line without an end.

    Parameters
    ----------
    width : float
        Width, m.
    """

    called = "corridor"

    width: float

    def __post_init__(self) -> None:
        _above_0(self)

    def holds(self, offline: Array, downrange: Array) -> Array:
        """Test which points lie inside.

        Parameters
        ----------
        offline : array
            Right of the target line, m.
        downrange : array
            Along the target line, m.

        Returns
        -------
        array of bool
            Of the common shape.
        """
        return np.asarray((np.abs(offline) <= self.width / 2) & (downrange > 0))

    @property
    def middle(self) -> None:
        """None: a corridor has no middle."""
        return None


def _above_0(target: Circle | Rectangle | Corridor) -> None:
    for name, x in vars(target).items():
        if not (isinstance(x, int | float) and math.isfinite(x) and x > 0):
            raise InputError(f"{type(target).__name__.lower()}: {name} is {x!r} m; it must be above 0")


@dataclass(frozen=True)
class Polygon(Target):
    """A region inside a closed line of straight edges.

    Parameters
    ----------
    corners : sequence of (float, float)
        (offline, downrange) of each corner in order, m, shape (n, 2), n ≥ 3. Where the line crosses itself, what it
        encloses twice is outside.

    Raises
    ------
    InputError
        For corners that are not such pairs, or that lie on a line.
    """

    called = "polygon"

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
        """Area, m², if the line does not cross itself."""
        x, y = np.array(self.corners).T
        x, y = x - x[0], y - y[0]
        return float(abs(np.sum(x * np.roll(y, -1) - np.roll(x, -1) * y)) / 2)

    @property
    def middle(self) -> tuple[float, float]:
        """Centre of its area (offline, downrange), m."""
        x, y = np.array(self.corners).T
        at_x, at_y = x[0], y[0]
        x, y = x - at_x, y - at_y
        parts = x * np.roll(y, -1) - np.roll(x, -1) * y
        whole = 3 * parts.sum()
        centre = ((z + np.roll(z, -1)) @ parts / whole for z in (x, y))
        return float(next(centre) + at_x), float(next(centre) + at_y)

    def holds(self, offline: Array, downrange: Array) -> Array:
        """Test which points lie inside, by counting how often a ray from each crosses the line.

        Parameters
        ----------
        offline : array
            Right of the target line, m.
        downrange : array
            Along the target line, m.

        Returns
        -------
        array of bool
            Of the common shape.
        """
        x, y = np.broadcast_arrays(np.asarray(offline, float), np.asarray(downrange, float))
        inside = np.zeros(x.shape, bool)
        for (x1, y1), (x2, y2) in zip(self.corners, (*self.corners[1:], self.corners[0]), strict=True):
            if y1 != y2:
                beside = x < x1 + (y - y1) * (x2 - x1) / (y2 - y1)
                inside ^= ((y1 > y) != (y2 > y)) & beside
        return inside


#: The shapes that text and files can give, by what they call them.
SHAPES: dict[str, type[Circle] | type[Rectangle] | type[Corridor]] = {
    shape.called: shape for shape in (Circle, Rectangle, Corridor)
}


def check_target(target: object) -> None:
    """Check that a value is a target.

    Parameters
    ----------
    target : object
        The value.

    Raises
    ------
    InputError
        If it is not a ``Target``.
    """
    if not isinstance(target, Target):
        raise InputError(f"target is {target!r}; it takes a Circle, Rectangle, Corridor or Polygon")


def wilson(hits: int, n: int) -> tuple[float, float]:
    """Compute the 95 % interval of a rate.

    Parameters
    ----------
    hits : int
        Hits.
    n : int
        Trials.

    Returns
    -------
    low : float
        Lower end.
    high : float
        Upper end.

    Notes
    -----
    Source: Wilson, J. American Statistical Association 22 (1927) 209 by SciPy.
    """
    interval = import_stats().binomtest(hits, n).proportion_ci(method="wilson")
    return float(interval.low), float(interval.high)


class Share(NamedTuple):
    """The share of the samples that finish in a region; failed samples count as outside.

    Attributes
    ----------
    region : Target
        The region.
    hits, n : int
        Samples in the region, and all.
    share : float
        The share.
    standard_error : float
        Its standard error.
    low, high : float
        Its 95 % Wilson interval.
    """

    region: Target
    hits: int
    n: int
    share: float
    standard_error: float
    low: float
    high: float


def share_of(region: Target, hits: int, n: int) -> Share:
    """Compute a share with its interval; needs the ``statistics`` extra.

    Parameters
    ----------
    region : Target
        The region.
    hits : int
        Samples in it.
    n : int
        All samples.

    Returns
    -------
    targets.Share
        The share.
    """
    p = hits / n
    return Share(region, hits, n, p, math.sqrt(p * (1 - p) / n), *wilson(hits, n))
