"""Phrases that several views share."""

from __future__ import annotations

from ..core.quantity import System, text
from ..core.value import Number
from ..questions.swing_plane import SEEN
from ..row.ground import Turf, turfs
from ..units import deg


def side(x: float) -> str:
    """The side of a sideways number: positive is right."""
    return "right" if x > 0 else "left"


def beside(x: Number, name: str, si: str, units: System) -> str:
    """How far beside the target line something is: ``3.2 yd left of the target line``."""
    amount = text(abs(float(x)), name, si, units)
    return "on the target line" if amount.startswith("0.0") else f"{amount} {side(float(x))} of the target line"


def on_turf(turf: Turf) -> str:
    """A turf of the set is *the* firm fairway; a user's own has its own name."""
    return f"On the {turf.name}" if turf.name == "green" or turf.name in turfs else f"On {turf.name}"


def angle(x: float) -> str:
    """An angle without its sign."""
    return f"{abs(x) / deg:.1f}°"


def pointing(x: float, of: str = "the target") -> str:
    """Where something points: ``4.0° left of the target``."""
    return f"{angle(x)} {side(x)} of {of}" if abs(x) >= SEEN else f"at {of}"


def minus(x: float) -> str:
    """An angle with its sign where it is negative."""
    return f"{'−' if x <= -SEEN else ''}{angle(x)}"


def sentence(words: str) -> str:
    """Words as a sentence begins: with a capital."""
    return words[:1].upper() + words[1:]
