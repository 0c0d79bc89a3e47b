"""What the ball did, in plain sentences."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from .. import _core
from ..core.quantity import System, text
from ..core.value import Number
from ..row.flight import STATUS_WORDS
from ..row.ground import turfs
from ..units import deg

if TYPE_CHECKING:
    from ..questions.course import CourseShot
    from ..row.arc import SwingArc
    from ..row.ground import Landing, Turf
    from ..row.shot import Shot
    from ..row.swing import Delivery, Hand

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
    "Impact here is the rigid-body model, for teaching: about 5 % too much spin with a driver, a quarter too "
    "little with a mid-iron or a short iron; ball speed within 1 %. "
    "Centred strikes only."
)


LONGEST_RUN = 30.0  # s: as long as a ball's way over the ground is followed
NOTICED = 0.05 * deg  # smaller directions are told as 0.0°


def side(x: float) -> str:
    return "right" if x > 0 else "left"


def of_shot(shot: Shot, units: System = "yards") -> str:
    """Plain sentences: how the ball started, climbed and curved; where and how it came down; where it stopped."""
    if shot.shape != ():
        raise ValueError("in_words() is for one shot")
    return f"{_flown(shot, units)} {_ran(shot, units)}"


def _flown(shot: Shot, units: System) -> str:
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
    curve = say(flight.curve, "curve", "m")
    curved = "flew straight"
    if not curve.startswith("0.0"):
        curved = f"curved {curve} to the {side(flight.curve)}{_shape(shot)}"
    start = _beside(launch.launch_direction, "launch_direction", "rad", units)
    landing = _beside(flight.offline, "offline", "m", units)
    return (
        f"The ball started {start} at {speed}, {say(launch.launch_angle, 'launch_angle', 'rad')} up with "
        f"{say(launch.spin_rate, 'spin_rate', 'rad/s')} of spin, climbed to "
        f"{say(flight.apex, 'apex', 'm')} and {curved}. "
        f"It carried {say(flight.carry, 'carry', 'm')} in {say(flight.flight_time, 'flight_time', 's')} "
        f"and landed {landing}, coming down at {say(flight.descent_angle, 'descent_angle', 'rad')}."
    )


def _beside(x: Number, name: str, si: str, units: System) -> str:
    amount = text(abs(float(x)), name, si, units)
    return "on the target line" if amount.startswith("0.0") else f"{amount} {side(float(x))} of the target line"


def _ran(shot: Shot, units: System) -> str:
    run = shot.run
    if run.status == "no_rest":
        far = text(float(run.total), "total", "m", units)
        where = f"{far} from {'its pitch mark' if shot.start == 'landing' else 'the start'}"
        if float(run.total_downrange) < 0:
            where += " and behind it"
        return (
            f"{_on(shot.turf)} it was still moving {LONGEST_RUN:.0f} s after its last bounce, {where}: it has no "
            "place of rest."
        )
    if run.status != "ok":
        return "So there is no run." if run.status == shot.status else "A hop of its run did not come down."
    amount = text(abs(float(run.distance)), "distance", "m", units)
    moved = "stopped at its pitch mark"
    if not amount.startswith("0.0 "):
        moved = f"ran {amount} on" if run.distance > 0 else f"came {amount} back"
    bounces = f"{run.bounces:.0f} bounce{'' if run.bounces == 1 else 's'}"
    where = text(float(run.total), "total", "m", units)
    if shot.start == "landing":
        return f"{_on(shot.turf)} it {moved}, with {bounces}."
    return (
        f"{_on(shot.turf)} it {moved}, with {bounces}, to rest {where} from the start, "
        f"{_beside(run.total_offline, 'total_offline', 'm', units)}."
    )


def _on(turf: Turf) -> str:
    """A turf of the set is *the* firm fairway; a user's own has its own name."""
    return f"On the {turf.name}" if turf.name == "green" or turf.name in turfs else f"On {turf.name}"


def of_course_shot(course: CourseShot, units: System = "yards") -> str:
    """What the shot plays like, what it takes and where it stops."""
    if course.shape != ():
        raise ValueError("in_words() is for one shot")
    shot, target = course.shot, course.target

    def say(x: Number) -> str:
        return text(abs(float(x)), "distance", "m", units)

    far, club = say(target.distance), f"the {shot.club.name}" if shot.club else "this launch"
    if course.status != "ok":
        return f"{far} is out of reach: {STATUS_WORDS[course.status]}."
    rise = say(target.rise)
    higher = "" if rise.startswith("0.0 ") else f", {rise} {'uphill' if target.rise > 0 else 'downhill'},"
    aim = say(course.aim_off)
    aimed = "at the target" if aim.startswith("0.0 ") else f"{aim} {side(course.aim)} of the target"
    past = say(course.past)
    stops = "level with it" if past.startswith("0.0 ") else f"{past} {'past' if course.past > 0 else 'short of'} it"
    ran = (
        f"{_on(shot.turf)} it stops {stops}, {_beside(shot.run.total_offline, 'offline', 'm', units)}."
        if shot.run.status == "ok"
        else _ran(shot, units)
    )
    return (
        f"{far}{higher} plays like {say(course.level_distance)} on the level in still standard air. "
        f"With {club} it takes {100 * course.speed_share:.0f} % of the usual speed, aimed {aimed}. "
        f"The ball comes down on the target at {text(shot.flight.descent_angle, 'descent_angle', 'rad')}. {ran}"
    )


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
