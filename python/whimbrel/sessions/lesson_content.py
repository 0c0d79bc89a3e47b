"""What a lesson shows of each club: its strikes, the typical shot of each block, the worst one."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np

from ..core.value import Array, numbers_of
from ..errors import InputError
from ..questions.compare_clubs import Compared, compare
from ..questions.explain import Explained, explain
from ..questions.swing_plane import PLANE_RANGE
from ..row.arc import assumed_plane, masked_arc
from ..row.flight import Launch
from ..row.play import play
from ..row.shot import Shot
from ..row.swing import Club, Delivery
from ..statistics.targets import Target
from ..strikes.replay import conditions, read_starts
from ..strikes.rows import DELIVERED, LAUNCHED
from .answers import Before, Driven, Group, group_rows
from .session import Session

#: Path and face angles for which the curve of the typical shot is computed, a side.
GRID = 21
#: Above so many strikes of a club, a picture's points become one image.
RASTER = 3_000


@dataclass(frozen=True)
class Block:
    """The strikes of one block, warm-ups left out, in SI; NaN where there is no number.

    group: its answers. rows: of the table. offline, downrange: of the landings, m. typical: the shot of the block's
    medians, played under its median conditions; None where the table does not say how shots started.
    """

    group: Group
    rows: Any
    numbers: dict[str, Array]
    offline: Array
    downrange: Array
    typical: Shot | None

    @property
    def name(self) -> str:
        return self.group.block


@dataclass(frozen=True)
class Worst:
    """The strike that came down farthest from where it should.

    label: what the table calls it. off: m, from there. carry, offline: m, as measured, or as played where
    ``measured`` is False. explained: why it started and curved so. against: cause by cause, against the typical
    shot.
    """

    label: Any
    off: float
    carry: float
    offline: float
    measured: bool
    explained: Explained
    against: Explained


@dataclass(frozen=True)
class ClubLesson:
    """What a lesson shows of one club of one player.

    club: its name in the table; member: the club, None where it is not known. blocks: those compared, or the last
    one. others: names of blocks that are not shown. pair, driven: the session's answers. target: what was played
    at, with its name. typical: the last block's typical shot explained. unexplained: why there is no typical, or no
    worst shot.
    """

    player: str
    club: str
    member: Club | None
    blocks: tuple[Block, ...]
    others: tuple[str, ...]
    pair: Before | None
    driven: Driven | None
    target: Target | None
    typical: Explained | None
    worst: Worst | None
    unexplained: dict[str, str]

    @property
    def last(self) -> Block:
        return self.blocks[-1]

    @property
    def strikes(self) -> int:
        return sum(len(block.rows) for block in self.blocks)

    def has(self, *names: str) -> bool:
        """Whether some strike has all these numbers."""
        return any(
            np.isfinite(sum(block.numbers.get(name, np.array(np.nan)) for name in names)).any()
            for block in self.blocks
        )


def club_lessons(session: Session, player: str) -> list[ClubLesson]:
    """A player's clubs, the most struck first."""
    rows = group_rows(session.read)
    groups = {(group.player, group.club, group.block): group for group in session.groups}
    names = dict.fromkeys(club for who, club, _ in groups if who == player)
    lessons = []
    for club in names:
        own = [key for key in groups if key[:2] == (player, club)]
        lessons.append(_club_lesson(session, [(groups[key], rows[key]) for key in own]))
    return sorted(lessons, key=lambda lesson: -lesson.strikes)


