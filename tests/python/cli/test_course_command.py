"""The commands for shots on the course: course, stopping and conditions."""

import json

import numpy as np
import pandas as pd
import pytest

import whimbrel as wb
from whimbrel.core import cautions
from whimbrel.questions.conditions import carry_by_air, carry_by_wind
from whimbrel.questions.holding_green import descent_to_hold, spin_to_hold
from whimbrel.units import celsius, deg, ft, hPa, mph, percent, rpm, yd
from whimbrel.words import holding_green as words_hold

COURSE = ("course", "--distance", "150yd")
STOPPING = ("stopping", "--landing-speed", "50mph", "--descent-angle", "47deg", "--landing-spin-rate", "6000rpm")
LANDING = wb.Landing(50 * mph, 47 * deg, landing_spin_rate=6000 * rpm)
CONDITIONS = ("conditions", "--temperatures", "5C,25C", "--altitudes", "0ft,3000ft", "--winds", "0mph,10mph")
GREEN = wb.turfs["medium green"]


def told(command, *arguments):
    code, out, err = command(*arguments, "--json")
    assert (code, err) == (0, "")
    return json.loads(out)


def chosen(driver_speed=95 * mph, members=wb.clubs, **given):
    return wb.choose_club(wb.usual_bag(driver_speed, members), **({"distance": 150 * yd, "turf": GREEN} | given))


def same(json_numbers, choice):
    """Everything the JSON says is what the library says."""
    course = choice.course_shot
    assert json_numbers["club"] == choice.best and json_numbers["status"] == course.status
    for name in ("level_distance", "speed_share", "aim", "aim_off", "past"):
        assert json_numbers[name] == pytest.approx(float(getattr(course, name)), rel=1e-12, abs=1e-12), name
    for name in ("alone", "rules_of_thumb"):
        numbers = {key: np.nan if x is None else x for key, x in json_numbers[name].items()}
        assert numbers == pytest.approx(getattr(course, name), rel=1e-12, abs=1e-12, nan_ok=True), name
    assert [line["club"] for line in json_numbers["clubs"]] == choice.names
    for i, line in enumerate(json_numbers["clubs"]):
        assert line["carry"] == pytest.approx(choice.carry[i], rel=1e-12)
        assert line["gap"] == pytest.approx(choice.gap[i], rel=1e-12, abs=1e-9)
        assert line["rests"] == pytest.approx(choice.rests[i], rel=1e-12, abs=1e-9)


# course


def test_a_course_shot_is_told_in_words_parts_and_clubs(command):
    code, out, err = command(*COURSE, "--rise", "9yd", "--wind", "8mph", "--wind-from", "20deg")
    choice = chosen(rise=9 * yd, wind=wb.Wind(8 * mph, 20 * deg))
    assert (code, err) == (0, "")
    assert " ".join(choice.course_shot.in_words().split()) in out
    alone = choice.course_shot.alone
    assert f"rise alone +{alone['rise'] / yd:.1f} yd +9.0 yd" in out
    assert f"wind alone +{alone['wind'] / yd:.1f} yd +11.3 yd" in out  # 150 yd, 1 % a mph of 8 mph times cos 20°
    assert "temperature alone" not in out and "altitude alone" not in out
    together = (choice.course_shot.level_distance - 150 * yd) / yd
    assert f"together +{together:.1f} yd +20.3 yd" in out
    for name in wb.clubs:
        assert name in out
    assert f"{choice.best} ◂" in out and out.count("◂") == 1
    assert "out of reach" in out and "swings a driver at 95mph" in out and cautions.SHORT_CAUTION in out


