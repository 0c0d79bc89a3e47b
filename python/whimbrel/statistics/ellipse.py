"""The ellipse in which further landings like those seen are expected."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from ..core.value import Array
from .center_and_spread import FEW

#: The share of further strikes that an ellipse of landings is drawn for.
COVERAGE = 0.8


@dataclass(frozen=True)
class Ellipse:
    """centre: (x, y). half_axes: the longer first. turn: rad, from x to the longer one, counterclockwise."""

    centre: tuple[float, float]
    half_axes: tuple[float, float]
    turn: float

    def holds(self, x: Array, y: Array) -> Array:
        """Which points lie inside."""
        across, up = np.asarray(x) - self.centre[0], np.asarray(y) - self.centre[1]
        cos, sin = math.cos(self.turn), math.sin(self.turn)
        along, aside = cos * across + sin * up, cos * up - sin * across
        return np.asarray((along / self.half_axes[0]) ** 2 + (aside / self.half_axes[1]) ** 2 <= 1.0)


def expected_within(x: Array, y: Array, coverage: float = COVERAGE) -> Ellipse | None:
    """Where the next of some independent normal points lies with chance ``coverage``; None for few or on a line.

    x, y: shape (n,), NaN where one is missing. The prediction region of Hotelling's T² (Annals of Mathematical
    Statistics 2 (1931) 360; from memory), exact for small n: with two dimensions its quantile is a power.
    """
    there = np.isfinite(np.asarray(x) + np.asarray(y))
    points = np.stack([np.asarray(x)[there], np.asarray(y)[there]])
    n = points.shape[1]
    if n <= FEW:
        return None  # before the covariance of nothing
    return prediction(n, points.mean(1), np.cov(points), coverage)


def prediction(n: int, mean: Array, covariance: Array, coverage: float = COVERAGE) -> Ellipse | None:
    """``expected_within`` of n points by their mean, shape (2,), and covariance, (2, 2)."""
    if n <= FEW:
        return None
    sizes, axes = np.linalg.eigh(covariance)
    if not sizes[0] > 1e-12 * max(sizes[1], 1e-12):
        return None
    reach = math.sqrt((n * n - 1) / n * math.expm1(-2 / (n - 2) * math.log1p(-coverage)))
    return Ellipse(
        (float(mean[0]), float(mean[1])),
        (reach * math.sqrt(sizes[1]), reach * math.sqrt(sizes[0])),
        math.atan2(float(axes[1, 1]), float(axes[0, 1])),
    )
