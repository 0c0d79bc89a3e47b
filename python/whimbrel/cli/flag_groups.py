"""Flags that commands share, in groups: what a shot starts with, and what it is played in."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, fields, is_dataclass, replace
from functools import wraps
from inspect import Parameter, Signature, signature
from typing import Annotated, Any, get_type_hints

from ..core.quantity import parse
from ..core.value import units_of
from ..errors import InputError
from ..questions.bag import usual_delivery
from ..questions.inputs import Start
from ..row.flight import Launch
from ..row.ground import Landing, Turf
from ..row.impact import ImpactModel
from ..row.setting import Terrain
from ..row.swing import Club, Clubs, Delivery
from .flags import (
    CONDITIONS,
    DELIVERY,
    LANDING,
    LAUNCH,
    SI,
    USUAL_SPEED,
    BallName,
    ClubFile,
    ClubName,
    Firmness,
    Impacts,
    ModelName,
    Rise,
    Side,
    SlopeRight,
    SlopeUp,
    Stimp,
    TeeHeight,
    Text,
    TurfFile,
    TurfName,
    ball_of,
    clubs_of,
    flag,
    in_si,
    start_of,
    terrain_of,
    turf_of,
    weather_of,
    wind_of,
)

#: Numbers in SI by what they start a shot with.
Numbers = dict[type[Start], dict[str, float]]


def with_groups(function: Callable[..., None]) -> Callable[..., None]:
    """Turns each parameter of a function that is a dataclass, a group of flags, into the flags of a command."""
    hints = get_type_hints(function, include_extras=True)
    groups: dict[str, Any] = {name: kind for name, kind in hints.items() if is_dataclass(kind)}
    flags: list[Parameter] = []
    for name, own in signature(function).parameters.items():
        if name in groups:
            kinds = get_type_hints(groups[name], include_extras=True)
            flags += [Parameter(x.name, Parameter.KEYWORD_ONLY, default=x.default, annotation=kinds[x.name])
                      for x in fields(groups[name])]  # fmt: skip
        else:
            flags.append(own.replace(kind=Parameter.KEYWORD_ONLY, annotation=hints[name]))

    @wraps(function)
    def command(**given: Any) -> None:
        made = {name: kind(**{x.name: given.pop(x.name) for x in fields(kind)}) for name, kind in groups.items()}
        function(**made, **given)

    command.__signature__ = Signature(flags)  # type: ignore[attr-defined]
    command.__annotations__ = {x.name: x.annotation for x in flags}
    return command


@dataclass(frozen=True)
class SwingFlags:
    """A delivery and its club."""

    club: ClubName = None
    clubs_file: ClubFile = None
    hand: Side = None
    clubhead_speed: Annotated[Text, flag(DELIVERY, "e.g. 84mph")] = None
    attack_angle: Annotated[Text, flag(DELIVERY, "up is positive, e.g. --attack-angle=-6deg")] = None
    club_path: Annotated[Text, flag(DELIVERY, "right is positive, e.g. 4deg")] = None
    face_angle: Annotated[Text, flag(DELIVERY, "right is positive, e.g. --face-angle=-1deg")] = None
    dynamic_loft: Annotated[Text, flag(DELIVERY, "loft of the face at impact, e.g. 24deg")] = None
    shaft_lean: Annotated[Text, flag(DELIVERY, "in place of the dynamic loft; forward is positive")] = None
    lie_tilt: Annotated[Text, flag(DELIVERY, "toe up is positive")] = None
    strike_toe: Annotated[Text, flag(DELIVERY, "from the face centre toward the toe, e.g. 12mm")] = None
    strike_high: Annotated[
        Text, flag(DELIVERY, "from the face centre toward the crown, e.g. --strike-high=-8mm")
    ] = None
    closure_rate: Annotated[Text, flag(DELIVERY, "rate at which the face closes, e.g. 2300deg/s")] = None
    usual: Annotated[
        bool, flag(DELIVERY, "play the club's usual delivery; other options replace its numbers", "--usual")
    ] = False
    driver_speed: Annotated[
        Text,
        flag(
            DELIVERY, f"the player's driver speed, for usual deliveries [default: {USUAL_SPEED}]", "--driver-speed"
        ),
    ] = None
    face_wetness: Annotated[
        Text,
        flag(
            DELIVERY,
            "wet or grassy face of a wedge, from 0% (dry) to 100%: less spin, higher launch",
            "--face-wetness",
        ),
    ] = None
    impact: Annotated[Impacts | None, flag(DELIVERY, "model of the impact [default: compliant]")] = None

    def clubs(self) -> Clubs:
        """The clubs that --club can name."""
        members = clubs_of(self.clubs_file, self.hand)
        if self.face_wetness is None:
            return members
        wetness = in_si(face_wetness=self.face_wetness)["face_wetness"]
        return Clubs({name: replace(club, face_wetness=wetness) for name, club in members.items()})

    def impact_model(self) -> ImpactModel:
        return (self.impact or Impacts.compliant).value

    def delivery(self) -> dict[str, float]:
        """The numbers of the delivery in SI; with --usual those given replace the usual ones."""
        given = in_si_of(self)
        pace = given.pop("driver_speed", None)
        if not self.usual:
            if pace is not None:
                raise InputError("--driver-speed goes with --usual")
            return given
        if self.club is None:
            raise InputError('--usual needs a club, e.g. --club "7 iron" (whimbrel clubs lists them)')
        usual = usual_delivery(self.clubs()[self.club], parse(USUAL_SPEED, "m/s", "") if pace is None else pace)
        numbers = {name: float(getattr(usual, name)) for name in units_of(Delivery)}
        if "shaft_lean" in given:
            del numbers["dynamic_loft"]
        return {**numbers, **given}


@dataclass(frozen=True)
class LaunchFlags:
    """A measured launch."""

    ball_speed: Annotated[Text, flag(LAUNCH, "e.g. 120mph")] = None
    launch_angle: Annotated[Text, flag(LAUNCH, "e.g. 16deg")] = None
    launch_direction: Annotated[Text, flag(LAUNCH, "right is positive")] = None
    spin_rate: Annotated[Text, flag(LAUNCH, "total spin, e.g. 7000rpm")] = None
    spin_axis_tilt: Annotated[Text, flag(LAUNCH, "positive curves right")] = None


@dataclass(frozen=True)
class LandingFlags:
    """A landing; ``spin_axis_tilt`` is among the flags of a launch."""

    landing_speed: Annotated[Text, flag(LANDING, "e.g. 50mph; --spin-axis-tilt applies too")] = None
    descent_angle: Annotated[Text, flag(LANDING, "e.g. 47deg")] = None
    landing_spin_rate: Annotated[Text, flag(LANDING, "e.g. 6000rpm")] = None


@dataclass(frozen=True)
class AirFlags:
    """The ball and what it flies in."""

    ball: BallName = "standard"
    aero: ModelName = "multi-layer"
    temperature: Annotated[Text, flag(CONDITIONS, "air temperature, e.g. 12C or 54F")] = None
    pressure: Annotated[Text, flag(CONDITIONS, "pressure at the place, not reduced to sea level, e.g. 1005hPa")] = (
        None
    )
    altitude: Annotated[Text, flag(CONDITIONS, "in place of pressure, e.g. 1600m")] = None
    relative_humidity: Annotated[Text, flag(CONDITIONS, "e.g. 60%")] = None
    wind: Annotated[Text, flag(CONDITIONS, "wind speed at 10 m, e.g. 8mph", "--wind")] = None
    wind_from: Annotated[Text, flag(CONDITIONS, "0deg: from ahead, 90deg: from the right")] = None

    def conditions(self, wind_varies: bool = False) -> dict[str, Any]:
        """Ball, weather and wind, as ``play`` takes them; a wind that varies may have a direction alone."""
        speed = "0m/s" if wind_varies and self.wind is None else self.wind
        air = self.temperature, self.pressure, self.altitude, self.relative_humidity
        return {
            "ball": ball_of(self.ball, self.aero),
            "weather": weather_of(*air),
            "wind": wind_of(speed, self.wind_from),
        }


@dataclass(frozen=True)
class GroundFlags:
    """The ground's shape."""

    rise: Rise = None
    slope_up: SlopeUp = None
    slope_right: SlopeRight = None
    tee_height: TeeHeight = None

    def terrain(self) -> Terrain:
        return terrain_of(self.tee_height, self.rise, self.slope_up, self.slope_right)


