"""Why a shot went where it went, in a player's words. A term of the trade comes with its meaning."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import TYPE_CHECKING

from ..core.quantity import Said, System, counted, percent, said, text
from ..core.value import html_table
from ..row.flight import STATUS_WORDS
from ..row.play import play
from ..row.setting import Terrain
from ..units import deg, mm
from . import phrases
from . import swing_plane as words_swing
from .doubt import difference, doubt_if_known, with_doubt
from .phrases import angle, bare_aside, on_face, pointing, seen, sentence, side

if TYPE_CHECKING:
    from ..questions.explain import Explained, Share, Sideways
    from ..row.shot import Shot
    from ..row.swing import Delivery

#: Distances under this are told as small, m.
SMALL = 0.45
GEAR = (
    "gear effect: struck off its centre the head turns, and like one gear on another spins the ball the other way"
)


def of_shot(explained: Explained, units: System = "yards") -> str:
    """All paragraphs: what happened and why, the ledger, one change at a time, and what else was asked."""
    return "\n".join(
        [*story(explained, units), *ledger(explained, units), say_nudges(explained, units), *notes(explained)]
    )


def story(explained: Explained, units: System) -> list[str]:
    """How the ball started, curved and drifted, why, and what plane and turf say."""
    paragraphs = [
        _say_end(explained, units),
        _say_aim(explained),
        _say_start(explained),
        _say_curve(explained, units),
        _pattern(explained),
        _say_wind(explained, units),
    ]
    if explained.look is not None:
        paragraphs.append(words_swing.of_look(explained.look))
    if explained.ground is not None and explained.arc is not None:
        met = words_swing.say_contact(explained.ground, explained.arc, units)
        played = float(_delivery(explained).strike_high)
        if abs(played - explained.ground.strike_high) >= 3 * mm:
            met += f" (The shot itself was played as struck {words_swing.up_the_face(played)}.)"
        paragraphs.append(met)
    return [paragraph for paragraph in paragraphs if paragraph]


def _told(x: float, units: System) -> Said:
    """A distance as it is told."""
    return said(x, "carry", "m", units)


def distance(x: float, units: System) -> str:
    """A distance without its sign."""
    return abs(_told(x, units)).text


def aside(x: float, units: System) -> str:
    """A sideways distance: ``3.2 yd left``."""
    return phrases.aside(_told(x, units))


def with_sign(x: float, units: System) -> str:
    """A change of distance with its sign."""
    return _told(x, units).with_sign


def _hand(explained: Explained) -> tuple[str, float]:
    hand = "right" if explained.shot.club is None else explained.shot.club.hand
    return hand, 1.0 if hand == "right" else -1.0


def _line(explained: Explained) -> str:
    """What face and path are told against."""
    return "the target" if not seen(explained.aim) else "the body's line"


def _delivery(explained: Explained) -> Delivery:
    assert explained.shot.delivery is not None
    return explained.shot.delivery


def _say_end(explained: Explained, units: System) -> str:
    shot = explained.shot
    carried = with_doubt(shot.carry, "carry", "m", units, doubt_if_known(shot))
    return f"The ball carried {carried} and came down {_say_landing(shot.offline, units)}."


def _say_aim(explained: Explained) -> str:
    if not seen(explained.aim):
        return ""
    return (
        f"The body was aimed {pointing(explained.aim)}. Face and path are measured from that line, so that aim "
        "does not count as a swing fault."
    )


def _shape(explained: Explained) -> str:
    """In-to-out or out-to-in, against the body's line."""
    _, away = _hand(explained)
    path = away * (float(explained.level.club_path) - explained.aim)
    return "" if not seen(path) else " (in-to-out)" if path > 0 else " (out-to-in)"


