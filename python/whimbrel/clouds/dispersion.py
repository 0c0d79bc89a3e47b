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
    """Play normal samples around a delivery or a launch; needs the ``statistics`` extra.

    Parameters
    ----------
    start : Delivery or Launch
        The middle: one delivery or launch.
    club : Club, optional
        The club of a delivery.
    sd : mapping of str to float, optional
        Standard deviation of each field that varies, independently, SI. Fields are those of the start, temperature,
        pressure or altitude, relative_humidity, wind_speed (negative blows the other way), wind_from and
        tee_height.
    covariance : array, optional
        In place of ``sd``: the covariance of the ``fields``, SI, shape (d, d).
    fields : sequence of str, optional
        The fields of ``covariance``.
    samples : int
        Number of samples, 100 or more.
    seed : int
        Seed of the samples.
    target : Target or iterable of Target
        Regions whose share is counted.
    at : {"landing", "rest"}
        Where a ball finishes.
    outputs : sequence of str
        More fields of impact, launch, flight or run, besides carry and the place (and total, at rest).
    keep : int
        How many samples to keep one by one, the first ones, at 8 bytes per output. Means, covariances and shares
        are of all samples.
    client : dask.distributed.Client, optional
        Its workers play the samples block by block; only sums and kept samples travel.
    lazy : bool
        Return a ``dask.delayed`` value with one task per block; needs the ``cluster`` extra.
    **conditions
        The other keywords of ``play``.

    Returns
    -------
    Dispersion or Delayed
        The cloud; with ``lazy``, a value whose ``compute()`` gives it.

    Raises
    ------
    InputError
        For a spread out of range, and for a middle that cannot be played.

    Notes
    -----
    Sample i depends only on the seed and i, and its field j on the jth deviate; results are the same to the bit
    with any threads or workers. Samples that cannot be played, or do not finish, are counted in ``failed``. Ctrl-C
    keeps the blocks already played, with a warning: the cloud is then ``stopped``.
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
    """Draw the strikes of a table again and again (bootstrap) and play them.

    Needs the ``tables`` and ``statistics`` extras. A cloud drawn from strikes has only as many places as there are
    strikes.

    Parameters
    ----------
    source : DataFrame, str or Path
        A table as ``session`` reads it; warm-ups are left out.
    club : str, optional
        The club whose strikes are drawn; by default the only one of the table.
    club_set : mapping of str to Club
        The clubs by name; the shipped ones by default.
    reading : Reading, str or Path, optional
        How to read the table, as in ``session``.
    samples : int
        Number of samples, 100 or more.
    seed : int
        Seed of the samples.
    target : Target or iterable of Target
        Regions whose share is counted.
    at : {"landing", "rest"}
        Where a ball finishes.
    outputs : sequence of str
        More outputs, as in ``dispersion``.
    keep : int
        How many samples to keep one by one.
    client : dask.distributed.Client, optional
        Its workers play the samples.
    lazy : bool
        Return a ``dask.delayed`` value.
    **conditions
        The other keywords of ``play``; conditions in the table replace them row by row.

    Returns
    -------
    Dispersion or Delayed
        As for ``dispersion``.

    Raises
    ------
    InputError
        As ``dispersion`` does, and for a table without usable strikes.

    Notes
    -----
    Rows are played from launches or from deliveries, whichever more rows have in full; the others are ``left_out``.
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
    """The cloud of a sampling: played here block by block, by the workers of a Dask client, or lazily."""
    if lazy and client is not None:
        raise InputError("give lazy or client, not both: a lazy cloud is played where its compute() runs")
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
    """The same sampling on one thread, unless it sets ``threads``: a worker's other threads have other tasks."""
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
