"""A session told in plain sentences."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from ..core import cautions
from ..core.quantity import Said, System, counted, percent, plain_name, said_difference
from ..errors import first_of
from ..sessions.answers import group_name
from ..strikes.play_table import in_place
from ..strikes.reading import STRIKE_FIELDS
from .doubt import how_sure
from .parts import Items, TextPart, as_text
from .phrases import side

if TYPE_CHECKING:
    from ..sessions.answers import Aimed, Before, Driven, Group
    from ..sessions.change import Change, Comparison
    from ..sessions.drivers import Part, Scatter
    from ..sessions.session import Session
    from ..statistics.center_and_spread import Spread

INTERVALS = (
    "Intervals of single groups assume that strikes are independent; far from the rest means over 3.5 robust SDs "
    "from the median, and such strikes still count."
)
ABOUT = {"centre": "on average", "spread": "in spread"}


def of_session(session: Session, units: System) -> str:
    paragraphs = [count_strikes(session)]
    paragraphs += [of_comparison(pair, units) for pair in session.changes]
    paragraphs += [of_driven(driven, units) for driven in session.scatters]
    paragraphs += [of_aimed(aimed, units) for aimed in session.targets]
    paragraphs += [of_group(group, units) for group in session.groups]
    paragraphs += [*session.notes, *limits(session)]
    return "\n\n".join(paragraphs) + "\n"


def short(spread: Spread | None, name: str, units: System) -> str:
    """Mean ± SD, or the values of few strikes."""
    if spread is None:
        return "–"
    if spread.mean is None or spread.sd is None:
        return ", ".join(say(x, name, units) for x in spread.values)
    return f"{say(spread.mean.estimate, name, units)} ± {say(spread.sd.estimate, name, units)}"


def count_strikes(session: Session) -> str:
    """How many strikes there are, and what was wrong with which."""
    return as_text(counts(session))


def counts(session: Session) -> list[TextPart]:
    """The same part by part."""
    if not session.strikes:
        return ["No strikes: the table has a header and no rows."]
    left_out = f", {session.warm_ups} of them warm-ups left out" if session.warm_ups else ""
    parts: list[TextPart] = [f"{counted(session.strikes, 'strike')}{left_out}."]
    if session.strikes == 1:
        parts.append("One strike has no spread and shows no change: `whimbrel play` shows what it did.")
    if session.bad:
        strikes = len({label for label, _ in session.bad})
        parts.append(f"{strikes} with something wrong; their other values count:")
    wrong = [in_place(session.read.rows.frame, label, why) for label, why in session.bad]
    if wrong:
        parts.append(Items(tuple(first_of(wrong))))
    if session.unread:
        parts.append(f"Columns not used: {', '.join(session.unread)}.")
    return parts


def told(x: float, name: str, units: System) -> Said:
    """A value or a difference as it is told; SI in."""
    return said_difference(x, name, STRIKE_FIELDS[name], units)


def say(x: float, name: str, units: System, sign: bool = False) -> str:
    """The same as text."""
    amount = told(x, name, units)
    return amount.with_sign if sign else amount.text


def of_group(group: Group, units: System) -> str:
    lines = [f"{group_name(group.player, group.club, group.block)}: {counted(group.n, 'strike')}."]
    if group.n <= 3:
        lines[0] += " Three or fewer: only the values and their range are given."
    for name, spread in group.spreads.items():
        lines.append(
            f"  {plain_name(name)}{' (played)' if name in group.played else ''}: {of_spread(name, spread, units)}"
        )
    return "\n".join(lines)


def of_spread(name: str, spread: Spread, units: System) -> str:
    """Mean and spread with their intervals; the values where they are few; outliers by label."""
    if spread.mean is None or spread.sd is None:
        values = ", ".join(say(x, name, units) for x in spread.values)
        span = say(spread.highest - spread.lowest, name, units)
        return values if spread.n == 1 else f"{values}; range {span}"
    text = (
        f"mean {say(spread.mean.estimate, name, units)} ({say(spread.mean.low, name, units)} to "
        f"{say(spread.mean.high, name, units)}), SD {say(spread.sd.estimate, name, units)} "
        f"({say(spread.sd.low, name, units)} to {say(spread.sd.high, name, units)})"
    )
    if spread.outliers:
        shown_labels = ", ".join(map(str, spread.outliers[:5])) + (" …" if len(spread.outliers) > 5 else "")
        text += f"; far from the rest: {shown_labels}"
    return text + (f"; {spread.missing} missing" if spread.missing else "")


def of_comparison(pair: Before, units: System) -> str:
    """Did it change: what did, what did not by more than so much, what cannot be told."""
    return as_text(comparison(pair, units))


def comparison(pair: Before, units: System) -> list[TextPart]:
    """The same part by part."""
    early, late = pair.before or "no label", pair.after or "no label"
    found = pair.comparison
    lines: list[str] = []
    for answer in ("changed", "no change", "too few"):
        lines += [of_change(change, units) for change in found.changes if change.answer == answer]
    lines += [f"{plain_name(name)}: {why}." for name, why in found.left_out.items()]
    lines += _notes(found)
    return [f"{group_name(pair.player, pair.club)}: did it change from {early} to {late}?", Items(tuple(lines))]


def _notes(comparison: Comparison) -> Iterator[str]:
    if not comparison.changes:
        return
    if comparison.beyond_reach:
        yield (
            f"With so few strikes and {len(comparison.changes)} questions no difference, however large, could "
            "count as a change: ask about fewer quantities, or strike more."
        )
    most = max(comparison.changes, key=lambda change: change.rho)
    if most.rho >= 0.1:
        counts = most.counts_as
        yield (
            f"Strikes in a row resemble each other (up to {most.rho:.1f}, {plain_name(most.quantity)}): "
            f"{most.n_before} and {most.n_after} strikes count as about {counts[0]:.0f} and "
            f"{counts[1]:.0f} independent ones there."
        )
    yield (
        "The chance that anything here is called changed when nothing did is about 5 %. Each range holds the true "
        "change 19 times in 20, for itself. Spread is the mean distance from the block's median."
    )


def of_change(change: Change, units: System) -> str:
    name = change.quantity
    span = f"{say(change.low, name, units, True)} to {say(change.high, name, units, True)}"
    what = f"{plain_name(name)} {ABOUT[change.about]}"
    if change.answer == "changed":
        small = "; too small to matter" if abs(change.change) < change.smallest else ""
        ends = f"from {say(change.before, name, units)} to {say(change.after, name, units)}"
        return f"{what}: changed by {say(change.change, name, units, True)} ({span}), {ends}{small}."
    if change.answer == "no change":
        return f"{what}: no change larger than {say(change.bound, name, units)}."
    alone = " on its own it would count as a change, but not among so many questions;" if change.p <= 0.05 else ""
    return f"{what}: too few to tell ({span}):{alone} {_say_needed(change, units)}"


def _say_needed(change: Change, units: System) -> str:
    smallest = say(change.smallest, change.quantity, units)
    least, most = change.needed
    count = f"{least:,}" if least == most else f"{least:,}–{most:,}"
    if most <= min(change.n_before, change.n_after):
        return f"{count} a side would usually show {smallest}, and the change may be near that; strike more."
    return f"about {count} a side would be needed to see {smallest} with this spread."


def of_driven(driven: Driven, units: System) -> str:
    """What drives the scatter, what halving each spread would do, what to work on next."""
    return as_text(drivers(driven, units))


def drivers(driven: Driven, units: System) -> list[TextPart]:
    """The same part by part."""
    name = group_name(driven.player, driven.club, driven.block)
    if driven.scatter is None:
        return [f"{name}: what drives the scatter cannot be said: {driven.why_not}."]
    scatter = driven.scatter
    return [
        f"{name}: what drives the scatter of {counted(scatter.n, 'strike')} "
        f"({say(scatter.scatter, 'carry', units)}, carry and offline together)? What to work on, first to last:",
        Items(tuple(_part(part, units) for part in scatter.parts), ranked=True),
        Items(tuple(_on_scatter(scatter, units))),
    ]


def _part(part: Part, units: System) -> str:
    if part.harms:
        wider = say(part.halved, "carry", units)
        effect = f"halving it alone would widen the scatter by {wider}: it makes up for another"
    elif part.halved_high < 0:
        effect = f"halving it would take {say(-part.halved, 'carry', units)} off the scatter"
    else:
        effect = "halving it would make no difference that these strikes can show"
    spread = f"SD {say(part.sd, part.quantity, units)}"
    if part.noise:
        spread += f", {say(part.own, part.quantity, units)} without the measurement's noise"
    return f"{plain_name(part.quantity)} ({percent(part.share)} of the variance; {spread}): {effect}."


def _on_scatter(scatter: Scatter, units: System) -> Iterator[str]:
    for what, terms in scatter.terms.items():
        total = sum(terms.values())
        for (a, b), term in sorted(terms.items(), key=lambda pair: pair[1]):
            if a != b and total > 0 and term < -0.1 * total:
                share = f"{percent(term / total)} of the variance"
                yield f"In {what}, {plain_name(a)} and {plain_name(b)} make up for each other ({share})."
    played = " and ".join(say(x, "carry", units) for x in scatter.drawn)
    lines = " and ".join(say(x, "carry", units) for x in scatter.linear)
    yield f"The shares assume straight-line physics: SDs of carry and offline {lines}; in played draws {played}."
    if scatter.unexplained is not None:
        left = zip(("carry", "offline"), scatter.unexplained, strict=True)
        shares = " and ".join(f"{percent(share)} of {what}'s" for what, share in left if share == share)
        if shares:
            yield f"The delivery leaves {shares} measured variance unexplained: measurement, ball, wind, the model."
    else:
        yield "The ball was not measured: what the delivery leaves unexplained is not known."
    yield from scatter.notes


def of_aimed(aimed: Aimed, units: System) -> str:
    play = aimed.play
    where = f"{play.target.called} {aimed.name}".strip()
    inside = f"{play.hits:,} of {play.n:,} in the {where}"
    turn, far = told(play.direction, "face_angle", units), told(play.distance, "carry", units)
    shift = " and ".join(
        part
        for part in (
            "" if turn.is_zero else f"{abs(turn)} further {side(turn.value)}",
            "" if far.is_zero else f"{abs(far)} {'longer' if far.value > 0 else 'shorter'}",
        )
        if part
    )
    wander = say(play.direction_sd, "face_angle", units)
    if play.distance_sd:
        wander += f" and {say(play.distance_sd, 'carry', units)}"
    aim = (
        f"Aiming {shift} would have held {percent(play.aimed_rate)}; strikes left out of the choice, "
        f"{percent(play.left_out_rate)}. Other strikes would move that aim by about {wander}."
        if shift
        else "No other aim holds more of them."
    )
    return (
        f"{group_name(aimed.player, aimed.club, aimed.block)}: {inside}: {percent(play.rate)}, likely between "
        f"{percent(play.low)} and {percent(play.high)}. {aim}"
    )


def limits(session: Session) -> list[str]:
    lines = [INTERVALS]
    if any(group.played for group in session.groups):
        lines.extend(how_sure(session.defaults.ball))
    return [" ".join(lines), cautions.CAUTION]
