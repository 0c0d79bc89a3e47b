"""Why a shot went where it went, in a player's words. A term of the trade comes with its meaning."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from .quantities import System, text
from .units import deg, mm
from .values import html_table
from .words import NOTICED as SEEN
from .words import side

if TYPE_CHECKING:
    from .explain import Explained, Look, Share, Sideways
    from .swing import Delivery

#: Distances under this are told as small, m.
SMALL = 0.45
GEAR = (
    "gear effect: struck off its centre the head turns, and like one gear on another spins the ball the other way"
)


def of_shot(told: Explained, units: System = "yards") -> str:
    """All paragraphs: what happened and why, the ledger, one change at a time, and what else was asked."""
    return "\n".join([*story(told, units), *ledger(told, units), nudged(told, units), *notes(told)])


def story(told: Explained, units: System) -> list[str]:
    """How the ball started, curved and drifted, why, and what plane and turf say."""
    paragraphs = [_aimed(told), _started(told), _curved(told, units), _pattern(told), _blown(told, units)]
    if told.look is not None:
        paragraphs.append(of_look(told.look))
    if told.ground is not None:
        paragraphs.append(_met(told, units))
    return [paragraph for paragraph in paragraphs if paragraph]


def angle(x: float) -> str:
    """An angle without its sign."""
    return f"{abs(x) / deg:.1f}°"


def pointing(x: float, of: str = "the target") -> str:
    """Where something points: ``4.0° left of the target``."""
    return f"{angle(x)} {side(x)} of {of}" if abs(x) >= SEEN else f"at {of}"


def distance(x: float, units: System) -> str:
    """A distance without its sign."""
    return text(abs(x), "carry", "m", units)


def aside(x: float, units: System) -> str:
    """A sideways distance: ``3.2 yd left``."""
    amount = distance(x, units)
    return amount if amount.startswith("0.0 ") else f"{amount} {side(x)}"


def signed(x: float, units: System) -> str:
    """A change of distance with its sign."""
    amount = distance(x, units)
    return amount if amount.startswith("0.0 ") else f"{'+' if x > 0 else '−'}{amount}"


def _hand(told: Explained) -> tuple[str, float]:
    hand = "right" if told.shot.club is None else told.shot.club.hand
    return hand, 1.0 if hand == "right" else -1.0


def _line(told: Explained) -> str:
    """What face and path are told against."""
    return "the target" if abs(told.aim) < SEEN else "the body's line"


def _delivery(told: Explained) -> Delivery:
    assert told.shot.delivery is not None
    return told.shot.delivery


def _aimed(told: Explained) -> str:
    if abs(told.aim) < SEEN:
        return ""
    return (
        f"The body was aimed {pointing(told.aim)}. Face and path are told against that line, so that the aim is not "
        "read as a fault of the swing."
    )


def _shape(told: Explained) -> str:
    """In-to-out or out-to-in, against the body's line."""
    _, away = _hand(told)
    path = away * (float(told.level.club_path) - told.aim)
    return "" if abs(path) < SEEN else " (in-to-out)" if path > 0 else " (out-to-in)"


def _struck(told: Explained) -> str:
    """Where on the face, and on what stance; empty for a centred strike on the level."""
    hit = _delivery(told)
    parts = []
    for x, more, less in ((hit.strike_toe, "toward the toe", "toward the heel"), (hit.strike_high, "high", "low")):
        if abs(float(x)) >= 0.5 * mm:
            parts.append(f"{abs(float(x)) / mm:.0f} mm {more if x > 0 else less}")
    struck = ["the strike " + " and ".join(parts)] if parts else []
    if abs(float(hit.lie_tilt)) >= SEEN:
        struck.append(f"the toe {angle(float(hit.lie_tilt))} {'up' if hit.lie_tilt > 0 else 'down'}")
    if abs(told.uphill) >= SEEN:
        struck.append(f"the {angle(told.uphill)} {'uphill' if told.uphill > 0 else 'downhill'} stance")
    return " with ".join(struck)


def _reasons(told: Explained, of: Sideways) -> list[tuple[float, str]]:
    """What made a sideways distance, largest first; small parts left out."""
    face, path = float(told.level.face_angle) - told.aim, float(told.level.club_path) - told.aim
    line = _line(told)
    club = told.shot.club
    bulged = club is not None and math.isfinite(float(club.bulge_radius)) and bool(_delivery(told).strike_toe)
    how = ", where the face's bulge looks that way" if bulged else ""
    reasons = [
        (of.square, f"the body was aimed {pointing(told.aim)}" if told.aim else "the club sent it there"),
        (of.strike_and_stance, f"{_struck(told)} sent it {side(of.strike_and_stance)}{how}"),
        (of.face, f"the face pointed {pointing(face, line)}"),
        (of.path, f"the clubhead was travelling {pointing(path, line)}{_shape(told)}"),
    ]
    told_from = max(SMALL, 0.1 * max(abs(x) for x, _ in reasons))
    return sorted((r for r in reasons if abs(r[0]) >= told_from), key=lambda r: -abs(r[0]))


