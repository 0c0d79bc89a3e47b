"""The picture of a cloud of shots, by matplotlib."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from ..core.quantity import System, counted, percent
from ..core.value import Array
from ..errors import InputError, missing
from .style import FLIGHT, LINE, MARK, frame_plainly, left_right, length_unit
from .target import draw_target

try:
    import matplotlib.pyplot as plt
    from matplotlib.colors import LinearSegmentedColormap
    from matplotlib.patches import Ellipse
    from matplotlib.ticker import MaxNLocator
except ImportError:
    raise missing("matplotlib", "plots") from None

if TYPE_CHECKING:
    from matplotlib.axes import Axes

    from ..clouds.cloud import Dispersion

#: Up to this many shots each is a dot; more are counted in cells, so many across the picture.
DOTS, CELLS = 2_000, 55
EDGE = "#4F5A2B"
#: The share of shots, by distance from the median either way, that the picture is framed to, with some room.
FRAMED = 0.999
VERBS = {"landing": "land", "rest": "come to rest"}


def cloud(cloud: Dispersion, ax: Axes | None = None, units: System = "yards", coverage: float = 0.8) -> Axes:
    """The kept samples from above, the player looking up the picture, with median, ellipse and targets."""
    unit = length_unit(units)
    x, y = (unit.from_si(z[np.isfinite(z)]) for z in cloud.points)
    if len(x) == 0:
        raise InputError("there is no cloud to draw: no sample was kept that finished")
    figure = plt.figure(layout="constrained") if ax is None else None
    ax = figure.subplots() if figure else ax
    assert ax is not None
    ax.axvline(0.0, color=LINE, lw=1, ls=(0, (6, 3)), label="target line")
    for i, region in enumerate(cloud.sampling.regions):  # filled below the shots, its edge above them
        draw_target(ax, region, unit, label=None)
        edge = {"fc": "none", "ec": EDGE, "lw": 1.8, "alpha": 1.0, "zorder": 2}
        draw_target(ax, region, unit, label="target" if i == 0 else None, **edge)
    tall = _frame(ax, x, y)
    if figure:
        figure.set_size_inches(max(7.5, 1.9 + 6.1 / max(1.0, tall)), 1.5 + 6.1 * min(1.0, tall))
    _shots(ax, x, y, unit.symbol)
    if (found := cloud.ellipse(coverage)) is not None:
        centre, halves = unit.from_si(np.array(found.centre)), unit.from_si(np.array(found.half_axes))
        ax.add_patch(Ellipse(tuple(centre), *(2 * halves), angle=float(np.degrees(found.turn)), fc="none", ec=MARK,
                             lw=2, zorder=3, label=f"ellipse for {percent(coverage)} of normal shots"))  # fmt: skip
    ax.plot(np.median(x), np.median(y), "D", color="white", mec="black", mew=1.5, ms=8, ls="none", zorder=4,
            label="median")  # fmt: skip
    inside = _within(x, ax.get_xlim()) & _within(y, ax.get_ylim())
    return _finish(ax, cloud, unit.symbol, int((~inside).sum()))


def _within(x: Array, ends: tuple[float, float]) -> Any:
    return (x >= ends[0]) & (x <= ends[1])


def _frame(ax: Axes, x: Array, y: Array) -> float:
    """Equal scales around the shots, with what was drawn before inside; height over width, 1/2 to 2."""
    middle = np.array([np.median(x), np.median(y)])
    away = np.abs(np.stack([x, y]) - middle[:, None])
    reach = np.maximum(5.0, 1.15 * np.quantile(away, FRAMED, axis=1))
    ax.update_datalim([middle - reach, middle + reach])
    ax.autoscale_view()
    limits = np.array([ax.get_xlim(), ax.get_ylim()])
    half = np.ptp(limits, axis=1) / 2
    half = np.maximum(half, half.max() / 2)
    ends = limits.mean(1)[:, None] + half[:, None] * np.array([-1, 1])
    ax.set_xlim(*ends[0])
    ax.set_ylim(*ends[1])
    ax.set_aspect("equal")
    return float(half[1] / half[0])


def _shots(ax: Axes, x: Array, y: Array, symbol: str) -> None:
    """Dots, or the number of shots in each cell."""
    if len(x) <= DOTS:
        ax.plot(x, y, "o", color=FLIGHT, ms=3, mew=0, alpha=0.5, zorder=1, label="shots")
        return
    shades = LinearSegmentedColormap.from_list("shots", ["#E6EEF6", FLIGHT, "#00253D"])
    extent = (*ax.get_xlim(), *ax.get_ylim())
    cells = CELLS, max(1, round(CELLS * (extent[3] - extent[2]) / (extent[1] - extent[0]) / np.sqrt(3)))
    drawn = ax.hexbin(x, y, gridsize=cells, extent=extent, mincnt=1, cmap=shades, linewidths=0.1, zorder=1)
    size = (extent[1] - extent[0]) / CELLS
    ax.figure.colorbar(drawn, ax=ax, shrink=0.6, label=f"shots in a cell {size:.2g} {symbol} wide")


def _finish(ax: Axes, cloud: Dispersion, symbol: str, outside: int) -> Axes:
    for axis in (ax.xaxis, ax.yaxis):
        axis.set_major_locator(MaxNLocator(8, steps=[1, 2, 5, 10]))
    ax.xaxis.set_major_formatter(left_right)
    ax.set_xlabel(f"sideways, {symbol}")
    ax.set_ylabel(f"downrange, {symbol}")
    frame_plainly(ax)
    beyond = f", {outside:,} outside the picture" if outside else ""
    ax.set_title(
        f"Where {counted(cloud.samples, 'shot')} {VERBS[cloud.sampling.at]}{beyond}",
        loc="left",
        fontweight="bold",
        pad=24,
    )
    ax.legend(loc="lower left", bbox_to_anchor=(-0.02, 1.0), ncols=5, fontsize="small", frameon=False,
              handletextpad=0.4, columnspacing=1.2, borderaxespad=0.2)  # fmt: skip
    return ax
