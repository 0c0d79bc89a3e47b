"""What a lesson says in its own words: the finding in three sentences, and what its pictures show."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from ..core.quantity import System, counted, percent, plain_name
from ..questions.swing_plane import PLANE_RANGE
from ..row.arc import assumed_plane
from ..sessions.lesson_content import RASTER, low_point_range, measured_plane
from ..statistics.ellipse import COVERAGE, expected_within
from ..units import deg
from .phrases import along, aside
from .session import ABOUT, say, told

if TYPE_CHECKING:
    from ..sessions.change import Change
    from ..sessions.lesson_content import ClubLesson, Worst
    from ..statistics.center_and_spread import Spread

#: Clubs that the finding speaks of, the most struck.
FOUND = 2
#: What is told as typical where no landing is known, in this order.
NEVER = re.compile("[\\x00-\\x08\\x0b-\\x1f\\x7f-\\x9f\\ud800-\\udfff\\ufdd0-\\ufdef\\ufffe\\uffff]")
VERBS = {"carry": "the ball carried", "offline": "came down"}
INSTEAD = ("face_angle", "club_path", "attack_angle", "ball_speed", "clubhead_speed")


def printable(words: str) -> str:
    """Text without the characters that no page may hold; a mark stands for each."""
    return NEVER.sub("\ufffd", words)


def finding(lessons: list[ClubLesson], units: System) -> list[tuple[str, str]]:
    """Three sentences, each with its catchword: what is typical, what changed, what to work on next."""
    clubs = lessons[:FOUND]
    rest = len(lessons) - len(clubs)
    more = f" ({rest} more below.)" if rest else ""
    return [
        ("Typical", f"{_join([_typical(lesson, units) for lesson in clubs])}.{more}"),
        ("Change", f"{_join([_change(lesson, units) for lesson in clubs])}."),
        ("Next", f"{_join([_next(lesson, units) for lesson in clubs])}."),
    ]


def _join(parts: list[str]) -> str:
    words = "; ".join(parts)
    return words[:1].upper() + words[1:]


def club_of(lesson: ClubLesson) -> str:
    return f"the {lesson.club}" if lesson.club else "the club"


def count_strikes(lesson: ClubLesson) -> str:
    """The last block's strikes: ``block after, 20 strikes``."""
    strikes = counted(len(lesson.last.rows), "strike")
    return f"block {lesson.last.name}, {strikes}" if lesson.last.name else strikes


def _typical(lesson: ClubLesson, units: System) -> str:
    spreads = lesson.last.group.spreads
    names = [name for name in ("carry", "offline") if name in spreads] or [n for n in INSTEAD if n in spreads][:2]
    if not names:
        return f"with {club_of(lesson)} ({count_strikes(lesson)}) nothing to report"
    parts = [
        f"{VERBS.get(name, plain_name(name) + ' was')} {_middle(name, spreads[name], units)}" for name in names
    ]
    return f"with {club_of(lesson)} ({count_strikes(lesson)}) {' and '.join(parts)}"


def _middle(name: str, spread: Spread, units: System) -> str:
    """The mean and its SD, the values where they are few; a sideways one with its side."""
    line = " of the target line" if name == "offline" else ""
    if spread.mean is None or spread.sd is None:
        values = ", ".join(_with_side(x, name, units) for x in spread.values)
        return values + line + (", too few for more" if spread.n > 1 else "")
    words = _with_side(spread.mean.estimate, name, units)
    return f"{words}{line} (mean, SD {say(spread.sd.estimate, name, units)})"


def _with_side(x: float, name: str, units: System) -> str:
    """A value; a sideways one with its side."""
    if name not in ("offline", "face_angle", "club_path"):
        return say(x, name, units)
    return aside(told(x, name, units))


def _change(lesson: ClubLesson, units: System) -> str:
    if lesson.pair is None:
        return f"with {club_of(lesson)} there is only one block, so there is no change to report"
    where = f"with {club_of(lesson)}, from {_block(lesson.pair.before)} to {_block(lesson.pair.after)},"
    changes = lesson.pair.comparison.changes
    if not changes:
        return f"{where} too few strikes to compare"
    changed = sorted((c for c in changes if c.answer == "changed"), key=lambda c: -abs(c.change / c.smallest))
    none, few = (sum(c.answer == answer for c in changes) for answer in ("no change", "too few"))
    rest = " and ".join(
        part
        for part in (
            f"{none} of {counted(len(changes), 'question')} show no change large enough to matter" if none else "",
            f"{few} need more strikes" if few else "",
        )
        if part
    )
    if not changed:
        return f"{where} no change can be shown: {rest}"
    first = " and ".join(_say_changed(c, units) for c in changed[:2])
    more = f" and {len(changed) - 2} more" if len(changed) > 2 else ""
    return f"{where} {first}{more} changed{f'; {rest}' if rest else ''}"


def _say_changed(change: Change, units: System) -> str:
    small = ", too small to matter" if abs(change.change) < change.smallest else ""
    name = f"{plain_name(change.quantity)} {ABOUT[change.about]}"
    return f"{name} ({say(change.change, change.quantity, units, True)}{small})"