@dataclass(frozen=True)
class TurfFlags:
    """What the ball lands and rolls on."""

    turf: TurfName = None
    turfs_file: TurfFile = None
    stimp: Stimp = None
    firmness: Firmness = None

    def chosen(self) -> Turf:
        return turf_of(self.turf, self.turfs_file, self.stimp, self.firmness)


def in_si_of(group: Any) -> dict[str, float]:
    """The numbers of a group that were given, in SI."""
    return in_si(**{x.name: getattr(group, x.name) for x in fields(group) if x.name in SI})


def numbers_of(
    swing: SwingFlags, launch: LaunchFlags | None = None, landing: LandingFlags | None = None
) -> Numbers:
    """The numbers that the flags give, in SI, by what they start a shot with."""
    launched, landed = ({} if group is None else in_si_of(group) for group in (launch, landing))
    if (launched or landed) and (swing.impact or swing.hand or swing.clubs_file or swing.face_wetness):
        raise InputError("a measured launch, or a landing, takes no --impact, --hand, --clubs or --face-wetness")
    return {Delivery: swing.delivery(), Launch: launched, Landing: landed}


def start_from(numbers: Numbers, swing: SwingFlags) -> tuple[Start, Club | None]:
    """The start of a shot with these numbers, and its club."""
    return start_of(numbers[Delivery], numbers[Launch], numbers[Landing], swing.club, swing.clubs())


def read_start(
    swing: SwingFlags, launch: LaunchFlags | None = None, landing: LandingFlags | None = None
) -> tuple[Start, Club | None]:
    """What the flags start the shot with, and its club."""
    return start_from(numbers_of(swing, launch, landing), swing)
