"""The commands for shots on the course: ``course``, ``stopping`` and ``conditions``."""

from __future__ import annotations

import json
from functools import partial
from pathlib import Path
from typing import Annotated, Any

import numpy as np
import typer

from ..core import cautions
from ..core.quantity import System, counted, display_unit, percent, read, said, text
from ..core.value import units_of
from ..errors import InputError, first_of
from ..plots import holding_green as plot_holding
from ..questions.bag import Bag, typical_bag, usual_bag
from ..questions.conditions import AirTable, WindTable, carry_by_air, carry_by_wind
from ..questions.course import Choice, CourseShot, choose_club
from ..questions.holding_green import descent_to_hold, spin_to_hold
from ..row.ground import Landing, turfs
from ..row.play import play
from ..words import bag as words_bag
from ..words import doubt as words_doubt
from ..words import holding_green as words_hold
from ..words import shot as words_shot
from .files import beside, check_files, save_picture, save_table, say_files
from .flag_groups import AirFlags, with_groups
from .flags import (
    CONDITIONS,
    OUTPUT,
    RANGES,
    SI,
    USUAL_SPEED,
    BallName,
    ClubFile,
    ClubName,
    Firmness,
    Humidity,
    ModelName,
    Side,
    SlopeRight,
    SlopeUp,
    Stimp,
    Text,
    TurfFile,
    Units,
    UnitSystem,
    as_flag,
    ball_of,
    clubs_of,
    flag,
    in_si,
    terrain_of,
    turf_of,
)
from .output import console, right_aligned, say

PLAYER, TARGET = "Player", "Target"
CourseTurf = Annotated[Text, flag(CONDITIONS, f"one of: {', '.join(turfs)} [default: medium green]", "--turf")]
DriverSpeed = Annotated[
    Text,
    flag(PLAYER, f"the player's driver speed, for usual deliveries [default: {USUAL_SPEED}]", "--driver-speed"),
]
Strikes = Annotated[
    Path | None,
    flag(
        PLAYER,
        "in place of usual deliveries: a CSV or Parquet table of strikes; each club plays its median",
        "--strikes",
    ),
]


def register(app: typer.Typer) -> None:
    """Adds the commands."""
    app.command("course")(with_groups(course_command))
    app.command("stopping")(stopping_command)
    app.command("conditions")(conditions_command)


def course_command(
    *,
    distance: Annotated[str, flag(TARGET, "horizontal distance, e.g. 150yd")],
    rise: Annotated[
        Text, flag(TARGET, "height of the ground there above the ball, e.g. 9yd; downhill --rise=-9yd")
    ] = None,
    slope_up: SlopeUp = None,
    slope_right: SlopeRight = None,
    driver_speed: DriverSpeed = None,
    strikes: Strikes = None,
    club: ClubName = None,
    clubs_file: ClubFile = None,
    hand: Side = None,
    air: AirFlags,
    turf: CourseTurf = None,
    turfs_file: TurfFile = None,
    stimp: Stimp = None,
    firmness: Firmness = None,
    units: UnitSystem = Units.yards,
    picture: Annotated[Path | None, flag(OUTPUT, "draw the shot from the side and from above")] = None,
    json_output: Annotated[bool, flag(OUTPUT, "print the numbers in SI as JSON", "--json")] = False,
) -> None:
    """Find what a shot on the course plays like: which club, where to aim and where the ball stops."""
    check_files([strikes, clubs_file, turfs_file], picture=[picture])
    bag = _bag(driver_speed, strikes, clubs_of(clubs_file, hand))
    if club is not None:
        bag = Bag({club: bag[club]}, bag.left_out)
    to = in_si(distance=distance, rise=rise, slope_up=slope_up, slope_right=slope_right)
    choice = choose_club(
        bag,
        distance=to["distance"],
        rise=to.get("rise", 0.0),
        slope_right=to.get("slope_right", 0.0),
        slope_downrange=to.get("slope_up", 0.0),
        **air.conditions(),
        turf=turf_of(turf, turfs_file, stimp, firmness, "medium green"),
    )
    if picture is not None:
        save_picture(lambda: choice.course_shot.plot(units.value), picture)
    if json_output:
        print(json.dumps({**_as_json(choice), "wrong_in_table": list(bag.left_out)}, indent=2))
        return
    say(choice.course_shot.in_words(units.value))
    say("")
    if choice.course_shot.status == "ok":
        _print_parts(choice.course_shot, units.value)
        say("")
    _print_clubs(choice, units.value)
    for note in words_shot.out_of_range(choice.course_shot.shot):
        say(note, style="yellow")
    for line in words_bag.same_jobs(bag, choice.course_shot.shot.ball, units.value):
        say(line)
    _say_whose(driver_speed, strikes, bag)
    if words_doubt.is_known(choice.course_shot.shot):
        say(cautions.PLUS_MINUS, style="dim")
    say(cautions.SHORT_CAUTION, style="dim")
    say_files(("Picture", picture))