FLAGS = {
    "plain": ((), {}),
    "rise": (("--rise=-9yd",), {"rise": -9 * yd}),
    "slopes": (
        ("--slope-up", "3%", "--slope-right=-2%"),
        {"slope_downrange": 3 * percent, "slope_right": -2 * percent},
    ),
    "driver-speed": (("--driver-speed", "110mph"), {"driver_speed": 110 * mph}),
    "hand": (("--hand", "left", "--wind", "5mph", "--wind-from", "90deg"),
             {"members": wb.clubs.left_handed(), "wind": wb.Wind(5 * mph, 90 * deg)}),
    "ball": (("--ball", "low drag"), {"ball": wb.balls["low drag"]}),
    "aero": (("--aero", "smits-smith"), {"ball": wb.Ball(aero=wb.aero.SmitsSmith())}),
    "weather": (
        ("--temperature", "8C", "--altitude", "900m", "--relative-humidity", "70%"),
        {"weather": wb.Weather(celsius(8.0), altitude=900.0, relative_humidity=70 * percent)},
    ),
    "pressure": (("--pressure", "900hPa"), {"weather": wb.Weather(pressure=900 * hPa)}),
    "turf": (("--turf", "firm fairway"), {"turf": wb.turfs["firm fairway"]}),
    "stimp": (("--stimp", "12ft", "--firmness", "0.9"), {"turf": wb.green(12 * ft, 0.9)}),
}  # fmt: skip


@pytest.mark.parametrize("name", FLAGS)
def test_every_flag_of_course_counts_as_in_the_library(command, name):
    flags, given = FLAGS[name]
    same(told(command, *COURSE, *flags), chosen(**given))


def test_one_club_can_be_asked_for(command):
    numbers = told(command, *COURSE, "--club", "7 iron")
    assert numbers["club"] == "7 iron" and len(numbers["clubs"]) == 1
    bag = wb.usual_bag()
    course = wb.level_distance(bag["7 iron"].delivery, bag["7 iron"].club, distance=150 * yd, turf=GREEN)
    assert numbers["speed_share"] == pytest.approx(course.speed_share, rel=1e-12)


def test_clubs_turfs_and_strikes_of_ones_own_count(command, tmp_path):
    (tmp_path / "bag.toml").write_text(
        '[[club]]\nname = "mine"\nhand = "left"\nloft_deg = 30\nlie_angle_deg = 62\nlength_in = 37\nmass_g = 260\n'
    )
    (tmp_path / "turfs.toml").write_text('[[turf]]\nname = "ours"\nstimp_ft = 11\nfirmness = 0.2\n')
    strikes = tmp_path / "strikes.csv"
    strikes.write_text("club,clubhead_speed_mph,dynamic_loft_deg\nmine,80,24\nmine,84,25\nmine,-1,25\nmine,90,28\n")
    numbers = told(command, *COURSE, "--clubs", tmp_path / "bag.toml", "--strikes", strikes,
                   "--turfs", tmp_path / "turfs.toml", "--turf", "ours")  # fmt: skip
    club = wb.load_clubs(tmp_path / "bag.toml")["mine"]
    median = wb.Delivery(84 * mph, dynamic_loft=25 * deg)
    course = wb.level_distance(median, club, distance=150 * yd, turf=wb.green(11 * ft, 0.2))
    assert numbers["club"] == "mine"
    assert numbers["speed_share"] == pytest.approx(course.speed_share, rel=1e-12)
    assert numbers["past"] == pytest.approx(course.past, rel=1e-9)
    code, out, _ = command(*COURSE, "--clubs", tmp_path / "bag.toml", "--strikes", strikes)
    assert code == 0 and f"medians of {strikes}".replace(" ", "") in out.replace(" ", "")


def test_a_target_out_of_reach_is_told_with_the_nearest_club(command):
    code, out, _ = command("course", "--distance", "400yd")
    assert code == 0 and out.startswith("400.0 yd is out of reach: no speed of this swing carries to the target.")
    assert "driver ◂" in out and "what it adds" not in out
    numbers = told(command, "course", "--distance", "400yd")
    assert numbers["status"] == "out_of_reach"
    assert numbers["level_distance"] is numbers["aim"] is numbers["aim_off"] is numbers["past"] is None


def test_metric_course_output_is_metric(command):
    code, out, _ = command("course", "--distance", "120m", "--rise", "5m", "--units", "metric")
    assert code == 0 and out.startswith("120.0 m, 5.0 m uphill, plays like 1")
    assert " yd" not in out.replace("(20 yd)", "").replace("(20\nyd)", "")


