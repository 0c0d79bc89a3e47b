"""The ``whimbrel`` command."""

from __future__ import annotations

import json
import sys
from importlib.metadata import version
from pathlib import Path
from typing import Annotated, Any

import typer

from ..core import cautions
from ..errors import InputError, MissingPackage
from ..questions.swing_plane import planes_around
from ..row.arc import arc_of, ground_strike
from ..row.play import play
from ..row.swing import Delivery
from ..row.swing import Hand as HandName
from . import course as cli_course
from . import dispersion as cli_dispersion
from . import explain as cli_explain
from . import lesson as cli_lesson
from . import sensitivity as cli_sensitivity
from . import session as cli_session
from . import sweep as cli_sweep
from .files import check_files, no_rows, save_picture, save_table, say_files
from .flag_groups import (
    AirFlags,
    GroundFlags,
    LandingFlags,
    LaunchFlags,
    SwingFlags,
    TurfFlags,
    read_start,
    with_groups,
)
from .flags import (
    DELIVERY,
    OUTPUT,
    ClubFile,
    ClubName,
    Hand,
    Side,
    TeeHeight,
    Text,
    Units,
    UnitSystem,
    clubs_of,
    flag,
    in_si,
)
from .output import as_json, print_arc, print_clubs, print_ground, print_shot, print_table, say
from .terminal import Terminal, spell_what_it_lacks

app = typer.Typer(
    no_args_is_help=True,
    epilog=cautions.CAUTION,
)


def _print_version(wanted: bool) -> None:
    if wanted:
        print(version("whimbrel"))
        raise typer.Exit


@app.callback()
def whimbrel(
    show_version: Annotated[
        bool, typer.Option("--version", callback=_print_version, is_eager=True, help="print the version")
    ] = False,
) -> None:
    """Golf ball flight: from the clubhead's delivery, or a measured launch, to where the ball rests."""


@app.command("play")
@with_groups
def play_command(
    *,
    swing: SwingFlags,
    launch: LaunchFlags,
    landing: LandingFlags,
    air: AirFlags,
    ground: GroundFlags,
    on: TurfFlags,
    units: UnitSystem = Units.yards,
    picture: Annotated[Path | None, flag(OUTPUT, "draw side and top view (.png, .svg, .pdf)")] = None,
    impact_picture: Annotated[Path | None, flag(OUTPUT, "draw the D-plane and the strike on the face")] = None,
    json_output: Annotated[bool, flag(OUTPUT, "print every stage in SI as JSON", "--json")] = False,
) -> None:
    """Play one shot until the ball rests, from a delivery with a club, a measured launch or a landing.

    Give each number with its unit: --clubhead-speed 84mph. Write a negative number with "=": --attack-angle=-6deg.
    """
    check_files([swing.clubs_file, on.turfs_file], picture=[picture, impact_picture])
    start, member = read_start(swing, launch, landing)
    shot = play(
        start,
        member,
        **air.conditions(),
        impact=swing.impact_model(),
        terrain=ground.terrain(),
        turf=on.chosen(),
    )
    if picture is not None:
        save_picture(lambda: shot.plot(units.value), picture)
    if impact_picture is not None:
        if shot.impact is None:
            raise InputError("--impact-picture needs a delivery: a measured launch has no impact to draw")
        save_picture(lambda: _plot().impact(shot), impact_picture)
    if json_output:
        print(json.dumps(as_json(shot), indent=2))
        return
    print_shot(shot, units.value)
    say_files(("Picture", picture), ("Picture", impact_picture))


@app.command("table")
@with_groups
def table_command(
    *,
    file: Annotated[Path, typer.Argument(help="CSV or Parquet file, one row per strike", show_default=False)],
    out: Annotated[
        Path | None, flag(OUTPUT, "write the table with its results to this file (.csv or .parquet)")
    ] = None,
    club: Annotated[Text, flag(DELIVERY, "the club of rows that do not name one")] = None,
    clubs_file: ClubFile = None,
    hand: Side = None,
    air: AirFlags,
    on: TurfFlags,
    standard: Annotated[bool, flag(OUTPUT, "also fly every launch in standard still air", "--standard")] = False,
    units: UnitSystem = Units.yards,
) -> None:
    """Play every row of a table of deliveries or measured launches.

    Bad rows are listed and the others played; the exit code is 1 if every row is bad. In a CSV file from --out,
    text that a spreadsheet would run as a formula gets an apostrophe in front; a Parquet file keeps it unchanged.

    Column names give quantity and unit: clubhead_speed_mph, dynamic_loft_deg, spin_rate_rpm … A row needs
    ball_speed, launch_angle and spin_rate (or backspin_rate, with sidespin_rate), or clubhead_speed and
    dynamic_loft (or shaft_lean) with a club. Also read: club_path, attack_angle, face_angle, strike_toe,
    strike_high, lie_tilt, closure_rate, launch_direction, spin_axis_tilt, temperature, pressure, altitude,
    relative_humidity, wind_speed, wind_from, tee_height.
    """
    from ..strikes.play_table import Defaults, play_table

    check_files([file, clubs_file, on.turfs_file], out=[out])
    defaults = Defaults(**air.conditions(), turf=on.chosen())
    frame, report = play_table(
        file,
        club=club,
        club_set=clubs_of(clubs_file, hand),
        defaults=defaults,
        units=units.value,
        standard=standard,
    )
    if not report.rows:
        raise no_rows(file)
    if out is not None:
        save_table(frame, out)
    print_table(frame, report, out, units.value, defaults.ball)
    if report.rows and len(report.bad) == report.rows:
        sys.exit(1)


