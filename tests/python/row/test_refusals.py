"""Strikes and arcs that cannot be are refused by name, before any number comes out of them."""

from dataclasses import replace

import numpy as np
import pytest

import whimbrel as wb
from whimbrel.units import deg, mm

DRIVER = wb.clubs["driver"]
ARC = wb.SwingArc(low_point_ahead=0.1, low_point_height=-0.004)
HIT = wb.Delivery(40.0, dynamic_loft=0.4)


@pytest.mark.parametrize(
    "delivery",
    [
        wb.Delivery(40.0, 80 * deg, dynamic_loft=10 * deg, strike_toe=-57 * mm),  # the bulge faces away
        wb.Delivery(1.0, dynamic_loft=30 * deg, strike_toe=40 * mm, closure_rate=-190.0),  # the toe runs back
    ],
    ids=["bulge", "closing"],
)
def test_a_face_that_leaves_the_ball_where_they_meet_is_refused_though_its_centre_approaches(delivery):
    wb.strike(replace(delivery, strike_toe=0.0), DRIVER)
    for play in (wb.strike, wb.play):
        with pytest.raises(wb.InputError, match=r"not approaching the ball where they meet: -\d.* m/s"):
            play(delivery, DRIVER)


def test_every_strike_that_is_accepted_takes_time_loses_energy_and_sends_the_ball_off(draw):
    n = 1000
    hits = wb.Delivery(
        draw.uniform(1, 60, n), draw.uniform(-80, 80, n) * deg, draw.uniform(-20, 20, n) * deg,
        draw.uniform(-60, 60, n) * deg, draw.uniform(0, 70, n) * deg, draw.uniform(-57, 57, n) * mm,
        draw.uniform(-28, 28, n) * mm, closure_rate=draw.uniform(-200, 200, n),
    )  # fmt: skip
    shots = wb.play(hits, DRIVER, errors="mask")
    good, struck = shots.status != "bad_input", shots.impact
    assert 300 < good.sum() < n
    assert np.all(struck.contact_time[good] > 0) and np.all(struck.energy_lost[good] > 0)
    assert np.all((struck.slip_time[good] >= 0) & (struck.slip_time[good] < struck.contact_time[good] * (1 + 1e-9)))


@pytest.mark.parametrize("offset", ["strike_toe", "strike_high"])
def test_the_rigid_model_names_the_offset_it_refuses(offset):
    hit = wb.Delivery(45.0, dynamic_loft=0.2, **{offset: 5 * mm})
    with pytest.raises(wb.InputError, match=rf"^{offset}: .*accepted: 0 m, not 0\.005 m"):
        wb.strike(hit, DRIVER, impact="rigid")


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda: ARC.at_ball("both"), "hand is 'both'; accepted: right, left"),
        (lambda: wb.arcs.arc_of(HIT, plane_inclination=1.0, hand="both"), "hand is 'both'"),
        (lambda: wb.arcs.carried_along(HIT, ARC, ARC, hand="both"), "hand is 'both'"),
        (lambda: wb.arcs.carried_along(HIT, ARC, ARC, face="helt"), "face is 'helt'; accepted: turning, held"),
        (lambda: wb.arcs.carried_along(HIT, ARC, ARC.ball_moved(3.0)), "low_point_ahead is -2.9 m"),
        (lambda: wb.arcs.on_uphill_stance(HIT, np.nan), "uphill is nan deg"),
        (lambda: wb.arcs.on_uphill_stance(HIT, 3.0), "uphill is 171.9 deg; accepted: -45 deg to 45 deg"),
        (lambda: wb.arcs.ground_strike(ARC, DRIVER, dynamic_loft=np.nan), "dynamic_loft is nan"),
        (lambda: wb.arcs.ground_strike(ARC, DRIVER, dynamic_loft=0.2, tee_height=-1.0), "tee_height is -1"),
        (lambda: wb.arcs.ground_strike(ARC, DRIVER, dynamic_loft=0.2, sole_depth=np.nan), "sole_depth is nan"),
    ],
)
def test_what_an_arc_cannot_do_is_refused_by_name(call, says):
    with pytest.raises(wb.InputError) as error:
        call()
    assert says in str(error.value)


@pytest.mark.parametrize("more", [("--club", "7 iron"), ("--dynamic-loft", "24deg"), ("--picture", "arc.xyz")])
def test_a_mistake_in_the_arc_command_prints_nothing_else(command, more):
    code, out, err = command("arc", "--club-path", "2deg", "--attack-angle=-6deg", "--plane", "62deg", *more)
    assert (code, out) == (2, "") and err


def test_a_level_hit_and_a_low_point_at_the_ball_are_told_as_such(command):
    _, out, _ = command("arc", "--club-path", "0deg", "--attack-angle", "0deg", "--plane", "60deg")
    assert "Hitting level" in out and "low point lies at the ball" in out and "0.0° up" not in out
    _, out, _ = command("arc", "--club-path", "0.04deg", "--attack-angle=-6deg", "--plane", "62deg")
    assert "path measures at the target" in out and "still goes right" not in out