def _club_lesson(session: Session, own: list[tuple[Group, Any]]) -> ClubLesson:
    player, club = own[0][0].player, own[0][0].club
    member = session.club_set[club] if club in session.club_set else None
    pair = next((pair for pair in session.changes if (pair.player, pair.club) == (player, club)), None)
    wanted = [own[-1][0].block] if pair is None else [pair.before, pair.after]
    blocks = tuple(_block(session, group, rows, member) for group, rows in own if group.block in wanted)
    blocks = tuple(sorted(blocks, key=lambda block: wanted.index(block.name)))
    driven = next((d for d in session.scatters if (d.player, d.club, d.block) == _key(blocks[-1].group)), None)
    target = next((a.play.target for a in session.targets if (a.player, a.club, a.block) == _key(blocks[-1].group)),
                  None)  # fmt: skip
    unexplained: dict[str, str] = {}
    typical = _typical(blocks[-1], member, unexplained)
    worst = _worst(session, blocks[-1], member, target, typical, unexplained)
    others = tuple(group.block for group, _ in own if group.block not in wanted)
    return ClubLesson(player, club, member, blocks, others, pair, driven, target, typical, worst, unexplained)


def _key(group: Group) -> tuple[str, str, str]:
    return group.player, group.club, group.block


def _block(session: Session, group: Group, rows: Any, member: Club | None) -> Block:
    read = session.read
    start = _start(session, rows, member)
    shot = None
    if start is not None:
        middle = {name: float(np.median(x)) for name, x in numbers_of(start[1]).items()}
        shot = _play(session, rows, type(start[1])(**middle), member)
    numbers = {name: x[rows] for name, x in read.numbers.items()}
    return Block(group, rows, numbers, read.offline[rows], read.downrange[rows], shot)


def _start(session: Session, rows: Any, member: Club | None) -> tuple[Any, Delivery | Launch] | None:
    """The rows that say in full how their shots started, from the delivery where it is known."""
    for way in (*DELIVERED, *LAUNCHED):
        if set(way.needs) <= set(session.read.rows.columns) and not (way.struck and member is None):
            there, start = read_starts(rows, session.read, way, member)
            if len(there):
                return there, start
    return None


def _play(session: Session, rows: Any, start: Delivery | Launch, member: Club | None) -> Shot | None:
    """The shot under the median conditions of some rows; None where it does not fly."""
    around = conditions(rows, session.read, session.defaults)
    try:
        shot = play(start, member if isinstance(start, Delivery) else None, **around)
    except InputError:
        return None
    return shot if shot.status == "ok" else None


def _typical(block: Block, member: Club | None, unexplained: dict[str, str]) -> Explained | None:
    shot = block.typical
    if shot is None or shot.delivery is None:
        unexplained["typical"] = (
            "it needs each strike's clubhead_speed and dynamic_loft (or shaft_lean), with a club that is known"
            if shot is not None or member is None or not np.isfinite(block.offline).any()
            else "the strike of the block's medians cannot be played"
        )
        return None
    try:
        return explain(shot, plane_inclination=measured_plane(block))
    except InputError as error:
        unexplained["typical"] = str(error)
        return None


def measured_plane(block: Block) -> float | None:
    plane = block.numbers.get("plane_inclination")
    return None if plane is None or not np.isfinite(plane).any() else float(np.nanmedian(plane))


def _worst(
    session: Session,
    block: Block,
    member: Club | None,
    target: Target | None,
    typical: Explained | None,
    unexplained: dict[str, str],
) -> Worst | None:
    """Of the strikes that can be replayed, the one farthest from where it should have come down."""
    start = _start(session, block.rows, member)
    if typical is None or start is None or not isinstance(start[1], Delivery):
        unexplained["worst"] = unexplained.get("typical", "no typical shot to hold it against")
        return None
    if len(block.rows) < 2:
        unexplained["worst"] = "its block has only one strike"
        return None
    read, (rows, deliveries) = session.read, start
    off = distance_off(read.offline[rows], read.downrange[rows], target, block)
    if not np.isfinite(off).any():
        unexplained["worst"] = "no strike that can be replayed has a landing"
        return None
    at = int(np.nanargmax(off))
    row = rows[at]
    hit = Delivery(**{name: float(x[at]) for name, x in numbers_of(deliveries).items()})
    shot = _play(session, rows[at : at + 1], hit, member)
    if shot is None:
        unexplained["worst"] = f"strike {read.labels[row]}, replayed, does not fly"
        return None
    assert typical.shot.delivery is not None
    try:
        explained, against = explain(shot), explain(shot, typical.shot.delivery)
    except InputError as error:
        unexplained["worst"] = f"strike {read.labels[row]}: {error}"
        return None
    where = float(read.carry[row]), float(read.offline[row])
    return Worst(read.labels[row], float(off[at]), *where, read.landed_by[row] != "delivery", explained, against)


