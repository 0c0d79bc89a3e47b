"""Strikes off the centre of a measured driver head against an independent code of the same contact."""

import importlib.util
from pathlib import Path

import numpy as np
import pandas as pd

import whimbrel as wb
from whimbrel.units import deg, gram, mm, rpm

spec = importlib.util.spec_from_file_location("contact_of", Path(__file__).parents[1] / "contact_of.py")
assert spec is not None and spec.loader is not None
contact_of = importlib.util.module_from_spec(spec)
spec.loader.exec_module(contact_of)

HERE = Path(__file__).parent
RELATIVE = 0.01  # what the independent code is stated to
HALF_DIGIT = {"launch_direction_deg": 0.005, "launch_angle_deg": 0.005, "spin_rate_rpm": 0.5,
              "spin_axis_tilt_deg": 0.05}  # fmt: skip
UNITS = {"deg": deg, "rpm": rpm}


def driver(**changes):
    """Mass, depth, inertias and bulge published; roll, restitution and the outline assumed."""
    numbers = {"mass": 204 * gram, "cg_depth": 42.3 * mm, "inertia_target": 2843e-7, "inertia_vertical": 5679e-7,
               "inertia_heel_toe": 4085e-7, "bulge_radius": 305 * mm, "roll_radius": 305 * mm,
               "face_restitution": 0.844, "face_width": 115 * mm, "face_height": 58 * mm}  # fmt: skip
    return wb.Club("measured driver", 10.5 * deg, 58 * deg, 1.15, **(numbers | changes))


def delivered(toe, high):
    return wb.Delivery(44.7, dynamic_loft=12.8 * deg, strike_toe=toe * mm, strike_high=high * mm)


def struck(club, toe, high):
    """As the library ships."""
    return wb.strike(delivered(toe, high), club).launch


def strikes():
    table = pd.read_csv(HERE / "strikes.csv")
    where = delivered(table.strike_toe_mm.to_numpy(), table.strike_high_mm.to_numpy())
    launch = contact_of.struck_as_worked(where, driver()).launch
    ours = {f"ours_{name}": getattr(launch, name.rsplit("_", 1)[0]) / UNITS[name.rsplit("_", 1)[1]]
            for name in HALF_DIGIT}  # fmt: skip
    return table.assign(**ours)


def test_every_strike_launches_as_the_independent_code_says():
    table = strikes()
    checked = 0
    for name, half in HALF_DIGIT.items():
        theirs = table[name].dropna()
        apart = (table[f"ours_{name}"][theirs.index] - theirs).abs()
        assert (apart <= RELATIVE * theirs.abs() + half).all(), table
        checked += len(theirs)
    assert checked == 11


def test_toe_and_heel_mirror_each_other():
    toe, heel = struck(driver(), 12.7, 0.0), struck(driver(), -12.7, 0.0)
    assert abs(toe.launch_direction + heel.launch_direction) < 1e-12
    assert abs(toe.spin_axis_tilt + heel.spin_axis_tilt) < 1e-12
    assert abs(toe.spin_rate - heel.spin_rate) < 1e-9


def test_without_bulge_the_same_toe_strike_starts_straighter_and_curves_back_further():
    """The reason for bulge: common practice."""
    flat, bulged = struck(driver(bulge_radius=float("inf")), 12.7, 0.0), struck(driver(), 12.7, 0.0)
    assert abs(flat.launch_direction) < abs(bulged.launch_direction)
    assert flat.spin_axis_tilt < bulged.spin_axis_tilt < 0


if __name__ == "__main__":
    print(strikes().round(2).T.to_string(header=False), end="\n\n")
    shipped = struck(driver(), np.array([0.0, 12.7, 0.0, 0.0]), np.array([0.0, 0.0, 12.7, -12.7]))
    print("as shipped, centre, toe, high, low")
    for name in HALF_DIGIT:
        print(name, (getattr(shipped, name.rsplit("_", 1)[0]) / UNITS[name.rsplit("_", 1)[1]]).round(2))
