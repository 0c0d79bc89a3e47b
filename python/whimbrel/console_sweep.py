"""What ``whimbrel sweep`` prints."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from . import words
from .console import say
from .quantities import System, text

if TYPE_CHECKING:
    import xarray as xr


def print_sweep(swept: xr.Dataset, outputs: list[str], units: System, seconds: float) -> None:
    """What was computed, where the most and the least lie, and how long it took."""
    size = " × ".join(f"{n:,}" for n in swept[outputs[0]].shape)
    bad = int((swept["status"] > 0).sum())
    what = swept.attrs.get("club", swept.attrs["start"])
    say(f"{size} shots, {what}, over {', '.join(str(name).replace('_', ' ') for name in swept.coords)}: "
        f"{seconds:.1f} s.")  # fmt: skip
    if swept.attrs["completed"] < 1:
        say(f"Stopped after {swept.attrs['completed']:.0%}: the rest was not computed.", style="yellow")
    if bad:
        say(f"{bad:,} have no landing: see status in the arrays.", style="yellow")
    if "first_bad_input" in swept.attrs:
        say(f"The first bad one: {swept.attrs['first_bad_input']}", style="yellow")
    for name in outputs:
        x = swept[name]
        if not np.isfinite(x).any():
            say(f"{name.replace('_', ' ')}: no numbers")
            continue
        for word, where in (("Most", x.argmax(...)), ("Least", x.argmin(...))):
            point = x.isel(where)
            at = [f"{str(c).replace('_', ' ')} {text(float(p), str(c), p.attrs['units'], units)}"
                  for c, p in point.coords.items()]  # fmt: skip
            number = text(float(point), name, x.attrs["units"], units)
            say(f"{word} {name.replace('_', ' ')}: {number} at {', '.join(at)}.")
    if swept.attrs["start"] != "landing":
        say(words.BALL_SPREAD, style="dim")
    say(words.SHORT_CAUTION, style="dim")
