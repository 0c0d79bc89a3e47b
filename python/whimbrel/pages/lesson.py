"""What the player takes home: a session as one self-contained page."""

from __future__ import annotations

import html
import os
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from ..core import cautions
from ..core.optional import import_jinja
from ..core.quantity import System, counted, display_unit, plain_name
from ..errors import InputError, missing
from ..row.swing import Hand, clubs
from ..sessions.frames import last_blocks
from ..sessions.lesson_content import ClubLesson, beside, club_lessons
from ..sessions.session import Session, session
from ..words import compare_clubs as words_compare
from ..words import explain as words_explain
from ..words import lesson as words_lesson
from ..words import shot as words_shot
from ..words.doubt import how_sure
from ..words.parts import TextPart
from ..words.session import comparison, counts, drivers, limits, of_aimed, of_spread, short

if TYPE_CHECKING:
    import pandas as pd

    from ..questions.explain import Explained

#: Where the pages' templates and their style are.
TEMPLATES = Path(__file__).parent / "templates"
#: Most clubs side by side in one table: more would not fit on a phone.
ABREAST = 3


def lesson(
    session_or_source: Session | pd.DataFrame | str | os.PathLike[str],
    *,
    units: System = "yards",
    hand: Hand | None = None,
    player: str | None = None,
    called: str | None = None,
    **asked: Any,
) -> str:
    """Write a session as one HTML page to take home.

    The page has findings, pictures, what to work on, and cautions. It has no script, loads nothing, and is the same
    for the same input. Needs the ``tables``, ``plots`` and ``statistics`` extras.

    Parameters
    ----------
    session_or_source : Session, DataFrame, str or Path
        A session, or a table that ``session`` reads.
    units : {"yards", "metric"}
        Units of the page.
    hand : {"right", "left"}, optional
        The player's side, for the shipped clubs; your own clubs have theirs.
    player : str, optional
        The player the page is for; by default every player gets a part.
    called : str, optional
        Name of the table on the page; the file's name by default.
    **asked
        The other keywords of ``session``.

    Returns
    -------
    str
        The page. A line naming the missing columns replaces a picture without data.

    Raises
    ------
    InputError
        As ``session`` does, and for an unknown player.
    """
    import_jinja()
    display_unit("carry", "m", units)
    if isinstance(session_or_source, Session):
        if hand is not None or asked:
            raise InputError("a Session has already been read: give hand and other options to session()")
        answers = session_or_source
    else:
        answers = session(session_or_source, **_with_hand(hand, asked))
        if called is None and isinstance(session_or_source, str | os.PathLike):
            called = os.path.basename(os.fspath(session_or_source))
    players = list(dict.fromkeys(group.player for group in answers.groups))
    if player is not None and player not in players:
        raise InputError(
            f"player: there is no strike of {player!r}; there are: {', '.join(map(repr, players)) or 'none'}"
        )
    return _Page(answers, units).whole([player] if player is not None else players, called or "a table")


def _with_hand(hand: Hand | None, asked: dict[str, Any]) -> dict[str, Any]:
    if hand is None:
        return asked
    if hand not in ("right", "left"):
        raise InputError(f"hand is {hand!r}; accepted: right, left")
    if "club_set" in asked:
        raise InputError("hand is for the shipped clubs: a club set of your own has its own")
    return {**asked, "club_set": clubs.left_handed() if hand == "left" else clubs}


@dataclass(frozen=True)
class Picture:
    """A picture of the page. there: whether its data are; needs: the columns that make it."""

    title: str
    draw: str
    caption: Callable[[ClubLesson, System], str]
    height: Callable[[ClubLesson], float]
    there: Callable[[ClubLesson], bool]
    needs: str


