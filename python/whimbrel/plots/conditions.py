"""What air and wind do to the carries of a set, by matplotlib."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from ..core.quantity import System, display_unit, text
from ..errors import missing
from .style import frame_plainly, length_unit, literal

try:
    import matplotlib.pyplot as plt
except ImportError:
    raise missing("matplotlib", "plots") from None

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from ..questions.conditions import AirTable, WindTable


def air_table(table: AirTable, units: System = "yards") -> Figure:
    """Carry gained against altitude, a panel a temperature, a line a club; gains are over the first air."""
    length, height = length_unit(units), display_unit("altitude", "m", units)
    count = table.temperature.size
    figure, panels = plt.subplots(
        1, count, figsize=(2.2 + 2.6 * count, 4.8), layout="constrained", sharey=True, squeeze=False
    )
    gained = length.from_si(table.carry - table.carry[:, :1, :1])
    high = height.from_si(table.altitude)
    for t, ax in enumerate(panels[0]):
        for i, name in enumerate(table.names):
            carry = text(table.carry[i, 0, 0], "carry", "m", units)
            ax.plot(high, gained[i, t], color=_shade(i, table.names), lw=1.8, label=f"{literal(name)}, {carry}")
        ax.set_title(text(table.temperature[t], "temperature", "K", units), loc="left", fontweight="bold")
        frame_plainly(ax)
    panels[0, 0].set_ylabel(f"carry gained, {length.symbol}")
    figure.supxlabel(f"altitude, {height.symbol}", fontsize="medium")
    first = f"carry at {text(table.temperature[0], 'temperature', 'K', units)}, {high[0]:,.0f} {height.symbol}"
    handles, labels = panels[0, 0].get_legend_handles_labels()
    figure.legend(handles, labels, loc="outside right center", fontsize="small", frameon=False, title=first,
                  title_fontsize="small")  # fmt: skip
    return figure


def wind_table(table: WindTable, units: System = "yards") -> Figure:
    """What head and tail wind do to carry, and cross wind to drift, a line a club."""
    length, speed = length_unit(units), display_unit("wind", "m/s", units)
    figure, (along, across) = plt.subplots(1, 2, figsize=(11, 5), layout="constrained")
    at = table.directions.index
    speeds = speed.from_si(table.speed)
    wind = np.concatenate([-speeds[::-1], speeds])
    carry, drift = length.from_si(table.carry), length.from_si(table.drift)
    for i, name in enumerate(table.names):
        both = np.concatenate([carry[i, ::-1, at("behind")], carry[i, :, at("ahead")]])
        along.plot(wind, both, color=_shade(i, table.names), lw=1.8, label=literal(name))
        across.plot(speeds, drift[i, :, at("the left")], color=_shade(i, table.names), lw=1.8, label=literal(name))
    along.set_xlabel(f"tail wind  ←  {speed.symbol} at 10 m  →  head wind")
    along.xaxis.set_major_formatter(lambda x, _: f"{abs(x):g}")
    along.set_ylabel(f"carry, {length.symbol}")
    along.set_title("Along the shot", loc="left", fontweight="bold")
    across.set_xlabel(f"wind from the left, {speed.symbol} at 10 m")
    across.set_ylabel(f"drift to the right, {length.symbol}")
    across.set_title("Across the shot", loc="left", fontweight="bold")
    across.legend(fontsize="x-small", frameon=False, ncols=2)
    for ax in (along, across):
        frame_plainly(ax)
    return figure


def _shade(i: int, names: list[str]) -> Any:
    return plt.get_cmap("cividis")(0.85 * i / max(1, len(names) - 1))
