"""A player's clubs with their deliveries: usual, typical of a table, or one's own."""

from dataclasses import fields, replace
from itertools import pairwise
from pathlib import Path

import numpy as np
import pandas as pd
import pytest

import whimbrel as wb
from whimbrel.questions.bag import Bag, find_same_jobs
from whimbrel.units import deg, mm, mph, yd

PRACTICE = Path(__file__).parents[3] / "examples" / "data" / "invented_practice.csv"
UNITS = {"mph": mph, "deg": deg, "mm": mm}


def test_a_usual_bag_has_every_club_with_its_usual_delivery():
    bag = wb.usual_bag(105 * mph)
    assert list(bag) == list(wb.clubs)
    for name, (club, delivery) in bag.items():
        assert club == wb.clubs[name]
        assert delivery == wb.usual_delivery(club, 105 * mph)
    assert bag["driver"].delivery.clubhead_speed == pytest.approx(105 * mph, rel=1e-15)
    assert wb.usual_bag() == wb.usual_bag(95 * mph)


def test_a_usual_delivery_is_the_rule_worked_by_hand(iron):
    # A 37 in club is 8.5 in shorter than the driver; 33 degrees are 18 above 15; 100 mph are 13 under 113.
    hit = wb.usual_delivery(iron, 100 * mph)
    shorter = 8.5 * (0.0095 + 0.0021 * 8.5) * (0.63 + 0.37 * 100 / 113)
    assert hit.clubhead_speed == pytest.approx(np.exp(-shorter) * 100 * mph, rel=1e-12)
    assert hit.attack_angle == pytest.approx(-3.9 * (100 / 113) ** 3 * deg, rel=1e-12)
    assert hit.dynamic_loft == pytest.approx((33 - 12 + 8 * np.exp(-1.8) + 0.152 * 13) * deg, rel=1e-12)
    assert (hit.club_path, hit.strike_toe, hit.strike_high) == (0.0, 0.0, 0.0)


def test_usual_deliveries_of_many_paces_are_each_alone(iron):
    paces = np.array([60.0, 95.0, 120.0]) * mph
    many = wb.usual_delivery(iron, paces)
    assert many.shape == (3,)
    for i, pace in enumerate(paces):
        one = wb.usual_delivery(iron, pace)
        assert all(getattr(many, f.name)[i] == getattr(one, f.name) for f in fields(wb.Delivery))


def test_a_left_hander_swings_the_mirror_club_alike():
    right, left = wb.usual_bag(), wb.usual_bag(club_set=wb.clubs.left_handed())
    for name in right:
        assert left[name].club.hand == "left"
        assert left[name].delivery.dynamic_loft == pytest.approx(right[name].delivery.dynamic_loft, abs=1e-12)


def test_a_pace_out_of_range_is_refused(iron):
    with pytest.raises(wb.InputError, match=r"^driver_speed is 10 m/s .*accepted: 17.8816 m/s .* to 62.5856 m/s"):
        wb.usual_delivery(iron, 10.0)
    with pytest.raises(wb.InputError, match="row 1: driver_speed is 80 m/s"):
        wb.usual_delivery(iron, np.array([40.0, 80.0]))


@pytest.mark.parametrize("source", [PRACTICE, str(PRACTICE), pd.read_csv(PRACTICE)], ids=["path", "str", "frame"])
def test_a_typical_delivery_is_the_median_of_each_number(source):
    bag = wb.typical_bag(source)
    strikes = pd.read_csv(PRACTICE)
    assert list(bag) == ["7 iron", "driver"] == list(dict.fromkeys(strikes.club))
    for name, rows in strikes.groupby("club"):
        told = {}
        for column, values in rows.items():
            field, _, unit = str(column).rpartition("_")
            if field in wb.Delivery._columns:
                told[field] = values.median() * UNITS[unit]
        assert len(told) == 7
        for field in wb.Delivery._columns:
            assert getattr(bag[name].delivery, field) == pytest.approx(told.get(field, 0.0), rel=1e-12), field
        assert bag[name].club == wb.clubs[name]


def strikes_of(**columns):
    return pd.DataFrame(
        {"club": ["7 iron"] * 3, "clubhead_speed_mph": [80, 84, 90], "dynamic_loft_deg": [24, 25, 27]} | columns
    )


