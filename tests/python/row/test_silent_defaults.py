"""What is left out, or given in vain, is refused or told: no default is taken without a word."""

import warnings
from dataclasses import replace

import numpy as np
import pandas as pd
import pytest

import whimbrel as wb
from whimbrel.units import deg, mph

IRON = wb.clubs["7 iron"]
HIT = wb.Delivery(37.0, dynamic_loft=0.4)
LAUNCH = wb.Launch(60.0, 0.2, spin_rate=300.0)


@pytest.mark.parametrize("nothing", [{}, 0, "", [], False], ids=repr)
@pytest.mark.parametrize("name", ["ball", "weather", "wind", "terrain", "turf"])
def test_an_argument_that_is_none_of_its_kind_is_refused_however_empty(name, nothing):
    calls = [lambda: wb.play(HIT, IRON, **{name: nothing}), lambda: wb.sensitivity(HIT, IRON, **{name: nothing})]
    if name in ("ball", "terrain", "turf"):
        calls.append(
            lambda: wb.holding_green.spin_to_hold(5.0, landing_speed=20.0, descent_angle=0.8, **{name: nothing})
        )
    if name in ("ball", "weather", "wind"):
        calls.append(lambda: wb.level_distance(HIT, IRON, distance=100.0, **{name: nothing}))
    if name != "turf":
        calls.append(lambda: wb.what_if(wb.play(HIT, IRON), **{name: nothing}))
    if name == "ball":
        calls += [
            lambda: wb.strike(HIT, IRON, ball=nothing),
            lambda: wb.at_standard_conditions(wb.play(LAUNCH), ball=nothing),
        ]
    if name == "wind":
        calls.append(lambda: wb.table(ROWS, wind=nothing))
    for call in calls:
        with pytest.raises(wb.InputError, match=f"{name} is "):
            call()


ROWS = pd.DataFrame(
    {"ball_speed_mph": [130.0], "launch_angle_deg": [18.0], "spin_rate_rpm": [6000.0], "wind_speed_mph": [3.0]}
)


@pytest.mark.parametrize(
    "start", [(HIT, IRON), (LAUNCH,), (wb.Landing(20.0, 0.8),)], ids=["delivery", "launch", "landing"]
)
def test_an_unknown_impact_model_is_refused_beside_any_start(start):
    with pytest.raises(wb.InputError, match="impact is 'magic'"):
        wb.play(*start, impact="magic")


@pytest.mark.parametrize("start", [(HIT, IRON), (LAUNCH,)], ids=["delivery", "launch"])
def test_slopes_refuse_an_unknown_impact_model_too(start):
    with pytest.raises(wb.InputError, match="impact is 'magic'"):
        wb.sensitivity(*start, impact="magic")


def test_an_empty_impact_model_is_not_the_default():
    with pytest.raises(wb.InputError, match="impact is ''"):
        wb.sensitivity(HIT, IRON, impact="")


@pytest.mark.parametrize(
    "verb",
    [
        wb.play, wb.fly, wb.sensitivity, lambda x: wb.level_distance(x, distance=100.0),
        lambda x: wb.dispersion(x, sd={"launch_angle": 0.01}, samples=100),
        lambda x: wb.sweep(x, launch_angle=[0.1, 0.2]),
    ],
    ids=["play", "fly", "sensitivity", "level_distance", "dispersion", "sweep"],
)  # fmt: skip
def test_a_launch_that_does_not_say_its_spin_is_told_once(verb):
    with pytest.warns(wb.InputWarning, match="spin_rate is not given") as told:
        verb(wb.Launch(60.0, 0.2))
    assert len([w for w in told if w.category is wb.InputWarning]) == 1
    with warnings.catch_warnings():
        warnings.simplefilter("error", wb.InputWarning)
        verb(wb.Launch(60.0, 0.2, spin_rate=0.0))
        verb(replace(wb.Launch(60.0, 0.2), spin_rate=0.0))


