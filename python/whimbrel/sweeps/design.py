"""The points of a sweep: all combinations, pairs, or a sample that fills ranges."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Literal, get_args

import numpy as np

from ..core.optional import import_stats
from ..core.value import Array, Shape
from ..errors import InputError
from ..statistics.random_numbers import generator

Design = Literal["grid", "paired", "latin", "sobol"]
#: Files of labelled arrays keep no larger whole number among their attributes.
LARGEST_SEED = 2**31 - 1


@dataclass(frozen=True)
class Points:
    """The points of a design. dims and shape: of the results; axes: each axis's values, along its own
    dimension of a grid, or along ``shot``."""

    dims: tuple[str, ...]
    shape: Shape
    axes: dict[str, Array]

    @property
    def size(self) -> int:
        return math.prod(self.shape)

    def some(self, first: int, end: int) -> dict[str, Array]:
        """The numbers of the points from first to end, in the order of the results."""
        if self.dims == ("shot",):
            return {name: x[first:end] for name, x in self.axes.items()}
        places = np.unravel_index(np.arange(first, end), self.shape)
        return {name: x[place] for (name, x), place in zip(self.axes.items(), places, strict=True)}

    def along(self) -> dict[str, Array]:
        """The numbers of all points, each axis along its own dimension, to broadcast."""
        if self.dims == ("shot",):
            return self.axes
        last = len(self.shape) - 1
        return {name: x.reshape(-1, *(1,) * (last - i)) for i, (name, x) in enumerate(self.axes.items())}


def check_design(design: str, samples: int | None, seed: int, most_points: int | None) -> None:
    """Refuses an unknown design, samples where they are missing or have no use, and what is no whole number."""
    if design not in get_args(Design):
        raise InputError(f"design is {design!r}; accepted: {', '.join(get_args(Design))}")
    drawn = design in ("latin", "sobol")
    if drawn and samples is None:
        raise InputError(f"design {design!r} needs samples, how many points to draw")
    if not drawn and samples is not None:
        raise InputError(f"samples is for the designs latin and sobol, not for {design!r}")
    for name, x, least, most in (("samples", samples, 1, None), ("seed", seed, 0, LARGEST_SEED),
                                 ("most_points", most_points, 1, None)):  # fmt: skip
        whole = isinstance(x, int | np.integer) and not isinstance(x, bool)
        if x is not None and not (whole and least <= x <= (x if most is None else most)):
            accepted = f"{least} or more" if most is None else f"from {least} to {most:,}"
            raise InputError(f"{name} is {x!r}; accepted: a whole number, {accepted}")
    if design == "sobol" and samples is not None and samples & (samples - 1):
        below = 1 << (int(samples).bit_length() - 1)
        raise InputError(f"samples is {samples}; a Sobol sequence needs a power of two: {below:,} or {2 * below:,}")


def count(axes: Mapping[str, Array], design: str, samples: int | None) -> int:
    """How many points a design has; refuses axes that do not fit it."""
    if design == "grid":
        return math.prod(x.size for x in axes.values())
    sizes = {name: x.size for name, x in axes.items()}
    listed = ", ".join(f"{name} has {n}" for name, n in sizes.items())
    if design == "paired":
        if len(set(sizes.values())) > 1:
            raise InputError(f"paired axes need the same number of values: {listed}")
        return next(iter(sizes.values()))
    for name, x in axes.items():
        if x.size != 2 or x[0] >= x[1]:
            raise InputError(f"{name} is {x.tolist()}; design {design!r} takes (low, high), low below high")
    assert samples is not None
    return int(samples)


def points_of(axes: dict[str, Array], design: str, samples: int | None, seed: int) -> Points:
    """The points of a checked design. Latin hypercube and scrambled Sobol by scipy.stats.qmc."""
    if design == "grid":
        return Points(tuple(axes), tuple(x.size for x in axes.values()), axes)
    if design != "paired":
        qmc: Any = import_stats().qmc
        sampler = (qmc.LatinHypercube if design == "latin" else qmc.Sobol)(d=len(axes), seed=generator(seed))
        low, high = np.array(list(axes.values())).T
        drawn = low + sampler.random(samples) * (high - low)
        axes = dict(zip(axes, drawn.T.copy(), strict=True))
    return Points(("shot",), next(iter(axes.values())).shape, axes)