def test_a_course_picture_is_drawn(command, tmp_path):
    for name, start in (("shot.png", b"\x89PNG"), ("shot.svg", b"<?xml")):
        code, out, _ = command(*COURSE, "--picture", tmp_path / name)
        assert code == 0 and "Picture:" in out
        assert (tmp_path / name).read_bytes().startswith(start)
    svg = command(*COURSE, "--units", "metric", "--picture", tmp_path / "m.png")
    assert svg[0] == 0 and (tmp_path / "m.png").stat().st_size > 10000


# stopping


def test_stopping_tells_the_run_and_what_holds(command):
    code, out, err = command(*STOPPING, "--depth", "4yd")
    assert (code, err) == (0, "")
    assert " ".join(wb.play(LANDING, turf=GREEN).in_words().split()) in out
    spin = spin_to_hold(4 * yd, landing_speed=50 * mph, descent_angle=47 * deg)
    descent = descent_to_hold(4 * yd, landing_speed=50 * mph, landing_spin_rate=6000 * rpm)
    assert words_hold.of_hold(4 * yd, LANDING, spin, descent) in out and cautions.SHORT_CAUTION in out
    assert "To run no more than" not in command(*STOPPING)[1]


@pytest.mark.parametrize(
    ("flags", "turf", "terrain"),
    [
        (("--turf", "firm green"), wb.turfs["firm green"], wb.Terrain()),
        (("--stimp", "12ft", "--firmness", "0.1"), wb.green(12 * ft, 0.1), wb.Terrain()),
        (("--slope-up=-3%", "--slope-right", "2%"), GREEN, wb.Terrain(0.0, 0.0, 2 * percent, -3 * percent)),
    ],
)
def test_every_flag_of_stopping_counts_as_in_the_library(command, flags, turf, terrain):
    code, out, _ = command(*STOPPING, *flags, "--depth", "5m", "--units", "metric")
    assert code == 0
    assert " ".join(wb.play(LANDING, turf=turf, terrain=terrain).in_words("metric").split()) in out
    on = {"landing_speed": 50 * mph, "turf": turf, "terrain": terrain}
    spin = spin_to_hold(5.0, descent_angle=47 * deg, **on)
    assert (
        words_hold.of_hold(5.0, LANDING, spin, descent_to_hold(5.0, landing_spin_rate=6000 * rpm, **on), "metric")
        in out
    )


def test_a_turf_of_ones_own_stops_the_ball(command, tmp_path):
    (tmp_path / "turfs.toml").write_text('[[turf]]\nname = "ours"\nstimp_ft = 8\nfirmness = 0\n')
    code, out, _ = command(*STOPPING, "--turfs", tmp_path / "turfs.toml", "--turf", "ours")
    assert code == 0 and "On ours it" in out


def test_a_landing_outside_the_law_of_the_bounce_is_noted(command):
    code, out, _ = command(*STOPPING[:2], "80mph", *STOPPING[3:])
    assert code == 0 and "Note: the landing speed" in out


def test_a_stopping_picture_is_drawn(command, tmp_path):
    code, out, _ = command(*STOPPING, "--depth", "4yd", "--picture", tmp_path / "stop.png")
    assert code == 0 and "Picture:" in out and (tmp_path / "stop.png").read_bytes().startswith(b"\x89PNG")


# conditions


def test_conditions_tell_carries_by_air_and_wind(command):
    code, out, err = command(*CONDITIONS)
    assert (code, err) == (0, "")
    bag = wb.usual_bag()
    air = carry_by_air(bag, temperature=celsius(np.array([5.0, 25.0])), altitude=np.array([0.0, 3000.0]) * ft)
    wind = carry_by_wind(bag, speed=np.array([0.0, 10.0]) * mph)
    cold, warm = air.carry[6, :, 0] / yd
    assert "altitude, ft 41 °F 77 °F" in out and f"7 iron 0 {cold:.0f} {warm:.0f} 3,000 " in out
    ahead, behind, across, _ = wind.carry[6, 1] / yd
    drift = abs(wind.drift[6, 1, 2]) / yd
    assert f"10 {ahead:.0f} {behind:.0f} {across:.0f} {drift:.1f} 8 iron" in out
    assert "swings a driver at 95mph" in out and cautions.SHORT_CAUTION in out