def _started(told: Explained) -> str:
    launch = float(told.shot.launch.launch_direction)
    reasons = _reasons(told, told.start)
    if abs(launch) < SEEN:
        why = " and ".join(words for _, words in reasons)
        return f"It started at the target: {why}, which cancelled." if why else "It started at the target."
    toward = [words for x, words in reasons if (x > 0) == (launch > 0)]
    against = [words for x, words in reasons if (x > 0) != (launch > 0)]
    sentence = f"It started {pointing(launch)}"
    if toward:
        sentence += f" because {' and '.join(toward)}"
    if against:
        sentence += f"; against that, {' and '.join(against)}"
    hit, impact = _delivery(told), told.shot.impact
    apart = abs(float(hit.face_angle - hit.club_path))
    if impact is not None and apart >= 0.5 * deg and not (hit.strike_toe or hit.strike_high):
        share = 100 * float(impact.start_fraction)
        sentence += (
            f". A ball starts nearer the face than the path: here {share:.0f} % of the way from path to face"
        )
    return sentence + "."


def _open_to_path(told: Explained) -> tuple[float, str]:
    """The angle from path to face, and what that makes the face."""
    hand, away = _hand(told)
    apart = float(told.level.face_angle) - float(told.level.club_path)
    state = "open" if away * apart > 0 else "closed"
    return apart, f"{angle(apart)} {state} to the path (it looked {side(apart)} of where the clubhead was going)"


def _curved(told: Explained, units: System) -> str:
    total, by_swing = told.curve.total, told.curve.face + told.curve.path
    by_strike = told.curve.strike_and_stance
    apart, state = _open_to_path(told)
    struck, tilt = _struck(told), float(told.shot.launch.spin_axis_tilt)
    tilted = f", which tilted the axis the ball spins about {angle(tilt)} to the {side(tilt)}"
    gear = f" ({GEAR})" if _delivery(told).strike_toe or _delivery(told).strike_high else ""
    swing_tells, strike_tells = abs(by_swing) >= SMALL, abs(by_strike) >= SMALL and bool(struck)
    if abs(total) < SMALL:
        if swing_tells and strike_tells:
            return (
                f"It flew almost straight: the face, {state}, would have curved it {aside(by_swing, units)}, and "
                f"{struck} {aside(by_strike, units)}{gear}; they cancelled."
            )
        return f"It flew almost straight: the face was within {angle(max(abs(apart), SEEN))} of the path."
    curved = f"It curved {aside(total, units)}"
    if swing_tells and (by_swing > 0) == (total > 0):
        sentence = f"{curved} because the face was {state}{tilted if not strike_tells else ''}."
        if strike_tells and (by_strike > 0) == (total > 0):
            sentence += f" {_sentence(struck)} added {distance(by_strike, units)} of that{gear}."
        elif strike_tells:
            sentence += f" Against that, {struck} took off {distance(by_strike, units)}{gear}."
        return sentence
    if strike_tells and swing_tells:
        return (
            f"{curved} although the face was {state}, which alone would have curved it {aside(by_swing, units)}: "
            f"{struck} outweighed it by curving the ball {aside(by_strike, units)}{gear}."
        )
    if strike_tells:
        return f"{curved} because of {struck}{gear}; face and path alone would have curved it little."
    return f"{curved}{tilted}."


def _sentence(words: str) -> str:
    return words[:1].upper() + words[1:]


def _pattern(told: Explained) -> str:
    """What players find odd: an in-to-out swing whose ball ends on either side."""
    hand, away = _hand(told)
    path = away * (float(told.level.club_path) - told.aim)
    curve, by_swing = away * told.curve.total, away * (told.curve.face + told.curve.path)
    start = away * (float(told.shot.launch.launch_direction) - told.aim)
    apart, _ = _open_to_path(told)
    out, back = ("right", "left") if hand == "right" else ("left", "right")
    if path < 0.5 * deg:
        return ""
    if curve < -SMALL and by_swing < -SMALL:
        return (
            f"In-to-out and still a draw or hook: the path does not decide where the ball ends. The ball starts near "
            f"the face and curves away from the path; a face {angle(apart)} {back} of the path curves it {back}."
        )
    if start >= 0.5 * deg and away * told.shot.offline > SMALL and curve > -SMALL:
        never = (
            "the face looked along the path" if abs(apart) < 0.5 * deg else f"the face looked {side(apart)} of it"
        )
        return (
            f"In-to-out, and it started {out} and stayed {out}: a draw needs a face closed to the path, and {never}, so "
            f"nothing curved it back."
        )
    return ""


