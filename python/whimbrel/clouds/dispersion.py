"""Dispersion: where shots finish whose delivery, launch or conditions vary from one to the next."""

from __future__ import annotations

import os
import warnings
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from ..core.optional import import_delayed
from ..core.quantity import counted
from ..core.unsaid import fill_unsaid
from ..core.value import Array
from ..errors import InputError
from ..row.flight import Launch
from ..row.swing import Club, Delivery, clubs
from ..statistics.moments import BLOCK, Sums
from ..statistics.targets import Target
from ..strikes.reading import Reading, load_reading
from .cloud import Dispersion
from .draws import around, one_shot
from .resampling import OfTable, resample
from .sampling import POINTS, USUAL, At, Sampling, gather, plan

if TYPE_CHECKING:
    import pandas as pd

#: Nothing left out.
WHOLE = OfTable()


def dispersion(
    start: Delivery | Launch,
    club: Club | None = None,
    *,
    sd: Mapping[str, float] | None = None,
    covariance: Any = None,
    fields: Sequence[str] | None = None,
    samples: int = 20_000,
    seed: int = 0,
    target: Target | Iterable[Target] = (),
    at: At = "landing",
    outputs: Sequence[str] = (),
    keep: int = 1_000_000,
    client: Any = None,
    lazy: bool = False,
    **conditions: Any,
) -> Any:
    """Plays normal samples around a delivery or a launch; needs the ``statistics`` extra.

    sd: the standard deviation of each field that varies, independently, SI; or covariance, (d, d), SI, of the d
    ``fields``. Fields are those of the start, and of the conditions temperature, pressure or altitude,
    relative_humidity, wind_speed (below 0 blows the other way), wind_from and tee_height. samples: at least 100.
    target: regions whose share is counted, at the ``"landing"`` or at ``"rest"``. outputs: more fields of impact,
    launch, flight or run beside carry and the place (and total, at rest). keep: samples kept one by one, the first
    ones, 8 bytes an output; means, covariances and shares are of all. client: a Dask client, whose workers play the
    samples, block by block; only sums and kept samples travel. lazy: gives the cloud as a ``dask.delayed`` value, a
    task a block, played when and where it is computed; needs the ``cluster`` extra. conditions: as ``play`` takes
    them.

    Returns a ``Dispersion``, or with ``lazy`` what ``compute()`` makes one.
    Sample i depends on the seed and i alone, field j of it on the jth deviate; all results have the same bits
    whatever the threads or workers. Samples that cannot be played, or do not finish, are counted in ``failed``,
    never dropped silently. Ctrl-C keeps the blocks that were played, with a warning: the
    cloud is ``stopped``. Raises InputError for a spread that is none and for a middle that cannot be played.
    """
    if not isinstance(start, Delivery | Launch):
        raise InputError(f"dispersion takes a Delivery or a Launch, not {type(start).__name__}")
    one_shot(start, club, conditions)
    start = fill_unsaid(start)
    draws = around(start, conditions, sd, covariance, fields)
    sampling = Sampling(
        start, club, conditions, draws, seed, samples, keep, at, _outputs(at, outputs), _regions(target)
    )
    return play_sampling(plan(sampling), client=client, lazy=lazy)


def dispersion_of_strikes(
    source: pd.DataFrame | str | os.PathLike[str],
    club: str | None = None,
    *,
    club_set: Mapping[str, Club] = clubs,
    reading: Reading | str | os.PathLike[str] | None = None,
    samples: int = 20_000,
    seed: int = 0,
    target: Target | Iterable[Target] = (),
    at: At = "landing",
    outputs: Sequence[str] = (),
    keep: int = 1_000_000,
    client: Any = None,
    lazy: bool = False,
    **conditions: Any,
) -> Any:
    """Draws the strikes of a table again and again (bootstrap) and plays them; needs ``tables`` and ``statistics``.

    source: as ``session`` reads it; warm-ups are left out. club: whose strikes; the table's own if it has one. A
    row is played from its launch or its delivery, whichever more rows have in full; temperature, wind and the other
    conditions that the table has go with their row. Rows without them are ``left_out``. A cloud of strikes drawn
    again has only as many places as there are strikes. The rest is as in ``dispersion``.
    """
    if reading is None or not isinstance(reading, Reading):
        reading = Reading() if reading is None else load_reading(reading)
    start, member, draws, table = resample(source, club, club_set, reading.columns, conditions)
    one_shot(start, member, conditions)
    sampling = Sampling(
        start, member, conditions, draws, seed, samples, keep, at, _outputs(at, outputs), _regions(target)
    )
    return play_sampling(plan(sampling), table, client, lazy)


def play_sampling(sampling: Sampling, table: OfTable = WHOLE, client: Any = None, lazy: bool = False) -> Any:
    """The cloud of a sampling, one block after the other, or by the workers of a Dask client, or to be computed."""
    if lazy and client is not None:
        raise InputError("lazy and client are two ways: a lazy cloud is played where its compute() runs")
    if lazy:
        delayed = import_delayed()
        on_worker = delayed(on_one_thread(sampling), traverse=False)
        blocks = [delayed(Sampling.block)(on_worker, number) for number in range(sampling.blocks)]
        return delayed(cloud_of)(sampling, table, blocks)
    return cloud_of(
        sampling,
        table,
        until_stopped(sampling) if client is None else on_workers(client, sampling),
    )


def until_stopped(sampling: Sampling) -> Iterator[tuple[Sums, Array]]:
    """One block after the other; Ctrl-C leaves out the rest, once there is one."""
    for number in range(sampling.blocks):
        try:
            block = sampling.block(number)
        except KeyboardInterrupt:
            if number == 0:
                raise
            message = (
                f"stopped after {number * BLOCK:,} of {counted(sampling.samples, 'sample')}: the cloud is of these"
            )
            warnings.warn(message, RuntimeWarning, stacklevel=2)
            return
        yield block


def cloud_of(sampling: Sampling, table: OfTable, blocks: Iterable[tuple[Sums, Array]]) -> Dispersion:
    """The cloud of all blocks of a sampling, in their order."""
    sums, kept = gather(blocks)
    return Dispersion(sampling, sums, dict(zip(sampling.outputs, kept, strict=True)), *table)


def on_one_thread(sampling: Sampling) -> Sampling:
    """The same sampling, which leaves a worker's other threads to its other tasks unless told how many to take."""
    return replace(sampling, conditions={**sampling.conditions, "threads": sampling.conditions.get("threads") or 1})


def on_workers(client: Any, sampling: Sampling) -> list[tuple[Sums, Array]]:
    """All blocks, in order, played by the workers of a Dask client, each on one of its own threads."""
    if not hasattr(client, "gather"):
        raise InputError(f"client is {client!r}; it takes a dask.distributed.Client")
    futures = client.map(on_one_thread(sampling).block, range(sampling.blocks), pure=False)
    blocks: list[tuple[Sums, Array]] = client.gather(futures)
    return blocks


def _outputs(at: str, more: Sequence[str]) -> tuple[str, ...]:
    if isinstance(more, str):
        raise InputError(f"outputs is {more!r}; it takes a list of names")
    return tuple(dict.fromkeys((*POINTS.get(at, ()), *USUAL.get(at, ()), *more)))


def _regions(target: Any) -> tuple[Target, ...]:
    return tuple(target) if isinstance(target, Iterable) else (target,)
