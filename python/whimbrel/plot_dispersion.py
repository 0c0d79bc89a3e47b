"""The picture of a cloud of shots, by matplotlib."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from .errors import InputError, missing
from .plot import FLIGHT, LINE, MARK, left_right, shown_length
from .plot_target import draw_target
from .quantities import System
from .values import Array

try:
    import matplotlib.pyplot as plt
    from matplotlib.colors import LinearSegmentedColormap
    from matplotlib.patches import Ellipse
    from matplotlib.ticker import MaxNLocator
except ImportError:
    raise missing("matplotlib", "plots") from None

if TYPE_CHECKING:
    from matplotlib.axes import Axes

    from .cloud import Dispersion

#: Up to this many shots each is a dot; more are counted in cells, so many across the picture.
DOTS, CELLS = 2_000, 55
EDGE = "#4F5A2B"
#: The share of shots, by distance from the median, that the picture is framed to, with some room.
FRAMED = 0.999
VERBS = {"landing": "land", "rest": "come to rest"}


def cloud(cloud: Dispersion, ax: Axes | None = None, units: System = "yards", coverage: float = 0.8) -> Axes:
    """The kept samples from above, the player looking up the picture, with median, ellipse and targets."""
    unit = shown_length(units)
    x, y = (unit.from_si(z[np.isfinite(z)]) for z in cloud.points)
    if len(x) == 0:
        raise InputError("there is no cloud to draw: no sample was kept that finished")
    if ax is None:
        ax = plt.subplots(figsize=(8, 7), layout="constrained")[1]
    ax.axvline(0.0, color=LINE, lw=1, ls=(0, (6, 3)), label="target line")
    for i, region in enumerate(cloud.sampling.regions):  # filled below the shots, its edge above them
        draw_target(ax, region, unit, label=None)
        edge = {"fc": "none", "ec": EDGE, "lw": 1.8, "alpha": 1.0, "zorder": 2}
        draw_target(ax, region, unit, label="target" if i == 0 else None, **edge)
    _frame(ax, x, y)
    _shots(ax, x, y, unit.symbol)
    if (found := cloud.ellipse(coverage)) is not None:
        centre, halves = unit.from_si(np.array(found.centre)), unit.from_si(np.array(found.half_axes))
        ax.add_patch(Ellipse(tuple(centre), *(2 * halves), angle=float(np.degrees(found.turn)), fc="none", ec=MARK,
                             lw=2, zorder=3, label=f"ellipse for {coverage:.0%} of normal shots"))  # fmt: skip
    ax.plot(np.median(x), np.median(y), "D", color="white", mec="black", mew=1.5, ms=8, ls="none", zorder=4,
            label="median")  # fmt: skip
    inside = _within(x, ax.get_xlim()) & _within(y, ax.get_ylim())
    return _finished(ax, cloud, unit.symbol, int((~inside).sum()))


def _within(x: Array, ends: tuple[float, float]) -> Any:
    return (x >= ends[0]) & (x <= ends[1])


def _frame(ax: Axes, x: Array, y: Array) -> None:
    """Equal scales, around the middle shots, with what was drawn before inside."""
    middle = np.array([np.median(x), np.median(y)])
    away = np.abs(np.stack([x, y]) - middle[:, None])
    reach = max(5.0, 1.15 * float(np.quantile(away.max(0), FRAMED)))
    ax.update_datalim([middle - reach, middle + reach])
    ax.autoscale_view()
    (left, right), (low, high) = ax.get_xlim(), ax.get_ylim()
    half = max(right - left, high - low) / 2
    ax.set_xlim((left + right) / 2 - half, (left + right) / 2 + half)
    ax.set_ylim((low + high) / 2 - half, (low + high) / 2 + half)
    ax.set_aspect("equal")


def _shots(ax: Axes, x: Array, y: Array, symbol: str) -> None:
    """Dots, or the number of shots in each cell."""
    if len(x) <= DOTS:
        ax.plot(x, y, "o", color=FLIGHT, ms=3, mew=0, alpha=0.5, zorder=1, label="shots")
        return
    shades = LinearSegmentedColormap.from_list("shots", ["#E6EEF6", FLIGHT, "#00253D"])
    extent = (*ax.get_xlim(), *ax.get_ylim())
    drawn = ax.hexbin(x, y, gridsize=CELLS, extent=extent, mincnt=1, cmap=shades, linewidths=0.1, zorder=1)
    size = (extent[1] - extent[0]) / CELLS
    ax.figure.colorbar(drawn, ax=ax, shrink=0.6, label=f"shots in a cell {size:.2g} {symbol} wide")


def _finished(ax: Axes, cloud: Dispersion, symbol: str, outside: int) -> Axes:
    for axis in (ax.xaxis, ax.yaxis):
        axis.set_major_locator(MaxNLocator(8, steps=[1, 2, 5, 10]))
    ax.xaxis.set_major_formatter(left_right)
    ax.set_xlabel(f"sideways, {symbol}")
    ax.set_ylabel(f"downrange, {symbol}")
    ax.grid(color="#E5E5E5", lw=0.8)
    ax.set_axisbelow(True)
    ax.spines[["top", "right"]].set_visible(False)
    beyond = f", {outside:,} outside the picture" if outside else ""
    ax.set_title(f"Where {cloud.samples:,} shots {VERBS[cloud.sampling.at]}{beyond}", loc="left", fontweight="bold")
    ax.legend(loc="upper center", bbox_to_anchor=(0.5, -0.08), ncols=5, fontsize="small", frameon=False)
    return ax
