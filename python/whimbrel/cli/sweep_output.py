"""What ``whimbrel sweep`` prints."""

from __future__ import annotations

from collections.abc import Hashable, Mapping
from typing import TYPE_CHECKING, Any

import numpy as np

from ..core import cautions
from ..core.quantity import System, counted, percent, text
from ..words.doubt import how_sure
from .output import say

if TYPE_CHECKING:
    import xarray as xr

    from ..row.ball import Ball


def print_sweep(swept: xr.Dataset, outputs: list[str], units: System, ball: Ball) -> None:
    """What was computed, where the most and the least lie, and how long it took."""
    *more, last = swept[outputs[0]].shape
    size = " × ".join([*(f"{n:,}" for n in more), counted(last, "shot") if not more else f"{last:,} shots"])
    what = swept.attrs.get("club", swept.attrs["start"])
    say(f"{size}, {what}, over {', '.join(str(name).replace('_', ' ') for name in swept.coords)}: "
        f"{swept.attrs['seconds']:.2g} s.")  # fmt: skip
    if swept.attrs["completed"] < 1:
        say(f"Stopped after {percent(swept.attrs['completed'])}: the rest was not computed.", style="yellow")
    for name in ("status", "run_status"):
        for line in _count_statuses(swept[name]) if name in swept else ():
            say(line, style="yellow")
    if "first_bad_input" in swept.attrs:
        say(f"The first bad one: {swept.attrs['first_bad_input']}", style="yellow")
    for name in outputs:
        x = swept[name]
        if not np.isfinite(x).any():
            say(f"{name.replace('_', ' ')}: no numbers")
            continue
        for word, where in (("Most", x.argmax(...)), ("Least", x.argmin(...))):
            point = x.isel(where)
            beyond = _beyond(x, where) if word == "Most" else ""
            at = [f"{str(c).replace('_', ' ')} {text(float(p), str(c), p.attrs['units'], units)}"
                  for c, p in point.coords.items()]  # fmt: skip
            number = text(float(point), name, x.attrs["units"], units)
            say(f"{word} {name.replace('_', ' ')}: {number} at {', '.join(at)}{beyond}.")
    if swept.attrs["start"] != "landing":
        for line in how_sure(ball):
            say(line, style="dim")
    say(cautions.SHORT_CAUTION, style="dim")


def _count_statuses(status: xr.DataArray) -> list[str]:
    """How many points are of each status but ok."""
    words_of = status.attrs["flag_meanings"].split()
    codes, counts = np.unique(status, return_counts=True)
    said = {code: words_of[code + 1].replace("_", " ") for code in codes if code > 0}
    stage = "run" if status.name == "run_status" else "flight"
    return [f"{n:,} {stage}s: {said[code]}." for code, n in zip(codes, counts, strict=True) if code in said]


def _beyond(x: xr.DataArray, where: Mapping[Hashable, Any]) -> str:
    """Says so where the most of a grid lies at an end of an axis."""
    at_ends = {d: int(i) in (0, x[d].size - 1) and x[d].size > 2 for d, i in where.items() if d != "shot"}
    ends = " and ".join(str(d).replace("_", " ") for d, is_end in at_ends.items() if is_end)
    return f" (at the end of {ends}: there may be more beyond)" if ends else ""
