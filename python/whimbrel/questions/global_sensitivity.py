"""Which input's spread makes a result spread: Sobol indices, beside what the local slopes say."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np

from ..core.files import import_pandas
from ..core.optional import import_stats
from ..core.quantity import counted
from ..core.result import Result
from ..core.value import Array, as_numbers, value_or_default
from ..errors import InputError, whole
from ..row.ball import Ball
from ..row.engine import Accuracy
from ..row.flight import Launch
from ..row.play import play
from ..row.setting import Air, Weather
from ..row.shot import OUTPUTS
from ..row.swing import Club, Delivery
from .inputs import with_numbers
from .sensitivity import inputs_of, sensitivity

if TYPE_CHECKING:
    import pandas as pd
    from matplotlib.axes import Axes

#: Resamples for the doubt of the indices.
RESAMPLES = 100
#: Indices closer than this are reported as equal.
NOTICED = 0.05
#: An input's spread: a standard deviation (normal), or the ends of a range (uniform). SI.
Spread = float | tuple[float, float]


@dataclass(frozen=True)
class Index:
    """How much of a result's variance comes from one input's spread.

    Attributes
    ----------
    name : str
        The input.
    spread : float
        Its standard deviation, SI.
    first : float
        Share of the variance by itself.
    first_doubt : float
        Half width of its 95 % bootstrap interval.
    total : float
        Share of the variance alone or together with other inputs.
    total_doubt : float
        Half width of its 95 % bootstrap interval.
    local : float
        Share by the slope at the middle, as if all were linear.
    """

    name: str
    spread: float
    first: float
    first_doubt: float
    total: float
    total_doubt: float
    local: float

    @property
    def together(self) -> bool:
        """Whether it interacts with other inputs: total above first by more than the doubt."""
        return self.total - self.first > NOTICED + self.first_doubt + self.total_doubt

    @property
    def bends(self) -> bool:
        """Whether the local share is wrong by more than the doubt."""
        return abs(self.total - self.local) > NOTICED + self.total_doubt


@dataclass(frozen=True, repr=False)
class GlobalSensitivity(Result, view="global_sensitivity"):
    """Sobol indices of one result.

    Attributes
    ----------
    of : str
        The result.
    indices : tuple of Index
        One for each input.
    mean : float
        Mean of the result over the samples, SI.
    spread : float
        Its standard deviation, SI.
    unit : str
        SI unit of the result.
    units_of : dict of str to str
        SI unit of each input.
    samples : int
        Number of shots played.
    """

    of: str
    indices: tuple[Index, ...]
    mean: float
    spread: float
    unit: str
    units_of: dict[str, str]
    samples: int

    def __getitem__(self, name: str) -> Index:
        """The index of an input. Raises InputError for a name that is none."""
        for index in self.indices:
            if index.name == name:
                return index
        raise InputError(f"{name!r} has no index here; there are: {', '.join(i.name for i in self.indices)}")

    def to_frame(self) -> pd.DataFrame:
        """Convert to a DataFrame; needs the ``tables`` extra.

        Returns
        -------
        DataFrame
            A row for each input, with its shares of the variance.
        """
        rows = [
            {"input": i.name, "first": i.first, "first_doubt": i.first_doubt, "total": i.total,
             "total_doubt": i.total_doubt, "local": i.local}
            for i in self.indices
        ]  # fmt: skip
        frame: pd.DataFrame = import_pandas().DataFrame(rows).set_index("input")
        return frame

    def notes(self) -> list[str]:
        """List where the indices and the local slopes disagree, and why.

        Returns
        -------
        list of str
            A sentence each.
        """
        lines: list[str] = self._words().notes(self)
        return lines

    def __str__(self) -> str:
        return str(self._words().of_global_sensitivity(self))

    __repr__ = __str__

    def _repr_html_(self) -> str:
        return str(self._words().as_html(self))

    def plot(self, ax: Axes | None = None) -> Axes:
        """Draw the indices as bars with intervals, the local share as a mark; needs the ``plots`` extra.

        Parameters
        ----------
        ax : Axes, optional
            Where to draw; new ones by default.

        Returns
        -------
        Axes
            Where it was drawn.
        """
        drawn: Axes = self._plots().indices(self, ax)
        return drawn


def global_sensitivity(
    start: Delivery | Launch,
    club: Club | None = None,
    *,
    spread: Mapping[str, Spread],
    of: str = "carry",
    samples: int = 1024,
    seed: int = 1,
    accuracy: Accuracy = "fast",
    **conditions: Any,
) -> GlobalSensitivity:
    """Compute Sobol indices of one result over the spreads of its inputs; needs the ``statistics`` extra.

    Parameters
    ----------
    start : Delivery or Launch
        The middle: one delivery or launch.
    club : Club, optional
        The club of a delivery.
    spread : mapping of str to float or (float, float)
        The inputs that vary, named as for ``sensitivity``, SI. A number is the standard deviation of a normal
        spread about the middle, a pair the ends of a uniform one. Inputs are independent.
    of : str
        The result.
    samples : int
        A power of two; ``samples·(d + 2)`` shots are played for d inputs.
    seed : int
        Seed of the samples, 1 or more.
    accuracy : {"fast", "reference"}
        As in ``play``.
    **conditions
        The other keywords of ``sensitivity``, except ``errors``.

    Returns
    -------
    GlobalSensitivity
        The indices with their intervals.

    Raises
    ------
    InputError
        For bad input, and for a sample that cannot be played.

    Notes
    -----
    Source: the estimators of Saltelli et al., Computer Physics Communications 181 (2010) 259, on Sobol points, by
    SciPy; half widths are 1.96 standard deviations of 100 bootstrap resamples.
    """
    stats = import_stats()
    _check(start, spread, of, samples, seed, conditions)
    local = sensitivity(start, club, of=of, by=list(spread), **conditions)
    if local.shape != ():
        raise InputError(f"global_sensitivity takes one start, not an array of shape {local.shape}")
    dists, deviations = _distributions(spread, {name: float(x) for name, x in local.inputs.items()})
    parts: list[Array] = []

    def result(points: Array) -> Array:
        drawn = dict(zip(spread, points, strict=True))
        parts.append(_play(start, club, drawn, of, {"accuracy": accuracy, **conditions}))
        return parts[-1].copy()  # SciPy takes the mean off in place

    found = stats.sobol_indices(func=result, n=samples, dists=dists, rng=seed)
    doubt = _doubt(parts, samples, seed)
    results = np.concatenate(parts)
    slopes = np.array([float(local[of, name]) * deviations[name] for name in spread]) ** 2
    shares = slopes / slopes.sum() if slopes.sum() > 0 else slopes
    indices = [
        Index(name, deviations[name], float(found.first_order[k]), float(doubt[0, k]), float(found.total_order[k]),
              float(doubt[1, k]), float(shares[k]))
        for k, name in enumerate(spread)
    ]  # fmt: skip
    return GlobalSensitivity(
        of=of,
        indices=tuple(sorted(indices, key=lambda index: -index.total)),
        mean=float(results.mean()),
        spread=float(results.std(ddof=1)),
        unit=local.of[of],
        units_of=local.by,
        samples=len(results),
    )


def _doubt(parts: list[Array], samples: int, seed: int) -> Array:
    """Half the width of the 95 % interval of the first and the total indices, shape (2, inputs).

    parts: the results that ``sobol_indices`` asked for, of its points A, B and those of A with a row of B. Its own
    ``bootstrap`` takes no seed, so the samples are drawn again here.
    """
    stats = import_stats()
    a, b, mixed = parts
    mixed = mixed.reshape(samples, -1).T[:, None, :]

    def indices(rows: Any) -> Array:
        again = {"f_A": a[rows], "f_B": b[rows], "f_AB": mixed[..., rows]}
        found = stats.sobol_indices(func=again, n=samples)
        return np.stack([found.first_order, found.total_order])

    drawn = stats.bootstrap(
        (np.arange(samples),), indices, vectorized=False, n_resamples=RESAMPLES, method="percentile", rng=seed
    )
    return np.asarray(1.96 * drawn.standard_error)


def _check(start: object, spread: object, of: object, samples: Any, seed: Any, conditions: dict[str, Any]) -> None:
    """Refuses what is wrong before anything is played."""
    if not isinstance(start, Delivery | Launch):
        raise InputError(f"global_sensitivity takes a Delivery or a Launch, not {type(start).__name__}")
    if not isinstance(of, str):
        raise InputError(f"of is {of!r}; it takes the name of one result")
    if not isinstance(samples, int | np.integer) or samples < 2 or samples & (samples - 1):
        raise InputError(f"samples is {samples!r}; it takes a power of two, such as 1024")
    whole(seed, "seed", 1, 2**32, "from 1, below 2^32")
    if not isinstance(spread, Mapping) or len(spread) < 2:
        raise InputError("spread needs two inputs or more: a single one makes all the variance")
    if "errors" in conditions:
        raise InputError("errors: leave it out; every sample must be played")
    weather = conditions.get("weather")
    if "pressure" in spread and isinstance(weather, Weather) and weather.altitude is not None:
        raise InputError("pressure cannot vary if the weather is given by its altitude")


def _distributions(spread: Mapping[str, Spread], middle: dict[str, float]) -> tuple[list[Any], dict[str, float]]:
    """The distribution of each input, and its standard deviation."""
    stats, dists, deviations = import_stats(), [], {}
    for name, given in spread.items():
        what, numbers = f"spread of {name} is {given!r}", as_numbers(given, f"spread of {name}")
        if isinstance(given, str) or numbers.shape not in ((), (2,)) or not np.isfinite(numbers).all():
            raise InputError(f"{what}; it takes a standard deviation or the two ends of a range (SI)")
        if numbers.ndim:
            low, high = numbers.tolist()
            if low >= high:
                raise InputError(f"{what}; give the lower end of a range first")
            dists.append(stats.uniform(low, high - low))
            deviations[name] = (high - low) / 12**0.5
        else:
            if numbers <= 0:
                raise InputError(f"{what}; a standard deviation is above 0")
            deviations[name] = float(numbers)
            dists.append(stats.norm(middle[name], deviations[name]))
    return dists, deviations


def _play(
    start: Delivery | Launch, club: Club | None, drawn: dict[str, Array], of: str, how: dict[str, Any]
) -> Array:
    """The result of every sample."""
    beside = {name: how.get(name) for name in ("ball", "weather", "wind", "terrain", "turf")}
    beside["ball"] = value_or_default(beside["ball"], "ball", Ball).with_its_inertia()
    known = inputs_of(start, value_or_default(beside["weather"], "weather", Weather, Air))
    shots = play(**how | with_numbers(drawn, known, {"start": start, "club": club, **beside}), errors="mask")
    results: Array = getattr(getattr(shots, OUTPUTS[of][0]), of)  # no run is played where none is asked for
    bad = int(np.isnan(results).sum())
    if bad:
        why = next(iter(shots.mistakes.values()), "the ball did not come down, or not to rest")
        raise InputError(
            f"{bad:,} of {counted(len(results), 'sample')} cannot be played: {why}; take a smaller spread"
        )
    return results