PICTURES = (
    Picture("Landings from above", "landings", words_lesson.on_landings, lambda _: 5.2,
            lambda c: any((b.offline == b.offline).any() for b in c.blocks),
            "carry and offline, or ball_speed, launch_angle and spin_rate, or clubhead_speed and dynamic_loft"),
    Picture("Path against face", "path_and_face", words_lesson.on_path_and_face, lambda _: 4.9,
            lambda c: c.has("club_path", "face_angle"), "club_path and face_angle"),
    Picture("Flights from the side", "side_flights", words_lesson.on_flights, lambda _: 2.6,
            lambda c: any(b.typical is not None for b in c.blocks),
            "ball_speed, launch_angle and spin_rate, or clubhead_speed and dynamic_loft with a club that is known"),
    Picture("Low point along the ground", "low_point", words_lesson.on_low_point,
            lambda c: 1.7 + 0.75 * len(c.blocks),
            lambda c: c.has("low_point_ahead") or (c.member is not None and c.has("attack_angle")),
            "attack_angle (best with club_path and plane_inclination) and a club that is known"),
    Picture("Strike points on the face", "on_the_face", words_lesson.on_face, lambda _: 3.4,
            lambda c: c.member is not None and (c.has("strike_toe") or c.has("strike_high")),
            "strike_toe or strike_high and a club that is known"),
    Picture("Before and after", "what_changed", words_lesson.on_changes,
            lambda c: 1.5 + 0.24 * (len(c.pair.comparison.changes) if c.pair is not None else 0),
            lambda c: c.pair is not None and bool(c.pair.comparison.changes),
            "block, naming two blocks of at least four strikes with this club"),
)  # fmt: skip


@dataclass(frozen=True)
class Table:
    """Headings, then rows."""

    rows: list[list[str]]
    caption: str
    kind: str = ""


@dataclass(frozen=True)
class Figure:
    """A picture as it stands on the page."""

    svg: Any
    title: str
    caption: str


@dataclass(frozen=True)
class Ledger:
    """The story of a shot, and its causes against a reference; after: tables below."""

    title: str
    story: list[str]
    tables: list[Table]
    notes: list[str]
    after: list[Table]


@dataclass(frozen=True)
class ClubPart:
    """What the page says of a club."""

    title: str
    shown: str
    figures: list[Figure]
    left_out: list[str]
    drivers: list[TextPart]
    aims: list[str]
    ledgers: list[Ledger]
    changes: list[TextPart]
    spreads: list[Table]


@dataclass(frozen=True)
class PlayerPart:
    """What the page says of a player."""

    name: str
    finding: list[tuple[str, str]]
    clubs: list[ClubPart]
    side_by_side: list[Table]
    compared: list[str]


def _templates() -> Any:
    """The templates of pages, in which all text is text: only pictures, which are drawn here, are not escaped."""
    jinja = import_jinja()

    def shown(x: Any) -> Any:
        return words_lesson.printable(x) if type(x) is str else x

    return jinja.Environment(
        loader=jinja.FileSystemLoader(TEMPLATES),
        autoescape=True,
        finalize=shown,
        undefined=jinja.StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )


