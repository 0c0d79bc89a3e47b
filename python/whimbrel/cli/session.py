"""The command ``whimbrel session``."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from ..core import cautions
from ..core.quantity import System, parse, plain_name
from ..errors import InputError
from ..sessions.answers import group_name
from ..words.doubt import how_sure
from ..words.session import count_strikes, of_aimed, of_comparison, of_driven, of_spread, short
from .files import no_rows, refuse_to_overwrite, save_table
from .flags import OUTPUT, ClubFile, Hand, Side, Text, Units, UnitSystem, clubs_of, flag
from .output import console, say, say_file
from .terminal import Listing

if TYPE_CHECKING:
    import pandas as pd

    from ..sessions.session import Session
    from ..statistics.targets import Target

STRIKES, ASKED = "Strikes", "Questions"
#: Groups and quantities are listed in full in the tables that --out writes.
TABLES = ("spreads", "changes", "scatter", "targets")


Several = list[str] | None
StrikesFile = Annotated[Path, typer.Argument(help="CSV or Parquet file, one row per strike in the order struck")]
ReadingFile = Annotated[
    Path | None, flag(STRIKES, "TOML file of other column names, noise, smallest changes and targets", "--reading")
]
OtherClub = Annotated[Text, flag(STRIKES, "the club of rows that do not name one", "--club")]
BeforeBlock = Annotated[Text, flag(ASKED, "the earlier block to compare [default: the first]", "--before")]
AfterBlock = Annotated[Text, flag(ASKED, "the later block to compare [default: the last]", "--after")]
Ask = Annotated[Several, flag(ASKED, "a quantity to test, e.g. face_angle; repeatable [default: all]", "--ask")]
Smallest = Annotated[
    Several, flag(ASKED, "smallest change worth having, e.g. face_angle_deg=0.5; repeatable", "--smallest")
]
Noise = Annotated[Several, flag(ASKED, "SD of a measurement, e.g. face_angle_deg=0.3; repeatable", "--noise")]
TargetShape = Annotated[
    Text,
    flag(
        ASKED,
        "circle:145yd,8yd (distance, radius), green:145yd,20yd,15yd (distance, width, depth) or corridor:25yd",
        "--target",
    ),
]
Seed = Annotated[int, flag(ASKED, "seed of the random regroupings", "--seed")]


def register(app: typer.Typer) -> None:
    """Adds the command to the others."""
    app.command("session")(session_command)


def session_command(
    file: StrikesFile,
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
    out: Annotated[Path | None, flag(OUTPUT, f"write the tables {', '.join(TABLES)} as CSV to this folder")] = None,
) -> None:
    """Analyse a table of strikes: how good, what changed, what drives the scatter, where to aim.

    Column names give quantity and unit, as for `whimbrel table`; also carry_yd, offline_yd and the rest of the
    flight, and the text columns player, club, block, target and warm_up. Values may be missing. The answers come
    first, then every quantity of every block. The exit code is 1 if no strike could be used.
    """
    if out is not None:
        for name in TABLES:
            refuse_to_overwrite(_in_folder(out, name), [file, reading, clubs_file])
    answers = answer(file, reading, club, clubs_file, hand, before, after, ask, smallest, noise, target, seed)
    if out is not None:
        _write(answers, out, units.value)
    print_session(answers, units.value, out)
    exit_without_strikes(answers)


def answer(
    file: Path, reading: Path | None, club: Text, clubs_file: Path | None, hand: Hand | None, before: Text,
    after: Text, ask: Several, smallest: Several, noise: Several, target: Text, seed: int,
) -> Session:  # fmt: skip
    """The session, by the flags."""
    from ..sessions.session import session

    answers = session(
        file,
        reading=reading,
        before=before,
        after=after,
        quantities=ask,
        target=None if target is None else target_of(target),
        noise=_numbers(noise, "--noise"),
        smallest=_numbers(smallest, "--smallest"),
        club=club,
        club_set=clubs_of(clubs_file, hand),
        seed=seed,
    )
    if not answers.strikes:
        raise no_rows(file)
    return answers


def exit_without_strikes(answers: Session) -> None:
    """Exits with code 1 if no strike could be used."""
    if not any(group.spreads for group in answers.groups):
        raise typer.Exit(1)


def _numbers(given: Several, option: str) -> dict[str, float]:
    numbers: dict[str, float] = {}
    for text in given or []:
        name, _, number = text.partition("=")
        try:
            numbers[name.strip()] = float(number)
        except ValueError:
            raise InputError(f"{option}: {text!r} is not like face_angle_deg=0.5") from None
    return numbers


def target_of(text: str) -> Target:
    """A target as text, such as circle:145yd,8yd."""
    from ..statistics.targets import SHAPES

    shape, _, sizes = text.partition(":")
    given = [size for size in sizes.split(",") if size.strip()]
    names = list(SHAPES[shape].__dataclass_fields__) if shape in SHAPES else []
    if not names or len(names) != len(given):
        raise InputError(f"--target: {text!r} is not like circle:145yd,8yd green:145yd,20yd,15yd or corridor:25yd")
    return SHAPES[shape](*(parse(size, "m", f"--target, {name}") for size, name in zip(given, names, strict=True)))


def _write(answers: Session, folder: Path, units: System) -> None:
    folder.mkdir(parents=True, exist_ok=True)
    for name in TABLES:
        frame: pd.DataFrame = getattr(answers, f"{name}_table")(units)
        save_table(frame, _in_folder(folder, name))


def _in_folder(folder: Path, name: str) -> Path:
    return folder / f"{name}.csv"


def print_session(answers: Session, units: System, out: Path | None) -> None:
    """Prints the answers in words, then a table of each group."""
    say(count_strikes(answers), style="red" if answers.bad else None)
    for title, lines in (
        ("Did it change?", [of_comparison(pair, units) for pair in answers.changes]),
        ("What drives the scatter?", [of_driven(driven, units) for driven in answers.scatters]),
        ("Target play", [of_aimed(aimed, units) for aimed in answers.targets]),
    ):
        if lines:
            console.rule(title, align="left", style="dim")
            say("\n\n".join(lines))
    if answers.groups:
        console.rule("Every quantity: mean and SD with their 95 % intervals", align="left", style="dim")
    for group in answers.groups:
        say(f"{group_name(group.player, group.club, group.block)}, n = {group.n}", style="bold")
        console.print(_listing(group.spreads, units))
    _print_side_by_side(answers, units)
    for note in answers.notes:
        say(note, style="yellow")
    if out is not None:
        say_file("Tables", out)
    if any(group.played for group in answers.groups):
        for line in how_sure(answers.defaults.ball):
            say(line, style="dim")
    say(cautions.CAUTION, style="dim")


def _listing(spreads: Any, units: System) -> Listing:
    listing = Listing(prose=[1])
    for name, spread in spreads.items():
        listing.add_row(plain_name(name), of_spread(name, spread, units))
    return listing


def _print_side_by_side(answers: Session, units: System) -> None:
    """Mean ± SD of each player's clubs beside each other, where there is more than one."""
    from ..sessions.frames import last_blocks

    groups = last_blocks(answers.groups)
    for player in dict.fromkeys(player for player, _ in groups):
        clubs = {club: group for (who, club), group in groups.items() if who == player}
        if len(clubs) < 2:
            continue
        console.rule(f"{player or 'The clubs'} side by side: mean ± SD", align="left", style="dim")
        listing = Listing("", *clubs)
        for name in dict.fromkeys(name for group in clubs.values() for name in group.spreads):
            listing.add_row(
                plain_name(name), *(short(group.spreads.get(name), name, units) for group in clubs.values())
            )
        console.print(listing)
