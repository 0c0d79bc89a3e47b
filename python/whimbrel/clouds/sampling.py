"""How to play a cloud of shots: block by block, each block the same on any machine."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from typing import Any, Literal

import numpy as np

from ..core.quantity import counted
from ..core.value import Array
from ..errors import InputError, whole
from ..row.flight import Launch
from ..row.play import play
from ..row.shot import OUTPUTS, Shot
from ..row.swing import Club, Delivery
from ..statistics.moments import BLOCK, MISTAKES, Sums, add_up, powers
from ..statistics.targets import Target, check_target
from ..strikes.play_table import FIELDS
from .draws import Around, Draws, Numbers, blowing, with_drawn

At = Literal["landing", "rest"]
#: The place of a ball at its landing and at rest, right of and along the target line; and other outputs.
POINTS: dict[str, tuple[str, str]] = {
    "landing": ("offline", "downrange"),
    "rest": ("total_offline", "total_downrange"),
}
USUAL: dict[str, tuple[str, ...]] = {"landing": ("carry",), "rest": ("total", "carry")}
#: The SI unit of everything that is drawn or put out.
UNITS_OF = {**FIELDS, **{name: si for name, (_, si) in OUTPUTS.items()}}
#: The status of a sample that finished without one of the outputs, such as a total where no run was played.
NO_VALUE = "no_value"
#: Samples at least and at most, and memory for those that are kept, bytes.
FEWEST, LARGEST, MEMORY = 100, 10**9, 2 * 1024**3


@dataclass(frozen=True)
class Sampling:
    """The samples of a cloud and how to play them; other processes can do it ``block`` by ``block``.

    Attributes
    ----------
    start : Delivery or Launch
        What every sample starts from; ``draws`` replaces some of its numbers.
    club : Club or None
        The club.
    conditions : mapping of str to object
        The conditions of every sample.
    draws : Around or Resampled
        What varies.
    seed : int
        Seed of the samples.
    samples : int
        Number of samples.
    keep : int
        How many are kept one by one, the first ones.
    at : {"landing", "rest"}
        Where a ball finishes.
    outputs : tuple of str
        Outputs of each sample; the place sideways and along come first.
    regions : tuple of Target
        Regions that are counted.
    origin : array
        Subtracted before summing, near the middle of the outputs, to limit rounding; shape (outputs,).
    """

    start: Delivery | Launch
    club: Club | None
    conditions: Mapping[str, Any]
    draws: Draws
    seed: int
    samples: int
    keep: int
    at: At
    outputs: tuple[str, ...]
    regions: tuple[Target, ...]
    origin: Array = field(default_factory=lambda: np.zeros(0))

    @property
    def blocks(self) -> int:
        """Number of blocks of ``BLOCK`` samples; the last is shorter."""
        return -(-self.samples // BLOCK)

    def draw(self, first: int, count: int) -> Numbers:
        """Draw what some samples start with.

        Parameters
        ----------
        first : int
            The first sample.
        count : int
            Number of samples.

        Returns
        -------
        dict of str to array
            Each field, SI, shape (count,).
        """
        return blowing(self.draws.draw(self.seed, first, count), self.conditions)

    def play(self, drawn: Numbers, errors: Literal["raise", "mask"] = "mask") -> Shot:
        """Play drawn numbers.

        Parameters
        ----------
        drawn : dict of str to array
            As ``draw`` gives them.
        errors : {"raise", "mask"}
            As in ``play``.

        Returns
        -------
        Shot
            The shots, shape (count,).
        """
        start, conditions = with_drawn(drawn, self.start, self.conditions)
        return play(start, self.club, errors=errors, **conditions)

    def block(self, number: int) -> tuple[Sums, Array]:
        """Play one block.

        Parameters
        ----------
        number : int
            The block, from 0.

        Returns
        -------
        sums : Sums
            Sums over its samples.
        kept : array
            Outputs of those that are kept, shape (outputs, kept).
        """
        first = number * BLOCK
        count = min(BLOCK, self.samples - first)
        shot = self.play(self.draw(first, count))
        outputs, status = read(shot, self.outputs)
        x, y = outputs[:2]
        sums = Sums(
            count,
            int((status == "ok").sum()),
            *powers(outputs, self.origin),
            hits=tuple(int(region.holds(x, y).sum()) for region in self.regions),
            failed=Counter(status[status != "ok"].tolist()),
            stretched=_count_stretched(shot, status == "ok", "run" in {OUTPUTS[name][0] for name in self.outputs}),
            mistakes=tuple((first + row, why) for row, why in list(shot.mistakes.items())[:MISTAKES]),
        )
        return sums, outputs[:, : max(0, min(count, self.keep - first))]


def read(shot: Shot, outputs: Iterable[str]) -> tuple[Array, Any]:
    """The outputs of shots, shape (outputs, shots), NaN for a sample that lacks one; and each sample's status."""
    stages = [OUTPUTS[name][0] for name in outputs]
    # A ball that never left the ground has no landing, but runs and comes to rest like any other.
    status = np.array(shot.run.status if "run" in stages else shot.status, dtype=object)
    values = np.stack([getattr(getattr(shot, s), name) for s, name in zip(stages, outputs, strict=True)])
    status = np.where((status == "ok") & ~np.isfinite(values).all(0), NO_VALUE, status)
    return np.where(status == "ok", values, np.nan), status


