"""A set of clubs in plain sentences."""

from __future__ import annotations

from ..core.quantity import System, said
from ..questions.bag import Bag, SameJob, find_same_jobs
from ..row.ball import Ball
from ..row.play import play
from .doubt import difference
from .phrases import sentence


def same_jobs(bag: Bag, ball: Ball, units: System) -> list[str]:
    """Which neighbours carry so nearly alike that one of them could stay at home, and how far apart they are."""

    def apart(job: SameJob) -> str:
        longer, shorter = (
            play(swing.delivery, swing.club, ball=ball) for swing in (bag[job.longer], bag[job.shorter])
        )
        return difference(said(job.apart, "carry", "m", units), "carry", "m", units, longer, shorter)

    return [
        sentence(f"the {job.longer} and the {job.shorter} do the same job: they carry {apart(job)} apart.")
        for job in find_same_jobs(bag, ball=ball)
    ]
