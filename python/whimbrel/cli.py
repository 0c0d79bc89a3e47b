"""The ``whimbrel`` command."""

from __future__ import annotations

import json
import sys
from collections.abc import Callable
from enum import StrEnum
from importlib.metadata import version
from pathlib import Path
from typing import Annotated, Any

import numpy as np
import typer
from rich.console import Console

from . import cli_session, words
from .ball import MODELS, Ball, balls
from .console import as_json, print_arc, print_clubs, print_ground, print_shot, print_table, say, say_file
from .errors import InputError, MissingPackage
from .flight import Launch
from .quantities import parse
from .setting import Terrain, Weather, Wind
from .shot import play
from .swing import Club, Clubs, Delivery, clubs, load_clubs, present
from .swing import Hand as HandName
from .swing_arc import arc_of, ground_strike
from .values import columns_of

app = typer.Typer(
    no_args_is_help=True,
    epilog=words.CAUTION,
)


class Units(StrEnum):
    yards = "yards"
    metric = "metric"


class Hand(StrEnum):
    right = "right"
    left = "left"


class Impacts(StrEnum):
    compliant = "compliant"
    rigid = "rigid"


DELIVERY, LAUNCH, CONDITIONS, OUTPUT = "Delivery", "or a measured launch", "Defaults", "Output"


def flag(panel: str, description: str, *names: str) -> Any:
    return typer.Option(*names, help=description, rich_help_panel=panel)


Text = str | None
ClubName = Annotated[Text, flag(DELIVERY, 'a club\'s name, e.g. "7 iron" (whimbrel clubs)', "--club")]
ClubFile = Annotated[Path | None, flag(DELIVERY, "your own clubs, a TOML file", "--clubs")]
Side = Annotated[Hand | None, flag(DELIVERY, "the player's side, for the shipped clubs [default: right]", "--hand")]
BallName = Annotated[str, flag(CONDITIONS, ", ".join(balls), "--ball")]
ModelName = Annotated[str, flag(CONDITIONS, f"ball model: {', '.join(MODELS)}", "--aero")]
Temperature = Annotated[Text, flag(CONDITIONS, "of the air, e.g. 12C or 54F")]
Pressure = Annotated[Text, flag(CONDITIONS, "at the place itself, e.g. 1005hPa")]
Altitude = Annotated[Text, flag(CONDITIONS, "instead of pressure, e.g. 1600m")]
Humidity = Annotated[Text, flag(CONDITIONS, "e.g. 60%")]
WindSpeed = Annotated[Text, flag(CONDITIONS, "wind speed at 10 m, e.g. 8mph", "--wind")]
WindFrom = Annotated[Text, flag(CONDITIONS, "0deg: from ahead, 90deg: from the right")]
UnitSystem = Annotated[Units, flag(OUTPUT, "units of the output")]


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
    """Golf ball flight: from the clubhead's delivery, or a measured launch, to where the ball lands."""


