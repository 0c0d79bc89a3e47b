"""What a swing's plane, turf and ball position say, in a player's words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..core.quantity import System, said, text
from ..units import mm
from .phrases import along, angle, beside, minus, moves_path, on_face, pointing, seen, side

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
    spread = seen(look.plane_range)
    bases = " to ".join(pointing(x).replace(" of the target", "") for x in sorted(look.base_range, key=abs))
    assumed = f" ({bases} for a plane within ±{angle(look.plane_range)} of {angle(look.plane_inclination)})"
    lines = [
        f"The swing plane points {pointing(look.base_direction)}{assumed if spread else ''}: its base line is what "
        "the eye sees."
    ]
    hitting = f"Hitting {angle(look.attack_angle)} {'down' if look.attack_angle < 0 else 'up'}"
    if not seen(look.attack_angle):
        lines.append(f"Hitting level adds nothing to the path, which measures {pointing(look.path)}.")
    elif not seen(look.down_hit):
        lines.append(f"{hitting} {moves_path(look.down_hit)}, which measures {pointing(look.path)}.")
    else:
        ends = " to ".join(angle(x) for x in sorted(look.down_hit_range, key=abs))
        lines.append(
            f"{hitting} {moves_path(look.down_hit)} of it{f' ({ends} over that range)' if spread else ''}, so it "
            f"measures {pointing(look.path)}."
        )
    if seen(look.aim):
        lines.append(_against_the_body(look))
    return " ".join([*lines, _verdict(look)])


def _against_the_body(look: Look) -> str:
    base, path = look.base_direction - look.aim, look.path - look.aim
    words = (
        f"The body is aimed {pointing(look.aim)}; against its line the plane points {pointing(base, 'it')} and the "
        f"path goes {pointing(path, 'it') if seen(path) else 'along it'}."
    )
    pulled = look.away * look.base_direction < 0 and seen(look.base_direction)
    if pulled and not (look.away * base < 0 and seen(base)):
        words += f" The plane points {side(look.base_direction)} because the body does: that is aim, not the swing."
    return words


def _verdict(look: Look) -> str:
    path, down = look.away * (look.path - look.aim), look.away * look.down_hit
    out = side(look.away)
    condition = (
        f"A swing looks over the top and measures in-to-out (the clubhead going {out} of the "
        f"{'body' if seen(look.aim) else 'target'} line) where the path lies between 0° and what a "
        f"downward hit adds: "
        + (
            f"here {minus(down)}, and the path is {minus(path)}."
            if down > 0 and seen(down)
            else "here the hit is not downward."
        )
    )
    if look.supported == "yes":
        sure = " over the whole range of the plane" if seen(look.plane_range) else ""
        return f"{condition} That is so here{sure}: the downward hit makes the difference."
    if look.supported == "in part":
        return (
            f"{condition} That is so over a part of the plane's range only: measure the plane before "
            f"saying so. {ELSE}"
        )
    if path < 0 and seen(path):
        return f"{condition} That is not so here: the path is out-to-in, as over-the-top swings measure."
    return f"{condition} That is not so here. {ELSE}"


def say_contact(ground: GroundStrike, arc: SwingArc, units: System) -> str:
    """Thin, fat or clean, by height and by low point."""
    ahead, low = float(arc.low_point_ahead), float(arc.low_point_height)
    edge = float(arc.at_ball().edge_height)
    place = f"The low point lies {along(ahead, units)}, {_over_turf(low)}."
    high = up_the_face(float(ground.strike_high))
    if ground.contact == "fat":
        return f"{_fat(ground, edge, ahead, low, place, units)} {TURF}"
    if ground.contact == "thin":
        words = f"Thin: by these heights the ball meets the face {high}. {place}"
        if ahead < 0 and edge - low > max(low, 0.0):
            rise = _height(edge - low)
            return f"{words} That is thin by the low point: past it the club has risen {rise} by the ball."
        return f"{words} That is thin by height: the leading edge is {_height(edge)} above the turf at the ball."
    return f"Clean: no turf before the ball, which by these heights meets the face {high}. {place}"


def up_the_face(x: float) -> str:
    """How high a strike is on the face."""
    off = on_face(x)
    return "at its centre" if off.is_zero else f"{abs(off)} {'above' if off.value > 0 else 'below'} its centre"


def _height(x: float) -> str:
    return text(x, "edge_height", "m")


def _over_turf(height: float) -> str:
    told = said(height, "edge_height", "m")
    return "level with the turf" if told.is_zero else f"{abs(told)} {'above' if height > 0 else 'below'} the turf"


def _fat(ground: GroundStrike, edge: float, ahead: float, low: float, place: str, units: System) -> str:
    entry = text(abs(ground.turf_entry), "turf_entry", "m", units)
    deep = float(ground.divot_depth) + low - edge  # of the sole at the ball
    words = f"Fat: the sole enters the turf {entry} behind the ball. {place}"
    if ahead <= 0:
        also = f" It also comes in {_height(deep)} low at the ball." if deep > 0.5 * mm else ""
        return (
            f"{words} That is fat by the low point: off the turf it should lie ahead of the ball, and here the "
            f"club is already rising at the ball.{also}"
        )
    return (
        f"{words} That is ahead of the ball, so it is fat by height: the sole is {_height(deep)} too low at "
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
        change = said(shot.carry - moved.shot.carry, "carry", "m", units)
        lines.append(
            f"With {words}: attack {minus(float(hit.attack_angle))}, path {pointing(float(hit.club_path))}, face "
            f"{pointing(float(hit.face_angle))}, loft {minus(float(hit.dynamic_loft))}; {strike.contact} "
            f"contact. It carries {text(shot.carry, 'carry', 'm', units)} ({change.with_sign}), starts "
            f"{pointing(float(shot.launch.launch_direction))} "
            f"and comes down {beside(shot.offline, 'carry', 'm', units)}."
        )
    contacts = {moved.turning_met.contact, moved.held_met.contact} - {"clean"}
    if "fat" in contacts:
        lines.append(f"Fat strikes are played with the speed before the turf. {TURF}")
    return " ".join(lines)
