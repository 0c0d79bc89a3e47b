"""``whimbrel sensitivity``."""

import json

import matplotlib.pyplot as plt
import pytest

import whimbrel as wb
from whimbrel.units import deg, mph

SWING = ("sensitivity", "--club", "7 iron", "--clubhead-speed", "84mph", "--attack-angle=-6deg", "--club-path",
         "4deg", "--face-angle=-1deg", "--dynamic-loft", "24deg")  # fmt: skip
LAUNCH = ("sensitivity", "--ball-speed", "120mph", "--launch-angle", "16deg", "--spin-rate", "7000rpm")


def test_the_table_is_that_of_python(command, hit, iron):
    code, out, err = command(*SWING)
    assert code == 0 and err == ""
    told = wb.sensitivity(hit, iron)
    for row in told.table():
        assert " ".join(row) in out
    assert "can injure or kill" in out and "doctor" in out


def test_a_measured_launch_takes_weather_wind_and_ground(command):
    code, out, _ = command(*LAUNCH, "--wind", "8mph", "--wind-from", "45deg", "--slope-up", "3%", "--rise", "2yd",
                           "--altitude", "500m", "--units", "metric", "--of", "descent-angle",
                           "--by", "launch-angle", "--by", "wind-from", "--by", "rise")  # fmt: skip
    assert code == 0 and "wind from 45.0° 1°" in out and "rise 1.8 m 1 m" in out
    assert "descent angle, °" in out and "launch angle 16.0° 1°" in out and "carry," not in out


def test_json_holds_every_derivative_in_si(command, hit, iron):
    code, out, _ = command(*SWING, "--of", "carry", "--by", "face_angle", "--json")
    told = json.loads(out)
    assert code == 0 and told["status"] == "ok" and told["not_smooth"] == []
    assert told["derivatives"]["carry"]["face_angle"] == pytest.approx(
        wb.sensitivity(hit, iron)["carry", "face_angle"], rel=1e-12
    )


def test_a_picture_is_drawn_and_its_figure_closed(command, tmp_path):
    open_before = plt.get_fignums()
    code, out, _ = command(*SWING, "--picture", tmp_path / "bars.png")
    assert code == 0 and "Picture:" in out and (tmp_path / "bars.png").stat().st_size > 10_000
    assert plt.get_fignums() == open_before


@pytest.mark.parametrize(
    "arguments, says",
    [
        (("--of", "carrot"), "'carrot' is not a known result here"),
        (("--by", "moon"), "'moon' is not a known input here"),
        (("--by", "wind-form"), "nearest: wind_from"),
        (("--ball-speed", "120mph"), "not both"),
        (("--picture", "bars.xyz"), "picture bars.xyz"),
    ],
)
def test_what_cannot_be_asked_is_one_line(command, arguments, says):
    code, _, err = command(*SWING, *arguments)
    assert code == 2 and says in err and "Traceback" not in err


def test_the_same_numbers_come_from_the_start_given_in_either_way(command):
    launch = wb.strike(wb.Delivery(84 * mph, dynamic_loft=24 * deg), wb.clubs["7 iron"]).launch
    told = wb.sensitivity(launch, of="carry", by="launch_angle")
    code, out, _ = command("sensitivity", "--ball-speed", f"{launch.ball_speed}m/s", "--launch-angle",
                           f"{launch.launch_angle}rad", "--spin-rate", f"{launch.spin_rate}rad/s", "--of", "carry",
                           "--by", "launch_angle", "--json")  # fmt: skip
    assert code == 0
    assert json.loads(out)["derivatives"]["carry"]["launch_angle"] == pytest.approx(
        told["carry", "launch_angle"], rel=1e-6
    )
