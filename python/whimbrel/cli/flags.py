"""What the commands take: flags whose numbers have a unit, and the values made of them."""

from __future__ import annotations

from collections.abc import Mapping
from enum import StrEnum
from pathlib import Path
from typing import Annotated, Any

import typer
from rich.markup import escape

from ..core.quantity import read
from ..core.value import columns_of, ranges_of
from ..errors import InputError
from ..row.aero import MODELS
from ..row.ball import Ball, balls
from ..row.flight import Launch
from ..row.ground import Landing, Turf, green, load_turfs, turfs
from ..row.setting import ALTITUDES, Terrain, Weather, Wind
from ..row.swing import Club, Clubs, Delivery, clubs, load_clubs, present


class Units(StrEnum):
    yards = "yards"
    metric = "metric"


class Hand(StrEnum):
    right = "right"
    left = "left"


class Impacts(StrEnum):
    compliant = "compliant"
    rigid = "rigid"


DELIVERY, LAUNCH, LANDING = "Delivery", "or a measured launch", "or a landing"
CONDITIONS, OUTPUT = "Conditions", "Output"


def flag(panel: str, description: str, *names: str) -> Any:
    return typer.Option(*names, help=escape(description), rich_help_panel=panel)


Text = str | None
ClubName = Annotated[Text, flag(DELIVERY, 'a club\'s name, e.g. "7 iron" (whimbrel clubs lists them)', "--club")]
ClubFile = Annotated[Path | None, flag(DELIVERY, "TOML file of your own clubs", "--clubs")]
Side = Annotated[Hand | None, flag(DELIVERY, "the player's side, for the shipped clubs [default: right]", "--hand")]
BallName = Annotated[str, flag(CONDITIONS, f"one of: {', '.join(balls)}", "--ball")]
ModelName = Annotated[str, flag(CONDITIONS, f"ball model: {', '.join(MODELS)}", "--aero")]
Humidity = Annotated[Text, flag(CONDITIONS, "e.g. 60%")]
TurfName = Annotated[Text, flag(CONDITIONS, f"one of: {', '.join(turfs)} [default: firm fairway]", "--turf")]
TurfFile = Annotated[Path | None, flag(CONDITIONS, "TOML file of your own turfs", "--turfs")]
Stimp = Annotated[Text, flag(CONDITIONS, "instead of --turf: a green of this Stimp reading, e.g. 10ft")]
Firmness = Annotated[Text, flag(CONDITIONS, "firmness of that green, from 0 (soft) to 1 (firm) [default: 0.5]")]
SlopeUp = Annotated[Text, flag(CONDITIONS, "slope of the landing ground, rising downrange, e.g. 3%")]
SlopeRight = Annotated[
    Text, flag(CONDITIONS, "slope of the landing ground, rising to the right, e.g. 2% or --slope-right=-2%")
]
UnitSystem = Annotated[Units, flag(OUTPUT, "units of the output")]
Rise = Annotated[Text, flag(CONDITIONS, "height of the landing ground above the tee, e.g. 5yd")]
TeeHeight = Annotated[Text, flag(CONDITIONS, "height of the ball's bottom above the ground, e.g. 40mm")]
#: The driver speed that usual deliveries have by default.
USUAL_SPEED = "95mph"


SI = {
    **columns_of("Delivery"),
    **columns_of("Launch"),
    **columns_of("Weather"),
    **columns_of("SwingArc"),
    "shaft_lean": "rad",
    **columns_of("Target"),
    **columns_of("Room"),
    **columns_of("Pace"),
    "plane": "rad",
    "plane_range": "rad",
    "aim": "rad",
    "uphill": "rad",
    "height": "m",
    "sole_depth": "m",
    "tee_height": "m",
    "slope_up": "1",
    **columns_of("Landing"),
    **columns_of("Green"),
    "altitude": "m",
    "face_wetness": "1",
    "wind": "m/s",
    "wind_from": "rad",
}


#: What flags accept, SI.
RANGES = {
    name: span
    for kind in ("Delivery", "Launch", "Landing", "Weather", "SwingArc", "Green", "Room", "Pace", "Target")
    for name, span in ranges_of(kind).items()
}
RANGES["altitude"] = ALTITUDES
RANGES["wind"] = ranges_of("Wind")["speed"]
RANGES["face_wetness"] = ranges_of("Club")["face_wetness"]
RANGES["shaft_lean"] = ranges_of("Presentation")["shaft_lean"]
RANGES["tee_height"] = ranges_of("Terrain")["tee_height"]
RANGES["slope_up"] = ranges_of("Terrain")["slope_downrange"]
#: The same where the rise is of the ground around the landing, not of a target.
ON_TERRAIN = {**RANGES, "rise": ranges_of("Terrain")["height"]}


