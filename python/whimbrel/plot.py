"""Pictures, by matplotlib. A function takes its axes or makes them and returns them; it saves nothing."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from .errors import missing
from .quantities import BY_SYMBOL, System, text

try:
    import matplotlib.pyplot as plt
except ImportError:
    raise missing("matplotlib", "plots") from None

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

    from .shot import Shot

# Colours that stay apart for colour-blind eyes (Okabe & Ito 2008).
FLIGHT, MARK, GROUND, LINE = "#0072B2", "#D55E00", "#8A9A5B", "#555555"


def _length(units: System) -> Any:
    return BY_SYMBOL["yd" if units == "yards" else "m"]


def _axes(ax: Axes | None) -> Axes:
    return ax if ax is not None else plt.subplots(layout="constrained")[1]


def side_view(shot: Shot, ax: Axes | None = None, units: System = "yards") -> Axes:
    """Height against distance downrange, with apex and landing marked."""
    ax = _axes(ax)
    unit = _length(units)
    path = unit.from_si(shot.flight.path())
    top = int(np.argmax(path[:, 2]))
    ax.axhline(0.0, color=GROUND, lw=2, zorder=1)
    ax.plot(path[:, 1], path[:, 2], color=FLIGHT, lw=2.2)
    ax.plot(path[top, 1], path[top, 2], "o", color=MARK, ms=5)
    ax.annotate(f"apex {text(shot.flight.apex, 'apex', 'm', units)}", path[top, 1:], xytext=(0, 9),
                textcoords="offset points", ha="center", color=MARK)  # fmt: skip
    _landing(
        ax,
        path[-1, 1:],
        f"comes down at {text(shot.flight.descent_angle, 'descent_angle', 'rad')}",
        above=True,
    )
    ax.set_ylim(min(0.0, path[:, 2].min()) - 1, path[:, 2].max() * 1.3 + 1)
    return _finished(ax, "From the side", f"height, {unit.symbol}", unit)


def top_view(shot: Shot, ax: Axes | None = None, units: System = "yards") -> Axes:
    """Sideways distance, the player's right downward, against distance downrange; sideways enlarged."""
    ax = _axes(ax)
    unit = _length(units)
    path = unit.from_si(shot.flight.path())
    reach, heading = path[-1, 1], shot.launch.launch_direction
    ax.axhline(0.0, color=LINE, lw=1, ls=(0, (6, 3)), label="target line")
    started = reach * np.tan(heading) if np.cos(heading) > 0.2 else 0.0
    ax.plot([0, reach], [0, started], color=LINE, lw=1, ls=":", label="start line")
    ax.plot(path[:, 1], path[:, 0], color=FLIGHT, lw=2.2, label="ball")
    carry, offline = (text(x, "carry", "m", units) for x in (shot.carry, abs(shot.offline)))
    side = "right" if shot.offline > 0 else "left"
    words = f"carry {carry}" if offline.startswith("0.0 ") else f"carry {carry}, {offline} {side}"
    _landing(ax, path[-1, 1::-1], words, above=path[-1, 0] < 0)
    across = max(np.abs(path[:, 0]).max(), abs(started), 5.0) * 1.5
    ax.set_ylim(across, -across)
    ax.yaxis.set_major_formatter(lambda y, _: f"{abs(y):g} {'right' if y > 0 else 'left'}" if y else "0")
    ax.legend(loc="upper left", ncols=3, frameon=False, fontsize="small")
    return _finished(ax, "From above, sideways enlarged", f"sideways, {unit.symbol}", unit)


def _landing(ax: Axes, where: Any, words: str, above: bool) -> None:
    """The landing, marked, with words to its left."""
    ax.plot(*where, "o", color=MARK, ms=7, mfc="white", mew=2)
    ax.annotate(words, where, xytext=(-14, 12 if above else -12), textcoords="offset points",
                ha="right", va="bottom" if above else "top", color=MARK,
                bbox={"fc": "white", "ec": "none", "alpha": 0.8, "pad": 1})  # fmt: skip


def _finished(ax: Axes, title: str, across: str, unit: Any) -> Axes:
    ax.set_title(title, loc="left", fontweight="bold")
    ax.set_xlabel(f"downrange, {unit.symbol}")
    ax.set_ylabel(across)
    ax.grid(color="#E5E5E5", lw=0.8)
    ax.set_axisbelow(True)
    ax.spines[["top", "right"]].set_visible(False)
    return ax


def shot(shot: Shot, units: System = "yards") -> Figure:
    """Side and top view of one shot."""
    if shot.shape != ():
        raise ValueError("plot() is for one shot")
    if shot.status != "ok":
        raise ValueError(f"there is no flight to draw: status {shot.status}")
    figure, (above, below) = plt.subplots(2, 1, figsize=(9, 6.5), layout="constrained", sharex=True)
    side_view(shot, above, units)
    above.set_xlabel("")
    above.set_title("From the side, height enlarged", loc="left", fontweight="bold")
    top_view(shot, below, units)
    return figure
