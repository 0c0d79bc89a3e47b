"""The ledgers of one shot as bars, by matplotlib."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from ..core.quantity import System, Unit, rounded
from ..errors import InputError
from ..words.phrases import aside, bare_aside
from .style import FLIGHT, GROUND, LINE, MARK, STRUCK, axes_or_new, frame_plainly, left_right, length_unit

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

    from ..questions.explain import Explained

#: What a part of the start-and-curve ledger is drawn as.
PARTS = (
    ("face", "face", MARK),
    ("path", "path", FLIGHT),
    ("strike_and_stance", "strike, stance", STRUCK),
    ("square", "a square shot", GROUND),
)


def causes(explained: Explained, of: str = "carry", ax: Axes | None = None, units: System = "yards") -> Axes:
    """The causes of ``"carry"`` or ``"offline"`` as bars, a thin line for the range over the orders."""
    if of not in ("carry", "offline"):
        raise InputError(f"of is {of!r}; accepted: carry, offline")
    ax = axes_or_new(ax)
    unit = length_unit(units)
    shares = explained.carry if of == "carry" else explained.offline
    size, least, most = (
        np.array([unit.from_si(getattr(s, n)) for s in shares]) for n in ("share", "least", "most")
    )
    rows = np.arange(len(shares))
    ax.axvline(0.0, color=LINE, lw=1)
    ax.barh(rows, size, color=[FLIGHT if x > 0 else MARK for x in size], height=0.6)
    ax.hlines(rows, least, most, color=LINE, lw=1.5)
    ax.set_yticks(rows, [s.cause for s in shares])
    ax.invert_yaxis()
    _room_for_numbers(ax, np.concatenate([least, most, size]))
    for row, x, low, high in zip(rows, size, least, most, strict=True):
        if x == 0.0 == low == high:
            continue
        right = x >= 0
        ax.annotate(_number(x, of, unit), (max(x, high, 0.0) if right else min(x, low, 0.0), row),
                    xytext=(4 if right else -4, 0), textcoords="offset points",
                    ha="left" if right else "right", va="center", fontsize="small")  # fmt: skip
    if of == "offline":
        _sideways_ticks(ax)
        ax.set_xlabel(f"adds to offline, {unit.symbol}")
    else:
        ax.set_xlabel(f"adds to carry, {unit.symbol}")
    ends = (
        [explained.reference_carry, explained.shot.carry]
        if of == "carry"
        else [explained.reference_offline, explained.shot.offline]
    )
    before, after = (_with_unit(unit.from_si(x), of, unit) for x in ends)
    ax.set_title(f"{of.capitalize()}: from {before} to {after}", loc="left", fontweight="bold")
    return _tidy(ax)


def start_and_curve(explained: Explained, ax: Axes | None = None, units: System = "yards") -> Axes:
    """Start line, curve and wind: what face, path and the rest have in each, and the total as a mark."""
    ax = axes_or_new(ax)
    unit = length_unit(units)
    stages = (("start line", explained.start), ("curve", explained.curve), ("wind", explained.wind))
    ax.axvline(0.0, color=LINE, lw=1)
    reach = [0.0]
    for name, label, color in PARTS:
        for row, (_, of) in enumerate(stages):
            x = float(unit.from_si(getattr(of, name)))
            earlier = [float(unit.from_si(getattr(of, n))) for n, *_ in PARTS[: [p[0] for p in PARTS].index(name)]]
            left = sum(e for e in earlier if (e > 0) == (x > 0))
            ax.barh(row, x, left=left, color=color, height=0.6, label=label if row == 0 else None)
            reach += [left, left + x]
    for row, (_, of) in enumerate(stages):
        total = float(unit.from_si(of.total))
        ax.plot(total, row, "D", color="black", ms=6, mfc="white", mew=1.5, ls="none", zorder=4,
                label="total" if row == 0 else None)  # fmt: skip
        ax.annotate(_number(total, "offline", unit), (total, row - 0.33), xytext=(0, 2), textcoords="offset points",
                    ha="center", va="bottom", fontsize="small")  # fmt: skip
    ax.set_yticks(range(len(stages)), [name for name, _ in stages])
    ax.set_ylim(len(stages) - 0.5, -1.25)
    _room_for_numbers(ax, np.array(reach))
    _sideways_ticks(ax)
    ax.set_xlabel(f"sideways, {unit.symbol}")
    ax.legend(
        loc="upper left",
        ncols=5,
        edgecolor="none",
        framealpha=1.0,
        fontsize="small",
        columnspacing=1.2,
        handletextpad=0.5,
    )
    offline = _with_unit(unit.from_si(explained.shot.offline), "offline", unit)
    ax.set_title(f"Start and curve: together {offline}", loc="left", fontweight="bold")
    return _tidy(ax)


def ledgers(explained: Explained, units: System = "yards") -> Figure:
    """Causes of carry and offline, and start and curve, of one shot."""
    import matplotlib.pyplot as plt

    figure, axes = plt.subplots(3, 1, figsize=(9, 11), layout="constrained", height_ratios=[8, 8, 5])
    causes(explained, "carry", axes[0], units)
    causes(explained, "offline", axes[1], units)
    start_and_curve(explained, axes[2], units)
    figure.supxlabel("bars: mean over all orders; thin lines: least and most over the orders", fontsize="small")
    return figure


def _number(x: float, of: str, unit: Unit) -> str:
    """A share, without its unit: signed for carry, with its side for offline."""
    share = rounded(x, unit)
    return bare_aside(share) if of == "offline" else share.bare_with_sign


def _with_unit(x: float, of: str, unit: Unit) -> str:
    amount = rounded(x, unit)
    return aside(amount) if of == "offline" else amount.text


def _room_for_numbers(ax: Axes, reach: np.ndarray) -> None:
    low, high = min(0.0, float(reach.min())), max(0.0, float(reach.max()))
    span = max(high - low, 1.0)
    ax.set_xlim(low - 0.18 * span, high + 0.18 * span)


def _sideways_ticks(ax: Axes) -> None:
    from matplotlib.ticker import MaxNLocator

    ax.xaxis.set_major_locator(MaxNLocator(7))
    ax.xaxis.set_major_formatter(left_right)


def _tidy(ax: Axes) -> Axes:
    frame_plainly(ax, "x")
    return ax
