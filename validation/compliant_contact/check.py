"""The compliant contact against an independent code, momentum alone, start directions and the trade's windows."""

import importlib.util
from pathlib import Path

import numpy as np
import pandas as pd

import whimbrel as wb
from whimbrel.units import deg, mm, mph, rpm

spec = importlib.util.spec_from_file_location("contact_of", Path(__file__).parents[1] / "contact_of.py")
assert spec is not None and spec.loader is not None
contact_of = importlib.util.module_from_spec(spec)
spec.loader.exec_module(contact_of)

HERE = Path(__file__).parent
INDEPENDENT = 0.005  # of ball speed, launch angle, spin: what the independent code is stated to
START_DERIVED = 0.02  # the derived fractions state no attack angle, which moves them by that much
START_MEASURED = (0.605, 0.835)  # printed 0.61 and 0.83
G_CM2 = 1e-7


def heads():
    """The heads and deliveries of the independent code's rows."""
    table = pd.read_csv(HERE / "impacts.csv")
    inertias = {f"inertia_{about}": table[f"inertia_{about}_gcm2"].to_numpy() * G_CM2 for about in
                ("target", "vertical", "heel_toe")}  # fmt: skip
    clubs = wb.Club("worked", 0.4, 1.1, 1.0, table.mass_kg.to_numpy(), table.face_restitution.to_numpy(),
                    cg_depth=table.cg_depth_mm.to_numpy() * mm, **inertias)  # fmt: skip
    hits = wb.Delivery(
        table.clubhead_speed_mps.to_numpy(),
        attack_angle=table.attack_angle_deg.to_numpy() * deg,
        dynamic_loft=table.dynamic_loft_deg.to_numpy() * deg,
    )
    return table, clubs, hits


def independent_code():
    table, clubs, hits = heads()
    impact = contact_of.struck_as_worked(hits, clubs)
    launch = impact.launch
    theirs = table[["club", "ball_speed_mph", "launch_angle_deg", "spin_rate_rpm"]]
    ours = pd.DataFrame({
        "ball_speed_mph": launch.ball_speed / mph,
        "launch_angle_deg": launch.launch_angle / deg,
        "spin_rate_rpm": launch.spin_rate / rpm,
    })  # fmt: skip
    differences = {f"{name}_pct": 100 * (ours[name] / table[name] - 1) for name in ours}
    return theirs.assign(**ours.add_prefix("ours_"), **differences, ours_smash_factor=impact.smash_factor)


def zero_loft():
    """Ball and head speed over the clubhead's; at 43.8 m/s the restitution is the face's own, 0.83."""
    club = wb.Club("worked", 0.2, 1.0, 1.1, 0.2, 0.83, cg_depth=0.036, shaft_mass=0.0)
    impact = wb.strike(wb.Delivery(43.8, dynamic_loft=0.0), club)
    return impact.smash_factor, impact.head_velocity_after[1] / 43.8


def start_direction():
    """A face 2° open to the path, on the head and delivery named, at every loft."""
    table = pd.read_csv(HERE / "start_direction.csv")
    rows, clubs, hits = heads()
    row = table["head"].map({name: i for i, name in enumerate(rows.club)}).to_numpy()
    club = wb.Club("worked", **{name: np.broadcast_to(x, (3,))[row] for name, x in clubs._numbers().items()})
    hit = wb.Delivery(hits.clubhead_speed[row], 0.0, hits.attack_angle[row], 2 * deg,
                      table.dynamic_loft_deg.to_numpy() * deg)  # fmt: skip
    return table.assign(ours=contact_of.struck_as_worked(hit, club).start_fraction,
                        shipped=wb.strike(hit, club).start_fraction)  # fmt: skip


def smash_factor():
    table = pd.read_csv(HERE / "smash_factor.csv")
    ours = [
        wb.strike(
            wb.Delivery(row.clubhead_speed_mps, 0.0, row.attack_angle_deg * deg, 0.0, row.dynamic_loft_deg * deg),
            wb.clubs[row.club],
        ).smash_factor
        for row in table.itertuples()
    ]
    return table.assign(ours=ours)


def test_the_launches_are_those_of_the_independent_code():
    table = independent_code()
    for name in ("ball_speed_mph", "launch_angle_deg", "spin_rate_rpm"):
        assert (table[f"{name}_pct"].abs() < 100 * INDEPENDENT).all(), table
    assert abs(table.ours_smash_factor[0] - 1.450) < 5e-4  # the printed digits


def test_without_loft_ball_and_head_leave_as_momentum_and_restitution_say():
    ball, head = zero_loft()
    assert abs(ball - 1.48823) < 5e-6
    assert abs(head - 0.65823) < 5e-6


def test_the_ball_starts_the_derived_part_of_the_way_from_path_to_face_less_with_loft():
    table = start_direction()
    assert ((table.ours - table.start_fraction).abs() < START_DERIVED).all(), table
    assert (np.diff(table.ours) < 0).all(), table


def test_from_mid_iron_lofts_on_the_ball_starts_within_the_measured_parts_of_the_way():
    table = start_direction()
    for fractions in (table.ours[table.dynamic_loft_deg > 20], table.shipped[table.dynamic_loft_deg > 20]):
        assert len(fractions) == 3
        assert fractions.between(*START_MEASURED).all(), table
    assert (np.diff(table.shipped) < 0).all(), table


def test_smash_factors_of_the_set_lie_in_the_windows_of_the_trade():
    table = smash_factor()
    assert table.ours.between(table.lower, table.upper).all(), table


if __name__ == "__main__":
    print(independent_code().T.round(3).to_string(header=False), end="\n\n")
    print("zero loft: {:.5f}, {:.5f}\n".format(*zero_loft()))
    for shown in (start_direction(), smash_factor()):
        print(shown.round(3).to_string(index=False), end="\n\n")
