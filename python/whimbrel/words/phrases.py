"""Phrases that several views share."""

from __future__ import annotations

from ..core.quantity import BY_SYMBOL, Said, System, rounded, said
from ..core.value import Number
from ..row.ground import Turf, turfs
from ..units import mm


def side(x: float) -> str:
    """The side of a sideways number: positive is right."""
    return "right" if x > 0 else "left"


def aside(amount: Said) -> str:
    """A sideways amount with its side, which none has: ``3.2 yd left``."""
    return amount.text if amount.is_zero else f"{abs(amount)} {side(amount.value)}"


def bare_aside(amount: Said) -> str:
    """The same without its unit: ``3.2 left``."""
    return amount.bare if amount.is_zero else f"{abs(amount).bare} {side(amount.value)}"


def beside(x: Number, name: str, si: str, units: System, of: str = " of the target line") -> str:
    """How far beside the target line something is: ``3.2 yd left of the target line``."""
    amount = said(float(x), name, si, units)
    return "on the target line" if amount.is_zero else f"{aside(amount)}{of}"


def along(x: float, units: System, of: str = " the ball") -> str:
    """Where something lies along the target line from the ball: ``1.20 in ahead of the ball``."""
    amount = said(x, "low_point_ahead", "m", units)
    if amount.is_zero:
        return "at the ball"
    return f"{abs(amount)} {('ahead of' if of else 'ahead') if amount.value > 0 else 'behind'}{of}"


def on_turf(turf: Turf) -> str:
    """A turf of the set is *the* firm fairway; a user's own has its own name."""
    return f"On the {turf.name}" if turf.name == "green" or turf.name in turfs else f"On {turf.name}"


def on_face(x: float) -> Said:
    """How far from the centre of the face, as it is told: in whole millimetres."""
    return rounded(x / mm, BY_SYMBOL["mm"], 0)


def degrees(x: float) -> Said:
    """An angle as it is told."""
    return said(x, "angle", "rad")


def seen(x: float) -> bool:
    """Whether an angle reads as more than none."""
    return not degrees(x).is_zero


def angle(x: float) -> str:
    """An angle without its sign."""
    return abs(degrees(x)).text


def pointing(x: float, of: str = "the target") -> str:
    """Where something points: ``4.0° left of the target``."""
    return f"{aside(degrees(x))} of {of}" if seen(x) else f"at {of}"


def moves_path(x: float) -> str:
    """What a hit up or down does to the path: ``moves the path 2.1° to the right``."""
    return f"moves the path {angle(x)} to the {side(x)}" if seen(x) else "does not move the path"


def minus(x: float) -> str:
    """An angle with its sign where it is negative."""
    return degrees(x).text


def sentence(words: str) -> str:
    """Words as a sentence begins: with a capital."""
    return words[:1].upper() + words[1:]
