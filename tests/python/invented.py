"""The invented practice of the demo data, and more like it."""

import importlib.util
from pathlib import Path

import numpy as np
import pandas as pd

ROOT = Path(__file__).parents[2]
DEMO = ROOT / "examples" / "data" / "invented_practice.csv"


def generator():
    spec = importlib.util.spec_from_file_location("make_practice", DEMO.with_name("make_practice.py"))
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def practice(strikes, seed=1):
    """Iron strikes of a player who does not exist, as in the demo data, in blocks before and after."""
    make, rng = generator(), np.random.default_rng(seed)
    return pd.concat([make.irons(rng) for _ in range(-(-strikes // 40))]).sort_values(
        "block", ascending=False, kind="stable"
    ).iloc[:: max(1, -(-strikes // 40) * 40 // strikes)].head(strikes).reset_index(drop=True)  # fmt: skip
