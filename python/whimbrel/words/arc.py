"""A swing arc in plain sentences."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from ..core.quantity import Said, System, said
from ..questions.swing_plane import over_the_top_in_to_out
from .phrases import along, angle, degrees, moves_path, pointing, seen, side

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

    def say(x: float, name: str) -> Said:
        return abs(said(float(x), name, "m", units))

    ends = np.sign([degrees(x).value for x in np.atleast_1d(spread.base_direction)])
    doubt = ", or to the other side, as the plane's range covers both" if ends.min() < 0 < ends.max() else ""
    lines = [
        f"The swing plane points {pointing(base)}{doubt}: that is its base line, what the eye sees.",
        _moved(float(delivery.attack_angle), float(arc.plane_inclination), shift, path),
        f"Taking the leading edge as {_at_turf(height, say(height, 'edge_height'))} at the ball and a "
        f"radius of {say(float(arc.radius), 'radius')}, the low point lies {along(ahead, units)}, "
        f"{say(low, 'low_point_height')} {_over(low)} the turf.",
    ]
    away = 1.0 if hand == "right" else -1.0  # in-to-out is to the right for a right-hander
    if over_the_top_in_to_out(path, shift, away):
        lines.append(
            f"The plane points {side(base)} and the path still goes {side(path)}: such a swing can look over the "
            "top and measure in-to-out. The downward hit makes the difference."
        )
    else:
        lines.append("These numbers do not give a swing that looks over the top and measures in-to-out.")
    return " ".join(lines)


def _moved(attack: float, plane: float, shift: float, path: float) -> str:
    """What hitting down or up does to the path on this plane."""
    if not seen(attack):
        return f"Hitting level, the path measures the same: {pointing(path)}."
    hitting = f"Hitting {angle(attack)} {'down' if attack < 0 else 'up'} on a plane of {angle(plane)}"
    off_it = " of it, so the path" if seen(shift) else ", which"
    return f"{hitting} {moves_path(shift)}{off_it} measures {pointing(path)}."


def _over(height: float) -> str:
    return "below" if height < 0 else "above"


def _at_turf(height: float, amount: Said) -> str:
    return "level with the turf" if amount.is_zero else f"{amount} {_over(height)} the turf"
