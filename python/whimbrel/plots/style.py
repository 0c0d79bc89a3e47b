"""What pictures share: colours, axes, ticks and frames."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Literal

from ..core.optional import import_pyplot
from ..core.plain_text import without_steering
from ..core.quantity import BY_SYMBOL, System

if TYPE_CHECKING:
    from matplotlib.axes import Axes

# Colours that stay apart for colour-blind eyes (Okabe & Ito 2008).
FLIGHT, MARK, STRUCK, GROUND, LINE, RUN = "#0072B2", "#D55E00", "#CC79A7", "#8A9A5B", "#555555", "#009E73"


def literal(name: str) -> str:
    """A name that matplotlib writes as it is: a dollar sign starts no formula."""
    return without_steering(name).replace("$", r"\$")


def left_right(x: float, _: Any = None) -> str:
    """A tick sideways of the target."""
    return f"{abs(x):g} {'right' if x > 0 else 'left'}" if x else "0"


def length_unit(units: System) -> Any:
    """The unit of distances."""
    return BY_SYMBOL["yd" if units == "yards" else "m"]


def axes_or_new(ax: Axes | None) -> Axes:
    """The axes given, or new ones of a figure of their own."""
    return ax if ax is not None else import_pyplot().subplots(layout="constrained")[1]


def frame_plainly(ax: Axes, grid: Literal["both", "x"] | None = "both") -> None:
    """A light grid behind what is drawn, across x alone or none, and no lines at the top and the right."""
    if grid is not None:
        ax.grid(axis=grid, color="#E5E5E5", lw=0.8)
        ax.set_axisbelow(True)
    ax.spines[["top", "right"]].set_visible(False)


def finish(ax: Axes, title: str, across: str, unit: Any) -> Axes:
    """Title, labels and frame of a picture with the distance downrange along its foot."""
    ax.set_title(title, loc="left", fontweight="bold")
    ax.set_xlabel(f"downrange, {unit.symbol}")
    ax.set_ylabel(across)
    frame_plainly(ax)
    return ax
