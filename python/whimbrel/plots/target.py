"""A target region drawn from above, the player looking up the picture."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from ..statistics.targets import Circle, Corridor, Polygon, Rectangle, Target
from .style import GROUND

if TYPE_CHECKING:
    from matplotlib.axes import Axes


def draw_target(ax: Axes, target: Target | None, unit: Any, **more: Any) -> None:
    """The region, filled, in the length unit of the axes; more: how else to draw it."""
    from matplotlib.patches import Circle as Round
    from matplotlib.patches import Polygon as Outline
    from matplotlib.patches import Rectangle as Box

    look: dict[str, Any] = {"fc": GROUND, "alpha": 0.25, "ec": "none", "label": "target", "zorder": 0, **more}
    if isinstance(target, Circle):
        ax.add_patch(Round((0, unit.from_si(target.distance)), unit.from_si(target.radius), **look))
    elif isinstance(target, Rectangle):
        width, depth, far = (unit.from_si(x) for x in (target.width, target.depth, target.distance))
        ax.add_patch(Box((-width / 2, far - depth / 2), width, depth, **look))
    elif isinstance(target, Corridor):
        half = unit.from_si(target.width) / 2
        ax.axvspan(-half, half, **look)
    elif isinstance(target, Polygon):
        ax.add_patch(Outline(unit.from_si(np.array(target.corners)), **look))