def test_a_warning_is_of_the_callers_line():
    with pytest.warns(wb.InputWarning) as told:
        wb.fly(wb.Launch(60.0, 0.2))
    assert told[0].filename == __file__


def test_a_delivery_without_loft_is_told_and_no_sweep_starts_from_it():
    with pytest.warns(wb.InputWarning, match="dynamic_loft is not given"):
        wb.play(wb.Delivery(37.0), IRON)
    with pytest.raises(wb.InputError, match="dynamic_loft is not given"):
        wb.sweep(wb.Delivery(37.0), IRON, club_path=[0.0, 0.1])
    with warnings.catch_warnings():
        warnings.simplefilter("error", wb.InputWarning)
        wb.sweep(wb.Delivery(37.0), IRON, dynamic_loft=[0.3, 0.4])
        wb.sweep(wb.Delivery(37.0, dynamic_loft=0.0), IRON, club_path=[0.0, 0.1])
        wb.sweep(wb.Launch(60.0, 0.2), spin_rate=[200.0, 300.0])


@pytest.mark.parametrize(
    "call",
    [
        lambda: wb.Delivery(84, dynamic_loft=0.4), lambda: wb.Delivery(np.array([40.0, 84.0]), dynamic_loft=0.4),
        lambda: replace(HIT, clubhead_speed=84.0), lambda: wb.present(IRON, clubhead_speed=84.0),
        lambda: wb.what_if(wb.play(HIT, IRON), delivery={"clubhead_speed": 84.0}),
        lambda: wb.sweep(HIT, IRON, clubhead_speed=[80.0, 84.0]),
    ],
    ids=["scalar", "array", "replace", "present", "what_if", "sweep"],
)  # fmt: skip
def test_a_speed_that_reads_as_miles_an_hour_is_told(call):
    with pytest.warns(wb.InputWarning, match=r"clubhead_speed is 84 m/s \(188 mph\).*84 \* mph"):
        call()


def test_a_speed_that_is_swung_is_not():
    with warnings.catch_warnings():
        warnings.simplefilter("error", wb.InputWarning)
        wb.play(wb.Delivery(145 * mph, dynamic_loft=12 * deg), wb.clubs["driver"])


def test_a_slip_in_a_column_is_told_with_the_name_that_was_meant(command, tmp_path):
    rows = ROWS.assign(launch_directoin_deg=[2.0], note=["windy"], player=["A"])
    with pytest.warns(
        wb.InputWarning, match="'launch_directoin_deg' is not read: did you mean launch_direction_deg"
    ) as told:
        wb.table(rows)
    assert len(told) == 1
    rows.to_csv(tmp_path / "rows.csv", index=False)
    _, out, _ = command("table", str(tmp_path / "rows.csv"))
    assert "did you mean launch_direction_deg?" in out and "note, player" in out


def test_the_inertia_follows_mass_and_radius_unless_it_was_given():
    heavy = replace(wb.Ball(), mass=0.05)
    assert heavy.inertia == wb.Ball(0.05).inertia == pytest.approx(0.4 * 0.05 * 0.021335**2, rel=1e-14)
    assert replace(heavy, radius=0.022).inertia == wb.Ball(0.05, 0.022).inertia
    assert replace(wb.Ball(inertia=9e-6), mass=0.05).inertia == 9e-6
    assert replace(wb.Ball(), inertia=9e-6, mass=0.05).inertia == 9e-6
    masses = np.array([0.044, 0.045])
    assert np.array_equal(replace(wb.Ball(masses), radius=0.022).inertia, wb.Ball(masses, 0.022).inertia)


def test_a_swept_ball_is_the_ball_of_that_mass():
    swept = wb.sweep(HIT, IRON, ball_mass=[0.040, 0.045], accuracy="reference")
    alone = [wb.play(HIT, IRON, ball=wb.Ball(m)).carry for m in (0.040, 0.045)]
    assert np.allclose(swept.carry, alone, rtol=1e-12)
    assert "of_ball_inertia" not in swept.attrs
