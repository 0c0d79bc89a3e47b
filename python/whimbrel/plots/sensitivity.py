"""What a step of each input does, as bars, by matplotlib."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from ..core.quantity import System, display_unit, plain_name, symbol, text
from ..errors import InputError
from ..words.sensitivity import step_text, with_sign
from .style import FLIGHT, LINE, MARK, axes_or_new, frame_plainly

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

    from ..questions.sensitivity import Sensitivity


def bars(slopes: Sensitivity, of: str, ax: Axes | None = None, units: System = "yards") -> Axes:
    """What a readable step of each input does to one result, the largest first."""
    if slopes.shape != ():
        raise InputError("plot() is for one shot")
    if of not in slopes.of:
        raise InputError(f"of is {of!r}; accepted: {', '.join(slopes.of)}")
    ax = axes_or_new(ax)
    unit = display_unit(of, slopes.of[of], units)
    size = {by: float(slopes.of_a_step(of, by, units)) for by in slopes.by}
    order = sorted((by for by in size if size[by] == size[by]), key=lambda by: -abs(size[by]))
    effects = np.array([size[by] for by in order])
    rows = np.arange(len(order))
    ax.axvline(0.0, color=LINE, lw=1)
    ax.barh(rows, effects, color=[FLIGHT if x > 0 else MARK for x in effects], height=0.6)
    steps = [step_text(*slopes.step(by, units)) for by in order]
    ax.set_yticks(rows, [f"{plain_name(by)} +{step}" for by, step in zip(order, steps, strict=True)])
    ax.invert_yaxis()
    for row, x in zip(rows, effects, strict=True):
        ax.annotate(with_sign(x, unit), (x, row), xytext=(4 if x >= 0 else -4, 0), textcoords="offset points",
                    ha="left" if x >= 0 else "right", va="center", fontsize="small")  # fmt: skip
    low, high = min(0.0, effects.min(initial=0.0)), max(0.0, effects.max(initial=0.0))
    span = (high - low) or 1.0
    ax.set_xlim(low - 0.16 * span, high + 0.16 * span)
    now = text(float(slopes.results[of]), of, slopes.of[of], units)
    ax.set_title(f"{of.replace('_', ' ').capitalize()}, now {now}", loc="left", fontweight="bold")
    way = "; positive is to the right" if of in ("offline", "curve", "total_offline", "launch_direction") else ""
    ax.set_xlabel(f"what one step more changes, {symbol(unit) or 'no unit'}{way}")
    frame_plainly(ax, "x")
    return ax


def every(slopes: Sensitivity, units: System = "yards") -> Figure:
    """The bars of every result, one above the other."""
    import matplotlib.pyplot as plt

    count = len(slopes.of)
    figure, axes = plt.subplots(
        count, 1, figsize=(9, count * (1.0 + 0.28 * len(slopes.by))), layout="constrained", squeeze=False
    )
    for of, ax in zip(slopes.of, axes[:, 0], strict=True):
        bars(slopes, of, ax, units)
    return figure
