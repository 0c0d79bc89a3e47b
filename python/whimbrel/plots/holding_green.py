"""How far balls run on a turf, over how they land, by matplotlib."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from ..core.quantity import System, text
from ..errors import missing
from ..row.ground import Landing, Turf
from ..row.play import play
from ..row.setting import Terrain
from ..units import deg, rpm
from .style import MARK, length_unit, literal

try:
    import matplotlib.pyplot as plt
    from matplotlib.ticker import MaxNLocator
except ImportError:
    raise missing("matplotlib", "plots") from None

if TYPE_CHECKING:
    from matplotlib.figure import Figure


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
    unit = length_unit(units)
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
