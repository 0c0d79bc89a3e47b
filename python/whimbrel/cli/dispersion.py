"""The command ``whimbrel dispersion``."""

from __future__ import annotations

import json
import warnings
from enum import StrEnum
from pathlib import Path
from typing import Annotated, Any

import typer

from ..clouds.dispersion import dispersion, dispersion_of_strikes
from ..clouds.draws import DRAWN_CONDITIONS
from ..core.quantity import BY_SYMBOL, NUMBER, parse
from ..core.value import columns_of
from ..errors import InputError
from ..questions.inputs import unknown
from ..row.ground import Landing
from ..statistics.covariance import correlate
from ..strikes.play_table import FIELDS
from .dispersion_output import as_json, print_cloud
from .files import STOPPED, check_files, partial_of, save_picture, save_table, say_files
from .flag_groups import (
    AirFlags,
    GroundFlags,
    LaunchFlags,
    SwingFlags,
    TurfFlags,
    in_si_of,
    read_start,
    with_groups,
)
from .flags import OUTPUT, Units, UnitSystem, flag
from .session import ReadingFile, Several, target_of

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
    Path | None, flag(CLOUD, "in place of a delivery: a CSV or Parquet table of strikes to draw from", "--strikes")
]
Sd = Annotated[Several, flag(CLOUD, "standard deviation of a field, e.g. face_angle=1.5deg; repeatable", "--sd")]
Correlation = Annotated[
    Several,
    flag(CLOUD, "correlation of two such fields, e.g. club_path,face_angle=0.5; repeatable", "--correlation"),
]
TargetShapes = Annotated[
    Several,
    flag(CLOUD, "circle:145yd,8yd green:145yd,20yd,15yd or corridor:25yd; repeatable", "--target"),
]
Ask = Annotated[Several, flag(CLOUD, "also report this output, e.g. descent_angle; repeatable", "--ask")]


def register(app: typer.Typer) -> None:
    """Adds the command to the others."""
    app.command("dispersion")(with_groups(dispersion_command))


def dispersion_command(
    *,
    sd: Sd = None,
    correlation: Correlation = None,
    strikes: StrikesTable = None,
    reading: ReadingFile = None,
    samples: Annotated[int, flag(CLOUD, "number of shots")] = 20_000,
    seed: Annotated[int, flag(CLOUD, "seed of the samples")] = 0,
    target: TargetShapes = None,
    at: Annotated[Ats, flag(CLOUD, "where balls finish")] = Ats.landing,
    ask: Ask = None,
    swing: SwingFlags,
    launch: LaunchFlags,
    air: AirFlags,
    ground: GroundFlags,
    on: TurfFlags,
    units: UnitSystem = Units.yards,
    picture: Annotated[Path | None, flag(OUTPUT, "draw the cloud from above (.png, .svg, .pdf)")] = None,
    out: Annotated[Path | None, flag(OUTPUT, "write every sample to this file (.csv or .parquet)")] = None,
    json_output: Annotated[bool, flag(OUTPUT, "print the numbers in SI as JSON", "--json")] = False,
) -> None:
    """Find where balls finish when delivery, launch or conditions vary: the spread, and the share in a target.

    Any number of a delivery or a launch can vary, and temperature, pressure or altitude, relative_humidity,
    wind_speed, wind_from and tee_height. Or draw from the strikes of a table: --strikes FILE --club "7 iron".
    Ctrl-C reports the samples played so far; files then hold these alone and are named NAME.partial.csv.
    """
    outs, pictures = ([path, path and partial_of(path)] for path in (out, picture))
    check_files([strikes, reading, swing.clubs_file, on.turfs_file], picture=pictures, out=outs)
    wind_varies = any(text.strip().replace("-", "_").startswith("wind_speed") for text in sd or [])
    asked: dict[str, Any] = {
        "samples": samples,
        "seed": seed,
        "target": [target_of(text) for text in target or []],
        "at": at.value,
        "outputs": ask or [],
        **air.conditions(wind_varies),
        "terrain": ground.terrain(),
        "turf": on.chosen(),
        "impact": swing.impact_model(),
    }
    warnings.filterwarnings("ignore", "stopped after")  # told below, in this command's words
    if strikes is not None:
        if swing.usual or in_si_of(swing) or in_si_of(launch) or sd or correlation:
            raise InputError("give --strikes without a delivery, a launch, --sd or --correlation")
        cloud = dispersion_of_strikes(strikes, swing.club, club_set=swing.clubs(), reading=reading, **asked)
    else:
        if reading is not None:
            raise InputError("--reading goes with --strikes")
        start, member = read_start(swing, launch)
        assert not isinstance(start, Landing)
        cloud = dispersion(start, member, **_spread(sd, correlation), **asked)
    if cloud.stopped:
        out, picture = outs[1], pictures[1]
    if picture is not None:
        save_picture(lambda: cloud.plot(units=units.value).figure, picture)
    if out is not None:
        save_table(cloud.samples_frame(units.value), out)
    if json_output:
        print(json.dumps(as_json(cloud), indent=2))
    else:
        print_cloud(cloud, units.value)
        say_files(("Samples", out), ("Picture", picture))
    if cloud.stopped:
        raise typer.Exit(STOPPED)


def _spread(sd: Several, correlation: Several) -> dict[str, Any]:
    """The spread in the flags, as ``dispersion`` takes it."""
    sds: dict[str, float] = {}
    for text in sd or []:
        name, equals, number = text.partition("=")
        name = name.strip().replace("-", "_")
        if not equals:
            raise InputError(f"--sd: {text!r} is not like face_angle=1.5deg")
        if name not in SPREADABLE:
            raise unknown(name, "field", SPREADABLE)
        if name in sds:
            raise InputError(f"--sd: {name} is given twice")
        sds[name] = _difference(number, SPREADABLE[name], f"--sd {name}")
        if sds[name] < 0:
            raise InputError(f"--sd {name}: {number.strip()}; accepted: 0 or more")
    if not sds:
        raise InputError("say how the shots spread, e.g. --sd face_angle=1.5deg --sd clubhead_speed=1mph")
    if not correlation:
        return {"sd": sds}
    return {"covariance": correlate(sds, _correlations(correlation)), "fields": list(sds)}


def _difference(text: str, si: str, option: str) -> float:
    """A spread with its unit in SI: as a number, but without a temperature's zero."""
    match = NUMBER.fullmatch(text)
    symbol = {"°C": "C", "°F": "F", "degC": "C", "degF": "F"}.get(match[2], match[2]) if match else ""
    if match and si == "K" and symbol in ("C", "F", "K"):
        return parse(f"{match[1]}K", si, option) * BY_SYMBOL[symbol].factor
    return parse(text, si, option)


def _correlations(given: list[str]) -> dict[tuple[str, str], float]:
    pairs: dict[tuple[str, str], float] = {}
    for text in given:
        names, _, number = text.partition("=")
        pair = tuple(name.strip().replace("-", "_") for name in names.split(","))
        try:
            a, b = pair
            r = float(number)
        except ValueError:
            raise InputError(f"--correlation: {text!r} is not like club_path,face_angle=0.5") from None
        if (a, b) in pairs or (b, a) in pairs:
            raise InputError(f"--correlation: {a} and {b} are given twice")
        pairs[a, b] = r
    return pairs