def _bag(driver_speed: Text, strikes: Path | None, members: Any) -> Bag:
    if strikes is None:
        speed = in_si(driver_speed=USUAL_SPEED if driver_speed is None else driver_speed)
        return usual_bag(speed["driver_speed"], members)
    if driver_speed is not None:
        raise InputError("give --driver-speed or --strikes, not both")
    return typical_bag(strikes, members)


def _say_whose(driver_speed: Text, strikes: Path | None, bag: Bag) -> None:
    """Says whose deliveries were played, and what was wrong in their table."""
    if strikes is None:
        say(
            f"For a player who swings a driver at {driver_speed or USUAL_SPEED}, with the usual delivery of each "
            "club (common practice): set your own with --driver-speed or --strikes FILE.",
            style="dim",
        )
        for line in bag.left_out:
            say(f"Left out: {line}.")
        return
    say(f"The player's deliveries are the medians of {strikes}.", style="dim")
    if bag.left_out:
        say(f"{counted(len(bag.left_out), 'row')} of it could not be used:", style="red")
    for line in first_of(bag.left_out):
        say(f"  {line}", style="red")


def _with_sign(x: float, units: System) -> str:
    return said(x, "distance", "m", units).with_sign


def _print_parts(course: CourseShot, units: System) -> None:
    """What each condition adds by itself, beside the trade's rule of thumb."""
    listing = right_aligned("what it adds", "by flight", "rule of thumb")
    for name, x in course.alone.items():
        thumb = course.rules_of_thumb.get(name, np.nan)
        if abs(x) > 1e-3 or abs(thumb) > 1e-3:
            listing.add_row(f"{name} alone", _with_sign(float(x), units), _with_sign(float(thumb), units))
    together = float(course.level_distance - course.target.distance)
    ruled = float(sum(course.rules_of_thumb.values()))
    listing.add_row("together", _with_sign(together, units), _with_sign(ruled, units))
    console.print(listing)


def _print_clubs(choice: Choice, units: System) -> None:
    """A line a club: how far it carries here against the target, and where it stops."""
    listing = right_aligned("club", "carries", "lands past", "stops past", "on the level", "speed taken")
    shares = np.atleast_1d(choice.shots.speed_share)
    for i, name in enumerate(choice.names):
        share = percent(shares[i]) if np.isfinite(shares[i]) else "out of reach"
        listing.add_row(
            name + (" ◂" if name == choice.best else ""),
            text(choice.carry[i], "carry", "m", units),
            _with_sign(choice.gap[i], units),
            _with_sign(choice.rests[i], units),
            text(choice.level_carry[i], "carry", "m", units),
            share,
        )
    console.print(listing)