@app.command("play")
def play_command(
    club: ClubName = None,
    clubs_file: ClubFile = None,
    hand: Side = None,
    clubhead_speed: Annotated[Text, flag(DELIVERY, "e.g. 84mph")] = None,
    attack_angle: Annotated[Text, flag(DELIVERY, "up is positive, e.g. --attack-angle=-6deg")] = None,
    club_path: Annotated[Text, flag(DELIVERY, "right is positive, e.g. 4deg")] = None,
    face_angle: Annotated[Text, flag(DELIVERY, "right is positive, e.g. --face-angle=-1deg")] = None,
    dynamic_loft: Annotated[Text, flag(DELIVERY, "of the face at impact, e.g. 24deg")] = None,
    shaft_lean: Annotated[Text, flag(DELIVERY, "instead of dynamic loft; forward is positive")] = None,
    lie_tilt: Annotated[Text, flag(DELIVERY, "toe up is positive")] = None,
    strike_toe: Annotated[Text, flag(DELIVERY, "from the face centre toward the toe, e.g. 12mm")] = None,
    strike_high: Annotated[Text, flag(DELIVERY, "toward the crown, e.g. --strike-high=-8mm")] = None,
    closure_rate: Annotated[Text, flag(DELIVERY, "rate at which the face closes, e.g. 2300deg/s")] = None,
    ball_speed: Annotated[Text, flag(LAUNCH, "e.g. 120mph")] = None,
    launch_angle: Annotated[Text, flag(LAUNCH, "e.g. 16deg")] = None,
    launch_direction: Annotated[Text, flag(LAUNCH, "right is positive")] = None,
    spin_rate: Annotated[Text, flag(LAUNCH, "total, e.g. 7000rpm")] = None,
    spin_axis_tilt: Annotated[Text, flag(LAUNCH, "positive curves right")] = None,
    ball: BallName = "standard",
    aero: ModelName = "multi-layer",
    temperature: Temperature = None,
    pressure: Pressure = None,
    altitude: Altitude = None,
    relative_humidity: Humidity = None,
    wind: WindSpeed = None,
    wind_from: WindFrom = None,
    rise: Annotated[Text, flag(CONDITIONS, "landing ground above the tee, e.g. 5yd")] = None,
    tee_height: Annotated[Text, flag(CONDITIONS, "e.g. 40mm")] = None,
    impact: Annotated[
        Impacts | None, flag(DELIVERY, "how club and ball are taken to meet [default: compliant]")
    ] = None,
    units: UnitSystem = Units.yards,
    picture: Annotated[Path | None, flag(OUTPUT, "draw side and top view (.png, .svg, .pdf)")] = None,
    impact_picture: Annotated[Path | None, flag(OUTPUT, "draw the D-plane and the strike on the face")] = None,
    json_output: Annotated[bool, flag(OUTPUT, "print every stage in SI as JSON", "--json")] = False,
) -> None:
    """Play one shot, from a delivery with a club or from a measured launch.

    Every number wears its unit: --clubhead-speed 84mph --attack-angle=-6deg. Write negative ones with "=".
    """
    delivered = in_si(
        clubhead_speed=clubhead_speed,
        attack_angle=attack_angle,
        club_path=club_path,
        face_angle=face_angle,
        dynamic_loft=dynamic_loft,
        shaft_lean=shaft_lean,
        lie_tilt=lie_tilt,
        strike_toe=strike_toe,
        strike_high=strike_high,
        closure_rate=closure_rate,
    )
    launched = in_si(
        ball_speed=ball_speed,
        launch_angle=launch_angle,
        launch_direction=launch_direction,
        spin_rate=spin_rate,
        spin_axis_tilt=spin_axis_tilt,
    )
    if launched and (impact or hand or clubs_file):
        raise InputError("a measured launch takes no --impact, --hand or --clubs")
    shot = play(
        *_start(delivered, launched, club, _clubs(clubs_file, hand)),
        ball=_ball(ball, aero),
        weather=_weather(temperature, pressure, altitude, relative_humidity),
        wind=_wind(wind, wind_from),
        impact=(impact or Impacts.compliant).value,
        terrain=Terrain(in_si(tee_height=tee_height).get("tee_height", 0.0), in_si(rise=rise).get("rise", 0.0)),
    )
    if picture is not None:
        _save(lambda plot: plot.shot(shot, units.value), picture)
    if impact_picture is not None:
        if shot.impact is None:
            raise InputError("--impact-picture needs a delivery: a measured launch has no impact to draw")
        _save(lambda plot: plot.impact(shot), impact_picture)
    if json_output:
        print(json.dumps(as_json(shot), indent=2))
        return
    print_shot(shot, units.value, rigid=impact is Impacts.rigid)
    for path in (picture, impact_picture):
        if path is not None:
            say_file("Picture", path)