def _say_strike(explained: Explained) -> str:
    """Where on the face, and on what stance; empty for a centred strike on the level."""
    hit = _delivery(explained)
    parts = []
    for x, more, less in ((hit.strike_toe, "toward the toe", "toward the heel"), (hit.strike_high, "high", "low")):
        off = on_face(float(x))
        if not off.is_zero:
            parts.append(f"{abs(off)} {more if off.value > 0 else less}")
    struck = ["the strike " + " and ".join(parts)] if parts else []
    if seen(float(hit.lie_tilt)):
        struck.append(f"the toe {angle(float(hit.lie_tilt))} {'up' if hit.lie_tilt > 0 else 'down'}")
    if seen(explained.uphill):
        struck.append(f"the {angle(explained.uphill)} {'uphill' if explained.uphill > 0 else 'downhill'} stance")
    return " with ".join(struck)


def _bulge_side(explained: Explained) -> float:
    """Where the face looks, for being bulged, at an off-centre strike: positive right, 0 for a flat face."""
    assert explained.shot.club is not None
    flat = not math.isfinite(float(explained.shot.club.bulge_radius))
    return 0.0 if flat else _hand(explained)[1] * float(_delivery(explained).strike_toe)


def _reasons(explained: Explained, of: Sideways) -> list[tuple[float, str]]:
    """What made a sideways distance, largest first; small parts left out."""
    face, path = float(explained.level.face_angle) - explained.aim, float(explained.level.club_path) - explained.aim
    line, bulge = _line(explained), _bulge_side(explained)
    sent = f"{_say_strike(explained)} sent it {side(of.strike_and_stance)}"
    if bulge and (bulge > 0) == (of.strike_and_stance > 0):
        sent += " (there the bulged face looks that way)"
    reasons = [
        (of.square, f"the body was aimed {pointing(explained.aim)}" if explained.aim else "the club sent it there"),
        (of.strike_and_stance, sent),
        (of.face, f"the face pointed {pointing(face, line)}{_left_out(explained)}"),
        (of.path, f"the clubhead was travelling {pointing(path, line)}{_shape(explained)}"),
    ]
    told_from = max(SMALL, 0.1 * max(abs(x) for x, _ in reasons[1:]))
    return sorted((r for r in reasons if abs(r[0]) >= told_from), key=lambda r: -abs(r[0]))


def _say_start(explained: Explained) -> str:
    launch = float(explained.shot.launch.launch_direction)
    reasons = _reasons(explained, explained.start)
    if not seen(launch):
        why = " and ".join(words for _, words in reasons)
        return f"It started at the target: {why}, which cancelled." if why else "It started at the target."
    toward = [words for x, words in reasons if (x > 0) == (launch > 0)]
    against = [words for x, words in reasons if (x > 0) != (launch > 0)]
    sentence = f"It started {pointing(launch)}"
    if toward:
        sentence += f" because {' and '.join(toward)}"
    if against:
        sentence += f"; against that, {' and '.join(against)}"
    hit, impact = _delivery(explained), explained.shot.impact
    apart = abs(float(hit.face_angle - hit.club_path))
    if impact is not None and apart >= 0.5 * deg and not (hit.strike_toe or hit.strike_high):
        share = float(impact.start_fraction)
        nearer = "A ball starts nearer the face than the path: here" if share > 0.5 else "It started"
        sentence += f". {nearer} {percent(share)} of the way from path to face"
    return sentence + "."


def _open_to_path(explained: Explained) -> tuple[float, str]:
    """The angle from path to face, and what that makes the face."""
    _, away = _hand(explained)
    apart = float(explained.level.face_angle) - float(explained.level.club_path)
    state = "open" if away * apart > 0 else "closed"
    looked = f"it looked {side(apart)} of where the clubhead was going{_left_out(explained)}"
    return apart, f"{angle(apart)} {state} to the path ({looked})"


def _left_out(explained: Explained) -> str:
    """Face and path are told without what the stance adds."""
    stood = seen(float(_delivery(explained).lie_tilt)) or seen(explained.uphill)
    return ", the stance left out" if stood else ""


