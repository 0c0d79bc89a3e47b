"""What the command prints."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

import numpy as np

from ..core import cautions
from ..core.quantity import BY_SYMBOL, System, counted, display_unit, rounded, said, said_difference, text
from ..core.value import columns_of, numbers_of, units_of
from ..errors import SHOWN, first_of
from ..row.arc import GroundStrike, SwingArc
from ..row.flight import Flight, Launch
from ..row.ground import Run
from ..row.impact import Impact
from ..row.shot import Shot
from ..row.swing import Clubs, Delivery, Hand
from ..strikes.play_table import in_place
from ..units import deg
from ..words import arc as words_arc
from ..words import shot as words_shot
from ..words.doubt import doubt_if_known, how_sure
from ..words.phrases import along, bare_aside
from .terminal import Listing, Terminal

if TYPE_CHECKING:
    import pandas as pd

    from ..inverse.doubt import Doubt
    from ..row.ball import Ball
    from ..strikes.play_table import Report

console = Terminal()


def say(line: str, style: str | None = None) -> None:
    console.print(line, style=style)


def right_aligned(*headings: str, gap: int = 2) -> Listing:
    """A table whose columns but the first are aligned to the right."""
    return Listing(*headings, right=range(1, len(headings)), gap=gap)


def say_file(what: str, path: Path) -> None:
    """Says where a result is; a path is never broken over lines."""
    console.print(f"{what}: {path}", soft_wrap=True)


def print_shot(shot: Shot, units: System) -> None:
    """Plain sentences, then every stage's numbers, then what to know about them."""
    say(shot.in_words(units))
    say("")
    doubts = doubt_if_known(shot)
    console.print(_stages(shot, units, doubts))
    for note in words_shot.out_of_range(shot):
        say(note, style="yellow")
    if shot.impact is not None and shot.impact_model == "rigid":
        say(cautions.IMPACT_BIAS, style="dim")
    if doubts is not None:
        say(cautions.PLUS_MINUS, style="dim")
    say(cautions.SHORT_CAUTION, style="dim")


def _stages(shot: Shot, units: System, doubts: Doubt | None) -> Listing:
    """Every number by stage, with its doubt where it shows."""
    stages: list[tuple[str, Any, list[str]]] = []
    if shot.impact is not None:
        stages.append(("impact", shot.impact, _telling(shot)))
    if shot.start != "landing":
        stages.append(("launch", shot.launch, [name for name in units_of(Launch) if name != "axial_spin_rate"]))
        if shot.status == "ok":
            stages.append(("flight", shot.flight, list(units_of(Flight))))
    if shot.run.status == "ok":
        stages.append(("run", shot.run, list(units_of(Run))))
    grid = Listing(right=[2, 3])
    for stage, value, names in stages:
        for i, name in enumerate(names):
            si = units_of(value)[name]
            sure = "" if doubts is None else _say_deviation(doubts.sd(name), name, si, units)
            reading = text(getattr(value, name), name, si, units)
            grid.add_row("" if i else stage, name.replace("_", " "), reading, sure)
    return grid


def _say_deviation(sd: float, name: str, si: str, units: System) -> str:
    """``± 4.2 yd``, with two decimals for a number without a unit; empty if not known, or too small to see."""
    sure = rounded(sd, display_unit(name, si), 2) if si == "1" else said_difference(sd, name, si, units)
    return f"± {sure}" if sure.value > 0.0 else ""


def _telling(shot: Shot) -> list[str]:
    """What says something of this impact: a start fraction needs face and path apart, times a contact."""
    hit, untold = shot.delivery, set()
    if hit is None or abs(float(hit.face_angle - hit.club_path)) < 0.5 * deg or hit.strike_toe or hit.strike_high:
        untold.add("start_fraction")
    if shot.impact_model == "rigid":
        untold |= {"contact_time", "slip_time"}
    return [name for name in units_of(Impact) if name not in untold]


def json_number(x: Any) -> float | None:
    """A number as JSON has it: null where there is none."""
    return float(x) if np.isfinite(x) else None


def as_json(shot: Shot) -> dict[str, Any]:
    """Every stage in SI: m, s, kg, rad; null where there is no number. ``doubt``: one standard deviation of the
    numbers of impact, launch, flight and run, by their names."""
    result: dict[str, Any] = {"units": "SI: m, s, kg, rad", "status": shot.status, "run_status": shot.run.status}
    if shot.club is not None:
        result["club"] = {"name": shot.club.name, "hand": shot.club.hand}
    stages = {"delivery": shot.delivery, "impact": shot.impact, "launch": shot.launch, "flight": shot.flight,
              "landing": shot.landing, "run": shot.run}  # fmt: skip
    if shot.start == "landing":
        del stages["launch"], stages["flight"]
    for stage, value in stages.items():
        if value is not None:
            result[stage] = {name: json_number(x) for name, x in numbers_of(value).items()}
    if shot.impact is not None:
        for name in ("head_velocity_after", "head_rotation_after"):
            result["impact"][name] = getattr(shot.impact, name).tolist()
    result["air"] = {name: float(x) for name, x in numbers_of(shot.air).items()}
    result["turf"] = {"name": shot.turf.name, **{name: float(x) for name, x in numbers_of(shot.turf).items()}}
    result["out_of_range"] = shot.out_of_range
    doubts = doubt_if_known(shot)
    if doubts is not None:
        result["doubt"] = {name: json_number(doubts.sd(name)) for name in doubts.changes}
    return result


