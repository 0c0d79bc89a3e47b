"""Shapley effects of a linear function of correlated inputs.

The variance of J·x is shared among the inputs by what each explains on joining the others, averaged over all orders
of joining: Shapley values with the explained variance as the worth of a group of inputs. Owen, SIAM/ASA J.
Uncertainty Quantification 2 (2014) 245; Song, Nelson and Staum, the same 4 (2016) 1060. For a linear function of
normal inputs the explained variance has a closed form: Iooss and Prieur, Int. J. Uncertainty Quantification 9
(2019) 493; Broto, Bachoc and Depecker, SIAM/ASA J. Uncertainty Quantification 8 (2020) 693 (all from memory).
"""

from __future__ import annotations

from math import factorial

import numpy as np

from ..core.value import Array


def variance_explained(gradient: Array, covariance: Array, group: list[int]) -> float:
    """The variance of gradient·x that the inputs of the group explain by regression on them."""
    if not group:
        return 0.0
    shared = (covariance @ gradient)[group]
    within = covariance[np.ix_(group, group)]
    scale = np.sqrt(np.maximum(np.diag(within), 0.0))
    scale = np.where(scale > 0, scale, 1.0)
    unit = within / np.outer(scale, scale)
    return float((shared / scale) @ np.linalg.pinv(unit, rcond=1e-10, hermitian=True) @ (shared / scale))


def shapley_effects(gradient: Array, covariance: Array) -> Array:
    """Each input's part of the variance of gradient·x; they add up to it. At most 12 inputs."""
    d = len(gradient)
    worth = np.array([variance_explained(gradient, covariance, _members(s, d)) for s in range(1 << d)])
    effects = np.zeros(d)
    for s in range(1 << d):
        size = s.bit_count()
        for i in range(d):
            if not s >> i & 1:
                weight = factorial(size) * factorial(d - 1 - size) / factorial(d)
                effects[i] += weight * (worth[s | 1 << i] - worth[s])
    return effects


def covariance_terms(gradient: Array, covariance: Array) -> Array:
    """The variance of gradient·x term by term, shape (d, d): it is their sum. Off the diagonal a term below 0 is a
    pair that makes up for each other."""
    return np.asarray(np.outer(gradient, gradient) * covariance)


def _members(s: int, d: int) -> list[int]:
    return [i for i in range(d) if s >> i & 1]
