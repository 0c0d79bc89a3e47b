"""The trade's rules for slope, wind, altitude and temperature beside what the flight says."""

import functools
from pathlib import Path

import numpy as np
import pandas as pd
import pytest

import whimbrel as wb
from whimbrel.questions.course import TargetPoint, rules_of_thumb
from whimbrel.units import celsius, deg, fahrenheit, ft, mph, rpm, yd

HERE = Path(__file__).parent
ROUND_TRIP = 2e-5  # m: the solver's 1e-5, and what a flight of 300 m is sure to
SLOPE_TOLERANCE = 0.15  # of the height over the slope of the descent, stated with the rule
CLIMB, PLAYS = 10.0, (150 * yd, 160 * yd, 2 * yd)  # m; "150 plays 160", and what is taken as 160
ALTITUDE_WINDOW = 0.011, 0.020  # of carry for the first 1,000 ft, published and this model's
COLD, WARM = (wb.setting.air(wb.Weather(celsius(t), relative_humidity=0.5)) for t in (5.0, 35.0))

CONDITIONS = {
    "10 m up": {"rise": 10.0},
    "10 m down": {"rise": -10.0},
    "10 mph ahead": {"wind": wb.Wind(10 * mph)},
    "10 mph behind": {"wind": wb.Wind(10 * mph, 180 * deg)},
    "1,000 ft": {"weather": wb.Weather(celsius(15), altitude=1000 * ft)},
    "10 °F warmer": {"weather": wb.Weather(fahrenheit(69))},
}
# Launches of a strong player's clubs (common practice): those the statements on air were made with.
STRONG = {
    "drive, 167 mph": wb.Launch(167 * mph, 11 * deg, spin_rate=2700 * rpm),
    "mid-iron, 120 mph": wb.Launch(120 * mph, 16 * deg, spin_rate=7000 * rpm),
    "wedge, 95 mph": wb.Launch(95 * mph, 27 * deg, spin_rate=9500 * rpm),
}


def swing(club, driver_speed_mph):
    return wb.usual_bag(driver_speed_mph * mph)[club]


def shots():
    return [tuple(row) for row in pd.read_csv(HERE / "shots.csv").itertuples(index=False)]


def in_condition(usual, condition):
    """The usual swing's carry on the level, and in a condition, and the condition's target."""
    given = dict(CONDITIONS[condition])
    rise = given.pop("rise", 0.0)
    level = wb.play(usual.delivery, usual.club).flight
    here = wb.play(usual.delivery, usual.club, terrain=wb.Terrain(height=rise), **given).flight
    return level, here, {"distance": here.downrange, "rise": rise, **given}


@functools.cache
def added():
    """What each condition adds to the distance that the usual swing carries in it, by flight and by rule, yd."""
    rows = []
    for club, speed in shots():
        for condition in CONDITIONS:
            level, _, target = in_condition(swing(club, speed), condition)
            weather, wind = target.get("weather", wb.Weather()), target.get("wind", wb.Wind())
            ruled = sum(rules_of_thumb(TargetPoint(target["distance"], target["rise"]), weather, wind).values())
            rows.append([f"{club}, {speed} mph", condition, (level.carry - target["distance"]) / yd, ruled / yd])
    return pd.DataFrame(rows, columns=["shot", "condition", "by_flight_yd", "rule_yd"])


def by_flight(club, speed, condition):
    table = added()
    return table[(table["shot"] == f"{club}, {speed} mph") & (table.condition == condition)].by_flight_yd.item()


def slope_ratio(usual, rise):
    """What a rise, m, does to the carry, over the rise over the slope of the level flight's descent."""
    level, here, _ = in_condition(usual, "10 m up" if rise > 0 else "10 m down")
    return (level.carry - here.downrange) / (rise / np.tan(level.descent_angle))


def climb_that_plays_160(club):
    """m, for a player who swings a driver at 105 mph."""
    usual, (lower, upper) = swing(club, 105), (0.0, 25.0)
    for _ in range(30):
        middle = 0.5 * (lower + upper)
        level = wb.level_distance(usual.delivery, usual.club, distance=PLAYS[0], rise=middle).level_distance
        lower, upper = (middle, upper) if level < PLAYS[1] else (lower, middle)
    return lower


def gain(start, weather, club=None):
    return wb.play(start, club, weather=weather).carry / wb.play(start, club).carry - 1


