"""The command ``whimbrel lesson``."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from ..core import cautions
from ..core.files import write_text
from ..words.session import count_strikes
from .files import check_files
from .flags import OUTPUT, ClubFile, Side, Text, Units, UnitSystem, flag
from .output import say, say_file
from .session import (
    STRIKES,
    AfterBlock,
    Ask,
    BeforeBlock,
    Noise,
    OtherClub,
    ReadingFile,
    Seed,
    Smallest,
    StrikesFile,
    TargetShape,
    answer,
    exit_without_strikes,
)


def register(app: typer.Typer) -> None:
    """Adds the command to the others."""
    app.command("lesson")(lesson_command)


def lesson_command(
    file: StrikesFile,
    out: Annotated[Path, flag(OUTPUT, "the page, one HTML file", "--out")] = Path("lesson.html"),
    player: Annotated[Text, flag(STRIKES, "the player the page is for, if the table names several")] = None,
    reading: ReadingFile = None,
    club: OtherClub = None,
    clubs_file: ClubFile = None,
    hand: Side = None,
    before: BeforeBlock = None,
    after: AfterBlock = None,
    ask: Ask = None,
    smallest: Smallest = None,
    noise: Noise = None,
    target: TargetShape = None,
    seed: Seed = 0,
    units: UnitSystem = Units.yards,
) -> None:
    """Write a page for the player to take home: a session with pictures, for a phone, a desk or paper.

    It reads the same table as `whimbrel session`. The page needs no network and no other file. The exit code is 1
    if no strike could be used; the page says why.
    """
    from ..pages.lesson import lesson

    check_files([file, reading, clubs_file], out=[out], kinds=(".html", ".htm"))
    answers = answer(file, reading, club, clubs_file, hand, before, after, ask, smallest, noise, target, seed)
    write_text(lesson(answers, units=units.value, player=player, called=file.name), out)
    say(count_strikes(answers), style="red" if answers.bad else None)
    say(cautions.SHORT_CAUTION, style="dim")
    say(cautions.SWING_CAUTION, style="dim")
    say_file("Lesson", out)
    exit_without_strikes(answers)
