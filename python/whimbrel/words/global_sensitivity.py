"""Which input's spread makes a result spread, as tables and sentences."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ..core.quantity import BY_SYMBOL, counted, percent, plain_name, rounded, text
from ..core.value import html_table
from ..questions.global_sensitivity import NOTICED
from .sensitivity import align

if TYPE_CHECKING:
    from ..questions.global_sensitivity import GlobalSensitivity

#: What the indices' doubt is, in words.
DOUBT = "±: half the width of the 95 % interval, by the bootstrap."


def of_global_sensitivity(found: GlobalSensitivity) -> str:
    """The result's mean and spread, a table of the inputs, and what to know about it."""
    mean, spread = (text(x, found.of, found.unit) for x in (found.mean, found.spread))
    head = (
        f"{plain_name(found.of)}: {mean} on average, standard deviation {spread}, {counted(found.samples, 'shot')}"
    )
    return "\n".join([head, *align(_rows(found)), DOUBT, *notes(found)])


def as_html(found: GlobalSensitivity) -> str:
    """The same table for notebooks."""
    heading, *rows = _rows(found)
    table = html_table({row[0]: list(zip(heading[1:], row[1:], strict=True)) for row in rows})
    return f"{table}<p>{DOUBT}</p>"


def notes(found: GlobalSensitivity) -> list[str]:
    """Where the indices and the local slopes tell different stories, and why."""
    lines = []
    for i in found.indices:
        part = (
            f"it has a part in {percent(i.total)} of the variance, its slope at the middle says {percent(i.local)}"
        )
        what = f"{plain_name(i.name)}: {part}"
        if i.bends and i.total < i.local:
            lines.append(f"{what}. Other inputs count for more than their slopes say.")
        elif i.bends and i.local < NOTICED:
            lines.append(f"{what}. It all but vanishes there, as at an optimum, but {found.of} bends away.")
        elif i.bends:
            lines.append(f"{what}. Over its spread {found.of} is not a straight line.")
        if i.together:
            share = f"{percent(i.total - i.first)} of the variance"
            lines.append(f"{plain_name(i.name)}: {share} only together with other inputs.")
    return lines


def _rows(found: GlobalSensitivity) -> list[list[str]]:
    rows = [["share of the variance", "SD of the input", "by itself", "in all", "by its slope"]]
    for i in found.indices:
        si = found.units_of[i.name]
        spread = f"{i.spread:.3g} K" if si == "K" else text(i.spread, i.name, si)  # a difference, not 0 °C
        first, first_doubt, total, total_doubt, local = (
            rounded(x, BY_SYMBOL[""], 2).bare for x in (i.first, i.first_doubt, i.total, i.total_doubt, i.local)
        )
        rows.append([plain_name(i.name), spread, f"{first} ± {first_doubt}", f"{total} ± {total_doubt}", local])
    return rows
