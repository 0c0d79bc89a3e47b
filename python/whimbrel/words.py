"""What the ball did, in plain sentences."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from . import _core
from .flight import STATUS_WORDS
from .quantities import System, text
from .units import deg
from .values import Number

if TYPE_CHECKING:
    from .shot import Shot
    from .swing import Delivery, Hand
    from .swing_arc import SwingArc

SWING_CAUTION = "Swing changes can strain the body: ask a qualified professional, and a doctor where there is pain."
CAUTION = (
    "Predictions are for teaching, fitting and study. They are not for siting or sizing safety nets, fences, "
    "tees, paths or setbacks: a golf ball can injure or kill, and such work follows local codes and licensed "
    f"practice. {SWING_CAUTION}"
)
BALL_SPREAD = (
    "Present-day balls differ by up to 18 m (20 yd) of carry for one launch (Lyu et al. 2018): "
    "a carry here is that of the ball model, to compare with others of the same model."
)
SHORT_CAUTION = (
    "For teaching, fitting and study; not for safety nets, fences, tees or setbacks: a golf ball can injure or "
    "kill."
)
IMPACT_BIAS = (
    "Impact here is the rigid-body model, for teaching: about a quarter too much spin with a driver, an eighth too "
    "little with a mid-iron, a quarter too little with a short iron; ball speed within 1 %. "
    "Centred strikes only."
)


NOTICED = 0.05 * deg  # smaller directions are told as 0.0°


def side(x: float) -> str:
    return "right" if x > 0 else "left"


def of_shot(shot: Shot, units: System = "yards") -> str:
    """Two sentences: how the ball started, climbed and curved; where and how it came down."""
    if shot.shape != ():
        raise ValueError("in_words() is for one shot")
    launch, flight = shot.launch, shot.flight

    def say(x: Number, name: str, si: str) -> str:
        return text(abs(float(x)), name, si, units)

    def sideways(x: Number, name: str, si: str, of: str) -> str:
        amount = say(x, name, si)
        return f"on {of}" if amount.startswith("0.0") else f"{amount} {side(float(x))} of {of}"

    speed = say(launch.ball_speed, "ball_speed", "m/s")
    if shot.status != "ok":
        why = STATUS_WORDS[shot.status].replace("the ball", "it")
        return f"The ball left at {speed}: {why}. There is no carry to report."
    curve = say(flight.curve, "curve", "m")
    curved = "flew straight"
    if not curve.startswith("0.0"):
        curved = f"curved {curve} to the {side(flight.curve)}{_shape(shot)}"
    start = sideways(launch.launch_direction, "launch_direction", "rad", "the target line")
    landing = sideways(flight.offline, "offline", "m", "the target line")
    return (
        f"The ball started {start} at {speed}, {say(launch.launch_angle, 'launch_angle', 'rad')} up with "
        f"{say(launch.spin_rate, 'spin_rate', 'rad/s')} of spin, climbed to "
        f"{say(flight.apex, 'apex', 'm')} and {curved}. "
        f"It carried {say(flight.carry, 'carry', 'm')} in {say(flight.flight_time, 'flight_time', 's')} "
        f"and landed {landing}, coming down at {say(flight.descent_angle, 'descent_angle', 'rad')}."
    )


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

    ends = np.sign(np.round(np.atleast_1d(spread.base_direction) / NOTICED))
    doubt = ", or to the other side, as the plane's range covers both" if ends.min() < 0 < ends.max() else ""
    attack = say(float(delivery.attack_angle), "attack_angle", "rad")
    plane = say(float(arc.plane_inclination), "plane_inclination", "rad")
    way = "down" if delivery.attack_angle < 0 else "up"
    lines = [
        f"The swing plane points {_aimed(base)}{doubt}: that is its base line, what the eye sees.",
        f"Hitting level, the path measures the same: {_aimed(path)}."
        if attack.startswith("0.0")
        else f"Hitting {attack} {way} on a plane of {plane} moves the path "
        f"{abs(shift) / deg:.1f}° to the {side(shift)} of it, so the path measures {_aimed(path)}.",
        f"Taking the leading edge as {_at_turf(height, say(height, 'edge_height', 'm'))} at the ball and a "
        f"radius of {say(float(arc.radius), 'radius', 'm')}, the low point lies "
        f"{_along(ahead, say(ahead, 'low_point_ahead', 'm'))}, "
        f"{say(low, 'low_point_height', 'm')} {_over(low)} the turf.",
    ]
    away = 1.0 if hand == "right" else -1.0  # in-to-out is to the right for a right-hander
    if NOTICED <= away * path <= away * shift - NOTICED:
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


def _aimed(angle: float) -> str:
    return f"{abs(angle) / deg:.1f}° {side(angle)} of the target" if abs(angle) >= NOTICED else "at the target"


def out_of_range(shot: Shot) -> list[str]:
    """What left a model's stated range, and by how much; nothing where all stayed inside.

    Outside its range a ball model holds its edge value; the contact model is calculated on, uncalibrated.
    """
    ranges = shot.ball.aero.stated_range
    contact = ("the contact model's", "it is not calibrated")
    flight = ("the ball model's", "it holds its edge value")
    spans = {
        "face_friction": ("face friction", contact, _core.least_face_friction, math.inf),
        "approach_speed": ("approach speed in m/s", contact, _core.least_approach_speed, math.inf),
        "spin_ratio": ("spin ratio", flight, ranges.spin_ratio_lower, ranges.spin_ratio_upper),
        "reynolds": ("Reynolds number", flight, ranges.reynolds_lower, ranges.reynolds_upper),
    }
    lines = []
    for name, excess in shot.out_of_range.items():
        if excess:
            what, (whose, there), lower, upper = spans[name]
            reached = (upper if excess > 0 else lower) + excess
            lines.append(
                f"Note: the {what} went to {_plain(reached)}, outside {whose} stated range ({_plain(lower)} "
                f"{'up' if upper == math.inf else f'to {_plain(upper)}'}); there {there}."
            )
    return lines


def _plain(x: float) -> str:
    return f"{x:,.0f}" if abs(x) >= 100 else f"{x:.3g}"


def _shape(shot: Shot) -> str:
    """The trade's name of a curve that spin made, which depends on the hand; nothing without a club or where the
    wind made the curve."""
    tilt = float(shot.launch.spin_axis_tilt)
    if shot.club is None or abs(tilt) < 0.5 * deg or (tilt > 0) != (shot.flight.curve > 0):
        return ""
    away = (shot.flight.curve > 0) == (shot.club.hand == "right")
    return f" (a {'fade' if away else 'draw'} or {'slice' if away else 'hook'} for a {shot.club.hand}-hander)"
