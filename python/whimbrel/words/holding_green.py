"""What holds a green, in plain sentences."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..core.quantity import System, text

if TYPE_CHECKING:
    from ..row.ground import Landing


def of_hold(depth: float, landing: Landing, spin: float, descent: float, units: System = "yards") -> str:
    """What spin, and what descent angle, hold a green of some depth; NaN where none does."""
    room = text(depth, "depth", "m", units)
    fell = text(float(landing.descent_angle), "descent_angle", "rad")
    spun = text(float(landing.landing_spin_rate), "landing_spin_rate", "rad/s")
    rate, angle = text(spin, "landing_spin_rate", "rad/s"), text(descent, "descent_angle", "rad")
    needs = f"it takes at least {rate} of backspin"
    falls = f"it must come down at {angle} or steeper"
    if spin == 0.0:
        needs = "any backspin does"
    elif spin != spin:
        needs = "no backspin does"
    if descent == 0.0:
        falls = "any descent does"
    elif descent != descent:
        falls = "no descent does"
    return f"To run no more than {room} past its pitch mark: coming down at {fell}, {needs}; with {spun}, {falls}."
