"""What the ball did, in plain sentences."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from .. import _core
from ..core.quantity import System, counted, said, text
from ..core.value import Number
from ..row.flight import STATUS_WORDS
from ..units import deg
from .doubt import doubt_if_known, with_doubt
from .phrases import beside, on_turf, side

if TYPE_CHECKING:
    from ..inverse.doubt import Doubt
    from ..row.shot import Shot

LONGEST_RUN = 30.0  # s: as long as a ball's way over the ground is followed


def of_shot(shot: Shot, units: System = "yards") -> str:
    """Plain sentences: how the ball started, climbed and curved; where and how it came down; where it stopped."""
    if shot.shape != ():
        raise ValueError("in_words() is for one shot")
    doubts = doubt_if_known(shot)
    return f"{_say_flight(shot, units, doubts)} {say_run(shot, units, doubts)}"


def _say_flight(shot: Shot, units: System, doubts: Doubt | None) -> str:
    launch, flight = shot.launch, shot.flight

    def say(x: Number, name: str, si: str) -> str:
        return text(abs(float(x)), name, si, units)

    speed = say(launch.ball_speed, "ball_speed", "m/s")
    if shot.start == "landing":
        return (
            f"The ball came down at {speed} and {say(flight.descent_angle, 'descent_angle', 'rad')} with "
            f"{say(flight.landing_spin_rate, 'landing_spin_rate', 'rad/s')} of spin."
        )
    if shot.status != "ok":
        why = STATUS_WORDS[shot.status].replace("the ball", "it")
        return f"The ball left at {speed}: {why}. There is no carry to report."
    curve = said(float(flight.curve), "curve", "m", units)
    curved = "flew straight"
    if not curve.is_zero:
        curved = f"curved {abs(curve)} to the {side(curve.value)}{_shape(shot)}"
    start = beside(launch.launch_direction, "launch_direction", "rad", units)
    landing = beside(flight.offline, "offline", "m", units)
    return (
        f"The ball started {start} at {speed}, {say(launch.launch_angle, 'launch_angle', 'rad')} up with "
        f"{say(launch.spin_rate, 'spin_rate', 'rad/s')} of spin, climbed to "
        f"{say(flight.apex, 'apex', 'm')} and {curved}. "
        f"It carried {with_doubt(flight.carry, 'carry', 'm', units, doubts)} in "
        f"{say(flight.flight_time, 'flight_time', 's')} and landed {landing}, coming down at "
        f"{say(flight.descent_angle, 'descent_angle', 'rad')}."
    )


def say_run(shot: Shot, units: System, doubts: Doubt | None = None) -> str:
    """What the ball did from its landing to rest."""
    run = shot.run
    if run.status == "no_rest":
        far = text(float(run.total), "total", "m", units)
        where = f"{far} from {'its pitch mark' if shot.start == 'landing' else 'the start'}"
        if float(run.total_downrange) < 0:
            where += " and behind it"
        return (
            f"{on_turf(shot.turf)} it was still moving {LONGEST_RUN:.0f} s after its last bounce, {where}: it has "
            "no place of rest."
        )
    if run.status != "ok":
        return "So there is no run." if run.status == shot.status else "A hop of its run did not come down."
    ran = said(float(run.distance), "distance", "m", units)
    moved = "stopped at its pitch mark"
    if not ran.is_zero:
        sure = doubts if shot.start == "landing" else None
        amount = with_doubt(run.distance, "distance", "m", units, sure)
        moved = f"ran {amount} on" if ran.value > 0 else f"came {amount} back"
    bounces = counted(run.bounces, "bounce")
    where = with_doubt(run.total, "total", "m", units, doubts)
    if shot.start == "landing":
        return f"{on_turf(shot.turf)} it {moved}, with {bounces}."
    return (
        f"{on_turf(shot.turf)} it {moved}, with {bounces}, to rest {where} from the start, "
        f"{beside(run.total_offline, 'total_offline', 'm', units)}."
    )


def out_of_range(shot: Shot) -> list[str]:
    """What left a model's stated range, and by how much; nothing where all stayed inside.

    Outside its range a ball model holds its edge value; the contact model is calculated on, uncalibrated.
    """
    ranges = shot.ball.aero.stated_range
    contact = ("the contact model's", "it is not calibrated")
    flight = ("the ball model's", "it holds its edge value")
    turf = ("the law of the bounce's", "the run is a rough guess")
    spans = {
        "face_friction": ("face friction", contact, _core.least_face_friction, math.inf),
        "approach_speed": ("approach speed in m/s", contact, _core.least_approach_speed, math.inf),
        "spin_ratio": ("spin ratio", flight, ranges.spin_ratio_lower, ranges.spin_ratio_upper),
        "reynolds": ("Reynolds number", flight, ranges.reynolds_lower, ranges.reynolds_upper),
        "bounce_speed": ("landing speed in m/s", turf, *_core.bounce_speed_range),
        "bounce_angle": ("landing's angle from upright in degrees", turf, *_core.bounce_angle_range),
    }
    lines = []
    for name, excess in shot.out_of_range.items():
        if excess:
            what, (whose, there), lower, upper = spans[name]
            reached = (upper if excess > 0 else lower) + excess
            if name == "bounce_angle":
                reached, lower, upper = (round(x / deg, 1) for x in (reached, lower, upper))
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
