"""The usual delivery from the command, and the pace that a reference is of."""

import json

import numpy as np
import pytest

import whimbrel as wb
from whimbrel.questions.bag import pace_of
from whimbrel.units import mph


@pytest.mark.parametrize("name", ["driver", "3 wood", "7 iron", "lob wedge"])
def test_a_pace_is_found_again_from_the_speed_of_any_club(name):
    for pace in (45 * mph, 95 * mph, 130 * mph):
        speed = float(wb.usual_delivery(wb.clubs[name], pace).clubhead_speed)
        assert pace_of(wb.clubs[name], speed) == pytest.approx(pace, rel=1e-12)


def test_a_pace_is_held_inside_what_usual_deliveries_take():
    assert pace_of(wb.clubs["driver"], 5.0) == 40 * mph
    assert pace_of(wb.clubs["driver"], 90.0) == 140 * mph


def test_a_shot_is_held_against_the_usual_one_of_its_own_pace():
    club = wb.clubs["7 iron"]
    slow = wb.play(wb.usual_delivery(club, 70 * mph), club)
    told = wb.explain(slow)
    assert float(told.reference.clubhead_speed) == pytest.approx(float(slow.delivery.clubhead_speed), rel=1e-12)
    assert abs(told.reference_carry - slow.carry) < 1e-6
    at_95 = wb.explain(slow, driver_speed=95 * mph)
    assert float(at_95.reference.clubhead_speed) == float(wb.usual_delivery(club, 95 * mph).clubhead_speed)
    with pytest.raises(wb.InputError, match="reference or driver_speed, not both"):
        wb.explain(slow, slow.delivery, driver_speed=95 * mph)


def test_the_command_plays_a_usual_delivery_with_what_is_given_in_its_place(command):
    _, out, _ = command("play", "--club", "7 iron", "--usual", "--driver-speed", "80mph", "--json")
    club = wb.clubs["7 iron"]
    assert json.loads(out)["flight"]["carry"] == pytest.approx(
        float(wb.play(wb.usual_delivery(club, 80 * mph), club).carry), rel=1e-6
    )
    _, changed, _ = command("play", "--club", "7 iron", "--usual", "--face-angle", "2deg", "--json")
    delivery = json.loads(changed)["delivery"]
    assert delivery["face_angle"] == pytest.approx(np.deg2rad(2.0))
    assert delivery["dynamic_loft"] == pytest.approx(float(wb.usual_delivery(club).dynamic_loft))


@pytest.mark.parametrize(
    ("asked", "said"),
    [
        (["--usual"], "--usual needs a club"),
        (["--club", "7 iron", "--clubhead-speed", "84mph", "--dynamic-loft", "24deg", "--driver-speed", "80mph"],
         "--driver-speed goes with --usual"),
        (["--club", "7 iron", "--usual", "--driver-speed", "20mph"],
         "driver_speed is 20 mph; accepted: 40 mph to 140 mph"),
    ],
)  # fmt: skip
def test_what_usual_cannot_be_is_refused(command, asked, said):
    code, _, err = command("play", *asked)
    assert code == 2
    assert said in err
