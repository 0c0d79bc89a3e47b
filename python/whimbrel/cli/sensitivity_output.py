"""What ``whimbrel sensitivity`` prints."""

from __future__ import annotations

from typing import Any

from ..core import cautions
from ..core.quantity import System
from ..questions.sensitivity import Sensitivity
from ..row.ball import Ball
from ..words.doubt import how_sure
from .output import console, json_number, right_aligned, say


def as_json(slopes: Sensitivity) -> dict[str, Any]:
    """Results, and their derivatives by each input, in SI; null where there is no number."""

    return {
        "units": "SI: m, s, kg, rad, K, Pa",
        "status": slopes.status,
        "run_status": slopes.run_status,
        "not_smooth": [name for name, at in slopes.kinks.items() if at],
        "results": {of: json_number(x) for of, x in slopes.results.items()},
        "derivatives": {of: {by: json_number(slopes[of, by]) for by in slopes.by} for of in slopes.of},
    }


def print_sensitivity(slopes: Sensitivity, units: System, ball: Ball) -> None:
    """The table, then what to know about it."""
    heading, *rows = slopes.table(units)
    listing = right_aligned(*heading, gap=1)
    for row in rows:
        listing.add_row(*row)
    console.print(listing)
    say("")
    say("Each line changes one input and holds the others: exact slopes here, a first guess farther away.")
    for note in slopes.notes():
        say(note, style="yellow")
    for line in how_sure(ball):
        say(line, style="dim")
    say(cautions.SHORT_CAUTION, style="dim")
    if "clubhead_speed" in slopes.by:
        say(cautions.SWING_CAUTION, style="dim")
