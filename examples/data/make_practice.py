"""Makes invented_practice.csv: the practice of a player who does not exist.

A right-handed club golfer, 40 strikes with a 7 iron in two blocks (the second tighter) and 15 with a
driver. Every number is drawn from the spreads below, in the ranges of the trade; none was measured.
"""

from __future__ import annotations

import sys
from pathlib import Path

import numpy as np
import pandas as pd

SEED = 20260501
IRON_PLANE = 62.0  # degrees to the ground


def correlated(
    rng: np.random.Generator, count: int, means: list[float], spreads: list[float], r: float
) -> np.ndarray:
    """Pairs with exactly these sample means, sample spreads and sample correlation."""
    z = rng.standard_normal((count, 2))
    z = (z - z.mean(0)) @ np.linalg.inv(np.linalg.cholesky(np.cov(z.T))).T
    return z @ np.linalg.cholesky([[1, r], [r, 1]]).T * spreads + means


def centred(rng: np.random.Generator, count: int, mean: float, spread: float) -> np.ndarray:
    """Numbers with exactly this sample mean and sample spread."""
    z = rng.standard_normal(count)
    return mean + spread * (z - z.mean()) / z.std(ddof=1)


def irons(rng: np.random.Generator) -> pd.DataFrame:
    """Path +2.0 ± 1.2, face +0.5 ± 1.8 (correlation 0.5), attack −6.0 ± 1.2 over both blocks."""
    count, blocks = 40, (1.25, 0.66)  # the spread of each block against that of both
    tightness = np.repeat(blocks, 20)
    z = np.vstack([correlated(rng, 20, [0, 0], [spread, spread], 0.5) for spread in blocks])
    z /= z.std(0, ddof=1)
    attack = np.concatenate([centred(rng, 20, 0.0, spread) for spread in blocks])
    attack /= attack.std(ddof=1)
    toe, high = rng.normal(1.0, 5.0, count) * tightness, rng.normal(0.0, 3.0, count) * tightness
    toe[[3, 11, 16, 29]] = 17.0, 14.5, 19.0, 13.0
    high[[6, 13, 18, 33]] = -11.0, -9.5, -12.0, -8.5
    return pd.DataFrame({
        "club": "7 iron",
        "block": np.repeat(["before", "after"], 20),
        "clubhead_speed_mph": rng.normal(80.0, 1.3, count),
        "club_path_deg": 2.0 + 1.2 * z[:, 0],
        "attack_angle_deg": -6.0 + 1.2 * attack,
        "face_angle_deg": 0.5 + 1.8 * z[:, 1],
        "dynamic_loft_deg": rng.normal(24.5, 1.1, count),
        "plane_inclination_deg": rng.normal(IRON_PLANE, 0.6, count),
        "strike_toe_mm": toe,
        "strike_high_mm": high,
        "tee_height_mm": 0.0,
    })  # fmt: skip


def drivers(rng: np.random.Generator) -> pd.DataFrame:
    """Path +4.0 ± 1.5, attack +1.0 ± 1.5."""
    count = 15
    pairs = correlated(rng, count, [4.0, 1.8], [1.5, 1.9], 0.5)
    return pd.DataFrame({
        "club": "driver",
        "block": "driver",
        "clubhead_speed_mph": rng.normal(97.0, 1.6, count),
        "club_path_deg": pairs[:, 0],
        "attack_angle_deg": centred(rng, count, 1.0, 1.5),
        "face_angle_deg": pairs[:, 1],
        "dynamic_loft_deg": rng.normal(13.5, 1.0, count),
        "plane_inclination_deg": rng.normal(48.0, 0.8, count),
        "strike_toe_mm": rng.normal(2.0, 7.0, count),
        "strike_high_mm": rng.normal(1.0, 5.0, count),
        "tee_height_mm": 38.0,
    })  # fmt: skip


def practice() -> pd.DataFrame:
    rng = np.random.default_rng(SEED)
    table = pd.concat([irons(rng), drivers(rng)], ignore_index=True)
    table.insert(0, "strike", np.arange(1, len(table) + 1))
    return table.round(2)


if __name__ == "__main__":
    out = Path(sys.argv[1]) if len(sys.argv) > 1 else Path(__file__).with_name("invented_practice.csv")
    practice().to_csv(out, index=False)