def warmth(usual):
    """Carry at 35 °C over 5 °C, m: in all, by density alone at the same Reynolds number, by that number alone."""
    same_reynolds = wb.setting.Air(WARM.density, COLD.viscosity * WARM.density / COLD.density)
    cold, thin, warm = (wb.play(usual.delivery, usual.club, weather=a).carry for a in (COLD, same_reynolds, WARM))
    return warm - cold, thin - cold, warm - thin


@pytest.mark.parametrize("condition", CONDITIONS)
@pytest.mark.parametrize(("club", "speed"), shots())
def test_a_target_the_usual_swing_carries_to_plays_that_swings_own_carry(club, speed, condition):
    usual = swing(club, speed)
    level, _, target = in_condition(usual, condition)
    course = wb.level_distance(usual.delivery, usual.club, **target)
    assert course.level_distance == pytest.approx(level.carry, abs=ROUND_TRIP)
    assert course.speed_share == pytest.approx(1.0, abs=1e-6)


@pytest.mark.parametrize("rise", [10, -10])
@pytest.mark.parametrize(("club", "speed"), [shot for shot in shots() if shot[1] == 110])
def test_ten_metres_add_or_take_their_height_over_the_slope_of_the_descent(club, speed, rise):
    assert slope_ratio(swing(club, speed), rise) == pytest.approx(1.0, abs=SLOPE_TOLERANCE)


# The clubs whose usual carry at this pace is nearest; longer ones come in flatter and play 2 to 5 yd longer.
@pytest.mark.parametrize("club", ["7 iron", "8 iron"])
def test_150_yards_with_a_clear_climb_play_160(club):
    usual = swing(club, 105)
    course = wb.level_distance(usual.delivery, usual.club, distance=PLAYS[0], rise=CLIMB)
    assert course.level_distance == pytest.approx(PLAYS[1], abs=PLAYS[2])


@pytest.mark.parametrize(("club", "speed"), shots())
def test_a_head_wind_adds_more_than_the_same_tail_wind_takes(club, speed):
    assert by_flight(club, speed, "10 mph ahead") > -by_flight(club, speed, "10 mph behind")


@pytest.mark.parametrize("name", ["drive, 167 mph", "mid-iron, 120 mph"])
def test_the_first_thousand_feet_add_what_is_published_or_this_models_share(name):
    lower, upper = ALTITUDE_WINDOW
    assert lower < gain(STRONG[name], wb.Weather(altitude=1000 * ft)) < upper


@pytest.mark.parametrize("name", STRONG)
def test_a_strong_players_ball_carries_farther_in_warmer_air(name):
    carries = [wb.play(STRONG[name], weather=wb.Weather(celsius(t))).carry for t in (0, 10, 20, 30, 40)]
    assert (np.diff(carries) > 0).all()


def test_a_lob_wedge_loses_more_by_reynolds_number_than_thin_air_gives_it():
    total, thin, reynolds = warmth(swing("lob wedge", 95))
    assert thin > 0 > reynolds and total < 0


if __name__ == "__main__":
    table = added().pivot(index="shot", columns="condition", values=["by_flight_yd", "rule_yd"])
    order = [f"{club}, {speed} mph" for club, speed in shots()]
    for what in ("by_flight_yd", "rule_yd"):
        print(f"\nadded to the distance, {what}")
        print(table[what].loc[order, list(CONDITIONS)].round(1).to_string())
    print("\nclimb with which 150 yd play 160, m, for a 105 mph player:")
    print("  " + ", ".join(f"{club} {climb_that_plays_160(club):.1f}" for club in ("5 iron", "6 iron", "7 iron")))
    print("\nwhat 10 m up and down do to the carry, over the height over the slope of the level flight's descent:")
    for club, speed in shots():
        print(
            f"  {club}, {speed} mph: " + ", ".join(f"{slope_ratio(swing(club, speed), x):.2f}" for x in (10, -10))
        )
    print("\ncarry gained in the first 1,000 ft, %, in ISO air (strong launches; then usual drivers):")
    print("  " + ", ".join(f"{n} {100 * gain(x, wb.Weather(altitude=1000 * ft)):.2f}" for n, x in STRONG.items()))
    for speed in (80, 95, 110, 125):
        usual = swing("driver", speed)
        high = gain(usual.delivery, wb.Weather(altitude=1000 * ft), usual.club)
        print(f"  driver at {speed} mph {100 * high:.2f}")
    print("\ncarry at 35 °C over 5 °C, yd: in all, by density at the same Reynolds number, by that number:")
    for club, speed in shots():
        print(f"  {club}, {speed} mph: " + ", ".join(f"{x / yd:+.1f}" for x in warmth(swing(club, speed))))
