"""What a swing's plane, turf and ball position say, in a player's words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..core.quantity import System, text
from ..questions.swing_plane import SEEN
from ..units import mm
from .phrases import angle, minus, pointing, side

if TYPE_CHECKING:
    from ..questions.swing_plane import BallMoved, Look
    from ..row.arc import GroundStrike, SwingArc

TURF = "What the turf does to the head is not modelled: play it with the speed that is left."
ELSE = (
    "If it still looks over the top, something else causes it: hands or shaft leaving the plane "
    "early in the downswing, a body aimed elsewhere, or a camera off the target line."
)


def of_look(look: Look) -> str:
    """What the eye sees of a swing and what the numbers support."""
    spread = look.plane_range >= SEEN
    bases = " to ".join(pointing(x).replace(" of the target", "") for x in sorted(look.base_range, key=abs))
    assumed = f" ({bases} for a plane within ±{angle(look.plane_range)} of {angle(look.plane_inclination)})"
    lines = [
        f"The swing plane points {pointing(look.base_direction)}{assumed if spread else ''}: its base line is what "
        "the eye sees."
    ]
    if abs(look.attack_angle) < SEEN:
        lines.append(f"Hitting level adds nothing to the path, which measures {pointing(look.path)}.")
    else:
        ends = " to ".join(angle(x) for x in sorted(look.down_hit_range, key=abs))
        lines.append(
            f"Hitting {angle(look.attack_angle)} {'down' if look.attack_angle < 0 else 'up'} moves the path "
            f"{angle(look.down_hit)} to the {side(look.down_hit)} of "
            f"it{f' ({ends} over that range)' if spread else ''},"
            f" so it measures {pointing(look.path)}."
        )
    if abs(look.aim) >= SEEN:
        lines.append(_against_the_body(look))
    return " ".join([*lines, _verdict(look)])


def _against_the_body(look: Look) -> str:
    base, path = look.base_direction - look.aim, look.path - look.aim
    words = (
        f"The body is aimed {pointing(look.aim)}; against its line the plane points {pointing(base, 'it')} and the "
        f"path goes {pointing(path, 'it') if abs(path) >= SEEN else 'along it'}."
    )
    if look.away * look.base_direction <= -SEEN and look.away * base > -SEEN:
        words += f" The plane points {side(look.base_direction)} because the body does: that is aim, not the swing."
    return words


def _verdict(look: Look) -> str:
    path, down = look.away * (look.path - look.aim), look.away * look.down_hit
    out = side(look.away)
    condition = (
        f"A swing looks over the top and measures in-to-out (the clubhead going {out} of the "
        f"{'target' if abs(look.aim) < SEEN else 'body'} line) where the path lies between 0° and what a "
        f"downward hit adds: "
        + (
            f"here {minus(down)}, and the path is {minus(path)}."
            if down >= SEEN
            else "here the hit is not downward."
        )
    )
    if look.supported == "yes":
        sure = " over the whole range of the plane" if look.plane_range >= SEEN else ""
        return f"{condition} That is so here{sure}: the downward hit makes the difference."
    if look.supported == "in part":
        return (
            f"{condition} That is so over a part of the plane's range only: measure the plane before "
            f"saying so. {ELSE}"
        )
    if path <= -SEEN:
        return f"{condition} That is not so here: the path is out-to-in, as over-the-top swings measure."
    return f"{condition} That is not so here. {ELSE}"


def say_contact(ground: GroundStrike, arc: SwingArc, units: System) -> str:
    """Thin, fat or clean, by height and by low point."""
    ahead, low = float(arc.low_point_ahead), float(arc.low_point_height)
    edge = float(arc.at_ball().edge_height)
    where = f"{text(abs(ahead), 'low_point_ahead', 'm', units)} {'ahead of' if ahead > 0 else 'behind'} the ball"
    place = f"The low point lies {where}, {_over_turf(low)}."
    high = up_the_face(float(ground.strike_high))
    if ground.contact == "fat":
        return f"{_fat(ground, edge, ahead, low, place, units)} {TURF}"
    if ground.contact == "thin":
        words = f"Thin: by these heights the ball meets the face {high}. {place}"
        if ahead < 0 and edge - low > max(low, 0.0):
            rise = f"{(edge - low) / mm:.1f} mm"
            return f"{words} That is thin by the low point: past it the club has risen {rise} by the ball."
        return f"{words} That is thin by height: the leading edge is {edge / mm:.1f} mm above the turf at the ball."
    return f"Clean: no turf before the ball, which by these heights meets the face {high}. {place}"


def up_the_face(x: float) -> str:
    """How high a strike is on the face."""
    where = f"{abs(x) / mm:.0f} mm {'above' if x > 0 else 'below'}"
    return f"{where} its centre" if abs(x) >= 0.5 * mm else "at its centre"


def _over_turf(height: float) -> str:
    return f"{abs(height) / mm:.1f} mm {'above' if height > 0 else 'below'} the turf"


def _fat(ground: GroundStrike, edge: float, ahead: float, low: float, place: str, units: System) -> str:
    entry = text(abs(ground.turf_entry), "turf_entry", "m", units)
    deep = float(ground.divot_depth) + low - edge  # of the sole at the ball
    words = f"Fat: the sole enters the turf {entry} behind the ball. {place}"
    if ahead <= 0:
        also = f" It also comes in {deep / mm:.1f} mm low at the ball." if deep > 0.5 * mm else ""
        return (
            f"{words} That is fat by the low point: off the turf it should lie ahead of the ball, and here the "
            f"club is already rising at the ball.{also}"
        )
    return (
        f"{words} That is ahead of the ball, so it is fat by height: the sole is {deep / mm:.1f} mm too low at "
        f"the ball. "
        f"Ball first would need an arc that much higher, or at the same depth a low point {entry} farther ahead."
    )


def of_ball_moved(moved: BallMoved, units: System) -> str:
    """The same swing, the ball elsewhere on it."""
    where = "forward" if moved.forward > 0 else "back"
    far = text(abs(moved.forward), "low_point_ahead", "m", units)
    lines = [f"The ball {far} {where} on the same arc, and nothing else changed:"]
    ways = (
        ("face and shaft turning with the arc", moved.turning, moved.turning_met),
        ("face and loft held by the hands", moved.held, moved.held_met),
    )
    for words, shot, strike in ways:
        hit = shot.delivery
        assert hit is not None
        change = shot.carry - moved.shot.carry
        lines.append(
            f"With {words}: attack {minus(float(hit.attack_angle))}, path {pointing(float(hit.club_path))}, face "
            f"{pointing(float(hit.face_angle))}, loft {minus(float(hit.dynamic_loft))}; {strike.contact} "
            f"contact. It carries {text(shot.carry, 'carry', 'm', units)} ({'+' if change > 0 else '−'}"
            f"{text(abs(change), 'carry', 'm', units)}), starts {pointing(float(shot.launch.launch_direction))} "
            f"and comes down {_offline(shot.offline, units)}."
        )
    contacts = {moved.turning_met.contact, moved.held_met.contact} - {"clean"}
    if "fat" in contacts:
        lines.append(f"Fat strikes are played with the speed before the turf. {TURF}")
    return " ".join(lines)


def _offline(x: float, units: System) -> str:
    amount = text(abs(x), "carry", "m", units)
    return "on the target line" if amount.startswith("0.0 ") else f"{amount} {side(x)} of the target line"