def _blown(told: Explained, units: System) -> str:
    if abs(told.wind.total) < SMALL:
        return ""
    return f"The wind drifted it {aside(told.wind.total, units)}."


def ledger(told: Explained, units: System) -> list[str]:
    """Carry and offline against the reference, cause by cause."""
    longer = told.shot.carry - told.reference_carry
    against = (
        f"Against the reference ({reference(told, units)}), which carries {distance(told.reference_carry, units)}"
    )
    lengths = ", ".join(_told_share(s, units, signed) for s in _telling(told.carry)) or "nothing tells"
    sides = ", ".join(_told_share(s, units, aside) for s in _telling(told.offline)) or "nothing tells"
    reached = aside(told.shot.offline, units)
    ended = aside(told.reference_offline, units)
    return [
        f"{against}, it carried {signed(longer, units)}: {lengths}.",
        f"It came down {reached} of the target line; the reference {ended}. Of the difference: {sides}."
        if not reached.startswith("0.0 ")
        else f"It came down on the target line; the reference {ended}. Between them: {sides}.",
    ]


def _telling(shares: tuple[Share, ...]) -> list[Share]:
    """The shares worth telling, largest first."""
    return sorted((s for s in shares if max(abs(s.share), s.most, -s.least) >= SMALL), key=lambda s: -abs(s.share))


def _told_share(share: Share, units: System, amount: object) -> str:
    assert callable(amount)
    words = f"{share.cause} {amount(share.share, units)}"
    if share.together:
        ends = f"{amount(share.least, units)} to {amount(share.most, units)}"
        words += f" together with {share.partner} ({ends}, depending on what else is already there)"
    return words


def reference(told: Explained, units: System) -> str:
    """The reference in a few words."""
    of = told.reference
    club = told.shot.club.name if told.shot.club is not None else "club"
    numbers = [
        f"{club}, {text(float(of.clubhead_speed), 'clubhead_speed', 'm/s', units)}",
        f"attack {text(float(of.attack_angle), 'attack_angle', 'rad', units)}",
        f"loft {text(float(of.dynamic_loft), 'dynamic_loft', 'rad', units)} at impact",
    ]
    line = "the target" if abs(told.aim) < SEEN else "the body's line"
    square = abs(of.club_path - told.aim) < SEEN and abs(of.face_angle - told.aim) < SEEN
    numbers.append(f"square to {line}" if square else "with a face and path of its own")
    numbers.append("struck in the centre" if not (of.strike_toe or of.strike_high) else "struck off the centre")
    return ", ".join([*numbers, "still standard air, level ground"])


def nudged(told: Explained, units: System) -> str:
    """One change at a time."""
    parts = [
        f"{n.change}: {signed(n.carry, units)} of carry and {aside(n.offline, units)}"
        for n in told.nudges
        if not math.isnan(n.carry)
    ]
    return "One change alone, everything else kept, would have changed: " + "; ".join(parts) + "."


def notes(told: Explained) -> list[str]:
    """What to know about the replays."""
    lines = []
    if told.grounded:
        lines.append(
            f"{told.grounded} of the {told.replays} replays never left the ground; they count as no carry."
        )
    return lines


ELSE = (
    "If it looks over the top all the same, something else makes it look so: hands or shaft leaving the plane early "
    "in the downswing, a body aimed elsewhere, or a camera off the target line"
)


def of_look(look: Look) -> str:
    """What the eye sees of a swing and what the numbers support."""
    away = 1.0 if look.hand == "right" else -1.0
    out = side(away)
    down = look.attack_angle < 0
    spread = abs(look.plane_range) >= SEEN
    bases = " to ".join(pointing(x).replace(" of the target", "") for x in look.base_range)
    assumed = f" ({bases} for a plane within ±{angle(look.plane_range)} of {angle(look.plane_inclination)})"
    hit_range = " to ".join(f"{x / deg:.1f}" for x in sorted(abs(x) for x in look.down_hit_range))
    lines = [
        f"The swing plane points {pointing(look.base_direction)}{assumed if spread else ''}: its base line is what "
        "the eye sees.",
    ]
    if abs(look.attack_angle) < SEEN:
        lines.append(f"Hitting level adds nothing to the path, which measures {pointing(look.path)}.")
    else:
        lines.append(
            f"Hitting {angle(look.attack_angle)} {'down' if down else 'up'} moves the path {angle(look.down_hit)} "
            f"to the {side(look.down_hit)} of it{f' ({hit_range}°)' if spread else ''}, so it measures "
            f"{pointing(look.path)}."
        )
    if abs(look.aim) >= SEEN:
        lines.append(_against_the_body(look))
    return " ".join([*lines, _verdict(look, away, out)])


