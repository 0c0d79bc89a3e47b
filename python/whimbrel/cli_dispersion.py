"""The command ``whimbrel dispersion``."""

from __future__ import annotations

import json
from enum import StrEnum
from pathlib import Path
from typing import Annotated, Any

import typer

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
    Firmness,
    Humidity,
    LieTilt,
    ModelName,
    Pressure,
    Rise,
    ShaftLean,
    Side,
    SlopeRight,
    SlopeUp,
    Stimp,
    StrikeHigh,
    StrikeToe,
    TeeHeight,
    Temperature,
    Text,
    TurfFile,
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
from .cli_session import ReadingFile, Several, target_of
from .cloud import Dispersion
from .console import say_file
from .console_dispersion import as_json, print_cloud
from .dispersion import dispersion, dispersion_of_strikes
from .draws import DRAWN_CONDITIONS, correlated
from .errors import InputError
from .ground import Landing
from .quantities import BY_SYMBOL, NUMBER, System, parse
from .tables import FIELDS
from .values import columns_of

CLOUD = "Cloud"
#: What --sd takes, with its SI unit.
SPREADABLE = {
    **columns_of("Delivery"),
    **columns_of("Launch"),
    **{name: FIELDS[name] for name in DRAWN_CONDITIONS},
}


class Ats(StrEnum):
    landing = "landing"
    rest = "rest"


StrikesTable = Annotated[
    Path | None, flag(CLOUD, "instead: a CSV or Parquet table of strikes, drawn again and again", "--strikes")
]
Sd = Annotated[Several, flag(CLOUD, "how a field spreads, e.g. face_angle=1.5deg; again for more", "--sd")]
Correlation = Annotated[
    Several, flag(CLOUD, "of two that spread, e.g. club_path,face_angle=0.5; again for more", "--correlation")
]
TargetShapes = Annotated[
    Several,
    flag(CLOUD, "circle:145yd,8yd green:145yd,20yd,15yd or corridor:25yd; again for more", "--target"),
]
Ask = Annotated[Several, flag(CLOUD, "also tell this output, e.g. descent_angle; again for more", "--ask")]


def register(app: typer.Typer) -> None:
    """Adds the command to the others."""
    app.command("dispersion")(dispersion_command)


def dispersion_command(
    sd: Sd = None,
    correlation: Correlation = None,
    strikes: StrikesTable = None,
    reading: ReadingFile = None,
    samples: Annotated[int, flag(CLOUD, "shots played")] = 20_000,
    seed: Annotated[int, flag(CLOUD, "of the samples")] = 0,
    target: TargetShapes = None,
    at: Annotated[Ats, flag(CLOUD, "where balls are counted")] = Ats.landing,
    ask: Ask = None,
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
    turfs_file: TurfFile = None,
    stimp: Stimp = None,
    firmness: Firmness = None,
    tee_height: TeeHeight = None,
    units: UnitSystem = Units.yards,
    picture: Annotated[Path | None, flag(OUTPUT, "draw the cloud from above (.png, .svg, .pdf)")] = None,
    out: Annotated[Path | None, flag(OUTPUT, "write every sample here (.csv or .parquet)")] = None,
    json_output: Annotated[bool, flag(OUTPUT, "print the numbers in SI as JSON", "--json")] = False,
) -> None:
    """Where balls finish when delivery, launch or conditions vary: the spread, and the share in a target.

    Spread any number of a delivery or of a launch, and temperature, pressure or altitude, relative_humidity,
    wind_speed, wind_from, tee_height. Or draw the strikes of a table again: --strikes FILE --club "7 iron".
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
    asked: dict[str, Any] = {
        "samples": samples,
        "seed": seed,
        "target": [target_of(text) for text in target or []],
        "at": at.value,
        "outputs": ask or [],
        "ball": ball_of(ball, aero),
        "weather": weather_of(temperature, pressure, altitude, relative_humidity),
        "wind": wind_of(wind, wind_from),
        "terrain": terrain_of(tee_height, rise, slope_up, slope_right),
        "turf": turf_of(turf, turfs_file, stimp, firmness),
    }
    members = clubs_of(clubs_file, hand)
    if strikes is not None:
        if delivered or launched or sd or correlation:
            raise InputError("--strikes takes no delivery, launch, --sd or --correlation beside it")
        cloud = dispersion_of_strikes(strikes, club, club_set=members, reading=reading, **asked)
    else:
        if reading is not None:
            raise InputError("--reading goes with --strikes")
        start, member = start_of(delivered, launched, {}, club, members)
        if isinstance(start, Landing):
            raise InputError("a landing has no dispersion: give a delivery or a launch")
        cloud = dispersion(start, member, **_spread(sd, correlation), **asked)
    if picture is not None:
        save_picture(lambda: cloud.plot(units=units.value).figure, picture)
    if out is not None:
        _write(cloud, out, units.value)
    if json_output:
        print(json.dumps(as_json(cloud), indent=2))
        return
    print_cloud(cloud, units.value)
    for what, path in (("Samples", out), ("Picture", picture)):
        if path is not None:
            say_file(what, path)


def _spread(sd: Several, correlation: Several) -> dict[str, Any]:
    """The spread that the flags ask for, as ``dispersion`` takes it."""
    sds: dict[str, float] = {}
    for text in sd or []:
        name, equals, number = text.partition("=")
        name = name.strip().replace("-", "_")
        if not equals:
            raise InputError(f"--sd: {text!r} is not like face_angle=1.5deg")
        if name not in SPREADABLE:
            raise InputError(f"--sd: {name!r} is no field; there are: {', '.join(SPREADABLE)}")
        if name in sds:
            raise InputError(f"--sd: {name} is there twice")
        sds[name] = _difference(number, SPREADABLE[name], f"--sd {name}")
    if not sds:
        raise InputError("say how the shots spread, e.g. --sd face_angle=1.5deg --sd clubhead_speed=1mph")
    if not correlation:
        return {"sd": sds}
    return {"covariance": correlated(sds, _correlations(correlation)), "fields": list(sds)}


def _difference(text: str, si: str, option: str) -> float:
    """A spread with its unit in SI: as a number, but a temperature's zero is no matter."""
    match = NUMBER.fullmatch(text)
    symbol = {"°C": "C", "°F": "F", "degC": "C", "degF": "F"}.get(match[2], match[2]) if match else ""
    if match and si == "K" and symbol in ("C", "F", "K"):
        return float(match[1].replace("−", "-")) * BY_SYMBOL[symbol].factor
    return parse(text, si, option)


def _correlations(given: list[str]) -> dict[tuple[str, str], float]:
    pairs: dict[tuple[str, str], float] = {}
    for text in given:
        names, _, number = text.partition("=")
        pair = tuple(name.strip().replace("-", "_") for name in names.split(","))
        try:
            a, b = pair
            pairs[a, b] = float(number)
        except ValueError:
            raise InputError(f"--correlation: {text!r} is not like club_path,face_angle=0.5") from None
    return pairs


def _write(cloud: Dispersion, out: Path, units: System) -> None:
    from .files import write

    write(cloud.samples_frame(units), out)
