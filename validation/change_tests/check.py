"""False alarms and power of the before-and-after tests, over simulated sessions."""

import importlib.util
from pathlib import Path

import numpy as np
import pandas as pd
import pytest

HERE = Path(__file__).parent
LEAST, MOST = 2.9, 7.4  # % of 1,000 sessions with any false "changed": 5 %, and what 1,000 leave to chance
AGAIN = 150  # sessions simulated again
spec = importlib.util.spec_from_file_location("simulate_sessions", HERE / "simulate.py")
simulate = importlib.util.module_from_spec(spec)
spec.loader.exec_module(simulate)


def table(name):
    return pd.read_csv(HERE / f"{name}.csv")


def chance(pct, *sessions):
    """Four standard errors of the difference of two rates near pct, or of one rate and pct, in %."""
    p = np.clip(pct / 100, 0.02, 0.98)
    return 400 * np.sqrt(p * (1 - p) * sum(1 / n for n in sessions))


def test_every_cell_is_there_and_its_false_alarms_are_between_2_9_and_7_4_percent():
    found = table("false_alarms")
    assert list(zip(found.strikes_a_side, found["shape"], found.lag_1, strict=True)) == simulate.CELLS
    assert found.any_pct.between(LEAST, MOST).all(), found


@pytest.mark.parametrize(("n", "shape", "lag"), [(6, "normal", 0.0), (10, "heavy", 0.3)])
def test_other_sessions_give_the_rate_of_the_table(n, shape, lag):
    found = table("false_alarms").set_index(["strikes_a_side", "shape", "lag_1"]).any_pct[n, shape, lag]
    again = simulate.false_alarms(n, shape, lag, sessions=AGAIN, seed=11)[0]
    assert abs(again - found) < chance(found, AGAIN, 1000)


def test_larger_changes_and_more_strikes_are_seen_more_often():
    found = table("power")
    for shift in zip(simulate.SHIFTS, simulate.SHIFTS[1:], strict=False):
        low, high = (found[f"centre_by_{s:g}_sd_pct"] for s in shift)
        assert (high >= low).all()
    for _, rows in found.groupby(["shape", "lag_1"]):
        assert (rows.sort_values("strikes_a_side")["centre_by_1_sd_pct"].diff().dropna() > 0).all()


def test_other_sessions_give_the_power_of_the_table():
    found = table("power").set_index(["strikes_a_side", "shape", "lag_1"])["centre_by_1.5_sd_pct"][
        10, "normal", 0.0
    ]
    again = simulate.power(10, "normal", 0.0, 1.5, sessions=AGAIN, seed=12)
    assert abs(again - found) < chance(found, AGAIN, 400)


def test_where_only_the_spread_changes_the_centre_is_not_called_changed_more_than_7_4_times_in_100():
    found = table("elsewhere")
    wider = found[found.case.str.startswith("spread after doubled")]
    assert len(wider) == 4 and (wider.any_pct <= MOST).all(), wider


if __name__ == "__main__":
    for name in ("false_alarms", "elsewhere", "power"):
        print(f"{name}, % of sessions", table(name).to_string(index=False), sep="\n", end="\n\n")
