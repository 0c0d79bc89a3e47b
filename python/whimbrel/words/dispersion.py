"""A cloud of shots told in plain sentences."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from ..clouds.draws import Around
from ..clouds.sampling import NO_VALUE, POINTS, UNITS_OF
from ..core.cautions import SHORT_CAUTION
from ..core.quantity import System, counted, display_unit, percent, plain_name, rounded, said_difference, text
from ..errors import first_of
from ..row.flight import STATUS_WORDS
from ..row.shot import OUTPUTS
from ..statistics.ellipse import COVERAGE
from ..statistics.targets import Circle, Corridor, Polygon, Rectangle
from .doubt import how_sure
from .phrases import bare_aside, beside

if TYPE_CHECKING:
    from ..clouds.cloud import Dispersion
    from ..statistics.targets import Share, Target

SIDEWAYS = ("offline", "total_offline", "curve")
LIMITS = (
    "Not included: club, ball and turf are the same in every shot, and the physics is the model's. "
    "Standard errors and intervals cover the number of samples alone, not the model or how well the spreads are "
    "known."
)
#: What holds outside the stated ranges, by what left them.
OUTSIDE = {
    "the contact model is not calibrated": {"face_friction", "approach_speed"},
    "the ball model holds its edge value": {"spin_ratio", "reynolds"},
    "the run is a rough guess": {"bounce_speed", "bounce_angle"},
}
OF_NORMAL = (
    "Shots are drawn as independent and normal; a player has more far misses, and successive shots resemble each "
    "other."
)
OF_RESAMPLED = (
    "Strikes are drawn again from {}: nothing that was not struck is in the cloud, and other strikes of the "
    "same player would move everything here by more than the intervals say."
)


def of_dispersion(cloud: Dispersion, units: System) -> str:
    """Where the balls finish, the spread, the shares, what failed, and the limits; a paragraph each."""
    paragraphs = [say_draws(cloud, units), say_finish(cloud, units), *say_shares(cloud, units)]
    notes = [*say_wrong(cloud), *say_failures(cloud), *say_stretched(cloud)]
    sure = how_sure(cloud.sampling.conditions.get("ball"))
    return "\n\n".join([*paragraphs, *notes, say_limits(cloud), *sure, SHORT_CAUTION]) + "\n"


def say_draws(cloud: Dispersion, units: System) -> str:
    """What was drawn."""
    sampling = cloud.sampling
    what = counted(cloud.samples, "shot") + (f" with the {sampling.club.name}" if sampling.club else "")
    if cloud.stopped:
        what = f"Stopped after {what}, of {sampling.samples:,} asked for"
    if not isinstance(sampling.draws, Around):
        left_out = f"; {cloud.left_out:,} left out, not complete" if cloud.left_out else ""
        return f"{what}, drawn from {counted(len(sampling.draws.rows), 'strike')}{left_out}."
    sds = np.sqrt((sampling.draws.factor**2).sum(1))
    spreads = [
        f"{plain_name(name)} {text(middle, name, UNITS_OF[name], units)} ± {difference(sd, name, units)}"
        for name, middle, sd in zip(sampling.draws.fields, sampling.draws.middle, sds, strict=True)
    ]
    off_diagonal = sampling.draws.factor - np.diag(np.diagonal(sampling.draws.factor))
    together = ", correlated" if off_diagonal.any() else ""
    return f"{what}, one standard deviation after the ±{together}: {'; '.join(spreads)}."


def say_finish(cloud: Dispersion, units: System) -> str:
    """Mean, spread and ellipse of where the balls finish."""
    if cloud.sums.good < 2:
        return "Hardly any of them finished: there is no spread to give."
    x = POINTS[cloud.sampling.at][0]
    far = "carry" if cloud.sampling.at == "landing" else "total"
    lands = "They land" if cloud.sampling.at == "landing" else "They come to rest"
    middle, sd = cloud.mean, cloud.sd
    lines = [
        f"{lands} {text(middle[far].value, far, 'm', units)} away on average "
        f"(SD {difference(sd[far].value, far, units)}), {sideways(middle[x].value, units)} "
        f"(SD {difference(sd[x].value, x, units)})."
    ]
    if len(cloud.points[0]):
        low, high = (cloud.quantile(far, p).value for p in (0.1, 0.9))
        left, right = (cloud.quantile(x, p).value for p in (0.1, 0.9))
        lines.append(
            f"Of ten, eight are between {text(low, far, 'm', units)} and {text(high, far, 'm', units)}, and eight "
            f"between {sideways(left, units, '')} and {sideways(right, units, '')}."
        )
    ellipse = cloud.ellipse()
    if ellipse is not None:
        long, short = (text(2 * half, far, "m", units) for half in ellipse.half_axes)
        held = cloud.inside(ellipse)
        there = f"; it holds {share_of(held.value)} of the samples" if held.value == held.value else ""
        lines.append(f"The ellipse for {percent(COVERAGE)} of normal shots is {long} by {short}{there}.")
    return " ".join(lines)


def say_shares(cloud: Dispersion, units: System) -> list[str]:
    return [say_share(share, units) for share in cloud.shares]


def say_share(share: Share, units: System) -> str:
    """The share in one region, with its interval."""
    low, high = share_of(share.low), share_of(share.high)
    interval = f"{low} to {high}"
    if percent(share.low, 1) == percent(share.high, 1):  # they read alike: one is enough
        interval = low if share.share > 0.5 else high
    return (
        f"In {name_region(share.region, units)}: {share_of(share.share)} ({interval}), "
        f"{share.hits:,} of {share.n:,}."
    )


def name_region(region: Target, units: System) -> str:
    def length(x: float) -> str:
        return text(x, "carry", "m", units)

    if isinstance(region, Circle):
        return f"the circle of radius {length(region.radius)} at {length(region.distance)}"
    if isinstance(region, Rectangle):
        return f"the green {length(region.width)} wide, {length(region.depth)} deep at {length(region.distance)}"
    if isinstance(region, Corridor):
        return f"the corridor {length(region.width)} wide"
    if isinstance(region, Polygon):
        return f"the polygon of {len(region.corners)} corners"
    return f"the {region.called}"


def say_wrong(cloud: Dispersion) -> list[str]:
    """What was wrong in a table of strikes, and where."""
    return [f"Wrong in the table: {line}" for line in first_of(cloud.wrong)]


def say_failures(cloud: Dispersion) -> list[str]:
    """Samples that do not finish: how many and why; none, no line."""
    if not cloud.failed:
        return []
    called = {**STATUS_WORDS, NO_VALUE: "an output asked for has no value"}
    why = "; ".join(f"{count:,}: {called[status]}" for status, count in sorted(cloud.failed.items()))
    first = [f" Sample {sample}: {message}." for sample, message in list(cloud.mistakes.items())[:1]]
    total = sum(cloud.failed.values())
    return [f"{total:,} of {cloud.samples:,} failed; they count as outside and in no mean ({why}).{''.join(first)}"]


def say_stretched(cloud: Dispersion) -> list[str]:
    """How many samples took a model outside its stated range; none, no line."""
    counts = cloud.sums.stretched
    if not counts:
        return []
    where = ", ".join(f"{count:,} in {plain_name(name)}" for name, count in counts.items())
    there = [words for words, names in OUTSIDE.items() if names & set(counts)]
    return [f"Samples outside a model's stated range: {where}; there {' and '.join(there)}."]


def say_limits(cloud: Dispersion) -> str:
    """What the cloud does not know."""
    draws = cloud.sampling.draws
    of_draws = OF_NORMAL if isinstance(draws, Around) else OF_RESAMPLED.format(counted(len(draws.rows), "row"))
    return f"{LIMITS} {of_draws}"


def list_lines(cloud: Dispersion) -> list[tuple[str, str]]:
    """Each output's mean and spread, each share and what failed, for a repr."""
    lines = []
    for name in cloud.outputs:
        mean, sd = cloud.mean[name], cloud.sd[name]
        si = OUTPUTS[name][1]
        lines.append((name, f"{text(mean.value, name, si)}, SD {difference(sd.value, name, 'yards')}"))
    lines += [(name_region(share.region, "yards"), share_of(share.share)) for share in cloud.shares]
    return [*lines, ("failed", f"{sum(cloud.failed.values()):,}")]


