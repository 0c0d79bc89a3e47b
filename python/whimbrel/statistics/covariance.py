"""How fields vary together: a covariance from what a user says, and its factor to draw by."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

import numpy as np

from ..core.value import Array, as_numbers
from ..errors import InputError

#: Asymmetry of a covariance, and eigenvalues of its correlations below 0, that rounding explains.
ROUNDING = 1e-9


def one_sd(name: str, x: Any) -> float:
    """A standard deviation as given. Raises InputError where it is not one finite number, 0 or more."""
    number = as_numbers(x, f"sd of {name}")
    if number.ndim or not np.isfinite(number) or number < 0:
        raise InputError(f"sd of {name} is {x!r} (SI); accepted: one finite number, 0 or more")
    return float(number)


def correlate(sd: Mapping[str, float], correlations: Mapping[tuple[str, str], float]) -> Array:
    """The covariance of fields with these standard deviations, SI, in their order, and correlations of pairs."""
    names, r = list(sd), np.eye(len(sd))
    for (a, b), x in correlations.items():
        if a not in names or b not in names or a == b:
            raise InputError(f"correlation of {a} and {b}: both must spread; there are: {', '.join(names)}")
        if not -1 <= x <= 1:
            raise InputError(f"correlation of {a} and {b} is {x}; accepted: -1 to 1")
        i, j = names.index(a), names.index(b)
        r[i, j] = r[j, i] = x
    sds = np.array([one_sd(name, x) for name, x in sd.items()])
    return np.asarray(r * np.outer(sds, sds))


def factor_of(covariance: Any, names: Sequence[str]) -> Array:
    """F with F·Fᵀ the covariance: Cholesky's, or by eigenvectors where it is singular.

    Raises InputError where it is not finite, of another size, not symmetric, or no covariance.
    """
    c = as_numbers(covariance, "covariance")
    d = len(names)
    if c.shape != (d, d):
        raise InputError(f"covariance has the shape {c.shape}; {d} fields need ({d}, {d})")
    if not np.isfinite(c).all():
        i, j = np.argwhere(~np.isfinite(c))[0]
        raise InputError(f"covariance of {names[i]} and {names[j]} is {c[i, j]}; it must be finite")
    if (c.diagonal() < 0).any():
        i = int(np.argmax(c.diagonal() < 0))
        raise InputError(f"covariance: the variance of {names[i]} is {c[i, i]:g}, below 0")
    sd = np.sqrt(c.diagonal())
    scale = np.where(sd > 0, sd, 1.0)
    r = c / np.outer(scale, scale)
    apart = np.abs(r - r.T)
    if apart.max(initial=0.0) > ROUNDING:
        i, j = map(int, np.unravel_index(np.argmax(apart), apart.shape))
        raise InputError(
            f"covariance is not symmetric: {c[i, j]:g} for {names[i]} and {names[j]}, {c[j, i]:g} the other way"
        )
    r = (r + r.T) / 2
    try:
        return np.asarray(scale[:, None] * np.linalg.cholesky(r))
    except np.linalg.LinAlgError:
        sizes, axes = np.linalg.eigh(r)
    if sizes[0] < -ROUNDING:
        raise InputError(
            f"covariance is not positive semi-definite: its correlations have the eigenvalue {sizes[0]:.3g}, "
            "so some sum of the fields would have a variance below 0"
        )
    return np.asarray(scale[:, None] * axes * np.sqrt(np.maximum(sizes, 0.0)))
