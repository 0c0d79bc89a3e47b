"""Pictures of shots on the course, by matplotlib. A function returns its figure; it saves nothing."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from ..core.quantity import System, said, text
from ..errors import InputError, missing
from ..row.flight import STATUS_WORDS
from ..words.phrases import aside
from .style import FLIGHT, GROUND, LINE, MARK, RUN, finish, left_right, length_unit

try:
    import matplotlib.pyplot as plt
except ImportError:
    raise missing("matplotlib", "plots") from None

if TYPE_CHECKING:
    from matplotlib.figure import Figure

    from ..questions.course import CourseShot


def course_shot(course: CourseShot, units: System = "yards") -> Figure:
    """A shot to its target, from the side and from above, with the way it is aimed."""
    if course.shape != ():
        raise ValueError("plot() is for one shot")
    if course.status != "ok":
        raise InputError(f"there is no shot to draw: {STATUS_WORDS[course.status]}")
    figure, (side, above) = plt.subplots(2, 1, figsize=(9, 6.5), layout="constrained", sharex=True)
    unit = length_unit(units)
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
    finish(side, f"It plays like {plays} on the level in still standard air", f"height, {unit.symbol}", unit)
    side.set_xlabel("")
    above.axhline(0.0, color=LINE, lw=1, ls=(0, (6, 3)), label="target line")
    off = float(unit.from_si(course.aim_off))
    aim = said(course.aim_off, "aim_off", "m", units)
    where = "aim at the target" if aim.is_zero else f"aim {aside(aim)}"
    above.plot([0, distance], [0, off], color=MARK, lw=1.2, ls=":", label=where)
    above.plot(distance, 0, "D", color=MARK, ms=7)
    across = max(abs(off), float(np.abs(flight[:, 0]).max()), float(np.abs(run[:, 0]).max()), 5.0) * 1.6
    above.set_ylim(across, -across)
    above.yaxis.set_major_formatter(left_right)
    above.legend(loc="upper left", frameon=False, fontsize="small", ncols=4)
    finish(above, "From above, sideways enlarged", f"sideways, {unit.symbol}", unit)
    return figure