def test_every_flag_of_conditions_counts_and_the_tables_are_written(command, tmp_path):
    code, out, _ = command(
        *CONDITIONS, "--relative-humidity", "80%", "--driver-speed", "110mph", "--hand", "left",
        "--ball", "low lift", "--units", "metric", "--out", tmp_path / "ours.csv",
        "--picture", tmp_path / "ours.png",
    )  # fmt: skip
    assert code == 0 and out.count("Table:") == out.count("Picture:") == 2 and "110mph" in out
    bag = wb.usual_bag(110 * mph, wb.clubs.left_handed())
    ball = wb.balls["low lift"]
    air = carry_by_air(bag, temperature=celsius(np.array([5.0, 25.0])), altitude=np.array([0.0, 3000.0]) * ft,
                       relative_humidity=0.8, ball=ball)  # fmt: skip
    written = pd.read_csv(tmp_path / "ours_air.csv")
    assert list(written.columns) == ["club", "altitude_m", "carry_m_at_5c", "carry_m_at_25c"] and len(written) == 26
    assert written.carry_m_at_25c.to_numpy() == pytest.approx(air.carry[:, 1].ravel(), rel=1e-12)
    winds = pd.read_csv(tmp_path / "ours_wind.csv")
    expected = carry_by_wind(bag, speed=np.array([0.0, 10.0]) * mph, ball=ball)
    assert winds.drift_m_from_left.to_numpy() == pytest.approx(expected.drift[:, :, 2].ravel(), rel=1e-9, abs=1e-9)
    assert list(winds.wind_mps) == pytest.approx([0.0, 10 * mph] * 13, abs=1e-6)
    for name in ("ours_air.png", "ours_wind.png"):
        assert (tmp_path / name).read_bytes().startswith(b"\x89PNG")


def test_conditions_of_strikes_and_of_another_model(command, tmp_path):
    strikes = tmp_path / "strikes.csv"
    strikes.write_text("club,clubhead_speed_mph,dynamic_loft_deg\n7 iron,84,25\n")
    code, out, _ = command(
        *CONDITIONS, "--strikes", strikes, "--aero", "smits-smith", "--out", tmp_path / "x.parquet"
    )
    written = pd.read_parquet(tmp_path / "x_air.parquet")
    weather = wb.Weather(celsius(5.0), altitude=0.0, relative_humidity=0.5)
    shot = wb.play(wb.Delivery(84 * mph, dynamic_loft=25 * deg), wb.clubs["7 iron"], weather=weather,
                   ball=wb.Ball(aero=wb.aero.SmitsSmith()))  # fmt: skip
    assert code == 0 and list(written.club) == ["7 iron"] * 2 and "driver at" not in out
    assert written.carry_yd_at_41f[0] == pytest.approx(shot.carry / yd, abs=0.004)  # the fast path's accuracy


