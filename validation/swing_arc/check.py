"""Planes, low points, a moved ball, turf and the over-the-top look of the swing arc against worked tables."""

from pathlib import Path

import numpy as np
import pandas as pd

import whimbrel as wb
from whimbrel.units import cm, deg, inch, mm
from whimbrel.words import arc as words_arc

HERE = Path(__file__).parent
ROUNDING = 1e-9
RADIUS, PLANE = 1.6, 60 * deg  # of the tables
LOOK = "can look over the top and measure in-to-out"


def arc_of(path_deg, attack_deg, plane_deg, hand="right", **shape):
    hit = wb.Delivery(40.0, path_deg * deg, attack_deg * deg)
    return wb.arcs.arc_of(hit, plane_inclination=plane_deg * deg, hand=hand, **({"radius": RADIUS} | shape))


def path(hand="right"):
    """The path to the right of the base line: 0 less the base direction of a path at the target."""
    table = pd.read_csv(HERE / "path.csv")
    arc = arc_of(0.0, table.attack_angle_deg.to_numpy(), table.plane_inclination_deg.to_numpy(), hand)
    return table.assign(ours_deg=-arc.base_direction / deg)


def low_point():
    """Ahead of the ball, m, and lower than the arc there, m, for 5 degrees down on 60."""
    arc = arc_of(0.0, -5.0, 60.0)
    return arc.low_point_ahead, -arc.low_point_height


def ball_moved():
    table = pd.read_csv(HERE / "ball_moved.csv")
    start = arc_of(0.0, -5.0, 60.0)
    met = start.ball_moved(table.ball_forward_cm.to_numpy() * cm).at_ball()
    return table.assign(
        ours_attack_deg=met.attack_angle / deg,
        ours_path_deg=(met.club_path - start.base_direction) / deg,
        ours_higher_mm=(met.edge_height - start.at_ball().edge_height) / mm,
    )


def faces():
    """The moved ball's deliveries: the face turned with the arc, or held by the hands."""
    moved = pd.read_csv(HERE / "ball_moved.csv").ball_forward_cm.to_numpy()
    hit = wb.Delivery(38.0, 0.0, -5 * deg, 0.0, 25 * deg)
    start = arc_of(0.0, -5.0, 60.0)
    table = {"ball_forward_cm": moved}
    for face in ("turning", "held"):
        carried = wb.arcs.carried_along(hit, start, start.ball_moved(moved * cm), face=face)
        table[f"{face}_face_deg"] = np.broadcast_to(carried.face_angle / deg, moved.shape)
        table[f"{face}_loft_deg"] = np.broadcast_to(carried.dynamic_loft / deg, moved.shape)
        table[f"{face}_spin_loft_deg"] = wb.d_plane(carried).spin_loft / deg
    return pd.DataFrame(table)


def turf_entry():
    table = pd.read_csv(HERE / "turf_entry.csv")
    arc = wb.SwingArc(RADIUS, PLANE, low_point_height=-table.depth_mm.to_numpy() * mm)
    strike = wb.arcs.ground_strike(arc, wb.clubs["7 iron"], dynamic_loft=25 * deg)
    return table.assign(ours_cm=-strike.turf_entry / cm)


def over_the_top():
    table = pd.read_csv(HERE / "over_the_top.csv")
    arc = arc_of(0.0, table.attack_angle_deg.to_numpy(), table.plane_inclination_deg.to_numpy())
    return table.assign(ours_deg=-arc.base_direction / deg)


def looks_over_the_top(path_deg, attack_deg, plane_deg, hand="right"):
    arc = arc_of(path_deg, attack_deg, plane_deg, hand)
    return LOOK in words_arc.of_arc(arc, arc, wb.Delivery(40.0, path_deg * deg, attack_deg * deg), hand, "yards")


def trade():
    """Common deliveries on arcs of the library's radius: low points, in inches ahead of the ball."""
    table = pd.DataFrame({
        "delivery": ["mid-iron", "driver off a tee, level", "driver off a tee, up"],
        "attack_angle_deg": [-4.0, 0.0, 3.0],
        "plane_inclination_deg": [62.0, 48.0, 47.0],
    })  # fmt: skip
    arc = arc_of(0.0, *table.iloc[:, 1:].to_numpy().T, radius=wb.SwingArc().radius)
    return table.assign(ours_in=arc.low_point_ahead / inch)


def test_the_path_lies_off_the_base_line_as_worked():
    table = path()
    assert (abs(table.ours_deg - table.path_from_base_deg) <= 0.0005 + ROUNDING).all(), table


def test_a_left_handers_path_lies_off_to_the_other_side_by_the_same():
    assert (path("left").ours_deg == -path().ours_deg).all()


def test_five_degrees_down_on_sixty_the_low_point_lies_as_worked():
    ahead, lower = low_point()
    assert abs(ahead - 0.161) <= 0.0005 + ROUNDING
    assert abs(lower / mm - 7.0) <= 0.05 + ROUNDING


def test_a_ball_moved_on_the_same_arc_is_met_as_worked():
    table = ball_moved()
    assert (abs(table.ours_attack_deg - table.attack_angle_deg) <= 0.005 + ROUNDING).all(), table
    assert (abs(table.ours_path_deg - table.path_from_base_deg) <= 0.005 + ROUNDING).all(), table
    assert (abs(table.ours_higher_mm - table.arc_higher_mm) <= 0.05 + ROUNDING).all(), table


def test_a_face_that_turns_with_the_arc_keeps_its_spin_loft_and_a_held_one_keeps_its_face():
    table = faces()
    assert (abs(table.turning_spin_loft_deg - 30.0) < 1e-9).all(), table
    assert (table.held_face_deg == 0.0).all() and (table.held_loft_deg == 25.0).all(), table
    assert (abs(table.held_spin_loft_deg - 30.0) > 0.5).all(), table


def test_the_sole_enters_the_turf_behind_the_low_point_as_worked():
    """The table's square root leaves out depth / 4 R sin(plane) of itself: 0.2 % at 12 mm."""
    table = turf_entry()
    short = table.depth_mm * mm / (4 * RADIUS * np.sin(PLANE)) * table.entry_behind_low_point_cm
    assert (abs(table.ours_cm - table.entry_behind_low_point_cm) <= 0.05 + short).all(), table


def test_the_downward_hit_moves_the_path_by_the_worked_offsets():
    table = over_the_top()
    assert (abs(table.ours_deg - table.offset_deg) <= 0.005 + ROUNDING).all(), table


def test_the_words_speak_of_over_the_top_only_between_a_square_path_and_the_offset():
    for row in over_the_top().itertuples():
        swing = row.attack_angle_deg, row.plane_inclination_deg
        for share, looks in ((-0.2, False), (0.1, True), (0.5, True), (0.95, True), (1.05, False), (2.0, False)):
            assert looks_over_the_top(share * row.offset_deg, *swing) is looks, (row, share)
            assert looks_over_the_top(-share * row.offset_deg, *swing, "left") is looks, (row, share)


def test_low_points_are_those_of_the_trade():
    """Common practice: a mid-iron's 4 to 6 inches ahead of the ball; a driver's at the ball or behind it."""
    iron, level, up = trade().ours_in
    assert 4.0 <= iron <= 6.0
    assert abs(level) < 1e-9 and up < 0.0


if __name__ == "__main__":
    ahead, lower = low_point()
    print(f"low point {ahead:.3f} m ahead, {lower / mm:.2f} mm lower\n")
    for shown in (path(), ball_moved(), faces(), turf_entry(), over_the_top(), trade()):
        print(shown.round(3).to_string(index=False), end="\n\n")
