"""Nothing is computed that nobody asked for."""

import sys
from collections import Counter
from pathlib import Path

import numpy as np
import pytest

import whimbrel as wb
from whimbrel import core
from whimbrel.row import play as row_play

HIT = wb.Delivery(37.5, attack_angle=-0.08, dynamic_loft=0.43)
IRON = wb.clubs["7 iron"]


@pytest.fixture
def runs(monkeypatch):
    """How many shots' runs were played, array by array."""
    played = []
    whole = row_play._run

    def counted(run_out, *rest):
        run, excess = whole(run_out, *rest)
        played.append(run.shape)
        return run, excess

    monkeypatch.setattr(row_play, "_run", counted)
    return played


def test_a_cloud_at_the_landing_plays_no_run_and_one_at_rest_does(runs):
    wb.dispersion(HIT, IRON, sd={"face_angle": 0.02}, samples=200)
    assert [shape for shape in runs if shape] == []
    wb.dispersion(HIT, IRON, sd={"face_angle": 0.02}, samples=200, at="rest")
    assert (200,) in runs


def test_shares_of_the_spread_of_carry_play_no_run_and_those_of_total_do(runs):
    spread = {"face_angle": 0.02, "clubhead_speed": 0.5}
    wb.global_sensitivity(HIT, IRON, spread=spread, of="carry", samples=16)
    assert [shape for shape in runs if shape] == []
    wb.global_sensitivity(HIT, IRON, spread=spread, of="total", samples=16)
    assert sum(shape[0] for shape in runs if shape) == 64


LAUNCH = wb.Launch(60.0, 0.25, spin_rate=500.0)
LAUNCHES = wb.Launch(np.linspace(55.0, 65.0, 10), 0.25, spin_rate=500.0)
HITS = wb.Delivery(np.linspace(35.0, 40.0, 10), dynamic_loft=0.43)
CALLS = {
    "launch": lambda: wb.play(LAUNCH),
    "delivery": lambda: wb.play(HIT, IRON),
    "launches": lambda: wb.play(LAUNCHES),
    "deliveries": lambda: wb.play(HITS, IRON),
}
#: Start, club, ball, weather, its air, wind, terrain, turf.
VALUES = 8


def passes(action):
    """How often an action enters each function of what all values share."""
    folder, entered = str(Path(core.__file__).parent), Counter()

    def note(frame, event, _):
        if event == "call" and frame.f_code.co_filename.startswith(folder):
            entered[frame.f_code.co_qualname] += 1

    before = sys.getprofile()
    sys.setprofile(note)
    try:
        action()
    finally:
        sys.setprofile(before)
    return entered


@pytest.mark.parametrize("call", CALLS.values(), ids=CALLS)
def test_a_call_takes_its_values_on_the_road_once_and_their_numbers_not_one_by_one(call):
    call()  # the defaults are made once for all calls
    entered = passes(call)
    assert entered["common_shape"] == entered["is_lazy"] == 1
    assert max(entered.values()) <= VALUES
    assert entered.keys().isdisjoint({"own", "Value.__post_init__", "Value._row", "Column.__get__"})


def test_a_value_of_scalars_is_packed_once_for_all_its_calls():
    launch = wb.Launch(61.0, 0.25, spin_rate=500.0)
    wb.play(LAUNCH)
    assert passes(lambda: wb.play(launch))["Value._row"] == 1
    assert passes(lambda: wb.play(launch, wind=wb.Wind(3.0)))["Value._row"] == 1  # the wind's


@pytest.mark.parametrize("call", CALLS.values(), ids=CALLS)
def test_a_number_of_a_result_is_unpacked_when_it_is_first_asked_for(call):
    shot = call()
    assert passes(lambda: shot.carry)["Column.__get__"] == 1
    assert passes(lambda: shot.carry)["Column.__get__"] == 0
    assert passes(lambda: shot.flight.apex)["Column.__get__"] == 1