# Mistakes


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        (("course",), ["Missing option", "--distance"]),
        (("course", "--distance", "150"), ["--distance", "bare number needs a unit", "yd"]),
        (("course", "--distance", "150mph"), ["--distance", "'mph' is not its unit"]),
        (("course", "--distance", "far"), ["--distance", "'far' is not a number"]),
        (("course", "--distance", "900yd"), ["distance is 900 yd; accepted: 1.094 yd to 546.8 yd"]),
        (("course", "--distance", "0.5m"), ["distance is 0.5 m; accepted"]),
        ((*COURSE, "--rise", "400yd"), ["rise is 400 yd; accepted: -328.1 yd to 328.1 yd"]),
        ((*COURSE, "--rise", "200yd"), ["no club's ball comes down on the ground"]),
        ((*COURSE, "--slope-up", "3"), ["slope_up is 3; accepted: -1 to 1"]),
        ((*COURSE, "--stimp", "10ft", "--turf", "rough"), ["--turf", "--stimp", "not both"]),
        ((*COURSE, "--turf", "bunker"), ["no turf is called 'bunker'"]),
        ((*COURSE, "--turfs", "nowhere.toml"), ["--turfs needs --turf"]),
        ((*COURSE, "--strikes", "nowhere.csv"), ["nowhere.csv: no such file"]),
        (
            (*COURSE, "--strikes", "nowhere.csv", "--driver-speed", "95mph"),
            ["--driver-speed or --strikes, not both"],
        ),
        ((*COURSE, "--driver-speed", "95"), ["--driver-speed", "bare number needs a unit"]),
        ((*COURSE, "--driver-speed", ""), ["--driver-speed", "is not a number"]),
        ((*COURSE, "--driver-speed", "200mph"), ["driver_speed is 200 mph; accepted: 40 mph to 140 mph"]),
        ((*COURSE, "--club", "spoon"), ["no club of the bag is called 'spoon'; there are: driver"]),
        ((*COURSE, "--clubs", "bag.toml", "--hand", "left"), ["--hand is for the shipped clubs"]),
        ((*COURSE, "--wind-from", "20deg"), ["--wind-from needs --wind"]),
        ((*COURSE, "--pressure", "900hPa", "--altitude", "9m"), ["pressure or altitude, not both"]),
        ((*COURSE, "--ball", "hard"), ["no ball is called 'hard'"]),
        ((*COURSE, "--aero", "cubist"), ["no model is called 'cubist'"]),
        ((*COURSE, "--units", "furlongs"), ["furlongs", "yards", "metric"]),
        ((*COURSE, "--picture", "shot.xyz"), ["picture shot.xyz", "xyz"]),
        (("course", "--distance", "400yd", "--picture", "shot.png"), ["no shot to draw", "no speed of this swing"]),
        (STOPPING[:5], ["Missing option", "--landing-spin-rate"]),
        ((*STOPPING, "--depth", "10"), ["--depth", "bare number needs a unit"]),
        ((*STOPPING, "--depth=-1yd"), ["depth is -1 yd; accepted: 0 yd to 218.7 yd"]),
        ((*STOPPING[:2], "50", *STOPPING[3:]), ["--landing-speed", "bare number needs a unit"]),
        ((*STOPPING[:4], "100deg", *STOPPING[5:]), ["descent_angle", "100 deg", "accepted"]),
        ((*STOPPING, "--turf", "rough", "--firmness", "1"), ["--turf", "--firmness", "not both"]),
        ((*STOPPING, "--picture", "stop.xyz"), ["picture stop.xyz"]),
        (
            ("conditions", "--temperatures", "5C,,15C"),
            ["--temperatures", "'' is not a number with a unit (C, F, K)"],
        ),
        (("conditions", "--temperatures", "5C,"), ["--temperatures", "'' is not a number with a unit"]),
        (("conditions", "--altitudes", ""), ["--altitudes", "'' is not a number with a unit"]),
        (("conditions", "--winds", "5,10"), ["--winds", "bare number needs a unit"]),
        (("conditions", "--winds", "0mph,300mph"), ["wind is 300 mph; accepted: 0 mph to 223.7 mph"]),
        (("conditions", "--altitudes", "90000ft"), ["altitude is 90000 ft; accepted: -1640 ft to 32810 ft"]),
        (("conditions", "--relative-humidity", "200%"), ["relative_humidity is 200 %; accepted: 0 % to 100 %"]),
        (("conditions", "--driver-speed", "1mph"), ["driver_speed", "accepted"]),
        (("conditions", "--out", "carries.xyz"), ["carries_air.xyz", "accepted: .csv, .parquet"]),
        (("conditions", "--out", "carries"), ["accepted: .csv, .parquet"]),
        (("conditions", "--picture", "carries.xyz"), ["picture carries_air.xyz"]),
    ],
)
def test_a_mistake_is_one_message_without_a_traceback_and_exit_code_2(command, arguments, says):
    code, out, err = command(*arguments)
    assert (code, out) == (2, "") and "Traceback" not in err
    for part in says:
        assert part in err, err


def test_help_names_every_flag_with_its_default(command):
    for name, defaults in {
        "course": ("medium green", "right", "0.5", "95mph", "yards"),
        "stopping": ("medium green", "0.5", "yards"),
        "conditions": ("95mph", "5C,15C,25C,35C", "yards"),
    }.items():
        code, out, _ = command(name, "--help")
        assert code == 0
        for default in defaults:
            assert f"[default: {default}]" in " ".join(out.replace("│", " ").split()), (name, default)
