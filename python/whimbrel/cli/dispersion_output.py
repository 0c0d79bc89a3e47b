"""What the command prints of a cloud of shots."""

from __future__ import annotations

from typing import Any

from ..clouds.cloud import Dispersion
from ..core import cautions
from ..core.quantity import System
from ..core.value import Array
from ..words.dispersion import (
    row,
    say_draws,
    say_failures,
    say_finish,
    say_limits,
    say_shares,
    say_stretched,
    say_wrong,
)
from ..words.doubt import how_sure
from .output import console, right_aligned, say
from .output import json_number as number
from .terminal import Listing


def print_cloud(cloud: Dispersion, units: System) -> None:
    """Where the balls finish in words, a line an output, the targets, what failed and what is not known."""
    say(say_draws(cloud, units))
    say(say_finish(cloud, units))
    for line in say_shares(cloud, units):
        say(line)
    if cloud.sums.good > 1:
        say("")
        console.print(_listing(cloud, units))
        say("±: one standard error, by the number of samples.", style="dim")
    say("")
    for line in (*say_wrong(cloud), *say_failures(cloud), *say_stretched(cloud)):
        say(line, style="yellow")
    say(say_limits(cloud), style="dim")
    for line in how_sure(cloud.sampling.conditions.get("ball")):
        say(line, style="dim")
    say(cautions.CAUTION, style="dim")


def _listing(cloud: Dispersion, units: System) -> Listing:
    headings = ("", "mean", "±", "SD", "±", "5 %", "median", "95 %")
    listing = right_aligned(*headings, gap=1)
    for name in cloud.outputs:
        listing.add_row(*row(cloud, name, units))
    return listing


def as_json(cloud: Dispersion) -> dict[str, Any]:
    """The summary in SI: m, s, rad; null where there is no number."""

    def square(table: Array) -> list[list[float | None]]:
        return [[number(x) for x in row] for row in table]

    m = cloud.moments
    return {
        "units": "SI: m, s, kg, rad",
        "samples": cloud.samples,
        "stopped": cloud.stopped,
        "seed": cloud.sampling.seed,
        "at": cloud.sampling.at,
        "outputs": {
            name: {
                "mean": [number(x) for x in cloud.mean[name]],
                "sd": [number(x) for x in cloud.sd[name]],
                "quantiles": {f"{p:g}": [number(x) for x in cloud.quantile(name, p)] for p in (0.05, 0.5, 0.95)},
            }
            for name in cloud.outputs
        },
        "covariance": square(m.covariance),
        "covariance_standard_error": square(m.covariance_error),
        "targets": [
            {"shape": type(share.region).__name__.lower(), **vars(share.region), "hits": share.hits,
             "share": share.share, "standard_error": share.standard_error, "low": share.low, "high": share.high}
            for share in cloud.shares
        ],
        "failed": cloud.failed,
        "wrong_in_table": list(cloud.wrong),
        "out_of_range": cloud.stretched,
    }  # fmt: skip