def _as_json(choice: Choice) -> dict[str, Any]:
    course = choice.course_shot

    def plain(x: Any) -> Any:
        return None if x != x else float(x)

    return {
        "units": "SI: m, rad",
        "club": choice.best,
        "status": course.status,
        **{name: plain(getattr(course, name)) for name in (*units_of(CourseShot), "aim_off", "past")},
        "alone": {name: plain(x) for name, x in course.alone.items()},
        "rules_of_thumb": {name: plain(x) for name, x in course.rules_of_thumb.items()},
        "clubs": [
            {
                "club": name,
                "carry": plain(choice.carry[i]),
                "gap": plain(choice.gap[i]),
                "rests": plain(choice.rests[i]),
            }
            for i, name in enumerate(choice.names)
        ],
    }


def stopping_command(
    landing_speed: Annotated[str, flag("Landing", "e.g. 50mph")],
    descent_angle: Annotated[str, flag("Landing", "e.g. 47deg")],
    landing_spin_rate: Annotated[str, flag("Landing", "backspin, e.g. 6000rpm")],
    depth: Annotated[Text, flag(TARGET, "green past the pitch mark, e.g. 10yd; adds what holds it")] = None,
    turf: CourseTurf = None,
    turfs_file: TurfFile = None,
    stimp: Stimp = None,
    firmness: Firmness = None,
    slope_up: SlopeUp = None,
    slope_right: SlopeRight = None,
    units: UnitSystem = Units.yards,
    picture: Annotated[Path | None, flag(OUTPUT, "draw the run over descent angle and spin")] = None,
) -> None:
    """Find how far a ball landing like this runs, and what descent angle or spin holds a green of a given depth."""
    check_files([turfs_file], picture=[picture])
    came = in_si(landing_speed=landing_speed, descent_angle=descent_angle, landing_spin_rate=landing_spin_rate)
    landing = Landing(**came)
    ground = turf_of(turf, turfs_file, stimp, firmness, "medium green")
    slope = terrain_of(None, None, slope_up, slope_right)
    shot = play(landing, turf=ground, terrain=slope)
    room = in_si(depth=depth).get("depth")
    held = None
    if room is not None:
        on: dict[str, Any] = {"turf": ground, "terrain": slope, "landing_speed": landing.landing_speed}
        spin = spin_to_hold(room, descent_angle=landing.descent_angle, **on)
        descent = descent_to_hold(room, landing_spin_rate=landing.landing_spin_rate, **on)
        held = words_hold.of_hold(room, landing, spin, descent, units.value)
    if picture is not None:
        save_picture(
            lambda: plot_holding.stopping(landing, ground, depth=room, terrain=slope, units=units.value), picture
        )
    say(shot.in_words(units.value))
    for note in words_shot.out_of_range(shot):
        say(note, style="yellow")
    if held is not None:
        say(held)
    say(cautions.SHORT_CAUTION, style="dim")
    say_files(("Picture", picture))


