"""Carries of a published teaching table against a square-root-lift ball with the spin that fits it."""

from pathlib import Path

import pandas as pd

import whimbrel as wb
from whimbrel.units import deg, rpm

HERE = Path(__file__).parent
TOLERANCE = 3.0  # m; the table is printed to a metre and leaves spin and air unstated


def compared():
    table = pd.read_csv(HERE / "rose_hulman.csv")
    ball = wb.Ball(aero=wb.aero.SquareRootLift(drag=0.26, drag_spin=0.0))
    launch = wb.Launch(58.0, table.launch_angle_deg.to_numpy() * deg, spin_rate=2900 * rpm)
    table["ours_m"] = wb.fly(launch, ball=ball).carry
    return table.assign(difference_m=table.ours_m - table.carry_m)


def test_the_carries_are_those_of_the_teaching_table():
    table = compared()
    assert (table.difference_m.abs() <= TOLERANCE).all(), table


if __name__ == "__main__":
    print(compared().round(2).to_string(index=False))