def test_bad_rows_and_unknown_clubs_are_left_out_of_a_typical_delivery():
    bag = wb.typical_bag(strikes_of(clubhead_speed_mph=[80, -1, 90]))
    assert bag["7 iron"].delivery.clubhead_speed == pytest.approx(85 * mph)
    assert bag["7 iron"].delivery.dynamic_loft == pytest.approx(25.5 * deg)
    bag = wb.typical_bag(strikes_of(club=["7 iron", "spoon", "8 iron"]))
    assert list(bag) == ["7 iron", "8 iron"]


def test_a_table_without_a_delivery_is_refused_and_says_why(tmp_path):
    launches = pd.DataFrame({"ball_speed_mph": [120], "launch_angle_deg": [16], "spin_rate_rpm": [7000]})
    with pytest.raises(wb.InputError, match="no row has a delivery with a club: the rows have launches"):
        wb.typical_bag(launches)
    with pytest.raises(wb.InputError, match="no club is called 'spoon'; there are: driver, 3 wood"):
        wb.typical_bag(strikes_of(club=["spoon"] * 3))
    with pytest.raises(wb.InputError, match=r"nowhere\.csv: no such file"):
        wb.typical_bag("nowhere.csv")
    launches.to_csv(tmp_path / "launches.csv", index=False)
    with pytest.raises(wb.InputError, match=r"launches\.csv: no row has a delivery with a club"):
        wb.typical_bag(tmp_path / "launches.csv")


def test_a_table_whose_rows_are_all_bad_is_refused():
    with pytest.raises(wb.InputError, match="clubhead_speed"):
        wb.typical_bag(strikes_of(clubhead_speed_mph=[-1, -2, -3]))


def test_a_bag_stacks_its_clubs_in_its_order():
    bag = wb.usual_bag()
    club, delivery = bag.stack()
    assert club.shape == delivery.shape == (13,) and club.hand == "right"
    for i, name in enumerate(bag):
        assert club.loft[i] == bag[name].club.loft
        assert delivery.clubhead_speed[i] == bag[name].delivery.clubhead_speed


def test_an_empty_bag_and_one_of_both_hands_cannot_be_stacked():
    with pytest.raises(wb.InputError, match="the bag is empty"):
        Bag({}).stack()
    left = wb.usual_bag(club_set=wb.clubs.left_handed())
    with pytest.raises(wb.InputError, match="right-handed and left-handed clubs"):
        Bag({"7 iron": wb.usual_bag()["7 iron"], "8 iron": left["8 iron"]}).stack()


def test_a_club_the_bag_does_not_have_is_refused_with_those_it_has():
    with pytest.raises(wb.InputError, match="no club of the bag is called 'spoon'; there are: driver, 3 wood"):
        wb.usual_bag()["spoon"]


def test_neighbours_that_carry_under_4_yards_apart_do_the_same_job():
    slow = wb.usual_bag(70 * mph)
    jobs = find_same_jobs(slow)
    assert jobs
    carries = {name: wb.play(swing.delivery, swing.club).carry for name, swing in slow.items()}
    for job in jobs:
        assert 0.0 <= job.apart < 4 * yd
        assert job.apart == pytest.approx(carries[job.longer] - carries[job.shorter], abs=2e-3)
    told = {frozenset((job.longer, job.shorter)) for job in jobs}
    order = sorted(carries, key=lambda name: -carries[name])
    near = {frozenset(pair) for pair in pairwise(order) if carries[pair[0]] - carries[pair[1]] < 4 * yd}
    assert told == near


def test_a_putter_has_no_usual_delivery():
    putter = replace(wb.clubs["pitching wedge"], name="putter", loft=3 * deg)
    with pytest.raises(
        wb.InputError, match=r"loft is 0\.05\d+ rad \(3 deg\): such a club has no usual delivery; accepted"
    ):
        wb.usual_delivery(putter)


def test_a_bag_does_without_a_putter_and_says_so():
    putter = replace(wb.clubs["pitching wedge"], name="putter", loft=3 * deg)
    bag = wb.usual_bag(club_set={"7 iron": wb.clubs["7 iron"], "putter": putter})
    assert list(bag) == ["7 iron"]
    assert bag.left_out == ("putter: a loft of 3.0° has no usual delivery",)