def conditions_command(
    temperatures: Annotated[str, flag(CONDITIONS, "air temperatures, separated by commas")] = "5C,15C,25C,35C",
    altitudes: Annotated[str, flag(CONDITIONS, "altitudes, separated by commas")] = "0ft,2000ft,4000ft,6000ft",
    winds: Annotated[
        str, flag(CONDITIONS, "wind speeds at 10 m, separated by commas")
    ] = "0mph,5mph,10mph,15mph,20mph",
    relative_humidity: Humidity = None,
    driver_speed: DriverSpeed = None,
    strikes: Strikes = None,
    clubs_file: ClubFile = None,
    hand: Side = None,
    ball: BallName = "standard",
    aero: ModelName = "multi-layer",
    out: Annotated[Path | None, flag(OUTPUT, "write two tables, NAME_air and NAME_wind (.csv or .parquet)")] = None,
    picture: Annotated[
        Path | None, flag(OUTPUT, "draw two pictures, NAME_air and NAME_wind (.png, .svg, .pdf)")
    ] = None,
    units: UnitSystem = Units.yards,
) -> None:
    """List the carries of a set by temperature and altitude, and by head, tail and cross wind."""
    tables, pictures = ([path and beside(path, name) for name in ("air", "wind")] for path in (out, picture))
    check_files([strikes, clubs_file], picture=pictures, out=tables)
    bag = _bag(driver_speed, strikes, clubs_of(clubs_file, hand))
    used = ball_of(ball, aero)
    humidity = in_si(relative_humidity=relative_humidity).get("relative_humidity", 0.5)
    warmth, heights, speeds = (
        _several(temperatures, "temperature"),
        _several(altitudes, "altitude"),
        _several(winds, "wind"),
    )
    by_air = carry_by_air(bag, temperature=warmth, altitude=heights, relative_humidity=humidity, ball=used)
    by_wind = carry_by_wind(bag, speed=speeds, ball=used)
    both: tuple[AirTable | WindTable, ...] = by_air, by_wind
    for given, table_file, picture_file in zip(both, tables, pictures, strict=True):
        if table_file is not None:
            save_table(given.frame(units.value).reset_index(), table_file)
        if picture_file is not None:
            save_picture(partial(given.plot, units.value), picture_file)
    _print_air(by_air, units.value)
    for line in words_doubt.of_changes(
        lambda ball, clubs: (
            carry_by_air(
                clubs, temperature=_ends(warmth), altitude=_ends(heights), relative_humidity=humidity, ball=ball
            ).carry
        ),
        used,
        bag,
        units.value,
    ):
        say(line)
    say("")
    _print_wind(by_wind, units.value)
    for line in words_doubt.of_changes(
        lambda ball, clubs: carry_by_wind(clubs, speed=_ends(speeds), ball=ball).carry, used, bag, units.value
    ):
        say(line)
    say("")
    for line in words_bag.same_jobs(bag, used, units.value):
        say(line)
    _say_whose(driver_speed, strikes, bag)
    for line in words_doubt.how_sure(used):
        say(line, style="dim")
    say(cautions.SHORT_CAUTION, style="dim")
    say_files(*(("Table", path) for path in tables), *(("Picture", path) for path in pictures))


def _ends(values: Any) -> Any:
    """The least and the greatest of several: between them, conditions change the most."""
    return np.array([values.min(), values.max()])


def _several(given: str, name: str) -> Any:
    numbers = [read(x, SI[name], as_flag(f"{name}s")) for x in given.split(",")]
    return np.array([x.check(name, *RANGES[name]) for x in numbers])


def _print_air(table: AirTable, units: System) -> None:
    length, height = display_unit("carry", "m", units), display_unit("altitude", "m", units)
    say(f"Carry, {length.symbol}, by altitude and temperature; still air, level ground.")
    say("By the air's temperature alone: that a cold ball leaves the face slower is not modelled.")
    heads = [text(t, "temperature", "K", units) for t in table.temperature]
    listing = right_aligned("club", f"altitude, {height.symbol}", *heads)
    for i, name in enumerate(table.names):
        for a, high in enumerate(height.from_si(table.altitude)):
            carries = [f"{x:.0f}" for x in length.from_si(table.carry[i, :, a])]
            listing.add_row("" if a else name, f"{high:,.0f}", *carries)
    console.print(listing)


def _print_wind(table: WindTable, units: System) -> None:
    length, speed = display_unit("carry", "m", units), display_unit("wind", "m/s", units)
    say(f"Carry, {length.symbol}, by wind from ahead and behind; drift, {length.symbol}, by wind from a side.")
    at = table.directions.index
    listing = right_aligned("club", f"wind, {speed.symbol}", "ahead", "behind", "across", "drift")
    for i, name in enumerate(table.names):
        for s, blows in enumerate(speed.from_si(table.speed)):
            carries = [length.from_si(table.carry[i, s, at(way)]) for way in ("ahead", "behind", "the left")]
            drift = abs(length.from_si(table.drift[i, s, at("the left")]))
            listing.add_row("" if s else name, f"{blows:.0f}", *(f"{x:.0f}" for x in carries), f"{drift:.1f}")
    console.print(listing)
