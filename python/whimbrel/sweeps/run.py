"""Plays the points of a sweep: piece by piece, or as Dask's chunks."""

from __future__ import annotations

import sys
import warnings
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np

from ..core.optional import import_tqdm
from ..core.quantity import counted
from ..core.value import Array
from ..questions.inputs import Axis, with_numbers
from ..row.flight import STATUSES
from ..row.play import play
from ..row.shot import Shot
from .describe import NOT_COMPUTED
from .design import Points

#: Points played at a time: what bounds the memory beside the results, and how soon Ctrl-C is heard.
CHUNK = 1 << 16
#: From this many points on, a terminal gets a progress bar.
LONG = 200_000


@dataclass(frozen=True)
class Plan:
    """What to play at the points.

    known: the axes there may be. played: start, club and conditions, before the axes' numbers go into them.
    how: the other arguments of ``play``. stages: of each output.
    """

    known: Mapping[str, Axis]
    played: Mapping[str, Any]
    how: Mapping[str, Any]
    stages: Mapping[str, str]

    @property
    def statuses(self) -> dict[str, str]:
        """The statuses that go with the outputs, and their stages."""
        return {"status": "flight", **({"run_status": "run"} if "run" in self.stages.values() else {})}

    def at(self, numbers: Mapping[str, Array]) -> dict[str, Any]:
        """Start, club and conditions with the numbers of some points in them."""
        return with_numbers(numbers, self.known, self.played)

    def try_out(self, rows: Mapping[str, Array]) -> None:
        """Raises what no point can mend, by the first one; greens, whose mistakes play cannot mask, are tried at
        both ends of their axes."""
        ends = {name: np.array([x.min(), x.max()]) for name, x in rows.items() if self.known[name].owner == "green"}
        play(**self.at({name: ends.get(name, x[:1]) for name, x in rows.items()}), **self.how, errors="mask")


def in_pieces(plan: Plan, points: Points, progress: bool | None) -> tuple[dict[str, Array], int, str]:
    """Each output of all points in a row, how many are done, and what is wrong with the first bad one."""
    results: dict[str, Any] = {name: np.full(points.size, np.nan) for name in plan.stages}
    results |= {name: np.full(points.size, NOT_COMPUTED, np.int8) for name in plan.statuses}
    done, mistake = 0, ""
    try:
        for first, end in _pieces(points.size, progress):
            shot = play(**plan.at(points.some(first, end)), **plan.how, errors="mask")
            for name, x in _outcome(plan, shot).items():
                results[name][first:end] = x
            mistake = mistake or next(iter(shot.mistakes.values()), "")
            done = end
    except KeyboardInterrupt:
        for name, x in results.items():
            x[done:] = NOT_COMPUTED if name in plan.statuses else np.nan
        message = f"stopped after {done:,} of {counted(points.size, 'point')}: the rest is NaN"
        warnings.warn(message, RuntimeWarning, stacklevel=3)
    if mistake:
        bad = int((results["status"] == STATUSES.index("bad_input")).sum())
        message = (
            f"bad input at {bad:,} of {counted(points.size, 'point')}, NaN among the results; the first: {mistake}"
        )
        warnings.warn(message, RuntimeWarning, stacklevel=3)
    return results, done, mistake


def in_dask_chunks(plan: Plan, points: Points, chunks: Any) -> dict[str, Any]:
    """Each output of all points, in their shape, as a Dask array."""
    from ..core.blocks import in_chunks

    shot = play(**in_chunks(plan.at(points.along()), chunks, points.shape), **plan.how, errors="mask")
    return _outcome(plan, shot)


def _outcome(plan: Plan, shot: Shot) -> dict[str, Any]:
    """The outputs and statuses of some points, statuses as their codes."""
    numbers = {name: getattr(getattr(shot, stage), name) for name, stage in plan.stages.items()}
    return {**numbers, **{name: _codes(getattr(shot, stage).status) for name, stage in plan.statuses.items()}}


def _codes(status: Any) -> Any:
    if not isinstance(status, np.ndarray):
        return status.map_blocks(_codes, dtype=np.int8)
    codes = np.zeros(status.shape, np.int8)
    for code, name in enumerate(STATUSES[1:], start=1):
        codes[status == name] = code
    return codes


def _pieces(size: int, progress: bool | None) -> Iterator[tuple[int, int]]:
    wanted = (size >= LONG and sys.stderr.isatty()) if progress is None else progress
    bar = None
    if wanted:
        bar = import_tqdm().tqdm(total=size, unit=" shots", unit_scale=True)
    try:
        for first in range(0, size, CHUNK):
            end = min(first + CHUNK, size)
            yield first, end
            if bar is not None:
                bar.update(end - first)
    finally:
        if bar is not None:
            bar.close()
