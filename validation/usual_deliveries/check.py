"""Usual deliveries of the shipped set, struck and flown: the trade's launches and carries, and their order."""

from functools import cache
from pathlib import Path

import numpy as np
import pandas as pd

import whimbrel as wb
from whimbrel.units import deg, mph, rpm, yd

HERE = Path(__file__).parent
PACES = np.arange(55.0, 126.0, 2.5)  # mph
#: At 113 mph: degrees of launch angle, and shares of spin, ball speed and carry.
LAUNCH, SPIN, SPEED, CARRY = 1.0, 0.08, 0.03, 0.04


@cache
def played():
    """Every club of the set at every pace: arrays by name, a row a pace, a column a club; trade units."""
    return _played(np.append(PACES, [70.0, 94.0, 113.0]))


def _played(paces):
    clubs = wb.Club("set", **{n: np.array([getattr(c, n) for c in wb.clubs.values()]) for n in wb.Club._columns})
    shot = wb.play(wb.usual_delivery(clubs, paces[:, None] * mph), clubs)
    launch, flight = shot.launch, shot.flight
    return {
        "ball_speed_mph": launch.ball_speed / mph,
        "launch_angle_deg": launch.launch_angle / deg,
        "spin_rate_rpm": launch.spin_rate / rpm,
        "carry_yd": flight.carry / yd,
        "apex_yd": flight.apex / yd,
        "descent_angle_deg": flight.descent_angle / deg,
    }


def on_grid(name):
    return played()[name][: PACES.size]


def at(pace):
    """One pace's set as a table."""
    row = PACES.size + [70, 94, 113].index(pace)
    return pd.DataFrame({name: x[row] for name, x in played().items()}, index=list(wb.clubs))


def strong_men():
    """Ours less the trade's at 113 mph: degrees, and shares."""
    theirs = pd.read_csv(HERE / "strong_men.csv", index_col="club")
    ours = at(113).loc[theirs.index]
    shares = ours[theirs.columns] / theirs - 1
    return shares.assign(launch_angle_deg=ours.launch_angle_deg - theirs.launch_angle_deg)


def windows():
    """The trade's windows at slower paces with ours beside them."""
    table = pd.read_csv(HERE / "windows.csv")
    ours = [at(row.driver_speed_mph).loc[row.club, row.quantity] for row in table.itertuples()]
    return table.assign(ours=ours)


def test_the_launches_of_strong_men_come_out():
    off = strong_men().abs()
    assert (off.launch_angle_deg < LAUNCH).all(), off
    assert (off.spin_rate_rpm < SPIN).all(), off
    assert (off.ball_speed_mph < SPEED).all(), off
    assert (off.carry_yd < CARRY).all(), off


def test_slower_players_are_inside_the_trades_windows():
    table = windows()
    assert table.ours.between(table.least, table.most).all(), table


def test_along_the_set_carry_falls_and_descent_never_falls():
    assert (np.diff(on_grid("carry_yd")) < 0).all()
    assert (np.diff(on_grid("descent_angle_deg")) > 0).all()


def test_along_the_set_spin_rises_to_the_sand_wedge_and_less_spin_leaves_the_lob_wedge():
    spin = on_grid("spin_rate_rpm")
    assert (np.diff(spin[:, :-1]) > 0).all()
    assert (spin[:, -1] < 1.02 * spin[:, -2]).all()


def test_from_90_mph_up_all_clubs_fly_about_as_high():
    apex = on_grid("apex_yd")[PACES >= 90]
    assert np.abs(apex / np.median(apex, axis=1, keepdims=True) - 1).max() < 0.20


def test_at_70_mph_no_gap_is_negative_and_irons_are_3_to_10_yd_apart_the_closest_among_the_longest():
    gaps = -np.diff(at(70).carry_yd)
    irons = gaps[4:9]  # 5 iron to pitching wedge
    assert (gaps > 0).all()
    assert irons.min() > 3 and irons.max() < 10
    assert irons.argmin() < 2


def test_along_the_pace_all_clubs_change_smoothly():
    for name, x in played().items():
        x = x[: PACES.size]
        bend, range_ = np.abs(np.diff(x, 2, axis=0)).max(axis=0), np.ptp(x, axis=0)
        # An even change would bend by nothing; a kink or a step by the size of what changes in 2.5 mph.
        assert (bend < 0.02 * range_).all(), (name, bend / range_)


if __name__ == "__main__":
    print("113 mph: launch angle in degrees, the others as shares, ours less the trade's")
    print(strong_men().round(3).to_string())
    print(windows().round(1).to_string(index=False))
    for pace in (113, 94, 70):
        print(f"\n{pace} mph")
        print(at(pace).assign(gap_yd=lambda t: -t.carry_yd.diff()).round(1).to_string())
