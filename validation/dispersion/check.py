"""Shares of a round normal cloud in circles: Rayleigh's distribution, and Rice's beside the middle."""

from functools import lru_cache
from pathlib import Path

import numpy as np
import pandas as pd
from scipy import stats

import whimbrel as wb
from whimbrel.units import deg

HERE = Path(__file__).parent
CHANCE = 1e-3  # that any share of a cloud is called wrong where none is (Bonferroni)
SD = 0.05  # m, so small that the shot is a straight line of speed and direction
LAUNCH = wb.Launch(55.0, 16 * deg, spin_rate=600.0)
SAMPLES, SEED = 50_000, 0


def circles():
    return pd.read_csv(HERE / "circles.csv")


def round_cloud(targets=()):
    """A cloud of standard deviation SD along and across, by central differences in speed and direction."""
    faster, slower = (wb.fly(wb.Launch(55.0 + step, 16 * deg, spin_rate=600.0)).downrange for step in (0.02, -0.02))
    spread = {"ball_speed": SD / ((faster - slower) / 0.04), "launch_direction": SD / wb.fly(LAUNCH).downrange}
    return wb.dispersion(LAUNCH, sd=spread, samples=SAMPLES, seed=SEED, target=targets)


@lru_cache
def compared():
    table = circles()
    middle = wb.fly(LAUNCH).downrange
    cloud = round_cloud(
        [wb.targets.Circle(middle + SD * row.offset_sd, SD * row.radius_sd) for row in table.itertuples()]
    )
    table["ours_pct"] = [100 * share.share for share in cloud.shares]
    table["standard_errors_off"] = [
        (share.share - p / 100) / share.standard_error
        for share, p in zip(cloud.shares, table.inside_pct, strict=True)
    ]
    return table


def test_circles_hold_what_rayleigh_and_rice_say_within_the_standard_errors():
    off = compared().standard_errors_off.abs()
    assert off.max() < stats.norm.isf(CHANCE / 2 / len(off)), compared()


def test_rayleighs_radii_are_those_of_the_formula():
    middle = circles().query("offset_sd == 0")
    np.testing.assert_allclose(middle.radius_sd, np.sqrt(-2 * np.log1p(-middle.inside_pct / 100)), atol=5e-6)


if __name__ == "__main__":
    print(compared().round(3).to_string(index=False))
