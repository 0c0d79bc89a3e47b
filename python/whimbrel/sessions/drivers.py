"""What drives the scatter of one club's landings: which inputs, how much, and what halving each does."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from ..core.quantity import percent
from ..core.value import Array, numbers_of, units_of
from ..errors import InputError
from ..row.swing import Delivery
from ..statistics.random_numbers import generator
from ..statistics.shapley import covariance_terms, shapley_effects
from ..strikes.replay import Played
from ..units import deg

#: Strikes from which a covariance is worth sharing out: two more than the inputs, and at least these.
FEWEST = 8
#: Deliveries drawn to check the straight-line physics, and strikes at most replayed with one spread halved.
DRAWN, REPLAYED = 1_000, 400
RESAMPLES = 400
#: Steps of the central differences, SI.
STEPS = {"m/s": 0.2, "rad": 0.2 * deg, "m": 5e-4, "rad/s": 1.0}


@dataclass(frozen=True)
class Part:
    """One input of the delivery and its part in the scatter.

    Attributes
    ----------
    quantity : str
        The input.
    si : str
        Its SI unit.
    sd : float
        Its standard deviation as measured, SI.
    noise : float
        Standard deviation of its measurement, as given, SI.
    own : float
        Standard deviation without the noise, SI.
    carry_slope, offline_slope : float
        Change of carry and offline, m per SI unit.
    carry_share, offline_share : float
        Shapley effect as a share of the variance of carry and of offline.
    share : float
        Share of both together.
    halved : float
        Change of the scatter, m, if its deviations from the median are halved; negative is tighter.
    halved_low, halved_high : float
        95 % bootstrap interval of ``halved``, m.
    """

    quantity: str
    si: str
    sd: float
    noise: float
    own: float
    carry_slope: float
    offline_slope: float
    carry_share: float
    offline_share: float
    share: float
    halved: float
    halved_low: float
    halved_high: float

    @property
    def harms(self) -> bool:
        """Whether halving this spread alone widens the scatter, because it compensates another."""
        return self.halved_low > 0


@dataclass(frozen=True)
class Scatter:
    """What drives the scatter of some strikes.

    Attributes
    ----------
    n : int
        Number of strikes.
    parts : tuple of Part
        The inputs: first those whose halving surely gains, then the others, each by its gain.
    terms : dict of str to dict of (str, str) to float
        For ``carry`` and ``offline``, the variance by pairs of inputs, m² (a pair's two equal terms added);
        negative where they compensate each other.
    linear : tuple of float
        Standard deviations of carry and offline from slopes and covariance, m.
    drawn : tuple of float
        The same from deliveries drawn with that covariance and played, m; equal if all is linear.
    scatter : float
        √(variance of carry + variance of offline) of the strikes, played, m.
    unexplained : tuple of float or None
        Share of the measured variance of carry and of offline that the delivery does not explain; None if the ball
        was not measured.
    notes : tuple of str
        What to know.
    """

    n: int
    parts: tuple[Part, ...]
    terms: dict[str, dict[tuple[str, str], float]]
    linear: tuple[float, float]
    drawn: tuple[float, float]
    scatter: float
    unexplained: tuple[float, float] | None
    notes: tuple[str, ...]


def drives_scatter(
    delivery: Delivery,
    played: Played,
    *,
    noise: Mapping[str, float] | None = None,
    measured: tuple[Array, Array] | None = None,
    seed: int = 0,
) -> Scatter:
    """Shares out the scatter of deliveries, arrays of shape (n,), among what varies in them.

    noise: the standard deviation of each input's measurement, SI. measured: carry and offline of the same
    strikes where the ball was measured, NaN where it was not. Raises InputError below ``FEWEST`` strikes or two
    more than the inputs that vary.
    """
    columns = {name: np.broadcast_to(x, delivery.shape) for name, x in numbers_of(delivery).items()}
    names = [name for name, x in columns.items() if np.ptp(x) > 0]
    n = delivery.shape[0]
    if n < max(FEWEST, len(names) + 2):
        raise InputError(
            f"too few to share out their scatter: {n} strikes of the {max(FEWEST, len(names) + 2)} needed"
        )
    if not names:
        raise InputError("nothing in the delivery varies: there is no scatter to share out")
    x = np.stack([columns[name] for name in names], 1)
    middle = {name: float(np.median(column)) for name, column in columns.items()}
    noises = np.array([(noise or {}).get(name, 0.0) for name in names])
    covariance, notes = without_noise(np.atleast_2d(np.cov(x.T)), noises, names)
    slopes = gradients(names, middle, played)
    effects = [shapley_effects(slope, covariance) for slope in slopes]
    linear = tuple(float(np.sqrt(max(float(slope @ covariance @ slope), 0.0))) for slope in slopes)
    drawn = _drawn_spread(names, middle, covariance, played, seed)
    notes += _on_straightness(linear, drawn)
    scatter, halved = halve_each(names, columns, played, seed)
    total = linear[0] ** 2 + linear[1] ** 2
    shares = [
        effect / spread**2 if spread > 0 else np.zeros(len(names))
        for effect, spread in zip(effects, linear, strict=True)
    ]
    both = (effects[0] + effects[1]) / total if total > 0 else np.zeros(len(names))
    parts = [
        Part(name, units_of(Delivery)[name], float(x[:, i].std(ddof=1)), float(noises[i]),
             float(np.sqrt(covariance[i, i])), float(slopes[0][i]), float(slopes[1][i]),
             float(shares[0][i]), float(shares[1][i]), float(both[i]), *halved[i])
        for i, name in enumerate(names)
    ]  # fmt: skip
    return Scatter(
        n=n,
        parts=tuple(sorted(parts, key=lambda part: (part.halved_high >= 0, part.halved))),
        terms={
            what: _pairs(names, covariance_terms(slope, covariance))
            for what, slope in zip(("carry", "offline"), slopes, strict=True)
        },
        linear=(linear[0], linear[1]),
        drawn=drawn,
        scatter=scatter,
        unexplained=None if measured is None else unexplained(delivery, played, measured),
        notes=tuple(notes),
    )


def without_noise(covariance: Array, noise: Array, names: list[str]) -> tuple[Array, list[str]]:
    """The covariance less the variance of the measurement, positive semi-definite still; and what to say."""
    own = np.diag(covariance) - noise**2
    notes = [
        f"The measurement noise stated for {name} is as large as its spread: nothing of it is left."
        for name, variance, sd in zip(names, own, noise, strict=True)
        if sd > 0 and variance <= 0
    ]
    kept = own > 0
    cleaned = covariance * np.outer(kept, kept)
    np.fill_diagonal(cleaned, np.where(kept, own, 0.0))
    scale = np.where(kept, np.sqrt(np.where(kept, own, 1.0)), 1.0)
    values, vectors = np.linalg.eigh(cleaned / np.outer(scale, scale))
    if values.min() < -1e-9:
        notes.append(
            "With the measurement noise taken off, some inputs would be correlated beyond 1; the nearest "
            "covariance that can be was taken."
        )
        unit = (vectors * np.maximum(values, 0.0)) @ vectors.T
        size = np.sqrt(np.where(np.diag(unit) > 0, np.diag(unit), 1.0))
        cleaned = np.where(np.outer(kept, kept), unit / np.outer(size, size), 0.0) * np.outer(scale, scale)
    return cleaned, notes


def gradients(names: list[str], middle: dict[str, float], played: Played) -> tuple[Array, Array]:
    """Slopes of carry and of offline at the median strike, by central differences; m for one SI unit."""
    steps = np.array([STEPS[units_of(Delivery)[name]] for name in names])
    signs = np.concatenate([np.diag(steps), -np.diag(steps)])
    carry, offline = played(_around(middle, names, signs))
    d = len(names)
    slopes = [(y[:d] - y[d:]) / (2 * steps) for y in (carry, offline)]
    if not np.isfinite(slopes).all():
        raise InputError("the median strike cannot be played: its scatter cannot be explained")
    return slopes[0], slopes[1]


def _around(middle: dict[str, float], names: list[str], moves: Array) -> Delivery:
    """Deliveries that differ from the median strike by rows of moves."""
    moved = {name: middle[name] + moves[:, i] for i, name in enumerate(names)}
    return Delivery(**{name: np.full(len(moves), x) for name, x in middle.items()} | moved)


def _drawn_spread(
    names: list[str], middle: dict[str, float], covariance: Array, played: Played, seed: int
) -> tuple[float, float]:
    """Standard deviations of carry and offline of normal deliveries with this covariance, played one by one."""
    rng = generator(seed)
    moves = rng.multivariate_normal(np.zeros(len(names)), covariance, DRAWN, method="eigh")
    carry, offline = played(_around(middle, names, moves))
    return float(np.nanstd(carry, ddof=1)), float(np.nanstd(offline, ddof=1))


def _on_straightness(linear: tuple[float, ...], drawn: tuple[float, float]) -> list[str]:
    return [
        f"Straight lines give {what} {percent(line / play)} of the spread that played deliveries have: take the "
        f"shares of {what} as a rough guide."
        for what, line, play in zip(("carry", "offline"), linear, drawn, strict=True)
        if abs(line - play) > 0.2 * max(line, play) and max(line, play) > 0.5
    ]


def halve_each(
    names: list[str], columns: dict[str, Array], played: Played, seed: int
) -> tuple[float, list[tuple[float, float, float]]]:
    """The scatter, and for each input what halving its deviations from its median adds to it, with its interval.

    At most ``REPLAYED`` strikes, drawn where there are more. Strikes that cannot be played both ways are left out.
    """
    rng = generator(seed)
    n = len(next(iter(columns.values())))
    some = np.sort(rng.choice(n, REPLAYED, replace=False)) if n > REPLAYED else np.arange(n)
    middle = {name: np.median(x) for name, x in columns.items()}
    rows = {name: x[some] for name, x in columns.items()}
    as_is = np.stack(played(Delivery(**rows)))
    again = rng.integers(0, len(some), (RESAMPLES, len(some)))
    results = []
    for name in names:
        halved = np.stack(played(Delivery(**rows | {name: (rows[name] + middle[name]) / 2})))
        both = np.isfinite(as_is + halved).all(0)
        was, would = (np.where(both, y, np.nan) for y in (as_is, halved))
        drawn = _scatter(would[:, again]) - _scatter(was[:, again])
        low, high = np.quantile(drawn, [0.025, 0.975])
        results.append((float(_scatter(would) - _scatter(was)), float(low), float(high)))
    return float(_scatter(as_is)), results


def _scatter(landings: Array) -> Array:
    """√(variance of carry + variance of offline) over the last axis; landings: (2, …, n)."""
    return np.asarray(np.sqrt(np.nanvar(landings, axis=-1, ddof=1).sum(0)))


def unexplained(delivery: Delivery, played: Played, measured: tuple[Array, Array]) -> tuple[float, float]:
    """The share of the measured variance that is left when the played landings are taken off; can exceed 1."""
    shares = []
    for y, computed in zip(measured, played(delivery), strict=True):
        both = np.isfinite(y + computed)
        variance = float(np.var(y[both])) if both.sum() > 1 else 0.0
        shares.append(float(np.var((y - computed)[both])) / variance if variance > 0 else float("nan"))
    return shares[0], shares[1]


def _pairs(names: list[str], terms: Array) -> dict[tuple[str, str], float]:
    """The terms of a symmetric table: each input's own, and each pair's twice."""
    return {
        (a, b): float(terms[i, j] * (1 if i == j else 2))
        for i, a in enumerate(names)
        for j, b in enumerate(names)
        if i <= j
    }
