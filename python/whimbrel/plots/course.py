"""Pictures of shots on the course, by matplotlib. A function returns its figure; it saves nothing."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from ..core.quantity import System, shown, text
from ..errors import InputError, missing
from ..row.flight import STATUS_WORDS
from ..row.ground import Landing, Turf
from ..row.setting import Terrain
from ..row.shot import play
from ..units import deg, rpm
from .shot import FLIGHT, GROUND, LINE, MARK, RUN, finished, left_right, literal, plainly_framed, shown_length

try:
    import matplotlib.pyplot as plt
    from matplotlib.ticker import MaxNLocator
except ImportError:
    raise missing("matplotlib", "plots") from None

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from ..questions.conditions import AirTable, WindTable
    from ..questions.course import CourseShot


def course_shot(course: CourseShot, units: System = "yards") -> Figure:
    """A shot to its target, from the side and from above, with the way it is aimed."""
    if course.shape != ():
        raise ValueError("plot() is for one shot")
    if course.status != "ok":
        raise InputError(f"there is no shot to draw: {STATUS_WORDS[course.status]}")
    figure, (side, above) = plt.subplots(2, 1, figsize=(9, 6.5), layout="constrained", sharex=True)
    unit = shown_length(units)
    flight, run = (unit.from_si(x) for x in (course.shot.flight.path(), course.shot.run.path(400)))
    distance, rise = (float(unit.from_si(x)) for x in (course.target.distance, course.target.rise))
    plays = text(course.level_distance, "carry", "m", units)
    side.plot([0, distance], [0, rise], color=LINE, lw=1, ls=":", label="line to the target")
    ends = np.array([distance - 0.12 * distance, distance + 0.12 * distance])
    side.plot(ends, rise + course.target.slope_downrange * (ends - distance), color=GROUND, lw=3)
    side.plot([-0.02 * distance, 0.05 * distance], [0, 0], color=GROUND, lw=3)
    for ax, column in ((side, 2), (above, 0)):
        ax.plot(flight[:, 1], flight[:, column], color=FLIGHT, lw=2.2, label="ball")
        ax.plot(run[:, 1], run[:, column], color=RUN, lw=2.2, label="run")
        ax.plot(run[-1, 1], run[-1, column], "o", color=RUN, ms=6)
    side.plot(distance, rise, "D", color=MARK, ms=7)
    top = max(flight[:, 2].max(), 1.0)
    side.set_ylim(min(0.0, rise, flight[:, 2].min()) - 0.08 * top, top * 1.25)
    side.legend(loc="upper left", frameon=False, fontsize="small", ncols=3)
    finished(side, f"It plays like {plays} on the level in still standard air", f"height, {unit.symbol}", unit)
    side.set_xlabel("")
    above.axhline(0.0, color=LINE, lw=1, ls=(0, (6, 3)), label="target line")
    off = float(unit.from_si(course.aim_off))
    aim = text(abs(course.aim_off), "aim_off", "m", units)
    where = "aim at the target" if aim.startswith("0.0 ") else f"aim {aim} {'right' if off > 0 else 'left'}"
    above.plot([0, distance], [0, off], color=MARK, lw=1.2, ls=":", label=where)
    above.plot(distance, 0, "D", color=MARK, ms=7)
    across = max(abs(off), float(np.abs(flight[:, 0]).max()), float(np.abs(run[:, 0]).max()), 5.0) * 1.6
    above.set_ylim(across, -across)
    above.yaxis.set_major_formatter(left_right)
    above.legend(loc="upper left", frameon=False, fontsize="small", ncols=4)
    finished(above, "From above, sideways enlarged", f"sideways, {unit.symbol}", unit)
    return figure


def stopping(
    landing: Landing,
    turf: Turf,
    *,
    depth: float | None = None,
    terrain: Terrain | None = None,
    units: System = "yards",
) -> Figure:
    """How far a ball of this landing speed runs over descent angle and spin.

    The landing itself is marked and, if wanted, where it just holds ``depth``, m.
    """
    steepest = max(65.0, min(89.0, landing.descent_angle / deg + 5.0))
    flattest = min(20.0, max(1.0, landing.descent_angle / deg - 5.0))
    descent = np.linspace(flattest, steepest, 70) * deg
    spin = np.linspace(0, max(11000.0, landing.landing_spin_rate / rpm + 1000.0), 70) * rpm
    shots = play(
        Landing(landing.landing_speed, descent[:, None], 0.0, spin), turf=turf, terrain=terrain, errors="mask"
    )
    unit = shown_length(units)
    run = unit.from_si(np.where(shots.run.status == "ok", shots.run.distance, np.nan))
    figure, ax = plt.subplots(figsize=(8, 5.5), layout="constrained")
    levels = MaxNLocator(14, integer=True).tick_values(np.nanpercentile(run, 1), np.nanpercentile(run, 99))
    filled = ax.contourf(spin / rpm, descent / deg, run, levels=levels, cmap="cividis", extend="both")
    figure.colorbar(filled, label=f"run past the pitch mark, {unit.symbol}")
    ax.contour(spin / rpm, descent / deg, run, levels=[0.0], colors="white", linestyles=":", linewidths=1.5)
    if depth is not None:
        ax.contour(spin / rpm, descent / deg, run, levels=[unit.from_si(depth)], colors=MARK, linewidths=2.5)
        ax.plot([], [], color=MARK, lw=2.5, label=f"just holds {text(depth, 'depth', 'm', units)}")
    ax.plot([], [], color="#999999", ls=":", lw=1.5, label="stops at its pitch mark")
    here = landing.landing_spin_rate / rpm, landing.descent_angle / deg
    ax.plot(*here, "o", color="white", mec="black", ms=9, ls="", label="this landing")
    ax.set_xlabel("backspin at landing, rpm")
    ax.set_ylabel("descent angle, °")
    speed = text(float(landing.landing_speed), "landing_speed", "m/s", units)
    ax.set_title(f"Run on the {literal(turf.name)} at {speed}", loc="left", fontweight="bold")
    ax.legend(loc="lower left", fontsize="small")
    return figure


def air_table(table: AirTable, units: System = "yards") -> Figure:
    """Carry gained against altitude, a panel a temperature, a line a club; gains are over the first air."""
    length, height = shown_length(units), shown("altitude", "m", units)
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
        _plain(ax)
    panels[0, 0].set_ylabel(f"carry gained, {length.symbol}")
    figure.supxlabel(f"altitude, {height.symbol}", fontsize="medium")
    first = f"carry at {text(table.temperature[0], 'temperature', 'K', units)}, {high[0]:,.0f} {height.symbol}"
    handles, labels = panels[0, 0].get_legend_handles_labels()
    figure.legend(handles, labels, loc="outside right center", fontsize="small", frameon=False, title=first,
                  title_fontsize="small")  # fmt: skip
    return figure


def _shade(i: int, names: list[str]) -> Any:
    return plt.get_cmap("cividis")(0.85 * i / max(1, len(names) - 1))


def wind_table(table: WindTable, units: System = "yards") -> Figure:
    """What head and tail wind do to carry, and cross wind to drift, a line a club."""
    length, speed = shown_length(units), shown("wind", "m/s", units)
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
        _plain(ax)
    return figure


def _plain(ax: Any) -> None:
    plainly_framed(ax)
