"""What a view says, part by part: paragraphs, and lists under them. Text and pages are both made of these."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass


@dataclass(frozen=True)
class Items:
    """A list under a paragraph; ranked where its order says something."""

    lines: tuple[str, ...]
    ranked: bool = False


#: A paragraph, or a list.
TextPart = str | Items


def as_text(parts: Iterable[TextPart]) -> str:
    """A line a paragraph; the lines of a list stand in, with their numbers where it is ranked."""
    lines: list[str] = []
    for part in parts:
        if isinstance(part, str):
            lines.append(part)
        else:
            lines += [f"  {i}. {x}" if part.ranked else f"  {x}" for i, x in enumerate(part.lines, 1)]
    return "\n".join(lines)
