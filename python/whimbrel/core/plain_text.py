"""Text as nothing but text: without what steers a terminal, and in the letters that an encoding has."""

from __future__ import annotations

import re
import unicodedata

#: Escape sequences, control characters but tab and new line, and marks that turn the direction of writing.
STEERING = re.compile(
    r"(?:\x1b\[|\x9b)[0-?]*[ -/]*[@-~]"
    r"|(?:\x1b[\]PX^_]|[\x90\x98\x9d-\x9f])[^\x07\x1b\x9c]*(?:\x07|\x1b\\|\x9c)"
    r"|[\x00-\x08\x0b-\x1f\x7f-\x9f\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069]"
)
#: How signs that an encoding lacks are written in ASCII.
SPELLED = {"°": " deg", "−": "-", "–": "-", "—": "-", "±": "+/-", "×": "x", "·": ".", "…": "...", "◂": "<",
           "→": "->", "←": "<-", "µ": "u", "μ": "u", "ρ": "rho", "σ": "sigma", "‘": "'", "’": "'", "“": '"',
           "”": '"', "─": "-", "≤": "<=", "≥": ">=", "\u00a0": " ", "\u202f": " ", "ß": "ss"}  # fmt: skip


def without_steering(text: str) -> str:
    """The text without what would steer a terminal."""
    return STEERING.sub("", text)


def spell_out(text: str, encoding: str) -> str:
    """The text in the letters that an encoding has."""
    try:
        text.encode(encoding)
        return text
    except UnicodeEncodeError:
        return "".join(spell_sign(sign, encoding) for sign in text)


def spell_sign(sign: str, encoding: str) -> str:
    plain = unicodedata.normalize("NFKD", sign).encode("ascii", "ignore").decode()
    for written in (sign, SPELLED.get(sign, ""), plain):
        try:
            if written.encode(encoding):
                return written
        except UnicodeEncodeError:
            continue
    return "" if unicodedata.combining(sign) else "?"
