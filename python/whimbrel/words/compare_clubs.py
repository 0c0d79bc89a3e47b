"""Two clubs of one player beside each other, in words."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from ..core.quantity import System, said, text
from .doubt import difference, doubt_if_known, with_doubt
from .phrases import along, angle, minus, moves_path, pointing, seen, sentence, side

if TYPE_CHECKING:
    from ..questions.compare_clubs import ClubRead, Compared
    from ..row.shot import Shot


def of_two(both: Compared, units: System) -> str:
    """A paragraph for each club, then what differs."""
    return "\n".join(paragraphs(both, units))


def paragraphs(both: Compared, units: System) -> list[str]:
    """The same as a list."""
    first, second = both.first, both.second
    return [
        _one(first, units),
        _one(second, units),
        _arcs(first, second),
        _degrees(first, second, units),
        _forgiveness(first, second, units),
        _upward(first, second, units),
        _apart(first.shot, second.shot, units),
    ]


def _apart(first: Shot, second: Shot, units: System) -> str:
    """How far the two carry, how far apart, and how sure both are."""
    longer, shorter = sorted((first, second), key=lambda shot: -float(shot.carry))
    far, near = (
        f"the {'' if shot.club is None else shot.club.name} carries "
        f"{with_doubt(shot.carry, 'carry', 'm', units, doubt_if_known(shot))}"
        for shot in (longer, shorter)
    )
    more = said(longer.carry - shorter.carry, "carry", "m", units)
    apart = difference(more, "carry", "m", units, longer, shorter)
    return f"{sentence(far)}, {near}; they are {apart} apart."


def _name(read: ClubRead) -> str:
    return f"the {read.club.name}"


def _one(read: ClubRead, units: System) -> str:
    look, launch = read.look, read.shot.launch
    ends = " to ".join(pointing(x).replace(" of the target", "") for x in look.base_range)
    lows = " to ".join(along(x, units, "") for x in read.low_point_range)
    plane = f"{'taking' if read.plane_assumed else 'with'} a plane of {angle(look.plane_inclination)}"
    if seen(look.plane_range):
        plane += f" ±{angle(look.plane_range)}"
    return (
        f"{sentence(_name(read))}: attack {minus(look.attack_angle)}, path {pointing(look.path)}; {plane}, the "
        f"swing plane points {pointing(look.base_direction)} ({ends}) and the low point lies "
        f"{along(read.low_point_ahead, units)}"
        f" ({lows}). Spin loft, the angle between where the clubhead goes and where the face looks, is "
        f"{angle(read.spin_loft)}: it launches {angle(float(launch.launch_angle))} up with "
        f"{text(float(launch.spin_rate), 'spin_rate', 'rad/s', units)}."
    )


def _arcs(first: ClubRead, second: ClubRead) -> str:
    a, b = first.look, second.look
    apart = abs(a.base_direction - b.base_direction)
    overlap = a.base_range[0] <= b.base_range[1] and b.base_range[0] <= a.base_range[1]
    words = (
        f"For the same base direction, the attack alone {moves_path(a.down_hit)} with {_name(first)} and "
        f"{moves_path(b.down_hit)} with {_name(second)}."
    )
    if overlap:
        return (
            f"{words} The two planes point the same way within the planes' range ({angle(apart)} "
            "apart): one swing may serve both, the ball placed elsewhere on it."
        )
    return (
        f"{words} The two planes point {angle(apart)} apart, more than their ranges allow: if the "
        "planes lie within them, the two swings point differently."
    )


def _sense(read: ClubRead) -> str:
    return "the same way" if (read.path.offline > 0) == (read.path.start > 0) else "the other way"


def _degrees(first: ClubRead, second: ClubRead, units: System) -> str:
    parts = [
        f"with {_name(r)} a degree of face moves the start {angle(r.face.start)}, tilts the spin axis "
        f"{angle(r.face.tilt)} and moves the landing {text(abs(r.face.offline), 'offline', 'm', units)}, all the "
        f"same "
        f"way; a degree of path moves the start {angle(r.path.start)}, tilts the axis {angle(r.path.tilt)} the "
        f"other way and moves the landing {text(abs(r.path.offline), 'offline', 'm', units)} {_sense(r)}"
        for r in (first, second)
    ]
    more, less = sorted((first, second), key=lambda r: -abs(r.face.tilt))
    return (
        f"{'. '.join(sentence(part) for part in parts)}. The axis tilts more with {_name(more)}, whose spin "
        f"loft is "
        f"{'smaller' if more.spin_loft < less.spin_loft else 'not smaller'}: it asks for a face closer to the path."
    )


def _forgiveness(first: ClubRead, second: ClubRead, units: System) -> str:
    sentences = []
    for read in (first, second):
        ends = [
            f"a strike 10 mm toward the {name} costs {text(abs(min(carry, 0.0)), 'carry', 'm', units)} of carry "
            f"and moves it {text(abs(offline), 'offline', 'm', units)} {side(offline)}"
            for name, carry, offline in (
                ("heel", read.heel_carry, read.heel_offline),
                ("toe", read.toe_carry, read.toe_offline),
            )
        ]
        sentences.append(f"With {_name(read)} {ends[0]}, {ends[1]}.")
    stiffer = sorted((first, second), key=lambda r: -float(r.club.inertia_vertical))
    more, less = (f"{float(r.club.inertia_vertical) * 1e7:,.0f}" for r in stiffer)
    if more != less:
        sentences.append(
            f"The head of {_name(stiffer[0])} resists turning more, {more} against {less} g cm² about the vertical."
        )
    for read in (first, second):
        if math.isfinite(float(read.club.bulge_radius)):
            sentences.append(
                f"{sentence(_name(read))}'s bulged face starts an off-centre ball to that side, and the gear "
                f"effect (the head turns and spins the ball the other way) brings it back."
            )
    for read in (first, second):
        tee = float(read.shot.terrain.tee_height)
        if tee > 0.0:
            height = text(tee, "tee_height", "m", units)
            sentences.append(
                f"{sentence(_name(read))}'s ball stands on a tee of {height}: a low point behind the ball, or "
                f"an arc a "
                "little low or high, can still find the ball first, and moves only the strike on the face."
            )
        else:
            sentences.append(
                f"{sentence(_name(read))}'s ball lies on the ground: a low point behind the ball can meet the "
                f"turf "
                f"first or catch the ball on the way up, thin."
            )
    return " ".join(sentences)


def _upward(first: ClubRead, second: ClubRead, units: System) -> str:
    parts = [
        f"{text(abs(r.attack.spin_rate), 'spin_rate', 'rad/s', units)} "
        f"{'less' if r.attack.spin_rate < 0 else 'more'} with {_name(r)}, launched {angle(r.attack.launch_angle)} "
        f"{'higher' if r.attack.launch_angle > 0 else 'lower'}"
        for r in (first, second)
    ]
    least = min(first.spin_loft, second.spin_loft)
    return (
        f"Hitting a degree more upward with the loft kept changes the spin: {' and '.join(parts)}. It takes from "
        f"spin "
        f"loft, and so from backspin; with {angle(least)} of spin loft left it makes no topspin. A centred "
        f"strike has backspin as long as spin loft is above 0."
    )
