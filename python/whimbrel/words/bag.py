"""A set of clubs in plain sentences."""

from __future__ import annotations

from ..core.quantity import System, text
from ..questions.bag import Bag, find_same_jobs
from ..row.ball import Ball
from .phrases import sentence


def same_jobs(bag: Bag, ball: Ball, units: System) -> list[str]:
    """Which neighbours carry so nearly alike that one of them could stay at home."""
    return [
        sentence(
            f"the {job.longer} and the {job.shorter} do the same job: they carry "
            f"{text(job.apart, 'carry', 'm', units)} apart."
        )
        for job in find_same_jobs(bag, ball=ball)
    ]
