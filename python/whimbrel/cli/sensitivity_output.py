"""What ``whimbrel sensitivity`` prints."""

from __future__ import annotations

from typing import Any

from ..core import cautions
from ..core.quantity import System
from ..questions.sensitivity import Sensitivity
from .output import console, json_number, right_aligned, say


def as_json(told: Sensitivity) -> dict[str, Any]:
    """Results, and their derivatives by each input, in SI; null where there is no number."""

    return {
        "units": "SI: m, s, kg, rad, K, Pa",
        "status": told.status,
        "run_status": told.run_status,
        "not_smooth": [name for name, at in told.kinks.items() if at],
        "results": {of: json_number(x) for of, x in told.results.items()},
        "derivatives": {of: {by: json_number(told[of, by]) for by in told.by} for of in told.of},
    }


def print_sensitivity(told: Sensitivity, units: System) -> None:
    """The table, then what to know about it."""
    heading, *rows = told.table(units)
    listing = right_aligned(*heading, gap=1)
    for row in rows:
        listing.add_row(*row)
    console.print(listing)
    say("")
    say("Each line changes one input and holds the others: exact slopes here, a first guess farther away.")
    for note in told.notes():
        say(note, style="yellow")
    say(cautions.BALL_SPREAD, style="dim")
    say(cautions.SHORT_CAUTION, style="dim")
    if "clubhead_speed" in told.by:
        say(cautions.SWING_CAUTION, style="dim")