def _say_curve(explained: Explained, units: System) -> str:
    total, by_swing = explained.curve.total, explained.curve.face + explained.curve.path
    by_strike = explained.curve.strike_and_stance
    apart, state = _open_to_path(explained)
    struck, tilt = _say_strike(explained), float(explained.shot.launch.spin_axis_tilt)
    tilted = f", which tilted the axis the ball spins about {angle(tilt)} to the {side(tilt)}"
    gear = f" ({GEAR})" if _delivery(explained).strike_toe or _delivery(explained).strike_high else ""
    swing_tells, strike_tells = abs(by_swing) >= SMALL, abs(by_strike) >= SMALL and bool(struck)
    if abs(total) < SMALL:
        if swing_tells and strike_tells:
            return (
                f"It flew almost straight: the face, {state}, would have curved it {aside(by_swing, units)}, and "
                f"{struck} {aside(by_strike, units)}{gear}; they cancelled."
            )
        return f"It flew almost straight: the face was within {angle(max(abs(apart), 0.1 * deg))} of the path."
    curved = f"{'It' if explained.wind.total == 0.0 else 'Its spin'} curved {'it ' if explained.wind.total else ''}"
    curved += aside(total, units)
    mostly_struck = strike_tells and swing_tells and abs(by_strike) > abs(by_swing)
    if mostly_struck and by_swing * total > 0 and by_strike * total > 0:
        return (
            f"{curved}, {distance(by_strike, units)} of it because of {struck}{gear}, and the rest because the "
            f"face was {state}."
        )
    if swing_tells and (by_swing > 0) == (total > 0):
        curve = f"{curved} because the face was {state}{tilted if not strike_tells else ''}."
        if strike_tells and (by_strike > 0) == (total > 0):
            curve += f" {sentence(struck)} added {distance(by_strike, units)} of that{gear}."
        elif strike_tells:
            curve += f" Against that, {struck} took off {distance(by_strike, units)}{gear}."
        return curve
    if strike_tells and swing_tells:
        return (
            f"{curved} although the face was {state}, which alone would have curved it {aside(by_swing, units)}: "
            f"{struck} outweighed it by curving the ball {aside(by_strike, units)}{gear}."
        )
    if strike_tells:
        return f"{curved} because of {struck}{gear}; face and path alone would have curved it little."
    return f"{curved}{tilted}."


def _pattern(explained: Explained) -> str:
    """What players find odd: an in-to-out swing whose ball ends on either side."""
    hand, away = _hand(explained)
    path = away * (float(explained.level.club_path) - explained.aim)
    curve, by_swing = away * explained.curve.total, away * (explained.curve.face + explained.curve.path)
    start = away * (float(explained.shot.launch.launch_direction) - explained.aim)
    apart, _ = _open_to_path(explained)
    out, back = ("right", "left") if hand == "right" else ("left", "right")
    if path < 0.5 * deg:
        return ""
    if curve < -SMALL and by_swing < -SMALL:
        return (
            "In-to-out and still a draw or hook: the path does not decide where the ball ends. The ball starts "
            "near the "
            f"face and curves away from the path; a face {angle(apart)} {back} of the path curves it {back}."
        )
    if start >= 0.5 * deg and away * explained.shot.offline > SMALL and curve > -SMALL:
        near = abs(apart) < 0.25 * deg
        never = "the face looked along it" if near else f"the face looked {angle(apart)} {side(apart)} of it"
        return (
            f"In-to-out, and it started {out} and stayed {out}: to come back it would need a face closed to the "
            f"path, and {never}."
        )
    return ""


def _say_wind(explained: Explained, units: System) -> str:
    if abs(explained.wind.total) < SMALL:
        return ""
    return f"The wind drifted it {aside(explained.wind.total, units)}."


