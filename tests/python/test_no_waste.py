"""Nothing is computed that nobody asked for."""

import pytest

import whimbrel as wb
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