@app.command("table")
def table_command(
    file: Annotated[Path, typer.Argument(help="CSV or Parquet file, a row a strike", show_default=False)],
    out: Annotated[Path | None, flag(OUTPUT, "write the whole table here (.csv or .parquet)")] = None,
    club: Annotated[Text, flag(DELIVERY, "club of the rows that name none")] = None,
    clubs_file: ClubFile = None,
    hand: Side = None,
    ball: BallName = "standard",
    aero: ModelName = "multi-layer",
    temperature: Temperature = None,
    pressure: Pressure = None,
    altitude: Altitude = None,
    relative_humidity: Humidity = None,
    wind: WindSpeed = None,
    wind_from: WindFrom = None,
    standard: Annotated[bool, flag(OUTPUT, "also fly every launch in standard still air", "--standard")] = False,
    units: UnitSystem = Units.yards,
) -> None:
    """Play every row of a table of deliveries or measured launches.

    Bad rows are named, the others played; the exit code is 1 where every row was bad.

    Columns are named by quantity and unit: clubhead_speed_mph, dynamic_loft_deg, spin_rate_rpm … A row needs
    ball_speed, launch_angle and spin_rate (or backspin_rate, with sidespin_rate), or clubhead_speed and
    dynamic_loft (or shaft_lean) with a club. Also read: club_path, attack_angle, face_angle, strike_toe,
    strike_high, lie_tilt, closure_rate, launch_direction, spin_axis_tilt, temperature, pressure, altitude,
    relative_humidity, wind_speed, wind_from, tee_height.
    """
    from .files import write
    from .tables import Defaults, play_table

    frame, report = play_table(
        file,
        club=club,
        club_set=_clubs(clubs_file, hand),
        defaults=Defaults(
            _ball(ball, aero), _weather(temperature, pressure, altitude, relative_humidity), _wind(wind, wind_from)
        ),
        units=units.value,
        standard=standard,
    )
    if out is not None:
        write(frame, out)
    print_table(frame, report, out, units.value)
    if report.rows and len(report.bad) == report.rows:
        sys.exit(1)


@app.command("arc")
def arc_command(
    club_path: Annotated[str, flag(DELIVERY, "right is positive, e.g. 2deg")],
    attack_angle: Annotated[str, flag(DELIVERY, "up is positive, e.g. --attack-angle=-6deg")],
    plane: Annotated[str, flag(DELIVERY, "inclination of the swing plane to the ground, e.g. 62deg")],
    plane_range: Annotated[str, flag(DELIVERY, "how far the plane may be off")] = "4deg",
    face_angle: Annotated[Text, flag(DELIVERY, "right is positive; drawn in the picture")] = None,
    dynamic_loft: Annotated[Text, flag(DELIVERY, "with --club: says what the club meets first")] = None,
    radius: Annotated[str, flag(DELIVERY, "of the arc near its low point")] = "1.5m",
    height: Annotated[str, flag(DELIVERY, "of the leading edge above the turf at the ball")] = "0mm",
    club: ClubName = None,
    clubs_file: ClubFile = None,
    hand: Side = None,
    sole_depth: Annotated[Text, flag(DELIVERY, "of the sole below the leading edge, e.g. 3mm")] = None,
    tee_height: Annotated[Text, flag(CONDITIONS, "e.g. 40mm")] = None,
    units: UnitSystem = Units.yards,
    picture: Annotated[Path | None, flag(OUTPUT, "draw it from the side and from above")] = None,
) -> None:
    """The swing arc behind a measured path and attack angle: where the plane points, and the low point."""
    given = in_si(club_path=club_path, attack_angle=attack_angle, face_angle=face_angle, plane=plane,
                  plane_range=plane_range, radius=radius, height=height, tee_height=tee_height,
                  dynamic_loft=dynamic_loft, sole_depth=sole_depth)  # fmt: skip
    if (club is None) != ("dynamic_loft" not in given):
        raise InputError("--club and --dynamic-loft go together, to say where on the face the ball is")
    with_club = None if club is None else _clubs(clubs_file, hand)[club]
    side: HandName = with_club.hand if with_club else "left" if hand is Hand.left else "right"
    hit = Delivery(1.0, given["club_path"], given["attack_angle"], given.get("face_angle", 0.0))
    shape: dict[str, Any] = {"radius": given["radius"], "height": given["height"], "hand": side}
    middle = arc_of(hit, plane_inclination=given["plane"], **shape)
    spread = arc_of(hit, plane_inclination=given["plane"] + np.array([-1, 1]) * given["plane_range"], **shape)
    tee, sole = given.get("tee_height", 0.0), given.get("sole_depth", 0.0)
    ground = None
    if with_club is not None:
        loft = given["dynamic_loft"]
        ground = ground_strike(middle, with_club, dynamic_loft=loft, tee_height=tee, sole_depth=sole)
    if picture is not None:
        _save(lambda plot: plot.arc(middle, hit, units.value, tee, face="face_angle" in given), picture)
    print_arc(middle, spread, hit, side, units.value)
    if ground is not None:
        print_ground(ground, units.value)
    say(words.SHORT_CAUTION, style="dim")
    if picture is not None:
        say_file("Picture", picture)


