"""Pictures of sweeps, by matplotlib: a line over one axis, labelled contours over two. Saves nothing."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from ..core.optional import import_xarray
from ..core.quantity import System, Unit, display_unit, plain_name, symbol, text
from ..core.value import of_kind
from ..errors import InputError
from .style import FLIGHT, LINE, axes_or_new, frame_plainly, literal

if TYPE_CHECKING:
    import xarray as xr
    from matplotlib.axes import Axes


def plot_sweep(
    swept: xr.Dataset, output: str, *, units: System = "yards", ridge: str | None = None, ax: Axes | None = None
) -> Axes:
    """Draw one output of a grid; needs the ``plots`` extra.

    Parameters
    ----------
    swept : Dataset
        A grid from ``sweep``, of one or two axes; axes of one value do not count. Choose among more by
        ``swept.sel``.
    output : str
        One of its variables.
    units : {"yards", "metric"}
        Units of the labels.
    ridge : str, optional
        One of two axes: also draw where the output is greatest along it, interpolated by a parabola.
    ax : Axes, optional
        Where to draw; new ones by default.

    Returns
    -------
    Axes
        A line over one axis, labelled contours over two.

    Raises
    ------
    InputError
        For what cannot be drawn.
    """
    of_kind(swept, "swept", import_xarray().Dataset)
    if output not in swept or "units" not in swept[output].attrs:
        there = [name for name, x in swept.data_vars.items() if "units" in x.attrs]
        raise InputError(f"the sweep has no output {output!r}; there are: {', '.join(map(str, there))}")
    values = swept[output].squeeze()
    if "shot" in values.dims or values.ndim not in (1, 2):
        raise InputError(
            f"{output} has the dimensions {', '.join(map(str, values.dims)) or 'none'}; "
            "a picture takes a grid of one or two axes (choose by sel or isel)"
        )
    if not np.isfinite(values).any():
        raise InputError(f"{output} has no numbers to draw; status says why")
    if ridge is not None and (ridge not in values.dims or values.ndim == 1):
        raise InputError(f"ridge is {ridge!r}; it takes one of two axes: {', '.join(map(str, values.dims))}")
    ax, values = axes_or_new(ax), values.sortby(list(values.dims))
    x, (numbers, unit) = _read(values[values.dims[0]], units), _read(values, units)
    if values.ndim == 1:
        ax.plot(x[0], numbers, color=FLIGHT, lw=2.2, marker="o" if numbers.size < 15 else "", ms=5)
        ax.set_ylabel(_label(output, unit))
    else:
        y = _read(values[values.dims[1]], units)
        _contours(ax, x[0], y[0], numbers, _label(output, unit))
        ax.set_ylabel(_label(str(values.dims[1]), y[1]))
        if ridge is not None:
            _ridge(ax, x[0], y[0], numbers, plain_name(output), ridge == values.dims[1], plain_name(ridge))
    ax.set_xlabel(_label(str(values.dims[0]), x[1]))
    ax.set_title(", ".join([plain_name(output).capitalize(), *_held(swept, units)]), loc="left", fontweight="bold")
    frame_plainly(ax, "both" if values.ndim == 1 else None)
    return ax


def _held(swept: xr.Dataset, units: System) -> list[str]:
    """The club, and the speed where it is the same for all."""
    same = [literal(str(swept.attrs["club"]))] if "club" in swept.attrs else []
    for name in ("clubhead_speed", "ball_speed", "landing_speed"):
        if (speed := swept.attrs.get(f"of_start_{name}")) is not None:
            same.append(text(float(speed), name, "m/s", units))
    return same


def _contours(ax: Axes, x: Any, y: Any, z: Any, label: str) -> None:
    from matplotlib.patheffects import withStroke
    from matplotlib.ticker import MaxNLocator

    levels = MaxNLocator(14, steps=[1, 2, 5, 10]).tick_values(np.nanmin(z), np.nanmax(z))
    shades = ax.contourf(x, y, z.T, levels=levels, cmap="cividis")
    if np.nanmin(z) < np.nanmax(z):
        lines = ax.contour(x, y, z.T, levels=levels, colors="white", linewidths=0.8, negative_linestyles="solid")
        numbered = ax.clabel(lines, fontsize="small", manual=_places(lines.allsegs, x, y),
                         fmt=lambda level: f"{level + 0.0:g}".replace("-", "−"))  # fmt: skip
        for label_on_line in numbered:
            label_on_line.set(path_effects=[withStroke(linewidth=2, foreground=LINE)])
    ax.figure.colorbar(shades, ax=ax, label=label)


def _places(lines: Any, x: Any, y: Any) -> list[Any]:
    """Where to number contours: each where it crosses the falling diagonal or comes nearest to it, away from the
    frame; one that is near the frame everywhere has no number."""
    low, high = np.array([x.min(), y.min()]), np.array([x.max(), y.max()])
    places = []
    for points in (np.concatenate(line) for line in lines if len(line)):
        share = (points - low) / (high - low)
        inside = ((share > 0.06) & (share < 0.94)).all(axis=1)
        if inside.any():
            places.append(points[np.where(inside, abs(share.sum(axis=1) - 1), np.inf).argmin()])
    return places


def _ridge(ax: Axes, x: Any, y: Any, z: Any, output: str, along_y: bool, axis: str) -> None:
    rows = z if along_y else z.T
    seen = np.isfinite(rows).any(axis=1)
    best = np.array([_where_most(y if along_y else x, row) for row in rows])
    line = (x[seen], best[seen]) if along_y else (best[seen], y[seen])
    ax.plot(*line, color="white", lw=4.0)
    ax.plot(*line, color=LINE, lw=2.0, ls="--", label=f"most {output} over {axis}")
    ax.legend(loc="best", framealpha=0.9, edgecolor="none", fontsize="small")


def _where_most(x: Any, z: Any) -> float:
    """Where z over x is greatest: the vertex of the parabola through its greatest point and the two beside it."""
    k = int(np.argmax(np.where(np.isfinite(z), z, -np.inf)))
    if not 0 < k < z.size - 1 or not np.isfinite(z[k - 1 : k + 2]).all():
        return float(x[k])
    before, after = (z[k] - z[k - 1]) / (x[k] - x[k - 1]), (z[k + 1] - z[k]) / (x[k + 1] - x[k])
    if not before > after:  # a level stretch has no vertex
        return float(x[k])
    steeper = (before - after) / (x[k + 1] - x[k - 1])
    return float(0.5 * (x[k - 1] + x[k] + before / steeper))


def _read(x: xr.DataArray, units: System) -> tuple[Any, Unit]:
    """The numbers as they are shown, and their unit."""
    unit = display_unit(str(x.name), x.attrs["units"], units)
    return unit.from_si(x.to_numpy()), unit


def _label(name: str, unit: Unit) -> str:
    return plain_name(name).capitalize() + (f", {symbol(unit)}" if unit.symbol else "")