@app.command("arc")
def arc_command(
    club_path: Annotated[str, flag(DELIVERY, "right is positive, e.g. 2deg")],
    attack_angle: Annotated[str, flag(DELIVERY, "up is positive, e.g. --attack-angle=-6deg")],
    plane: Annotated[str, flag(DELIVERY, "angle between swing plane and ground, e.g. 62deg")],
    plane_range: Annotated[str, flag(DELIVERY, "how far the plane may be off")] = "4deg",
    face_angle: Annotated[Text, flag(DELIVERY, "right is positive; shown in the picture")] = None,
    dynamic_loft: Annotated[Text, flag(DELIVERY, "with --club: shows what the club meets first")] = None,
    radius: Annotated[str, flag(DELIVERY, "radius of the arc near its low point")] = "1.5m",
    height: Annotated[str, flag(DELIVERY, "height of the leading edge above the turf at the ball")] = "0mm",
    club: ClubName = None,
    clubs_file: ClubFile = None,
    hand: Side = None,
    sole_depth: Annotated[Text, flag(DELIVERY, "depth of the sole below the leading edge, e.g. 3mm")] = None,
    tee_height: TeeHeight = None,
    units: UnitSystem = Units.yards,
    picture: Annotated[
        Path | None, flag(OUTPUT, "draw the arc from the side and from above (.png, .svg, .pdf)")
    ] = None,
) -> None:
    """Find the swing arc behind a measured path and attack angle: where the plane points, and the low point."""
    check_files([clubs_file], picture=[picture])
    given = in_si(club_path=club_path, attack_angle=attack_angle, face_angle=face_angle, plane=plane,
                  plane_range=plane_range, radius=radius, height=height, tee_height=tee_height,
                  dynamic_loft=dynamic_loft, sole_depth=sole_depth)  # fmt: skip
    if (club is None) != ("dynamic_loft" not in given):
        raise InputError("--club and --dynamic-loft go together, to say where on the face the ball is")
    with_club = None if club is None else clubs_of(clubs_file, hand)[club]
    side: HandName = with_club.hand if with_club else "left" if hand is Hand.left else "right"
    hit = Delivery(1.0, given["club_path"], given["attack_angle"], given.get("face_angle", 0.0))
    shape: dict[str, Any] = {"radius": given["radius"], "height": given["height"], "hand": side}
    middle = arc_of(hit, plane_inclination=given["plane"], **shape)
    ends = planes_around(given["plane"], given["plane_range"])[1:]
    spread = arc_of(hit, plane_inclination=ends, **shape)
    tee, sole = given.get("tee_height", 0.0), given.get("sole_depth", 0.0)
    ground = None
    if with_club is not None:
        loft = given["dynamic_loft"]
        ground = ground_strike(middle, with_club, dynamic_loft=loft, tee_height=tee, sole_depth=sole)
    if picture is not None:
        save_picture(lambda: _plot().arc(middle, hit, units.value, tee, face="face_angle" in given), picture)
    print_arc(middle, spread, hit, side, units.value)
    if ground is not None:
        print_ground(ground, units.value)
    say(cautions.SHORT_CAUTION, style="dim")
    say_files(("Picture", picture))


@app.command("clubs")
def clubs_command(clubs_file: ClubFile = None, hand: Side = None, units: UnitSystem = Units.yards) -> None:
    """List the clubs that --club knows."""
    print_clubs(clubs_of(clubs_file, hand), units.value)
    if clubs_file is None:
        say("An invented set; its numbers are within the trade's usual ranges.", style="dim")


def _plot() -> Any:
    from ..plots import shot as plot

    return plot


cli_explain.register(app)
cli_session.register(app)
cli_lesson.register(app)
cli_course.register(app)
cli_dispersion.register(app)
cli_sensitivity.register(app)
cli_sweep.register(app)


def main() -> None:
    """Runs the command; a user's mistake, or a lack of memory or disk, is one clear message and exit code 2."""
    spell_what_it_lacks(sys.stdout, sys.stderr)
    try:
        app()
    except (InputError, MissingPackage, OSError, MemoryError) as error:
        Terminal(stderr=True).print(f"whimbrel: {_message(error)}", style="red", soft_wrap=True)
        sys.exit(2)


def _message(error: Exception) -> str:
    if isinstance(error, MemoryError):
        return f"not enough memory: play fewer rows, points or samples at a time. {error}".strip()
    if isinstance(error, OSError) and error.filename is not None and error.strerror:
        return f"{error.filename}: {error.strerror}"
    return str(error)