def against_reference(explained: Explained, units: System) -> str:
    """How much farther than the reference the shot carried, and how sure that is: ``12.3 ± 0.6 yd farther``."""
    shot = explained.shot
    longer = shot.carry - explained.reference_carry
    carried = _told(longer, units)
    if carried.is_zero:
        return "as far"
    on_level = Terrain(shot.terrain.tee_height)
    other = play(explained.reference, shot.club, ball=shot.ball, terrain=on_level, impact=shot.impact_model)
    apart = difference(abs(carried), "carry", "m", units, shot, other)
    return f"{apart} {'farther' if carried.value > 0 else 'shorter'}"


def ledger(explained: Explained, units: System) -> list[str]:
    """Carry and offline against the reference, cause by cause."""
    lengths = ", ".join(_say_share(s, with_sign, units) for s in _telling(explained.carry)) or "no cause tells"
    sides = ", ".join(_say_share(s, aside, units) for s in _telling(explained.offline)) or "no cause tells"
    came, ended = (_say_landing(x, units) for x in (explained.shot.offline, explained.reference_offline))
    return [
        f"Against the reference ({reference(explained, units)}), which carries "
        f"{distance(explained.reference_carry, units)}, it carried {against_reference(explained, units)}: "
        f"{lengths}.",
        f"Sideways the reference comes down {ended}, the shot {came}: {sides}.",
    ]


def _say_landing(x: float, units: System) -> str:
    return phrases.beside(x, "carry", "m", units)


def _telling(shares: tuple[Share, ...]) -> list[Share]:
    """The shares worth telling, largest first: those that count, and those that count in some order."""
    telling = [s for s in shares if abs(s.share) >= SMALL or s.most - s.least >= 6 * SMALL]
    return sorted(telling, key=lambda s: -abs(s.share))


def _say_share(share: Share, amount: Callable[[float, System], str], units: System) -> str:
    words = f"{share.cause} {amount(share.share, units)}"
    if share.together:
        low, high = (amount(x, units) for x in (share.least, share.most))
        if amount is aside and abs(share.most) < abs(share.least):
            low, high = high, low
        words += f" together with {share.partner} (between {low} and {high}, depending on the other causes)"
    return words


def reference(explained: Explained, units: System) -> str:
    """The reference in a few words."""
    of = explained.reference
    club = explained.shot.club.name if explained.shot.club is not None else "club"
    numbers = [
        f"{club}, {text(float(of.clubhead_speed), 'clubhead_speed', 'm/s', units)}",
        f"attack {text(float(of.attack_angle), 'attack_angle', 'rad', units)}",
        f"loft {text(float(of.dynamic_loft), 'dynamic_loft', 'rad', units)} at impact",
    ]
    line = "the target" if not seen(explained.aim) else "the body's line"
    square = not any(seen(float(x) - explained.aim) for x in (of.club_path, of.face_angle))
    numbers.append(f"square to {line}" if square else "with a face and path of its own")
    numbers.append(_say_strike_place(of, units))
    wet = 0.0 if explained.shot.club is None else float(explained.shot.club.face_wetness)
    if wet > 0.0:
        numbers.append(f"the face {100 * wet:.0f} % wet")
    return ", ".join([*numbers, "still standard air, level ground"])


def _say_strike_place(of: Delivery, units: System) -> str:
    """Where on the face a reference is struck."""
    high = float(of.strike_high)
    if of.strike_toe:
        return "struck off the centre"
    if high == 0.0:
        return "struck in the centre"
    where = "above" if high > 0 else "below"
    return f"struck {text(abs(high), 'strike_high', 'm', units)} {where} the centre"


