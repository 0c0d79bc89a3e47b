"""Spin loft and tilt of a delivery, and the face a presented club shows."""

from pathlib import Path

import numpy as np
import pandas as pd

import whimbrel as wb
from whimbrel.units import deg

HERE = Path(__file__).parent
ROUNDING_3, ROUNDING_2 = 0.0005 + 1e-9, 0.005 + 1e-9  # degrees, half the last digit of the tables


def club(loft_deg, lie_angle_deg=62.0, hand="right"):
    return wb.Club("worked", loft_deg * deg, lie_angle_deg * deg, length=0.94, mass=0.27, hand=hand)


def d_plane():
    table = pd.read_csv(HERE / "d_plane.csv")
    names = ("club_path", "attack_angle", "face_angle", "dynamic_loft")
    angles = {name: table[name + "_deg"].to_numpy() * deg for name in names}
    plane = wb.d_plane(wb.Delivery(clubhead_speed=40.0, **angles))
    return table.assign(ours_spin_loft_deg=plane.spin_loft / deg, ours_tilt_deg=plane.tilt / deg)


def presenting():
    table = pd.read_csv(HERE / "presenting.csv")
    angles = {name: table[name + "_deg"].to_numpy() * deg for name in ("shaft_lean", "face_angle")}
    clubs = club(table.loft_deg.to_numpy(), table.lie_angle_deg.to_numpy())
    shown = wb.present(clubs, clubhead_speed=40.0, **angles)
    return table.assign(ours_deg=shown.dynamic_loft / deg)


def toe_up(hand="right"):
    table = pd.read_csv(HERE / "toe_up.csv")
    shown = wb.present(
        club(table.loft_deg.to_numpy(), hand=hand),
        clubhead_speed=40.0,
        lie_tilt=table.lie_tilt_deg.to_numpy() * deg,
    )
    loft, tilt = table.loft_deg * deg, table.lie_tilt_deg * deg
    formula = np.arcsin(np.sin(loft) * np.cos(tilt)) / deg
    return table.assign(
        ours_deg=shown.face_angle / deg, formula_loft_deg=formula, ours_loft_deg=shown.dynamic_loft / deg
    )


def test_spin_loft_and_tilt_are_those_of_the_worked_table():
    table = d_plane()
    assert (abs(table.ours_spin_loft_deg - table.spin_loft_deg) <= ROUNDING_3).all(), table
    assert (abs(table.ours_tilt_deg - table.tilt_deg) <= ROUNDING_2).all(), table


def test_the_dynamic_loft_of_a_presented_club_is_that_of_the_worked_table():
    table = presenting()
    assert (abs(table.ours_deg - table.dynamic_loft_deg) <= ROUNDING_3).all(), table


def test_to_first_order_loft_is_lost_to_lean_and_won_by_an_open_face():
    lean, face, lie = 2 * deg, 0.5 * deg, 62 * deg
    shown = wb.present(club(33.0), clubhead_speed=40.0, shaft_lean=lean, face_angle=face)
    assert abs(shown.dynamic_loft - (33 * deg - lean + face / np.tan(lie))) < 0.01 * deg  # second order


def test_toe_up_turns_the_face_as_tabulated_and_the_loft_as_the_formula_says():
    table = toe_up()
    assert (abs(table.ours_deg - table.face_angle_deg) <= ROUNDING_3).all(), table
    assert (abs(table.ours_loft_deg - table.formula_loft_deg) < 1e-9).all(), table


def test_toe_up_turns_a_left_handers_face_the_other_way_by_the_same():
    right, left = toe_up(), toe_up("left")
    assert (abs(right.ours_deg + left.ours_deg) < 1e-12).all()
    assert (abs(right.ours_loft_deg - left.ours_loft_deg) < 1e-12).all()


def test_a_left_handers_club_shows_the_mirrored_face():
    right = wb.present(club(33.0), clubhead_speed=40.0, shaft_lean=6 * deg, face_angle=2 * deg)
    left = wb.present(club(33.0, hand="left"), clubhead_speed=40.0, shaft_lean=6 * deg, face_angle=-2 * deg)
    assert abs(right.dynamic_loft - left.dynamic_loft) < 1e-14
    assert abs(right.face_angle + left.face_angle) < 1e-14


if __name__ == "__main__":
    for table in (d_plane(), presenting(), toe_up(), toe_up("left")):
        print(table.round(4).to_string(index=False), end="\n\n")
