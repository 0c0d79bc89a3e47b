"""Sobol indices as bars, by matplotlib."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from ..core.quantity import plain_name
from .style import FLIGHT, LINE, MARK, axes_or_new, frame_plainly

if TYPE_CHECKING:
    from matplotlib.axes import Axes

    from ..questions.global_sensitivity import GlobalSensitivity


def indices(found: GlobalSensitivity, ax: Axes | None = None) -> Axes:
    """First and total Sobol indices with their intervals, and the share by the local slopes as a mark."""
    ax = axes_or_new(ax)
    rows = np.arange(len(found.indices))
    for shift, kind, color, words in ((-0.19, "first", FLIGHT, "by itself"), (0.19, "total", MARK, "in all")):
        size = [getattr(i, kind) for i in found.indices]
        doubt = [getattr(i, f"{kind}_doubt") for i in found.indices]
        ax.barh(rows + shift, size, xerr=doubt, color=color, ecolor=LINE, height=0.36, label=words)
    ax.plot([i.local for i in found.indices], rows, "D", color="black", mfc="white", ms=7, mew=1.5, ls="none",
            label="by its slope")  # fmt: skip
    ax.set_yticks(rows, [plain_name(i.name) for i in found.indices])
    ax.invert_yaxis()
    ax.set_xlim(left=0.0)
    ax.set_xlabel("share of the variance; thin lines: 95 % intervals")
    ax.set_title(f"What makes {found.of.replace('_', ' ')} spread", loc="left", fontweight="bold")
    ax.legend(loc="lower right", frameon=False)
    frame_plainly(ax, "x")
    return ax