def _against_the_body(look: Look) -> str:
    base, path = look.base_direction - look.aim, look.path - look.aim
    words = (
        f"The body is aimed {pointing(look.aim)}; against its line the plane points "
        f"{pointing(base, 'that line')} and the path goes {pointing(path, 'that line')}."
    )
    away = 1.0 if look.hand == "right" else -1.0
    if away * look.base_direction <= -SEEN and away * base > -SEEN:
        words += f" The plane points {side(look.base_direction)} because the body does: that is aim, no fault of the swing."
    return words


def _verdict(look: Look, away: float, out: str) -> str:
    path, down = away * (look.path - look.aim), away * look.down_hit
    condition = (
        f"A swing looks over the top and measures in-to-out (the clubhead moving {out} of the body's line) where the path lies between 0° and what "
        f"the downward hit adds: here {angle(down)}, and the path is {path / deg:.1f}°".replace("-", "−")
    )
    if look.supported == "yes":
        sure = " over the whole range of the plane" if look.plane_range >= SEEN else ""
        return f"{condition}. That holds{sure}: the downward hit makes the difference."
    if look.supported == "in part":
        return (
            f"{condition}. That holds over a part of the plane's range only: measure the plane before saying so. "
            f"{ELSE}."
        )
    if path < -SEEN:
        return f"{condition}. The numbers do not support it: the path is out-to-in, as an over-the-top swing's is."
    return f"{condition}. The numbers do not support it. {ELSE}."


def _met(told: Explained, units: System) -> str:
    """Thin, fat or clean, by height and by low point."""
    assert told.ground is not None and told.arc is not None
    arc, ground = told.arc, told.ground
    hand, _ = _hand(told)
    ahead, low = float(arc.low_point_ahead), float(arc.low_point_height)
    edge = float(arc.at_ball("left" if hand == "left" else "right").edge_height)
    where = f"{text(abs(ahead), 'low_point_ahead', 'm', units)} {'ahead of' if ahead > 0 else 'behind'} the ball"
    deep = f"{abs(low) / mm:.1f} mm {'above' if low > 0 else 'below'} the turf"
    place = f"The low point lies {where}, {deep}."
    if ground.contact == "fat":
        entry = text(abs(ground.turf_entry), "turf_entry", "m", units)
        words = f"Fat: the sole enters the turf {entry} behind the ball. {place} "
        if ahead <= 0:
            return (
                words + "That is fat by the low point, which should lie ahead of the ball: the club is already "
                f"rising when it gets there.{_and_height(edge)} {TURF}"
            )
        return (
            words + f"The low point is ahead of the ball, so it is fat by height: the club comes in "
            f"{max(-edge, 0.0) / mm:.1f} mm too low at the ball. {TURF}"
        )
    if ground.contact == "thin":
        rise = edge - low
        words = f"Thin: the ball meets the face {abs(ground.strike_high) / mm:.0f} mm below its centre. {place} "
        if ahead < 0 and rise > max(low, 0.0):
            return (
                words
                + f"That is thin by the low point: behind it the club has risen {rise / mm:.1f} mm by the ball."
            )
        return words + f"That is thin by height: the leading edge is {edge / mm:.1f} mm above the turf at the ball."
    return f"Clean: no turf before the ball, which meets the face {abs(ground.strike_high) / mm:.0f} mm {'above' if ground.strike_high > 0 else 'below'} its centre by these heights. {place}"


TURF = "What the turf does to the head is not modelled: play it with the speed that is left."


def _and_height(edge: float) -> str:
    return f" It also comes in {-edge / mm:.1f} mm low." if edge < -0.5 * mm else ""


def as_html(told: Explained) -> str:
    """Both ledgers as a table for notebooks, in yards."""
    groups = {
        "start and curve": [
            (name, aside(part.total, "yards"))
            for name, part in (("start line", told.start), ("curve", told.curve), ("wind", told.wind))
        ],
        "causes of carry": [(s.cause, signed(s.share, "yards")) for s in told.carry if s.share],
        "causes of offline": [(s.cause, aside(s.share, "yards")) for s in told.offline if s.share],
        "one change alone": [
            (n.change, f"{signed(n.carry, 'yards')} of carry, {aside(n.offline, 'yards')}") for n in told.nudges
        ],
    }
    return html_table({name: lines for name, lines in groups.items() if lines})