@dataclass
class _Page:
    """The page as it grows; drawn: how many pictures it has."""

    answers: Session
    units: System
    drawn: int = 0

    def whole(self, players: list[str], called: str) -> str:
        template = _templates().get_template("lesson.html.j2")
        names = ", ".join(name for name in players if name)
        page: str = template.render(
            title=f"Lesson: {names}" if names else "Lesson",
            called=called,
            count=counted(self.answers.strikes, "strike"),
            players=[self._player(name) for name in players],
            counts=counts(self.answers),
            notes=self.answers.notes,
            cautions=self._cautions(),
        )
        return page

    def _player(self, player: str) -> PlayerPart:
        lessons = club_lessons(self.answers, player)
        both = beside(lessons) if len(lessons) > 1 else None
        return PlayerPart(
            player,
            words_lesson.finding(lessons, self.units),
            [self._club(lesson) for lesson in lessons],
            self._side_by_side(player, lessons) if len(lessons) > 1 else [],
            [] if both is None else words_compare.paragraphs(both, self.units),
        )

    def _club(self, lesson: ClubLesson) -> ClubPart:
        blocks = " and ".join(f"{b.name or 'all'} ({len(b.rows):,})" for b in lesson.blocks)
        rest = f"; not shown: {', '.join(lesson.others)}" if lesson.others else ""
        aimed = [a for a in self.answers.targets if (a.player, a.club) == (lesson.player, lesson.club)]
        return ClubPart(
            title=lesson.club or "Club not named",
            shown=f"Strikes shown: {blocks}{rest}.",
            figures=[self._figure(picture, lesson) for picture in PICTURES if picture.there(lesson)],
            left_out=[
                f"No picture “{picture.title}”: it would need {picture.needs}."
                for picture in PICTURES
                if not picture.there(lesson)
            ],
            drivers=[] if lesson.driven is None else drivers(lesson.driven, self.units),
            aims=[of_aimed(a, self.units) for a in aimed],
            ledgers=self._ledgers(lesson),
            changes=[] if lesson.pair is None else comparison(lesson.pair, self.units),
            spreads=self._spreads(lesson),
        )

    def _figure(self, picture: Picture, lesson: ClubLesson) -> Figure:
        plot = _plots()
        self.drawn += 1
        title = f"{picture.title}, {lesson.club}" if lesson.club else picture.title
        escaped = html.escape(words_lesson.printable(title))
        called = (f"p{self.drawn}-", escaped)
        svg = plot.as_svg(getattr(plot, picture.draw), lesson, self.units, picture.height(lesson), called)
        drawn = import_jinja().utils.markupsafe.Markup(svg)
        return Figure(drawn, picture.title, picture.caption(lesson, self.units))

    def _ledgers(self, lesson: ClubLesson) -> list[Ledger]:
        units, typical, worst = self.units, lesson.typical, lesson.worst
        ledgers = []
        if typical is not None:
            against = f"Cause by cause, against the reference: {words_explain.reference(typical, units)}"
            nudges = Table(words_explain.nudges_table(typical, units), "What one change alone would have done")
            ledgers.append(self._ledger("Your typical shot", "", typical, (typical, against), [nudges]))
        if worst is not None:
            which = words_lesson.on_worst(worst, lesson, units)
            against = f"Cause by cause, against your typical shot: {words_explain.reference(worst.against, units)}"
            ledgers.append(self._ledger("Your worst shot", which, worst.explained, (worst.against, against), []))
        for name, why in lesson.unexplained.items():
            ledgers.append(Ledger(f"Your {name} shot", [f"Not explained: {why}."], [], [], []))
        return ledgers

    def _ledger(
        self, title: str, which: str, explained: Explained, shared: tuple[Explained, str], after: list[Table]
    ) -> Ledger:
        """The story of a shot, and its causes against a reference."""
        against, caption = shared
        return Ledger(
            title,
            [which, *words_explain.story(explained, self.units)],
            [Table(words_explain.causes_table(against, self.units), caption, "causes")],
            [*words_explain.notes(against), *words_shot.out_of_range(explained.shot)],
            after,
        )

    def _spreads(self, lesson: ClubLesson) -> list[Table]:
        tables = []
        for shown_block in lesson.blocks:
            group = shown_block.group
            rows = [["quantity", "mean and SD, with their 95 % intervals" if group.n > 3 else "values"]]
            rows += [
                [
                    plain_name(name) + (" (played)" if name in group.played else ""),
                    of_spread(name, spread, self.units),
                ]
                for name, spread in group.spreads.items()
            ]
            tables.append(Table(rows, f"{group.block or 'All strikes'}, {group.n:,}"))
        return tables

    def _side_by_side(self, player: str, lessons: list[ClubLesson]) -> list[Table]:
        groups = {club: group for (who, club), group in last_blocks(self.answers.groups).items() if who == player}
        names = [lesson.club for lesson in lessons]
        tables = []
        for few in (names[i : i + ABREAST] for i in range(0, len(names), ABREAST)):
            quantities = dict.fromkeys(name for club in few for name in groups[club].spreads)
            rows = [["", *(club or "not named" for club in few)]]
            rows += [[plain_name(name), *(short(groups[club].spreads.get(name), name, self.units) for club in few)]
                     for name in quantities]  # fmt: skip
            tables.append(Table(rows, "Mean ± SD of each club's last block"))
        return tables

    def _cautions(self) -> list[str]:
        lines = [*limits(self.answers), words_lesson.LIMITS]
        lines.extend(line for line in how_sure(self.answers.defaults.ball) if line not in lines[0])
        return sorted(lines, key=lambda line: line != cautions.CAUTION)


def _plots() -> Any:
    try:
        import matplotlib  # noqa: F401
    except ImportError:
        raise missing("matplotlib", "plots") from None
    from ..plots import lesson as plot_lesson

    return plot_lesson
