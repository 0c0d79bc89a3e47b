"""``whimbrel sensitivity``: what a little more of each input does to a shot."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Annotated, Any

import typer

from . import words
from .cli_flags import (
    LAUNCH,
    OUTPUT,
    Altitude,
    AttackAngle,
    BallName,
    ClosureRate,
    ClubFile,
    ClubheadSpeed,
    ClubName,
    ClubPath,
    DynamicLoft,
    FaceAngle,
    Humidity,
    ImpactName,
    Impacts,
    LieTilt,
    ModelName,
    Pressure,
    Rise,
    ShaftLean,
    Side,
    SlopeRight,
    SlopeUp,
    StrikeHigh,
    StrikeToe,
    TeeHeight,
    Temperature,
    Text,
    TurfName,
    Units,
    UnitSystem,
    WindFrom,
    WindSpeed,
    ball_of,
    clubs_of,
    flag,
    in_si,
    save_picture,
    start_of,
    terrain_of,
    turf_of,
    weather_of,
    wind_of,
)
from .console import console, right_aligned, say, say_file
from .errors import InputError
from .ground import Landing
from .quantities import System
from .sensitivity import USUAL_RESULTS, Sensitivity, sensitivity

ASKED = "What to ask"
Of = Annotated[
    list[str] | None,
    flag(ASKED, f"a result, e.g. --of total; repeatable [default: {', '.join(USUAL_RESULTS)}]", "--of"),
]
By = Annotated[
    list[str] | None,
    flag(ASKED, "an input, e.g. --by face_angle; repeatable [default: the start's and some conditions]", "--by"),
]
Picture = Annotated[Path | None, flag(OUTPUT, "draw it as bars, a panel a result (.png, .svg, .pdf)")]
AsJson = Annotated[bool, flag(OUTPUT, "print every derivative in SI as JSON", "--json")]


def register(app: typer.Typer) -> None:
    """Adds the command to the app."""
    app.command("sensitivity")(sensitivity_command)


def sensitivity_command(
    club: ClubName = None,
    clubs_file: ClubFile = None,
    hand: Side = None,
    clubhead_speed: ClubheadSpeed = None,
    attack_angle: AttackAngle = None,
    club_path: ClubPath = None,
    face_angle: FaceAngle = None,
    dynamic_loft: DynamicLoft = None,
    shaft_lean: ShaftLean = None,
    lie_tilt: LieTilt = None,
    strike_toe: StrikeToe = None,
    strike_high: StrikeHigh = None,
    closure_rate: ClosureRate = None,
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
    rise: Rise = None,
    slope_up: SlopeUp = None,
    slope_right: SlopeRight = None,
    turf: TurfName = None,
    tee_height: TeeHeight = None,
    impact: ImpactName = None,
    of: Of = None,
    by: By = None,
    units: UnitSystem = Units.yards,
    picture: Picture = None,
    json_output: AsJson = False,
) -> None:
    """What one step more of each input does to a shot's numbers: exact derivatives, one input at a time.

    Every number wears its unit: --clubhead-speed 84mph --attack-angle=-6deg. Write negative ones with "=".
    """
    delivered = in_si(clubhead_speed=clubhead_speed, attack_angle=attack_angle, club_path=club_path,
                      face_angle=face_angle, dynamic_loft=dynamic_loft, shaft_lean=shaft_lean, lie_tilt=lie_tilt,
                      strike_toe=strike_toe, strike_high=strike_high, closure_rate=closure_rate)  # fmt: skip
    launched = in_si(ball_speed=ball_speed, launch_angle=launch_angle, launch_direction=launch_direction,
                     spin_rate=spin_rate, spin_axis_tilt=spin_axis_tilt)  # fmt: skip
    if launched and (impact or hand or clubs_file):
        raise InputError("a measured launch takes no --impact, --hand or --clubs")
    start, member = start_of(delivered, launched, {}, club, clubs_of(clubs_file, hand))
    assert not isinstance(start, Landing)
    told = sensitivity(
        start,
        member,
        of=[name.replace("-", "_") for name in of or USUAL_RESULTS],
        by=None if by is None else [name.replace("-", "_") for name in by],
        ball=ball_of(ball, aero),
        weather=weather_of(temperature, pressure, altitude, relative_humidity),
        wind=wind_of(wind, wind_from),
        terrain=terrain_of(tee_height, rise, slope_up, slope_right),
        turf=turf_of(turf, None, None, None),
        impact=(impact or Impacts.compliant).value,
    )
    if picture is not None:
        save_picture(lambda: _plot().every(told, units.value), picture)
    if json_output:
        print(json.dumps(as_json(told), indent=2))
        return
    print_sensitivity(told, units.value)
    if picture is not None:
        say_file("Picture", picture)


def as_json(told: Sensitivity) -> dict[str, Any]:
    """Results, and their derivatives by each input, in SI; null where there is no number."""

    def number(x: float) -> float | None:
        return x if x == x else None

    return {
        "units": "SI: m, s, kg, rad, K, Pa",
        "status": told.status,
        "run_status": told.run_status,
        "not_smooth": [name for name, at in told.kinks.items() if at],
        "results": {of: number(x) for of, x in told.results.items()},
        "derivatives": {of: {by: number(told[of, by]) for by in told.by} for of in told.of},
    }


def print_sensitivity(told: Sensitivity, units: System) -> None:
    """The table, then what to know about it."""
    heading, *rows = told.table(units)
    listing = right_aligned(*heading, padding=(0, 1, 0, 0))
    for row in rows:
        listing.add_row(*row)
    console.print(listing)
    say("")
    say("Each line changes one input and holds the others: exact slopes here, a first guess farther away.")
    for note in told.notes():
        say(note, style="yellow")
    say(words.BALL_SPREAD, style="dim")
    say(words.SHORT_CAUTION, style="dim")
    if "clubhead_speed" in told.by:
        say(words.SWING_CAUTION, style="dim")


def _plot() -> Any:
    from . import plot_sensitivity

    return plot_sensitivity
