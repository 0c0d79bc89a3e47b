"""Strikes in a row resemble each other: how strongly, and what that costs.

A block is taken as a first-order autoregression: each strike keeps the share ρ of its neighbour's deviation. A few
strikes say little on ρ, so it is not estimated by one number: its likelihood (restricted, each block with a mean
and a spread of its own) is weighed over a grid, and the quantities of one player's session lend each other
strength. A mean ρ below 0 counts as 0: strikes that alternate make the tests careful, not wrong.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from ..core.value import Array

#: The values of ρ weighed against each other, each as likely as the next before the strikes speak. The range and
#: OWN were calibrated by this project on simulated sessions: validation/change_tests.
GRID = np.arange(-0.1, 0.85, 0.1)
#: How likely a quantity is to have a ρ of its own, not that of the others.
OWN = 0.05


def log_likelihood(x: Array) -> Array:
    """Restricted log likelihood of each ρ of the grid, up to a constant, for blocks ``x`` of shape (…, n).

    Mean and variance of each block are unknown. For an autoregression x'R⁻¹x has a closed form, so this is
    linear in n. A block without any spread says nothing: 0 for every ρ.
    """
    n = x.shape[-1]
    x = x - x.mean(-1, keepdims=True)
    squares = (x**2).sum(-1)[..., None]
    ends = (x[..., 0] ** 2 + x[..., -1] ** 2)[..., None]
    neighbours = (x[..., 1:] * x[..., :-1]).sum(-1)[..., None]
    form = (squares + GRID**2 * (squares - ends) - 2 * GRID * neighbours) / (1 - GRID**2)
    weight = (n * (1 - GRID) + 2 * GRID) / (1 + GRID)  # 1'R⁻¹1
    mean = GRID * (x[..., 0] + x[..., -1])[..., None] / (1 + GRID)  # 1'R⁻¹x
    rest = form - mean**2 / weight
    flat = squares <= 1e-24 * np.maximum(1.0, squares)
    safe = np.where(flat, 1.0, rest)
    likelihood = -0.5 * ((n - 1) * np.log(1 - GRID**2) + np.log(weight) + (n - 1) * np.log(safe))
    return np.where(flat, 0.0, likelihood)


def correlations(*likelihoods: Array) -> Array:
    """The mean ρ of each quantity, at least 0, given the log likelihoods of its blocks.

    Each argument has the shape (…, quantities, grid). A quantity shares the ρ of the others, or, with the
    probability ``OWN``, has one of its own.
    """
    own = np.sum(likelihoods, axis=0)
    own = np.exp(own - own.max(-1, keepdims=True))
    free = own.mean(-1, keepdims=True)
    shared = np.log((1 - OWN) * own + OWN * free)
    others = shared.sum(-2, keepdims=True) - shared
    others = np.exp(others - others.max(-1, keepdims=True))
    weights = own * ((1 - OWN) * others + OWN * others.mean(-1, keepdims=True))
    return np.asarray(np.maximum((weights * GRID).sum(-1) / weights.sum(-1), 0.0))


def correlation_of(blocks: Sequence[Sequence[Array]]) -> Array:
    """``correlations`` of quantities whose blocks differ in length: for each quantity, its blocks."""
    return correlations(np.stack([sum((log_likelihood(x) for x in q), np.zeros(len(GRID))) for q in blocks]))


def inflation(n: int, rho: Array | float) -> Array:
    """How many times the variance of a mean of n strikes exceeds what s²/n claims.

    With c = 1 + 2 Σ (1 − k/n) ρᵏ, the mean has the variance σ²c/n and s² the expectation σ²(n − c)/(n − 1).
    """
    rho = np.asarray(rho, float)
    # Σ (1 − k/n) ρᵏ in closed form
    c = 1 + 2 * rho / (1 - rho) * (1 - (1 - rho**n) / (n * (1 - rho)))
    return np.asarray(c * (n - 1) / (n - c))


def of_deviations(rho: Array | float) -> Array:
    """ρ of the absolute deviations of a normal series whose own is ρ: E|uv| of a normal pair."""
    rho = np.asarray(rho, float)
    return np.asarray(2 / np.pi * (rho * np.arcsin(rho) + np.sqrt(1 - rho**2) - 1) / (1 - 2 / np.pi))