def _block(name: str) -> str:
    return f"block {name}" if name else "the strikes without a block"


def _next(lesson: ClubLesson, units: System) -> str:
    driven = lesson.driven
    if driven is None:
        return (
            f"with {club_of(lesson)} what to work on cannot be said: it needs clubhead_speed and dynamic_loft (or "
            "shaft_lean) of each strike"
        )
    if driven.scatter is None:
        return f"with {club_of(lesson)} what to work on cannot be said yet: {driven.why_not}"
    first = driven.scatter.parts[0]
    if first.halved_high >= 0:
        return f"with {club_of(lesson)} no single part, worked on alone, can be shown to tighten the scatter"
    gain, scatter = (say(x, "carry", units) for x in (-first.halved, driven.scatter.scatter))
    return (
        f"with {club_of(lesson)} work on the {plain_name(first.quantity)}: half its spread would take {gain} off a "
        f"scatter of {scatter}"
    )


def on_landings(lesson: ClubLesson, units: System) -> str:
    found = [expected_within(block.offline, block.downrange) for block in lesson.blocks]
    parts = ["The player looks up the picture along the target line, dashed."]
    if any(ellipse is not None for ellipse in found):
        parts.append(
            f"An ellipse is where {percent(COVERAGE)} of further strikes like a block's are expected, were strikes "
            "independent and normal."
        )
    if lesson.last.group.played:
        parts.append("Landings that were not measured were played.")
    return " ".join([*parts, _raster(lesson)]).strip()


def _raster(lesson: ClubLesson) -> str:
    return "So many strikes are drawn as one image; darker is more." if lesson.strikes > RASTER else ""


def on_path_and_face(lesson: ClubLesson, units: System) -> str:
    lines = "No lines of equal curve: they need clubhead_speed and dynamic_loft of each strike."
    if lesson.last.typical is not None and lesson.last.typical.delivery is not None:
        at = "yd" if units == "yards" else "m"
        lines = f"Along a line the typical shot curves by the same {at}; on the thick line it flies straight."
    return f"A dot is where path and face of a strike pointed. {lines}"


def on_low_point(lesson: ClubLesson, units: System) -> str:
    ranged = low_point_range(lesson, lesson.last)
    if ranged is None:
        return ""
    at, low, high = (along(x, units) for x in ranged)
    if lesson.member is None or lesson.has("low_point_ahead"):
        return f"Median {at}, as given in the table; up and down mean nothing."
    if (plane := measured_plane(lesson.last)) is not None:
        on = f"the plane of the table, {plane / deg:.0f}°,"
    else:
        on = f"a plane of {assumed_plane(lesson.member) / deg:.0f}°, assumed by the trade's common practice,"
    return (
        f"Median {at}; the bar: {low} to {high} for a plane {PLANE_RANGE / deg:.0f}° flatter or steeper. It comes "
        f"from path and attack with {on} and an arc of 1.5 m radius whose leading edge is level with the turf at "
        "the ball, both assumed; up and down mean nothing."
    )


def on_flights(lesson: ClubLesson, units: System) -> str:
    parts = [
        f"{block.name or 'typical'}: carry {say(block.typical.carry, 'carry', units)}, apex "
        f"{say(block.typical.flight.apex, 'apex', units)}"
        for block in lesson.blocks
        if block.typical is not None
    ]
    return f"The shot of each block's medians, played; heights enlarged. {'; '.join(parts)}."


def on_changes(lesson: ClubLesson, units: System) -> str:
    return (
        "A bar is the range that holds the true change 19 times in 20; inside the band it is too small to matter. "
        "The number at the right is the change; spread is the mean distance from the block's median."
    )


def on_face(lesson: ClubLesson, units: System) -> str:
    hand = lesson.member.hand if lesson.member is not None else "right"
    return f"Looked at from the target, for a {hand}-hander; the large marks are the blocks' medians."


def on_worst(worst: Worst, lesson: ClubLesson, units: System) -> str:
    """Which strike it was and by how much, and where replay and measurement differ."""
    if lesson.target is not None:
        centre = "from the target line" if lesson.target.middle is None else "from the middle of the target"
    else:
        centre = "from the target line at the block's median distance"
    words = f"Strike {worst.label}, {say(worst.off, 'carry', units)} {centre}."
    if worst.measured:
        words += (
            f" It was measured to carry {say(worst.carry, 'carry', units)} and end "
            f"{_with_side(worst.offline, 'offline', units)}; what follows explains its replay from the delivery, "
            f"which carries {say(worst.explained.shot.carry, 'carry', units)} and ends "
            f"{_with_side(worst.explained.shot.offline, 'offline', units)}."
        )
    return words


LIMITS = (
    "The typical shot uses the block's medians; no single strike need match it. Ellipses and intervals take "
    "strikes as independent and nearly normal; the ledgers are replays of a model, not measurements of a cause."
)