def print_table(frame: pd.DataFrame, report: Report, out: Path | None, units: System, ball: Ball | None) -> None:
    """Prints a line per club, then what was bad, unread and assumed."""
    played = frame[frame["computed_status"] == "ok"]
    if len(played):
        say("Means by club; SD is the standard deviation of offline.")
        console.print(_by_club(played, "yd" if units == "yards" else "m"))
        say("")
    say(f"{counted(report.rows, 'row')}: {report.rows - len(report.bad)} played, {len(report.bad)} bad.")
    for status, what in (
        ("not_airborne", "never left the ground"),
        ("no_landing", "never came down on the ground"),
    ):
        count = int((frame["computed_status"] == status).sum())
        if count:
            say(f"{count} of them {what}; no mean includes them.")
    rolling = int((frame["computed_run_status"] == "no_rest").sum())
    if rolling:
        say(f"{rolling} had not come to rest after {words_shot.LONGEST_RUN:.0f} s; the mean total leaves them out.")
    stretched = int((frame["computed_out_of_range"] != "").sum())
    if stretched:
        say(f"{stretched} left a model's stated range: see the column computed_out_of_range.")
    for line in first_of([in_place(frame, line, why) for line, why in report.bad]):
        say(f"  {line}", style="red")
    if len(report.bad) > SHOWN:
        say("  Every reason is in the column computed_reason.")
    if report.assumed:
        say(f"Not in the file, so taken as 0: {', '.join(report.assumed)}.")
    for column, known in report.misspelt.items():
        say(f"Column {column!r} is not read: did you mean {known}?", style="red")
    if report.unread:
        say(f"Columns not used: {', '.join(first_of(report.unread)).removesuffix('.')}.")
    if out is not None:
        say_file("Table", out)
    else:
        say("Give --out FILE to write the table with every result.")
    if len(played):
        for line in [*how_sure(ball), cautions.SHORT_CAUTION]:
            say(line, style="dim")


def _by_club(played: pd.DataFrame, unit: str) -> Listing:
    clubs = played["club"] if "club" in played.columns else played["computed_status"].map({"ok": "all"})
    headings = (
        "club",
        "flown",
        f"carry, {unit}",
        "shortest to longest",
        f"offline, {unit}",
        "SD",
        "descent",
        f"total, {unit}",
    )
    listing = right_aligned(*headings)
    for name, rows in played.groupby(clubs.fillna("").replace("", "(none)"), sort=False):
        carry, offline = rows[f"computed_carry_{unit}"], rows[f"computed_offline_{unit}"]
        listing.add_row(
            str(name),
            str(len(rows)),
            f"{carry.mean():.1f}",
            f"{carry.min():.1f} to {carry.max():.1f}",
            bare_aside(rounded(offline.mean(), BY_SYMBOL[unit])),
            f"{offline.std():.1f}" if len(rows) > 1 else "–",
            f"{rows['computed_descent_angle_deg'].mean():.1f}°",
            f"{rows.loc[rows['computed_run_status'] == 'ok', f'computed_total_{unit}'].mean():.1f}",
        )
    return listing


def print_arc(arc: SwingArc, spread: SwingArc, delivery: Delivery, hand: Hand, units: System) -> None:
    """The arc in words and numbers; beside each number what the plane's uncertainty does to it."""
    say(words_arc.of_arc(arc, spread, delivery, hand, units))
    say("")
    listing = right_aligned("", "", "with the plane's range")
    for name, si in units_of(SwingArc).items():
        ends = sorted(np.broadcast_to(getattr(spread, name), (2,)).tolist())
        low, high = (text(x, name, si, units) for x in ends)
        span = "" if low == high else f"{low} to {high}"
        listing.add_row(name.replace("_", " "), text(getattr(arc, name), name, si, units), span)
    console.print(listing)


def print_ground(strike: GroundStrike, units: System) -> None:
    """What the club met first."""
    high = abs(said(strike.strike_high, "strike_high", "m", units))
    where = (
        "at the face centre"
        if high.is_zero
        else f"{high} {'above' if strike.strike_high > 0 else 'below'} the face centre"
    )
    entry = ""
    if strike.turf_entry == strike.turf_entry:
        entry = f"; the sole enters the turf {along(strike.turf_entry, units)}"
    say(f"Strike: {strike.contact}, {where}{entry}.")


def print_clubs(clubs: Clubs, units: System) -> None:
    """A line a club."""
    numbers = dict(list(columns_of("Club").items())[:5])  # the rest is the shape of the head
    headings = ("club", "hand", *(name.replace("_", " ") for name in numbers))
    listing = Listing(*headings, right=range(2, len(headings)))
    for name, club in clubs.items():
        readings = (text(getattr(club, field), field, si, units) for field, si in numbers.items())
        listing.add_row(name, club.hand, *readings)
    console.print(listing)
