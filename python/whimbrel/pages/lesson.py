"""What the player takes home: a session as one self-contained page."""

from __future__ import annotations

import html
import os
import re
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from ..core import cautions
from ..core.quantity import System, display_unit, plain_name
from ..errors import InputError, missing
from ..row.swing import Hand, clubs
from ..sessions.frames import last_blocks
from ..sessions.lesson_content import ClubLesson, beside, club_lessons
from ..sessions.session import Session, session
from ..words import explain as words_explain
from ..words import lesson as words_lesson
from ..words import shot as words_shot
from ..words.session import count_strikes, limits, of_aimed, of_comparison, of_driven, of_spread, short
from .lesson_style import STYLE

if TYPE_CHECKING:
    import pandas as pd

    from ..questions.explain import Explained

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


def text(words: object) -> str:
    """Any text as HTML."""
    return html.escape(words_lesson.printable(str(words)))


def tag(name: str, inside: str, **attributes: str) -> str:
    """An element around HTML; attributes are escaped."""
    written = "".join(f' {key.rstrip("_")}="{text(x)}"' for key, x in attributes.items() if x)
    return f"<{name}{written}>{inside}</{name}>\n"


def paragraphs(lines: Iterable[str]) -> str:
    return "".join(tag("p", text(line)) for line in lines if line)


def block(words: str, skip: int = 0) -> str:
    """Plain words as the session says them: indented lines become lists, numbered ones in order."""
    parts: list[tuple[str, list[str]]] = []
    for line in words.split("\n")[skip:]:
        numbered = re.fullmatch(r"\s+\d+\. (.*)", line)
        kind = "ol" if numbered else "ul" if line.startswith("  ") else "p"
        if not parts or parts[-1][0] != kind or kind == "p":
            parts.append((kind, []))
        parts[-1][1].append(numbered[1] if numbered else line.strip())
    return "".join(
        paragraphs(lines) if kind == "p" else tag(kind, "".join(tag("li", text(x)) for x in lines))
        for kind, lines in parts
    )


def table(rows: list[list[str]], caption: str, kind: str = "") -> str:
    """Headings and rows, the first cell of each a heading of its row."""
    head = tag("tr", "".join(tag("th", text(cell), scope="col") for cell in rows[0]))
    body = "".join(
        tag("tr", tag("th", text(row[0]), scope="row") + "".join(tag("td", text(cell)) for cell in row[1:]))
        for row in rows[1:]
    )
    return tag("table", tag("caption", text(caption)) + tag("thead", head) + tag("tbody", body), class_=kind)