def _count_stretched(shot: Shot, good: Any, ran: bool) -> Counter[str]:
    """How many good shots left each stated range; a bounce's where runs are asked for."""
    ranges = shot.out_of_range if ran else shot.out_of_range_before_run  # asking for a bounce plays the run
    return +Counter({name: int((np.nan_to_num(x)[good] != 0).sum()) for name, x in ranges.items()})


def plan(sampling: Sampling) -> Sampling:
    """The sampling, checked before any work, with its origin: the median of the typical shots."""
    for region in sampling.regions:
        check_target(region)
    if sampling.at not in POINTS:
        raise InputError(f"at is {sampling.at!r}; accepted: {', '.join(POINTS)}")
    _check_size(sampling)
    struck = isinstance(sampling.start, Delivery)
    for name in sampling.outputs:
        if name not in OUTPUTS or (OUTPUTS[name][0] == "impact" and not struck):
            known = [output for output, (stage, _) in OUTPUTS.items() if struck or stage != "impact"]
            raise InputError(f"outputs: {name!r} is not known; there are: {', '.join(known)}")
    sampling.draws.draw(sampling.seed, 0, 1)  # refuses a bad seed
    errors: Literal["raise", "mask"] = "raise" if isinstance(sampling.draws, Around) else "mask"
    values, status = read(sampling.play(sampling.draws.typical(), errors), sampling.outputs)
    if (status == NO_VALUE).all():
        raise InputError(f"outputs: one of {', '.join(sampling.outputs)} has no value for such shots")
    there = values[:, np.isfinite(values).all(0)]
    origin = np.median(there, axis=1) if there.size else np.zeros(len(values))
    return replace(sampling, origin=origin)


def _check_size(sampling: Sampling) -> None:
    for name, x, low in (("samples", sampling.samples, FEWEST), ("keep", sampling.keep, 0)):
        whole(x, name, low, LARGEST + 1, f"from {low} to {LARGEST:,}")
    kept = min(sampling.keep, sampling.samples)
    memory = 8 * len(sampling.outputs) * kept
    if memory > MEMORY:
        raise InputError(
            f"keeping {counted(kept, 'sample')} of {counted(len(sampling.outputs), 'output')} takes "
            f"{memory / 1024**3:.1f} GiB; accepted: up to {MEMORY / 1024**3:.0f} GiB: lower keep; the sums still "
            "count every sample"
        )


def gather(blocks: Iterable[tuple[Sums, Array]]) -> tuple[Sums, Array]:
    """The sums and kept samples of all blocks, given in order: the same bits on any machine."""
    sums, kept = zip(*blocks, strict=True)
    return add_up(sums), np.concatenate(kept, axis=1)