def causes_table(explained: Explained, units: System) -> list[list[str]]:
    """Both ledgers, cause by cause: headings, then rows; distances without the unit that their heading wears."""
    unit = "yd" if units == "yards" else "m"

    def more(x: float) -> str:
        return _told(x, units).bare_with_sign

    def off(x: float) -> str:
        return bare_aside(_told(x, units))

    def span(share: Share) -> str:
        low, high = more(share.least), more(share.most)
        return "" if low == high else f"{low} to {high}"

    def span_aside(share: Share) -> str:
        low, high = (_told(x, units) for x in (share.least, share.most))
        if low == high:
            return ""
        one_side = low.value * high.value > 0
        return f"{abs(low).bare if one_side else bare_aside(low)} to {bare_aside(high)}"

    def ends(name: str, carry: float, offline: float) -> list[str]:
        return [name, abs(_told(carry, units)).bare, "", off(offline), ""]

    rows = [
        [c.cause, more(c.share), span(c), off(o.share), span_aside(o)]
        for c, o in zip(explained.carry, explained.offline, strict=True)
        if any((c.share, c.least, c.most, o.share, o.least, o.most))
    ]
    return [
        ["against the reference", f"carry, {unit}", "by the order", f"side, {unit}", "by the order"],
        ends("the reference", explained.reference_carry, explained.reference_offline),
        *rows,
        ends("the shot", explained.shot.carry, explained.shot.offline),
    ]


def order_table(explained: Explained, units: System) -> list[list[str]]:
    """Start line, curve and wind: headings, then rows."""
    unit = "yd" if units == "yards" else "m"
    rows = [["sideways, " + unit, "face", "path", "strike, stance", "a square shot", "together"]]
    for name, of in (("start line", explained.start), ("curve", explained.curve), ("wind", explained.wind)):
        parts = (of.face, of.path, of.strike_and_stance, of.square, of.total)
        rows.append([name, *(bare_aside(_told(x, units)) for x in parts)])
    return rows


def nudges_table(explained: Explained, units: System) -> list[list[str]]:
    """One change at a time: headings, then rows."""
    rows = [["one change alone", "carry", "sideways"]]
    for nudge in explained.nudges:
        amounts = (with_sign(nudge.carry, units), aside(nudge.offline, units))
        rows.append([nudge.change, *(("misses the face", "") if math.isnan(nudge.carry) else amounts)])
    return rows


def say_nudges(explained: Explained, units: System) -> str:
    """One change at a time."""
    parts = [
        f"{n.change}: {with_sign(n.carry, units)} of carry and {aside(n.offline, units)}"
        for n in explained.nudges
        if not math.isnan(n.carry)
    ]
    return "One change alone, everything else kept, would have changed: " + "; ".join(parts) + "."


def say_replay(explained: Explained, change: str, shot: Shot, units: System) -> str:
    """What a change would have made of the shot."""
    if shot.status != "ok":
        return f"With {change}: {STATUS_WORDS[shot.status]}."
    more = _told(shot.carry - explained.shot.carry, units)
    farther = more.text
    if not more.is_zero:
        farther = difference(more, "carry", "m", units, shot, explained.shot, sign=True)
    return (
        f"With {change} it would have started {pointing(float(shot.launch.launch_direction))}, carried "
        f"{distance(shot.carry, units)} ({farther}) and come down {_say_landing(shot.offline, units)}, "
        f"{aside(shot.offline - explained.shot.offline, units)} of where it did."
    )


def notes(explained: Explained) -> list[str]:
    """What to know about the replays."""
    lines = []
    if explained.grounded:
        lines.append(
            f"{explained.grounded} of the {counted(explained.replays, 'replay')} never left the ground; they count "
            "with a carry of 0."
        )
    return lines


def as_html(explained: Explained) -> str:
    """Both ledgers as a table for notebooks, in yards."""
    groups = {
        "start and curve": [
            (name, aside(part.total, "yards"))
            for name, part in (
                ("start line", explained.start),
                ("curve", explained.curve),
                ("wind", explained.wind),
            )
        ],
        "causes of carry": [(s.cause, with_sign(s.share, "yards")) for s in explained.carry if s.share],
        "causes of offline": [(s.cause, aside(s.share, "yards")) for s in explained.offline if s.share],
        "one change alone": [
            (n.change, f"{with_sign(n.carry, 'yards')} of carry, {aside(n.offline, 'yards')}")
            for n in explained.nudges
        ],
    }
    return html_table({name: lines for name, lines in groups.items() if lines})
