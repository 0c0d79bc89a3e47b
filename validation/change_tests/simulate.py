"""Simulated sessions, to count false alarms and to see what the tests can see.

``python validation/change_tests/simulate.py`` writes the CSV files beside it; about ten minutes on two cores.
"""

from __future__ import annotations

import sys
from pathlib import Path

import numpy as np
import pandas as pd

from whimbrel.sessions.change import FALSE_ALARMS, holm, p_values

HERE = Path(__file__).parent
SIDES, SHAPES, LAGS = (6, 10, 20, 40), ("normal", "heavy"), (0.0, 0.3)
CELLS = [(n, shape, lag) for n in SIDES for shape in SHAPES for lag in LAGS]
QUANTITIES, SESSIONS, REGROUPINGS = 5, 1000, 1999
#: One quantity of five changes: its centre by so many standard deviations, or its spread to such a share.
SHIFTS, SHARES = (0.5, 1.0, 1.5, 2.0), (0.75, 0.5)


def blocks(rng, sessions, quantities, n, shape, lag, alike=0.0):
    """Blocks of strikes, (sessions, quantities, n): normal, or heavy-tailed (Student, 3 degrees of freedom), a
    first-order autoregression with this lag-1 correlation; alike: the correlation of any two quantities."""
    size = (sessions, quantities, n + 50)
    new = rng.standard_normal(size) if shape == "normal" else rng.standard_t(3, size) / np.sqrt(3)
    if alike:
        new = np.sqrt(1 - alike) * new + np.sqrt(alike) * rng.standard_normal((sessions, 1, n + 50))
    x = new.copy()
    for t in range(1, x.shape[-1]):
        x[..., t] = lag * x[..., t - 1] + np.sqrt(1 - lag**2) * new[..., t]
    return x[..., 50:]


def called_changed(before, after, regroupings=REGROUPINGS, seed=0):
    """Which questions of each session are answered "changed": (sessions, quantities, 2), centre and spread."""
    p = p_values(before, after, regroupings=regroupings, seed=seed)
    return (holm(p.reshape(len(p), -1)) <= FALSE_ALARMS).reshape(p.shape)


def false_alarms(n, shape, lag, *, sessions=SESSIONS, quantities=QUANTITIES, m=None, alike=0.0, wider=1.0, seed=1):
    """Shares of sessions, in %, with any false "changed", with one of a centre, with one of a spread.

    m: strikes after, if not n; wider: how many times the spread after, whose questions then do not count.
    """
    rng = np.random.default_rng([seed, n, SHAPES.index(shape), 10 + round(10 * lag)])
    before = blocks(rng, sessions, quantities, n, shape, lag, alike)
    after = wider * blocks(rng, sessions, quantities, m or n, shape, lag, alike)
    called = called_changed(before, after, seed=seed)
    counted = called if wider == 1 else called[..., :1]
    return [
        100 * float(which.reshape(sessions, -1).any(1).mean())
        for which in (counted, called[..., 0], called[..., 1])
    ]


def power(n, shape, lag, shift=0.0, share=1.0, *, sessions=400, seed=2):
    """How often, in %, the one change among five quantities is called one."""
    rng = np.random.default_rng([seed, n, SHAPES.index(shape), 10 + round(10 * lag)])
    before = blocks(rng, sessions, QUANTITIES, n, shape, lag)
    after = blocks(rng, sessions, QUANTITIES, n, shape, lag)
    after[:, 0] = shift + share * after[:, 0]
    return 100 * float(called_changed(before, after, regroupings=999, seed=seed)[:, 0, 0 if shift else 1].mean())


def cells():
    rows = []
    for n, shape, lag in CELLS:
        rows.append([n, shape, lag, *false_alarms(n, shape, lag)])
        print(rows[-1], file=sys.stderr, flush=True)
    return pd.DataFrame(rows, columns=["strikes_a_side", "shape", "lag_1", "any_pct", "centre_pct", "spread_pct"])


def elsewhere():
    """False alarms outside the sixteen cells: other families, unequal sides, a changed spread, stronger lag."""
    cases = [
        *((f"{k} quantities", n, lag, {"quantities": k}) for k in (1, 2, 8) for n in (6, 20) for lag in LAGS),
        *(("5 quantities alike, correlation 0.7", n, lag, {"alike": 0.7}) for n in (6, 20) for lag in LAGS),
        *(("10 before, 30 after", 10, lag, {"m": 30}) for lag in LAGS),
        *(("spread after doubled, centres only", n, lag, {"wider": 2.0}) for n in (6, 20) for lag in LAGS),
        *(("lag 0.5", n, 0.5, {}) for n in (10, 40)),
        *(("lag −0.3", n, -0.3, {}) for n in (10, 40)),
    ]
    rows = []
    for case, n, lag, options in cases:
        rows.append([case, n, lag, *false_alarms(n, "normal", lag, **options)])
        print(rows[-1], file=sys.stderr, flush=True)
    return pd.DataFrame(rows, columns=["case", "strikes_before", "lag_1", "any_pct", "centre_pct", "spread_pct"])


def powers():
    rows = []
    for n, shape, lag in CELLS:
        centres = [power(n, shape, lag, shift) for shift in SHIFTS]
        rows.append([n, shape, lag, *centres, *(power(n, shape, lag, share=share) for share in SHARES)])
        print(rows[-1], file=sys.stderr, flush=True)
    centres = [f"centre_by_{shift:g}_sd_pct" for shift in SHIFTS]
    spreads = [f"spread_to_{100 * share:.0f}_pct" for share in SHARES]
    return pd.DataFrame(rows, columns=["strikes_a_side", "shape", "lag_1", *centres, *spreads])


if __name__ == "__main__":
    for name, table in (("false_alarms", cells), ("elsewhere", elsewhere), ("power", powers)):
        table().round(2).to_csv(HERE / f"{name}.csv", index=False)