@app.command("clubs")
def clubs_command(clubs_file: ClubFile = None, hand: Side = None, units: UnitSystem = Units.yards) -> None:
    """List the clubs that --club knows."""
    print_clubs(_clubs(clubs_file, hand), units.value)
    if clubs_file is None:
        say("An invented set, its numbers inside the ranges of the trade.", style="dim")


cli_session.register(app)


SI = {
    **columns_of("Delivery"),
    **columns_of("Launch"),
    **columns_of("Weather"),
    **columns_of("SwingArc"),
    "shaft_lean": "rad",
    "plane": "rad",
    "plane_range": "rad",
    "height": "m",
    "sole_depth": "m",
    "tee_height": "m",
    "rise": "m",
    "altitude": "m",
    "wind": "m/s",
    "wind_from": "rad",
}


def in_si(**flags: Text) -> dict[str, float]:
    """The flags that were given, in SI."""
    return {name: parse(x, SI[name], _as_flag(name)) for name, x in flags.items() if x is not None}


def _as_flag(name: str) -> str:
    return "--" + name.replace("_", "-")


def _clubs(path: Path | None, hand: Hand | None) -> Clubs:
    if path is None:
        return clubs.left_handed() if hand is Hand.left else clubs
    if hand is not None:
        raise InputError("--hand is for the shipped clubs: a club of your own says its hand in the file")
    return load_clubs(path)


def _start(
    delivered: dict[str, float], launched: dict[str, float], club: Text, members: Clubs
) -> tuple[Delivery | Launch, Club | None]:
    """What the flags start the shot with."""
    if delivered and launched:
        raise InputError("give a delivery or a launch, not both")
    if launched:
        missing = [_as_flag(n) for n in ("ball_speed", "launch_angle", "spin_rate") if n not in launched]
        if missing:
            raise InputError(f"a launch also needs {', '.join(missing)}")
        if club is not None:
            raise InputError("a measured launch takes no --club")
        return Launch(**launched), None
    if "clubhead_speed" not in delivered or not {"dynamic_loft", "shaft_lean"} & set(delivered):
        raise InputError(
            "give a delivery (--clubhead-speed and --dynamic-loft or --shaft-lean) "
            "or a launch (--ball-speed, --launch-angle and --spin-rate)"
        )
    if club is None:
        raise InputError('a delivery needs a club, e.g. --club "7 iron" (whimbrel clubs lists them)')
    if "shaft_lean" not in delivered:
        return Delivery(**delivered), members[club]
    if "dynamic_loft" in delivered:
        raise InputError("give --dynamic-loft or --shaft-lean, not both")
    return present(members[club], **delivered), members[club]


def _ball(name: str, aero: str) -> Ball:
    if aero not in MODELS:
        raise InputError(f"--aero: no model is called {aero!r}; there are: {', '.join(MODELS)}")
    if aero == "multi-layer":
        return balls[name]
    if name != "standard":
        raise InputError("--ball is a choice within the multi-layer model: give --ball or --aero, not both")
    return Ball(aero=MODELS[aero]())


def _weather(temperature: Text, pressure: Text, altitude: Text, relative_humidity: Text) -> Weather:
    return Weather(
        **in_si(temperature=temperature, pressure=pressure, altitude=altitude, relative_humidity=relative_humidity)
    )


def _wind(speed: Text, from_direction: Text) -> Wind:
    given = in_si(wind=speed, wind_from=from_direction)
    if "wind_from" in given and "wind" not in given:
        raise InputError("--wind-from needs --wind")
    return Wind(given.get("wind", 0.0), given.get("wind_from", 0.0))


def _save(draw: Callable[[Any], Any], path: Path) -> None:
    from . import plot

    try:
        draw(plot).savefig(path, dpi=150)
    except ValueError as error:
        raise InputError(f"picture {path}: {error}") from None


def main() -> None:
    """Runs the command; a user's mistake is one clear message and exit code 2."""
    try:
        app()
    except (InputError, MissingPackage, OSError) as error:
        Console(stderr=True, highlight=False).print(f"whimbrel: {error}", style="red", markup=False, soft_wrap=True)
        sys.exit(2)


if __name__ == "__main__":
    main()
