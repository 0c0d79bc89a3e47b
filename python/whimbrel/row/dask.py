"""Beyond one machine: what is played wherever Dask runs."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import partial
from operator import attrgetter
from typing import Any

import numpy as np

from ..core.blocks import Given, in_blocks, next_in_blocks, pattern_of, views_of
from ..core.value import Value, common_shape, is_lazy
from ..errors import InputError, bad_rows
from .engine import Conditions, Replay
from .ground import Run
from .setting import Air, Weather, masked_air
from .shot import Shot

#: The stages of a shot before its run.
STAGES = ("impact", "launch", "flight", "landing")


@dataclass(frozen=True)
class RunOut:
    """A run, and how far its first bounce left the stated range, for a shot to hand out."""

    run: Run
    out_of_range: dict[str, Any]

    def __call__(self) -> tuple[Run, dict[str, Any]]:
        return self.run, self.out_of_range


def play_in_chunks(play: Callable[..., Shot], given: Given, errors: str) -> Shot:
    """What ``play``, which masks bad rows, makes of checked arguments in chunks: a shot of Dask arrays.

    One task flies a block, one runs it out if the run is asked for; every number is a view of these.
    """
    shape = common_shape([value for value in given.values() if isinstance(value, Value)])
    given["threads"] = given["threads"] or 1  # a task a core is Dask's business
    pattern = pattern_of(play, given, shape)
    played = next_in_blocks(partial(_in_place, errors), in_blocks(play, given))
    stages = {name: views_of(getattr(pattern, name), played, (name,)) for name in STAGES}
    run_out = next_in_blocks(_run_block, played)
    run, of_bounce = (views_of(x, run_out, (i,)) for i, x in enumerate(pattern.play_run()))
    conditions = Conditions(given["ball"], _air(given["weather"]), given["wind"], given["terrain"], given["turf"])
    start = given["start"] if pattern.start == "landing" else stages["launch"]
    replay = partial(Replay, start, conditions, shape)
    stages["flight"] = replace(stages["flight"], replay=replay(in_run=False))
    of_impact = {} if stages["impact"] is None else stages["impact"].out_of_range
    shot: Shot = replace(
        pattern,
        **stages,
        **conditions._asdict(),
        delivery=None if pattern.delivery is None else given["start"],
        club=given["club"],
        play_run=RunOut(replace(run, replay=replay(in_run=True)), of_bounce),
        out_of_range_before_run={**of_impact, **stages["flight"].out_of_range},
        mistakes=_mistakes(played) if errors == "mask" else {},
    )
    return shot


def _in_place(errors: str, shot: Shot, block_info: Any = None) -> Shot:
    """A block's shot with its mistakes by their place among all rows, or their error."""
    first = [start for start, _ in block_info[0]["array-location"]]
    mistakes = {_move(at, first): message for at, message in shot.mistakes.items()}
    if mistakes and errors == "raise":
        error = bad_rows(list(mistakes.items()), int(np.prod(shot.shape)))
        raise InputError(f"in the chunk from row {_move(0, first)} on: {error}", error.rows)
    return replace(shot, mistakes=mistakes)


def _move(at: Any, first: list[int]) -> Any:
    return at + first[0] if len(first) == 1 else tuple(np.add(at, first).tolist())


def _run_block(shot: Shot) -> tuple[Run, dict[str, Any]]:
    return shot.play_run()


def _mistakes(played: Any) -> Any:
    """All blocks' mistakes as one Dask value."""
    from dask.delayed import delayed

    of_blocks = next_in_blocks(attrgetter("mistakes"), played)
    return delayed(_together)(of_blocks.to_delayed(optimize_graph=False).ravel().tolist())


def _together(mistakes: list[dict[Any, str]]) -> dict[Any, str]:
    return dict(sorted(mistake for of_block in mistakes for mistake in of_block.items()))


def _air(weather: Weather | Air) -> Air:
    """The air of some weather, in chunks where the weather is."""
    if isinstance(weather, Air) or not is_lazy(weather):
        return masked_air(weather)[0]
    given = {"weather": weather}
    air: Air = views_of(pattern_of(_air, given, weather.shape), in_blocks(_air, given))
    return air
