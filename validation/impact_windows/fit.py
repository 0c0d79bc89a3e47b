"""Fits the contact's constants to the launches, leaves each out in turn, and says what each constant buys."""

import importlib.util
from dataclasses import replace
from pathlib import Path

import numpy as np
from scipy.optimize import least_squares

spec = importlib.util.spec_from_file_location("launches", Path(__file__).with_name("launches.py"))
assert spec is not None and spec.loader is not None
launches = importlib.util.module_from_spec(spec)
spec.loader.exec_module(launches)
Constants, LAUNCHES, WEDGES = launches.Constants, launches.LAUNCHES, launches.WEDGES


def wedge_misses(constants):
    """Spin off the middle of the windows, in units of half their width."""
    loft = WEDGES.dynamic_loft_deg.to_numpy() * launches.deg
    spin = launches.struck(WEDGES, loft, constants).spin_rate / launches.rpm
    lower, upper = WEDGES.spin_rate_rpm_lower.to_numpy(), WEDGES.spin_rate_rpm_upper.to_numpy()
    return (spin - (lower + upper) / 2) / ((upper - lower) / 2)


def launch_misses(constants, table=LAUNCHES):
    return np.concatenate(launches.misses(launches.nearest_loft(constants, table), constants, table))


def fitted(start, free, table=LAUNCHES, wedges=True):
    """The constants named in `free` by least squares, from a start."""

    def misses(x):
        constants = replace(start, **dict(zip(free, x, strict=True)))
        return np.concatenate([launch_misses(constants, table), wedge_misses(constants) if wedges else []])

    x0 = [getattr(start, name) for name in free]
    found = least_squares(misses, x0, bounds=(0.02, 5.0), diff_step=1e-3)
    return replace(start, **dict(zip(free, map(float, found.x), strict=True)))


def left_out(start, free, wedges=True):
    """Squared misses of each launch by the fit to the others."""
    sums = []
    for row in LAUNCHES.index:
        constants = fitted(start, free, LAUNCHES.drop(row), wedges)
        sums.append((launch_misses(constants, LAUNCHES.loc[[row]]) ** 2).sum())
    return np.array(sums)


def report(name, start, free, wedges=True):
    constants = fitted(start, free, wedges=wedges)
    angle, spin = np.split(launch_misses(constants), 2)
    near = ((abs(angle) < 1) & (abs(spin) < 1)).sum()
    loft = WEDGES.dynamic_loft_deg.to_numpy() * launches.deg
    wedge_spin = launches.struck(WEDGES, loft, constants).spin_rate / launches.rpm
    print(f"{name}\n    kappa {constants.kappa:.3f}, mu {constants.mu:.3f}, softening {constants.softening:.2f}, "
          f"power {constants.friction_power:.2f}; {near} of {len(angle)} near; sum of squares "
          f"{(angle**2 + spin**2).sum():.1f}, left out {left_out(start, free, wedges).sum():.1f}; "
          f"wedges {wedge_spin.round(-1)}")  # fmt: skip


if __name__ == "__main__":
    both = ["kappa", "mu"]
    report("as shipped", Constants(), both)
    report("one friction at every speed", Constants(friction_power=0.0), both)
    report("any power of the speed", Constants(), [*both, "friction_power"])
    report("a springy face softens", Constants(), [*both, "softening"])
    much = Constants(0.573, 0.466, 0.0, 2.9)
    report("much friction, the same at every speed, without the wedges", much, ["kappa", "softening"], wedges=False)