def share_of(x: float) -> str:
    """A share with a decimal; one that would read as none or all says so."""
    if 0 < x < 0.0005:
        return f"below {percent(0.001, 1)}"
    return f"above {percent(0.999, 1)}" if 0.9995 < x < 1 else percent(x, 1)


def difference(x: float, name: str, units: System) -> str:
    """A spread in its unit."""
    return said_difference(x, name, UNITS_OF[name], units).text


def row(cloud: Dispersion, name: str, units: System) -> list[str]:
    """An output with its unit; in it mean, SD and 5, 50 and 95 % quantiles, the first two with their errors."""
    unit = display_unit(name, UNITS_OF[name], units)
    mean, sd = cloud.mean[name], cloud.sd[name]

    def bare(x: float) -> str:
        amount = rounded(unit.from_si(x), unit)
        return bare_aside(amount) if name in SIDEWAYS else amount.bare

    quantiles = [bare(cloud.quantile(name, p).value) for p in (0.05, 0.5, 0.95)]
    spread = said_difference(sd.value, name, UNITS_OF[name], units).bare
    errors = [f"{x.standard_error / unit.factor:.2g}" for x in (mean, sd)]
    label = ", ".join(part for part in (plain_name(name), unit.symbol) if part)
    return [label, bare(mean.value), errors[0], spread, errors[1], *quantiles]


def sideways(x: float, units: System, of: str = " of the target line") -> str:
    return beside(x, "offline", "m", units, of)