def in_si(ranges: Mapping[str, tuple[float, float]] = RANGES, /, **flags: Text) -> dict[str, float]:
    """The flags that were given, in SI; one outside its range is told as it was written."""
    given = {name: read(x, SI[name], as_flag(name)) for name, x in flags.items() if x is not None}
    return {name: x.check(name, *ranges[name]) if name in ranges else x.si for name, x in given.items()}


def as_flag(name: str) -> str:
    return "--" + name.replace("_", "-")


def clubs_of(path: Path | None, hand: Hand | None) -> Clubs:
    if path is None:
        return clubs.left_handed() if hand is Hand.left else clubs
    if hand is not None:
        raise InputError("--hand is for the shipped clubs: give the hand of your own clubs in their file")
    return load_clubs(path)


def start_of(
    delivered: dict[str, float], launched: dict[str, float], landed: dict[str, float], club: Text, members: Clubs
) -> tuple[Delivery | Launch | Landing, Club | None]:
    """What the shot starts with, by the flags."""
    if delivered and launched:
        raise InputError("give a delivery or a launch, not both")
    if landed:
        if delivered or set(launched) - {"spin_axis_tilt"} or club is not None:
            raise InputError("give a landing alone, without a delivery, a launch or a club")
        needs("a landing", landed, "landing_speed", "descent_angle")
        return Landing(**{**landed, **launched}), None
    if launched:
        needs("a launch", launched, "ball_speed", "launch_angle", "spin_rate")
        if club is not None:
            raise InputError("a measured launch takes no --club")
        return Launch(**launched), None
    if "clubhead_speed" not in delivered or not {"dynamic_loft", "shaft_lean"} & set(delivered):
        raise InputError(
            "give a delivery (--clubhead-speed and --dynamic-loft or --shaft-lean), "
            "a launch (--ball-speed, --launch-angle and --spin-rate) "
            "or a landing (--landing-speed and --descent-angle)"
        )
    if club is None:
        raise InputError('a delivery needs a club, e.g. --club "7 iron" (whimbrel clubs lists them)')
    if "shaft_lean" not in delivered:
        return Delivery(**delivered), members[club]
    if "dynamic_loft" in delivered:
        raise InputError("give --dynamic-loft or --shaft-lean, not both")
    return present(members[club], **delivered), members[club]


def needs(what: str, given: dict[str, float], *names: str) -> None:
    missing = [as_flag(name) for name in names if name not in given]
    if missing:
        raise InputError(f"{what} also needs {', '.join(missing)}")


def terrain_of(tee_height: Text, rise: Text, slope_up: Text, slope_right: Text) -> Terrain:
    given = in_si(ON_TERRAIN, tee_height=tee_height, rise=rise, slope_up=slope_up, slope_right=slope_right)
    return Terrain(
        tee_height=given.get("tee_height", 0.0),
        height=given.get("rise", 0.0),
        slope_right=given.get("slope_right", 0.0),
        slope_downrange=given.get("slope_up", 0.0),
    )


def turf_of(name: Text, path: Path | None, stimp: Text, firmness: Text, default: str = "firm fairway") -> Turf:
    given = in_si(stimp=stimp, firmness=firmness)
    if given:
        if name is not None or path is not None:
            raise InputError("give --turf, or a green by --stimp and --firmness, not both")
        return green(given.get("stimp", 3.048), given.get("firmness", 0.5))
    if path is None:
        return turfs[name or default]
    if name is None:
        raise InputError(f"--turfs needs --turf, a turf's name in {path}")
    return load_turfs(path)[name]


def ball_of(name: str, aero: str) -> Ball:
    if aero not in MODELS:
        raise InputError(f"--aero: no model is called {aero!r}; there are: {', '.join(MODELS)}")
    if aero == "multi-layer":
        return balls[name]
    if name != "standard":
        raise InputError("--ball is a choice within the multi-layer model: give --ball or --aero, not both")
    return Ball(aero=MODELS[aero]())


def weather_of(temperature: Text, pressure: Text, altitude: Text, relative_humidity: Text) -> Weather:
    return Weather(
        **in_si(temperature=temperature, pressure=pressure, altitude=altitude, relative_humidity=relative_humidity)
    )


def wind_of(speed: Text, from_direction: Text) -> Wind:
    given = in_si(wind=speed, wind_from=from_direction)
    if "wind_from" in given and "wind" not in given:
        raise InputError("--wind-from needs --wind")
    return Wind(given.get("wind", 0.0), given.get("wind_from", 0.0))
