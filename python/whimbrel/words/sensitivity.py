"""Derivatives of a shot in readable steps."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from ..core.quantity import (
    DECIMALS,
    System,
    Unit,
    counted,
    display_unit,
    plain_name,
    rounded,
    symbol,
    text,
    unit_after_number,
)
from ..errors import InputError
from ..questions.sensitivity import KINKS, OF_THE_RUN, Sensitivity
from ..row.flight import STATUS_WORDS

#: What there is where a shot does not simply end.
INSTEAD = {
    "not_airborne": "a carry of 0, and it stays so",
    "no_rest": "the run's numbers and slopes are those at that time",
}


def table(slopes: Sensitivity, units: System = "yards") -> list[list[str]]:
    """A heading, then a row an input: its name, its value, the step, and what that does to each result."""
    _one(slopes)
    heads = [
        f"{of.replace('_', ' ')}, {symbol(display_unit(of, si, units))}".removesuffix(", ")
        for of, si in slopes.of.items()
    ]
    rows = [["one step more", "from", "by", *heads]]
    for by, si in slopes.by.items():
        size, unit = slopes.step(by, units)
        effects = [
            with_sign(slopes.of_a_step(of, by, units), display_unit(of, slopes.of[of], units)) for of in slopes.of
        ]
        rows.append(
            [plain_name(by), text(float(slopes.inputs[by]), by, si, units), step_text(size, unit), *effects]
        )
    return rows


def step_text(size: float, unit: Unit) -> str:
    """A step with its unit: ``1°``, ``100 rpm``."""
    return f"{size:g}" + unit_after_number(unit)


def with_sign(x: float, unit: Unit) -> str:
    """An effect in its unit, one place finer than the result itself is shown."""
    effect = rounded(x, unit, DECIMALS.get(unit.symbol, 2) + 1)
    return "0" if effect.is_zero else effect.bare_with_sign


#: What differs to the other side of a kink, where that is not every slope.
MOVED_BY_KINK = {"ground": "the slopes by the ground's rise and slope"}


def notes(slopes: Sensitivity) -> list[str]:
    """What to know about the slopes of one shot, or how many of many shots have something to know."""
    shots, lines = int(np.prod(slopes.shape)), []
    run_asked = any(of in OF_THE_RUN for of in slopes.of)
    for name, why in KINKS.items():
        count = int(np.sum(slopes.kinks[name]))
        if count:
            whose = "" if shots == 1 else f" for {count:,} of {counted(shots, 'shot')}"
            what = MOVED_BY_KINK.get(name, "these slopes")
            lines.append(f"Not smooth here{whose}: {why}. On the other side {what} differ.")
    for field in ("status", "run_status"):
        if field == "run_status" and not run_asked:
            continue
        bad = np.ravel(getattr(slopes, field))
        for status in sorted(set(bad.tolist()) - {"ok"}):
            count = int(np.sum(bad == status))
            whose = "" if shots == 1 else f"{count:,} of {counted(shots, 'shot')}: "
            instead = INSTEAD.get(status, "no number, no slopes")
            line = f"{whose}{STATUS_WORDS[status]}: {instead}."
            if line not in lines:
                lines.append(line)
    return lines


def in_words(slopes: Sensitivity, units: System = "yards") -> str:
    """The table as text, and what to know about it; for many shots only that."""
    if slopes.shape != ():
        return "\n".join([repr(slopes), *slopes.notes()])
    return "\n".join([*align(slopes.table(units)), *slopes.notes()])


def align(rows: Sequence[Sequence[str]]) -> list[str]:
    """Rows of cells as lines, the first column to the left and the others to the right."""
    first, *others = (max(map(len, column)) for column in zip(*rows, strict=True))
    return [
        "  ".join([row[0].ljust(first), *(x.rjust(width) for x, width in zip(row[1:], others, strict=True))])
        for row in rows
    ]


def _one(slopes: Sensitivity) -> None:
    if slopes.shape != ():
        raise InputError(f"this is for one shot, not an array of shape {slopes.shape}; to_frame() takes many")
