"""A swing arc in plain sentences."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from ..core.quantity import System, text
from ..questions.swing_plane import SEEN
from ..units import deg
from .phrases import pointing, side

if TYPE_CHECKING:
    from ..row.arc import SwingArc
    from ..row.swing import Delivery, Hand


def of_arc(arc: SwingArc, spread: SwingArc, delivery: Delivery, hand: Hand, units: System) -> str:
    """What a measured path and attack say of the swing plane, and whether they support an over-the-top look.

    spread: the arcs of the steepest and flattest plane it could be.
    """
    base, path = float(arc.base_direction), float(delivery.club_path)
    height, low, ahead = (
        float(arc.at_ball(hand).edge_height),
        float(arc.low_point_height),
        float(arc.low_point_ahead),
    )
    shift = path - base

    def say(x: float, name: str, si: str) -> str:
        return text(abs(float(x)), name, si, units)

    ends = np.sign(np.round(np.atleast_1d(spread.base_direction) / SEEN))
    doubt = ", or to the other side, as the plane's range covers both" if ends.min() < 0 < ends.max() else ""
    attack = say(float(delivery.attack_angle), "attack_angle", "rad")
    plane = say(float(arc.plane_inclination), "plane_inclination", "rad")
    way = "down" if delivery.attack_angle < 0 else "up"
    lines = [
        f"The swing plane points {pointing(base)}{doubt}: that is its base line, what the eye sees.",
        f"Hitting level, the path measures the same: {pointing(path)}."
        if attack.startswith("0.0")
        else f"Hitting {attack} {way} on a plane of {plane} moves the path "
        f"{abs(shift) / deg:.1f}° to the {side(shift)} of it, so the path measures {pointing(path)}.",
        f"Taking the leading edge as {_at_turf(height, say(height, 'edge_height', 'm'))} at the ball and a "
        f"radius of {say(float(arc.radius), 'radius', 'm')}, the low point lies "
        f"{_along(ahead, say(ahead, 'low_point_ahead', 'm'))}, "
        f"{say(low, 'low_point_height', 'm')} {_over(low)} the turf.",
    ]
    away = 1.0 if hand == "right" else -1.0  # in-to-out is to the right for a right-hander
    if SEEN <= away * path <= away * shift - SEEN:
        lines.append(
            f"The plane points {side(base)} and the path still goes {side(path)}: such a swing can look over the "
            "top and measure in-to-out. The downward hit makes the difference."
        )
    else:
        lines.append("These numbers do not give a swing that looks over the top and measures in-to-out.")
    return " ".join(lines)


def _along(ahead: float, amount: str) -> str:
    if amount.startswith(("0.00 ", "0.0 ")):
        return "at the ball"
    return f"{amount} {'ahead of' if ahead > 0 else 'behind'} the ball"


def _over(height: float) -> str:
    return "below" if height < 0 else "above"


def _at_turf(height: float, amount: str) -> str:
    return "level with the turf" if abs(height) < 5e-5 else f"{amount} {_over(height)} the turf"