def distance_off(offline: Array, downrange: Array, target: Target | None, block: Block) -> Array:
    """How far landings are from the target's middle, m; without a target that has a distance, from the target line
    at the block's median distance."""
    middle = (0.0, float(np.nanmedian(block.downrange))) if target is None else target.middle
    if middle is None:
        return np.abs(offline)
    across, along = middle
    return np.hypot(offline - across, downrange - along)


def low_points(lesson: ClubLesson, block: Block, shift: float = 0.0) -> Array | None:
    """How far ahead of the ball each strike's low point lies, m; None where it cannot be said.

    As the table has it, else from path and attack on the arc that ``arc_of`` takes where nothing else is known, in
    the table's plane or the assumed one, tilted by ``shift`` rad.
    """
    if "low_point_ahead" in block.numbers and np.isfinite(block.numbers["low_point_ahead"]).any():
        return block.numbers["low_point_ahead"]
    attack = block.numbers.get("attack_angle")
    if attack is None or lesson.member is None:
        return None
    path = np.nan_to_num(block.numbers.get("club_path", np.zeros(len(attack))))
    plane = block.numbers.get("plane_inclination", np.full(len(attack), np.nan))
    plane = np.where(np.isfinite(plane), plane, assumed_plane(lesson.member)) + shift
    arc, _ = masked_arc(Delivery(1.0, path, attack), plane_inclination=plane, hand=lesson.member.hand)
    return np.asarray(arc.low_point_ahead)


def low_point_range(lesson: ClubLesson, block: Block) -> tuple[float, float, float] | None:
    """The median low point ahead of the ball, m, and its range over the plane's ±4°."""
    found = [low_points(lesson, block, shift) for shift in (0.0, -PLANE_RANGE, PLANE_RANGE)]
    medians = [float(np.nanmedian(x)) for x in found if x is not None and np.isfinite(x).any()]
    return None if len(medians) < 3 else (medians[0], min(medians), max(medians))


def curves(lesson: ClubLesson, path: Array, face: Array) -> Array | None:
    """How far the typical shot would curve, m, right positive, shape (faces, paths), over path and face angles."""
    shot = lesson.last.typical
    if shot is None or shot.delivery is None or shot.club is None:
        return None
    hit: dict[str, Any] = dict(numbers_of(shot.delivery))
    hit |= {"club_path": path[None, :], "face_angle": face[:, None]}
    swept = play(Delivery(**hit), shot.club, ball=shot.ball, weather=shot.air, wind=shot.wind, terrain=shot.terrain,
                 errors="mask")  # fmt: skip
    return np.where(swept.status == "ok", swept.flight.curve, np.nan)


def beside(lessons: list[ClubLesson]) -> Compared | None:
    """An iron (the most struck) and the driver of one player beside each other, where both can be played."""
    shots = {lesson.club: lesson.last.typical for lesson in lessons}
    planes = {lesson.club: measured_plane(lesson.last) for lesson in lessons}
    hit = [name for name, shot in shots.items() if shot is not None and shot.delivery is not None]
    driver = next((name for name in hit if name.casefold() == "driver"), None)
    iron = next((name for name in hit if name != driver and "iron" in name.casefold()), None)
    if driver is None or iron is None:
        return None
    first, second = shots[iron], shots[driver]
    assert first is not None and second is not None
    try:
        return compare(first, second, planes=(planes[iron], planes[driver]))
    except InputError:
        return None
