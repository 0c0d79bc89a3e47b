"""A shot on the course in plain sentences."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..core.quantity import Said, System, percent, said, text
from ..core.value import Number
from ..row.flight import STATUS_WORDS
from ..row.play import play
from ..row.setting import Terrain
from .doubt import difference
from .phrases import aside, beside, on_turf
from .shot import say_run

if TYPE_CHECKING:
    from ..questions.course import CourseShot
    from ..row.shot import Shot


def of_course_shot(course: CourseShot, units: System = "yards") -> str:
    """What the shot plays like, what it takes and where it stops."""
    if course.shape != ():
        raise ValueError("in_words() is for one shot")
    shot, target = course.shot, course.target

    def say(x: Number) -> Said:
        return said(float(x), "distance", "m", units)

    far, club = say(target.distance), f"the {shot.club.name}" if shot.club else "this launch"
    if course.status != "ok":
        return f"{far} is out of reach: {STATUS_WORDS[course.status]}."
    rise = say(target.rise)
    higher = "" if rise.is_zero else f", {abs(rise)} {'uphill' if rise.value > 0 else 'downhill'},"
    aim = say(course.aim_off)
    aimed = "at the target" if aim.is_zero else f"{aside(aim)} of the target"
    past = say(course.past)
    stops = "level with it" if past.is_zero else f"{abs(past)} {'past' if past.value > 0 else 'short of'} it"
    rest = (
        f"{on_turf(shot.turf)} it stops {stops}, {beside(shot.run.total_offline, 'offline', 'm', units)}."
        if shot.run.status == "ok"
        else say_run(shot, units)
    )
    level = difference(say(course.level_distance), "carry", "m", units, _on_the_level(shot), shot)
    return (
        f"{far}{higher} plays like {level} on the level in still standard air. "
        f"With {club} it takes {percent(course.speed_share)} of the usual speed, aimed {aimed}. "
        f"The ball comes down on the target at {text(shot.flight.descent_angle, 'descent_angle', 'rad')}. {rest}"
    )


def _on_the_level(shot: Shot) -> Shot:
    """The same swing, or launch, in still standard air over level ground."""
    start = shot.launch if shot.delivery is None else shot.delivery
    tee = Terrain(shot.terrain.tee_height)
    return play(start, shot.club, ball=shot.ball, terrain=tee, turf=shot.turf, impact=shot.impact_model)