@dataclass
class _Page:
    """The page as it grows; drawn: how many pictures it has."""

    answers: Session
    units: System
    drawn: int = 0

    def whole(self, players: list[str], called: str) -> str:
        names = ", ".join(name for name in players if name)
        title = f"Lesson: {names}" if names else "Lesson"
        parts = [self._player(name, alone=len(players) == 1) for name in players]
        if not parts:
            parts = [
                tag("section", tag("h2", "Nothing to show yet") + block(count_strikes(self.answers).split("\n")[0]))
            ]
        body = [
            tag("header", tag("h1", text(title)) + tag("p", text(f"From {called}: {self._count()}."))),
            tag("main", "".join(parts) + self._the_table() + self._cautions()),
        ]
        head = (
            '<meta charset="utf-8">\n<meta name="viewport" content="width=device-width, initial-scale=1">\n'
            f"<title>{text(title)}</title>\n<style>{STYLE}</style>\n"
        )
        return (
            f'<!DOCTYPE html>\n<html lang="en">\n<head>\n{head}</head>\n<body>\n{"".join(body)}</body>\n</html>\n'
        )

    def _count(self) -> str:
        n = self.answers.strikes
        return "1 strike" if n == 1 else f"{n:,} strikes"

    def _player(self, player: str, alone: bool) -> str:
        lessons = club_lessons(self.answers, player)
        found = "".join(
            tag("li", tag("strong", text(word)) + text(sentence))
            for word, sentence in words_lesson.finding(lessons, self.units)
        )
        parts = [] if alone else [tag("h2", text(player or "No player named"), class_="player")]
        parts.append(tag("section", tag("h2", "In three sentences") + tag("ol", found), class_="finding"))
        parts += [self._club(lesson) for lesson in lessons]
        parts.append(self._side_by_side(player, lessons))
        return "".join(parts)

    def _club(self, lesson: ClubLesson) -> str:
        title = lesson.club or "Club not named"
        blocks = " and ".join(f"{b.name or 'all'} ({len(b.rows):,})" for b in lesson.blocks)
        rest = f"; not shown: {', '.join(lesson.others)}" if lesson.others else ""
        return tag(
            "section",
            tag("h2", text(title))
            + paragraphs([f"Strikes shown: {blocks}{rest}."])
            + self._pictures(lesson)
            + self._answers(lesson)
            + self._ledgers(lesson)
            + self._numbers(lesson),
            class_="club",
        )

    def _pictures(self, lesson: ClubLesson) -> str:
        figures, left_out = [], []
        for picture in PICTURES:
            if picture.there(lesson):
                figures.append(self._picture(picture, lesson))
            else:
                left_out.append(f"No picture “{picture.title}”: it would need {picture.needs}.")
        notes = tag("ul", "".join(tag("li", text(x)) for x in left_out), class_="left-out") if left_out else ""
        return (tag("div", "".join(figures), class_="pictures") if figures else "") + notes

    def _picture(self, picture: Picture, lesson: ClubLesson) -> str:
        plot = _plots()
        self.drawn += 1
        prefix = f"p{self.drawn}-"
        title = f"{picture.title}, {lesson.club}" if lesson.club else picture.title
        svg = plot.as_svg(
            getattr(plot, picture.draw), lesson, self.units, picture.height(lesson), (prefix, text(title))
        )
        caption = tag("strong", text(picture.title)) + text(picture.caption(lesson, self.units))
        return tag("figure", svg + tag("figcaption", caption))

    def _ledgers(self, lesson: ClubLesson) -> str:
        units, typical, worst = self.units, lesson.typical, lesson.worst
        halves = []
        if typical is not None:
            against = f"Cause by cause, against the reference: {words_explain.reference(typical, units)}"
            nudges = table(words_explain.nudges_table(typical, units), "What one change alone would have done")
            halves.append(self._ledger("Your typical shot", "", typical, (typical, against)) + nudges)
        if worst is not None:
            which = words_lesson.on_worst(worst, lesson, units)
            against = f"Cause by cause, against your typical shot: {words_explain.reference(worst.against, units)}"
            halves.append(self._ledger("Your worst shot", which, worst.explained, (worst.against, against)))
        for name, why in lesson.unexplained.items():
            halves.append(tag("h3", f"Your {name} shot") + paragraphs([f"Not explained: {why}."]))
        return tag("div", "".join(tag("section", half) for half in halves), class_="ledgers")

    def _ledger(self, title: str, which: str, explained: Explained, shared: tuple[Explained, str]) -> str:
        """The story of a shot, and its causes against a reference."""
        return (
            tag("h3", title)
            + paragraphs([which, *words_explain.story(explained, self.units)])
            + table(words_explain.causes_table(shared[0], self.units), shared[1], "causes")
            + paragraphs([*words_explain.notes(shared[0]), *words_shot.out_of_range(explained.shot)])
        )

    def _answers(self, lesson: ClubLesson) -> str:
        parts = []
        if lesson.driven is not None:
            parts.append(tag("h3", "What to work on") + block(of_driven(lesson.driven, self.units)))
        aimed = [a for a in self.answers.targets if (a.player, a.club) == (lesson.player, lesson.club)]
        if aimed:
            parts.append(tag("h3", "Target play") + paragraphs(of_aimed(a, self.units) for a in aimed))
        return tag("div", "".join(tag("section", part) for part in parts), class_="answers") if parts else ""

    def _numbers(self, lesson: ClubLesson) -> str:
        changed = ""
        if lesson.pair is not None:
            changed = tag("section", tag("h3", "Did it change?") + block(of_comparison(lesson.pair, self.units)))
        spreads = tag("section", tag("h3", "Centre and spread") + self._spreads(lesson))
        return tag("div", changed + spreads, class_="numbers")

    def _spreads(self, lesson: ClubLesson) -> str:
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
            tables.append(table(rows, f"{group.block or 'All strikes'}, {group.n:,}"))
        return "".join(tables)

    def _side_by_side(self, player: str, lessons: list[ClubLesson]) -> str:
        if len(lessons) < 2:
            return ""
        groups = {club: group for (who, club), group in last_blocks(self.answers.groups).items() if who == player}
        names = [lesson.club for lesson in lessons]
        tables = []
        for few in (names[i : i + ABREAST] for i in range(0, len(names), ABREAST)):
            quantities = dict.fromkeys(name for club in few for name in groups[club].spreads)
            rows = [["", *(club or "not named" for club in few)]]
            rows += [[plain_name(name), *(short(groups[club].spreads.get(name), name, self.units) for club in few)]
                     for name in quantities]  # fmt: skip
            tables.append(table(rows, "Mean ± SD of each club's last block"))
        both = beside(lessons)
        said_of = "" if both is None else block(both.in_words(self.units))
        return tag("section", tag("h2", "Clubs side by side") + "".join(tables) + said_of, class_="beside")

    def _the_table(self) -> str:
        notes = paragraphs(self.answers.notes)
        return tag("section", tag("h2", "The table") + block(count_strikes(self.answers)) + notes, class_="read")

    def _cautions(self) -> str:
        lines = [*limits(self.answers), words_lesson.LIMITS]
        if cautions.HOW_SURE not in lines[0]:
            lines.append(cautions.HOW_SURE)
        lines.sort(key=lambda line: line != cautions.CAUTION)
        return tag("footer", tag("h2", "Cautions") + paragraphs(lines))


def _plots() -> Any:
    try:
        import matplotlib  # noqa: F401
    except ImportError:
        raise missing("matplotlib", "plots") from None
    from ..plots import lesson as plot_lesson

    return plot_lesson
