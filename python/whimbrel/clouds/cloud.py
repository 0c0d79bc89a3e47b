"""A cloud of shots: where they finish, how they spread, what share is in a region."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from functools import cached_property
from typing import TYPE_CHECKING, Any

import numpy as np

from ..core.files import import_pandas
from ..core.quantity import System, counted, display_unit
from ..core.result import Result
from ..core.value import Array, html_table
from ..errors import InputError
from ..row.shot import OUTPUTS
from ..statistics.ellipse import COVERAGE, Ellipse, prediction
from ..statistics.moments import Estimate, Moments, Sums, moments, quantile
from ..statistics.targets import Share, Target, share_of
from .sampling import POINTS, UNITS_OF, Sampling

if TYPE_CHECKING:
    import pandas as pd
    from matplotlib.axes import Axes

#: Quantiles in tables and texts.
QUANTILES = (0.05, 0.25, 0.5, 0.75, 0.95)


@dataclass(frozen=True, repr=False)
class Dispersion(Result, view="dispersion"):
    """A cloud of shots: where they finish, how they spread, what share is in a region.

    Attributes
    ----------
    sampling : Sampling
        What was played.
    sums : Sums
        Sums over all samples.
    kept : dict of str to array
        By output, the first samples one by one, SI, shape (kept,); NaN where one failed. Quantiles, the ellipse's
        own share and the picture come from these.
    left_out : int
        Rows of a table of strikes that were not drawn from.
    wrong : tuple of str
        What was wrong with those rows.
    """

    sampling: Sampling
    sums: Sums
    kept: dict[str, Array] = field(repr=False)
    left_out: int = 0
    wrong: tuple[str, ...] = ()

    @property
    def samples(self) -> int:
        """Number of shots played."""
        return self.sums.samples

    @property
    def stopped(self) -> bool:
        """Whether Ctrl-C cut it short of the samples asked for."""
        return self.samples < self.sampling.samples

    @property
    def failed(self) -> dict[str, int]:
        """Samples that do not finish, by status (see ``Flight`` and ``Run``); no mean includes them."""
        return dict(self.sums.failed)

    @property
    def stretched(self) -> dict[str, int]:
        """Samples that left a model's stated range, by what left it (see ``Shot.out_of_range``)."""
        return dict(self.sums.stretched)

    @property
    def mistakes(self) -> dict[int, str]:
        """The first samples with bad input, and what is wrong with each."""
        return dict(self.sums.mistakes)

    @property
    def outputs(self) -> tuple[str, ...]:
        """Names of the outputs of each sample; the place sideways and along come first."""
        return self.sampling.outputs

    @cached_property
    def moments(self) -> Moments:
        """Mean and covariance of the outputs, in their order, with standard errors."""
        return moments(self.sums, self.sampling.origin)

    @property
    def mean(self) -> dict[str, Estimate]:
        """Mean of each output, SI, with its standard error."""
        m = self.moments
        return {name: Estimate(float(m.mean[i]), float(m.mean_error[i])) for i, name in enumerate(self.outputs)}

    @property
    def sd(self) -> dict[str, Estimate]:
        """Standard deviation of each output, SI, with its standard error, which assumes no distribution."""
        estimates = {}
        for i, name in enumerate(self.outputs):
            variance, error = self.moments.covariance[i, i], float(self.moments.covariance_error[i, i])
            sd = math.sqrt(max(variance, 0.0)) if math.isfinite(variance) else math.nan
            estimates[name] = Estimate(sd, error / (2 * sd) if sd else 0.0)
        return estimates

    def quantile(self, name: str, probability: float) -> Estimate:
        """Compute a quantile of one output over the kept samples.

        Parameters
        ----------
        name : str
            The output.
        probability : float
            Between 0 and 1.

        Returns
        -------
        Estimate
            The quantile, SI, with its standard error.

        Raises
        ------
        InputError
            For an output that was not asked for, and for a probability out of range.
        """
        if not 0 < probability < 1:
            raise InputError(f"probability is {probability!r}; accepted: between 0 and 1")
        values = self._kept(name)
        return quantile(values[np.isfinite(values)], probability)

    def _kept(self, name: str) -> Array:
        if name not in self.kept:
            raise InputError(f"{name!r} was not asked for; there are: {', '.join(self.outputs)}")
        return self.kept[name]

    @property
    def points(self) -> tuple[Array, Array]:
        """Places of the kept samples sideways and along the target line, m, each of shape (kept,)."""
        x, y = POINTS[self.sampling.at]
        return self.kept[x], self.kept[y]

    def ellipse(self, coverage: float = COVERAGE) -> Ellipse | None:
        """Compute the ellipse in which the next shot finishes with a given chance, if the cloud is normal.

        Parameters
        ----------
        coverage : float
            The chance, between 0 and 1.

        Returns
        -------
        Ellipse or None
            From mean and covariance of all samples, m; None if they lie on a line. ``inside`` gives the share it
            really holds.

        Raises
        ------
        InputError
            For a coverage out of range.
        """
        if not 0 < coverage < 1:
            raise InputError(f"coverage is {coverage!r}; accepted: between 0 and 1")
        return prediction(self.sums.good, self.moments.mean[:2], self.moments.covariance[:2, :2], coverage)

    def inside(self, ellipse: Ellipse) -> Estimate:
        """Compute the share of the kept samples that an ellipse holds, of those that finish.

        Parameters
        ----------
        ellipse : Ellipse
            The ellipse.

        Returns
        -------
        Estimate
            The share with its standard error.
        """
        x, y = self.points
        there = np.isfinite(x)
        p = float(ellipse.holds(x[there], y[there]).mean()) if there.any() else math.nan
        return Estimate(p, math.sqrt(p * (1 - p) / max(int(there.sum()), 1)))

    @property
    def shares(self) -> tuple[Share, ...]:
        """Share of each target over all samples; needs the ``statistics`` extra."""
        regions = self.sampling.regions
        return tuple(share_of(r, hits, self.samples) for r, hits in zip(regions, self.sums.hits, strict=True))

    def share(self, region: Target) -> Share:
        """Compute the share of another region over the kept samples.

        Parameters
        ----------
        region : Target
            The region.

        Returns
        -------
        targets.Share
            The share with its interval.

        Raises
        ------
        InputError
            If no samples were kept.
        """
        x, y = self.points
        if len(x) == 0:
            raise InputError("no samples were kept: give the region as target")
        return share_of(region, int(region.holds(x, y).sum()), len(x))

    def frame(self, units: System = "yards") -> pd.DataFrame:
        """Summarise the outputs as a DataFrame; needs the ``tables`` extra.

        Parameters
        ----------
        units : {"yards", "metric"}
            The units, named in the column ``unit``.

        Returns
        -------
        DataFrame
            A row for each output: mean, standard deviation and quantiles, each with its standard error.
        """
        rows = []
        for name in self.outputs:
            unit = display_unit(name, OUTPUTS[name][1], units)
            numbers = {"mean": self.mean[name], "sd": self.sd[name]}
            numbers |= {f"q{100 * p:02.0f}": self.quantile(name, p) for p in QUANTILES}
            row: dict[str, Any] = {"output": name, "unit": unit.symbol}
            for label, (value, error) in numbers.items():
                row |= {label: value / unit.factor, f"{label}_se": error / unit.factor}
            rows.append(row)
        frame: pd.DataFrame = import_pandas().DataFrame(rows).set_index("output")
        return frame

    def samples_frame(self, units: System = "yards") -> pd.DataFrame:
        """List the kept samples as a DataFrame; needs the ``tables`` extra.

        Parameters
        ----------
        units : {"yards", "metric"}
            The units, named in the columns.

        Returns
        -------
        DataFrame
            A row for each kept sample: what it started with, and its outputs.
        """
        columns = {**self.sampling.draw(0, len(self.points[0])), **self.kept}
        named = {}
        for name, x in columns.items():
            unit = display_unit(name, UNITS_OF[name], units)
            named[f"{name}_{unit.suffix}".rstrip("_")] = unit.from_si(x)
        frame: pd.DataFrame = import_pandas().DataFrame(named)
        frame.index.name = "sample"
        return frame

    def in_words(self, units: System = "yards") -> str:
        """Describe where the balls finish, their spread, the share in each target, and the limits.

        Parameters
        ----------
        units : {"yards", "metric"}
            Units of the text.

        Returns
        -------
        str
            Plain sentences.
        """
        return str(self._words().of_dispersion(self, units))

    def plot(self, ax: Axes | None = None, units: System = "yards", coverage: float = COVERAGE) -> Axes:
        """Draw the cloud from above with its median, ellipse and targets; needs the ``plots`` extra.

        Parameters
        ----------
        ax : Axes, optional
            Where to draw; new ones by default.
        units : {"yards", "metric"}
            Units of the labels.
        coverage : float
            Coverage of the ellipse, between 0 and 1.

        Returns
        -------
        Axes
            Where it was drawn.
        """
        drawn: Axes = self._plots().cloud(self, ax, units, coverage)
        return drawn

    def _described(self) -> list[tuple[str, str]]:
        lines: list[tuple[str, str]] = self._words().list_lines(self)
        return lines

    def __repr__(self) -> str:
        return "\n".join(
            [f"Dispersion, {counted(self.samples, 'sample')}", *(f"  {n:<18} {w}" for n, w in self._described())]
        )

    def _repr_html_(self) -> str:
        return html_table({f"Dispersion, {counted(self.samples, 'sample')}": self._described()})
