"""``whimbrel explain``: why a shot did that."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import Annotated, Any

import typer

from ..core import cautions
from ..core.quantity import System
from ..core.value import columns_of, units_of
from ..errors import InputError
from ..questions.explain import Explained, explain
from ..questions.what_if import what_if
from ..row.arc import on_uphill_stance
from ..row.play import play
from ..row.shot import Shot
from ..row.swing import Delivery
from ..words import explain as words_explain
from ..words import shot as words_shot
from ..words.doubt import is_known
from .files import check_files, save_picture, say_files
from .flag_groups import AirFlags, SwingFlags, read_start, with_groups
from .flags import OUTPUT, Rise, TeeHeight, Text, Units, UnitSystem, flag, in_si, terrain_of
from .output import console, right_aligned, say
from .terminal import Listing

ASKED = "What else to ask"
WhatIf = Annotated[
    list[str] | None,
    flag(ASKED, "play the shot again with a change, e.g. --what-if face_angle=0deg; repeatable", "--what-if"),
]
Aim = Annotated[Text, flag(ASKED, "where the body aims; right of the target is positive, e.g. --aim=-3deg")]
Uphill = Annotated[
    Text,
    flag(
        ASKED,
        "slope under the feet, up to the target; turns a swing with --shaft-lean (a measured loft includes it)",
    ),
]
Plane = Annotated[
    Text, flag(ASKED, "angle between swing plane and ground, e.g. 62deg; adds what the eye sees of the swing")
]
PlaneRange = Annotated[Text, flag(ASKED, "how far the plane may be off [default: 4deg]")]
Height = Annotated[
    Text,
    flag(ASKED, "with --plane: height of the leading edge above the turf at the ball; adds thin, fat or clean"),
]
SoleDepth = Annotated[Text, flag(ASKED, "depth of the sole below the leading edge, e.g. 3mm")]
Picture = Annotated[Path | None, flag(OUTPUT, "draw the causes of carry and offline as bars (.png, .svg, .pdf)")]


def register(app: typer.Typer) -> None:
    """Adds the command to the app."""
    app.command("explain")(with_groups(explain_command))


def explain_command(
    *,
    swing: SwingFlags,
    air: AirFlags,
    rise: Rise = None,
    tee_height: TeeHeight = None,
    changes: WhatIf = None,
    aim: Aim = None,
    uphill: Uphill = None,
    plane: Plane = None,
    plane_range: PlaneRange = None,
    height: Height = None,
    sole_depth: SoleDepth = None,
    units: UnitSystem = Units.yards,
    picture: Picture = None,
) -> None:
    """Explain one shot: how it started and curved, cause by cause, and what one change would have done.

    Give each number with its unit: --clubhead-speed 84mph. Write a negative number with "=": --attack-angle=-6deg.
    """
    check_files([swing.clubs_file], picture=[picture])
    pace = in_si(driver_speed=swing.driver_speed)
    hit, member = read_start(swing if swing.usual else replace(swing, driver_speed=None))
    if uphill is not None and swing.shaft_lean is not None and isinstance(hit, Delivery):
        hit = on_uphill_stance(hit, in_si(uphill=uphill)["uphill"])
    shot = play(
        hit,
        member,
        **air.conditions(),
        impact=swing.impact_model(),
        terrain=terrain_of(tee_height, rise, None, None),
    )
    asked: dict[str, Any] = pace | in_si(
        aim=aim, uphill=uphill, plane=plane, plane_range=plane_range, height=height, sole_depth=sole_depth
    )
    if plane is None and (plane_range or height or sole_depth):
        raise InputError("--plane-range, --height and --sole-depth need --plane")
    if "plane" in asked:
        asked["plane_inclination"] = asked.pop("plane")
    explained = explain(shot, **asked)
    replayed = [(text, what_if(shot, delivery=read_change(text))) for text in changes or []]
    if picture is not None:
        save_picture(lambda: explained.plot(units.value), picture)
    print_explained(explained, replayed, units.value)
    say_files(("Picture", picture))


def read_change(text: str) -> dict[str, float]:
    """A change of the delivery as the command takes it: ``face_angle=0deg``."""
    name, equals, number = text.partition("=")
    name = name.strip().replace("-", "_")
    if not equals or name not in units_of(Delivery):
        raise InputError(
            f"--what-if: {text!r} is not a change such as face_angle=0deg; it can change "
            f"{', '.join(columns_of('Delivery'))}"
        )
    return in_si(**{name: number})


def print_explained(explained: Explained, replayed: list[tuple[str, Shot]], units: System) -> None:
    """Prints the explanation, the causes, single changes, the changes asked for, and the notes."""
    for paragraph in words_explain.story(explained, units):
        say(paragraph)
    say("")
    say(
        f"Reference: {words_explain.reference(explained, units)}. The shot carried "
        f"{words_explain.against_reference(explained, units)}."
    )
    for table in (words_explain.causes_table, words_explain.order_table, words_explain.nudges_table):
        console.print(_listing(table(explained, units)))
    for text, shot in replayed:
        say(words_explain.say_replay(explained, text, shot, units))
    if replayed:
        say("")
    for note in [*words_explain.notes(explained), *words_shot.out_of_range(explained.shot)]:
        say(note, style="yellow")
    if is_known(explained.shot):
        say(cautions.PLUS_MINUS, style="dim")
    say(cautions.SHORT_CAUTION, style="dim")
    say(cautions.SWING_CAUTION, style="dim")


def _listing(rows: list[list[str]]) -> Listing:
    listing = right_aligned(*rows[0], gap=1)
    for row in [*rows[1:], [""]]:
        listing.add_row(*row)
    return listing
