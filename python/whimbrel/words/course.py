"""A shot on the course in plain sentences."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..core.quantity import System, text
from ..core.value import Number
from ..row.flight import STATUS_WORDS
from .phrases import beside, on_turf, side
from .shot import say_run

if TYPE_CHECKING:
    from ..questions.course import CourseShot


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
    rest = (
        f"{on_turf(shot.turf)} it stops {stops}, {beside(shot.run.total_offline, 'offline', 'm', units)}."
        if shot.run.status == "ok"
        else say_run(shot, units)
    )
    return (
        f"{far}{higher} plays like {say(course.level_distance)} on the level in still standard air. "
        f"With {club} it takes {100 * course.speed_share:.0f} % of the usual speed, aimed {aimed}. "
        f"The ball comes down on the target at {text(shot.flight.descent_angle, 'descent_angle', 'rad')}. {rest}"
    )
