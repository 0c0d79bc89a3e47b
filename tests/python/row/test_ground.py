"""Turf, landings and the run to rest, from Python and from the command."""

import json

import numpy as np
import pytest

import whimbrel as wb
from whimbrel.row import ground
from whimbrel.row.flight import STATUSES
from whimbrel.units import deg, ft, mph, percent, rpm, yd
from whimbrel.words import shot as words_shot

STIMPMETER_RELEASE = 1.83  # m/s
RADIUS = wb.Ball().radius
IRON_LANDS = wb.Landing(23.0, 48 * deg, landing_spin_rate=6000 * rpm)
LANDING = ("play", "--landing-speed", "50mph", "--descent-angle", "45deg", "--landing-spin-rate", "6000rpm")
LAUNCH = ("play", "--ball-speed", "120mph", "--launch-angle", "16deg", "--spin-rate", "7000rpm")


def random_landings(draw, n):
    spin = draw.uniform(0, 1000, n)
    return wb.Landing(
        draw.uniform(0, 40, n),
        draw.uniform(0, 90, n) * deg,
        draw.uniform(-60, 60, n) * deg,
        spin,
        draw.uniform(-180, 180, n) * deg,
        spin * draw.uniform(-1, 1, n),
    )


def row(value, i, **names):
    return type(value)(**{name: float(np.broadcast_to(x, value.shape)[i]) for name, x in value._numbers().items()})


def numbers(run):
    return np.stack(np.broadcast_arrays(*run._numbers().values()), axis=-1)


# Runs


def test_an_array_of_landings_is_each_landing_bit_for_bit(draw):
    landings = random_landings(draw, 300)
    turf = wb.Turf("mixed", draw.uniform(0, 1.9, 300), draw.uniform(0.1, 1, 300), 1.0, draw.uniform(0.3, 4, 300))
    slope = wb.Terrain(slope_right=draw.uniform(-0.1, 0.1, 300), slope_downrange=draw.uniform(-0.1, 0.1, 300))
    many = wb.play(landings, turf=turf, terrain=slope)
    assert set(many.run.status) <= {"ok", "no_rest"} and (many.run.status == "ok").sum() > 150
    for i in range(0, 300, 7):
        one = wb.play(row(landings, i), turf=row(turf, i), terrain=row(slope, i))
        assert np.array_equal(numbers(many.run)[i], numbers(one.run), equal_nan=True), i
        assert many.run.status[i] == one.run.status


def test_any_number_of_threads_gives_the_same_runs(draw):
    landings = random_landings(draw, 200)
    runs = [numbers(wb.play(landings, threads=n).run) for n in (1, 2, 0)]
    assert all(np.array_equal(run, runs[0], equal_nan=True) for run in runs)


def test_turf_broadcasts_against_launches():
    turf = wb.Turf("soft to firm", restitution_scale=np.array([[0.4], [0.7], [1.0]]))
    launch = wb.Launch(np.array([50.0, 60.0]), 0.25, spin_rate=500.0)
    shot = wb.play(launch, turf=turf, accuracy="reference")
    assert shot.shape == shot.run.total.shape == (3, 2)
    one = wb.play(wb.Launch(60.0, 0.25, spin_rate=500.0), turf=wb.Turf(restitution_scale=0.7))
    assert one.run.total == shot.run.total[1, 1]
    assert (np.diff(shot.carry, axis=0) == 0).all()


def test_a_run_begins_at_the_landing_is_unbroken_and_ends_at_rest(draw):
    landings = random_landings(draw, 40)
    for i in range(40):
        run = wb.play(row(landings, i)).run
        path = run.path(2000)
        assert path[0] == pytest.approx([0.0, 0.0, RADIUS], abs=1e-12)
        assert path[-1] == pytest.approx([run.total_offline, run.total_downrange, RADIUS], abs=1e-9)
        fastest = landings.landing_speed[i] + RADIUS * landings.landing_spin_rate[i] + 9.80665 * run.run_time
        assert np.linalg.norm(np.diff(path, axis=0), axis=1).max() <= fastest * run.run_time / 1999 + 1e-9
        assert path[:, 2].min() > RADIUS - 1e-6
        assert run.position_at(run.run_time + 5.0) == pytest.approx(path[-1])
        assert run.position_at(-1.0) == pytest.approx(path[0])


def test_a_ball_dropped_straight_down_has_a_path_that_ends_where_it_fell():
    run = wb.play(wb.Landing(15.0, 90 * deg)).run
    assert run.path(50)[-1] == pytest.approx([0.0, 0.0, RADIUS], abs=1e-9)


def test_positions_of_many_runs_have_their_shape_then_the_times():
    shot = wb.play(wb.Landing(np.array([10.0, 20.0, 30.0]), 0.7))
    there = shot.run.position_at([0.0, 1.0])
    assert there.shape == (3, 2, 3)
    assert there[1, 1] == pytest.approx(wb.play(wb.Landing(20.0, 0.7)).run.position_at(1.0), abs=1e-12)
    with pytest.raises(ValueError, match="one run"):
        shot.run.path()


def test_the_run_of_a_launch_goes_on_where_its_flight_ended(shot):
    landed = shot.flight.position_at(shot.flight.flight_time)
    assert shot.run.position_at(0.0) == pytest.approx(landed, abs=1e-9)
    rest = shot.run.position_at(shot.run.run_time)
    assert np.hypot(rest[0], rest[1]) == pytest.approx(shot.total, abs=1e-9)
    assert shot.total == shot.run.total > shot.carry


def test_a_landing_on_the_numbers_of_a_shot_runs_like_it(shot):
    again = wb.play(shot.landing)
    assert again.run.distance == pytest.approx(shot.run.distance, abs=1e-4)  # the integrator's error
    assert again.run.bounces == shot.run.bounces
    assert (again.start, again.carry, again.delivery, again.impact) == ("landing", 0.0, None, None)


def test_a_putt_released_by_a_stimpmeter_rolls_the_reading():
    for feet in (7.0, 10.0, 13.0):
        putt = wb.Landing(STIMPMETER_RELEASE, 0.0, 0.0, STIMPMETER_RELEASE / RADIUS, 180 * deg)
        run = wb.play(putt, turf=wb.green(feet * ft)).run
        assert run.total == pytest.approx(feet * ft, abs=1e-9) and run.bounces == 0


def test_a_ball_that_never_rests_has_a_status_and_the_numbers_of_half_a_minute():
    shot = wb.play(wb.Landing(np.array([3.0, 0.0]), 0.0), turf=wb.Turf("ice", friction=0.0))
    assert shot.run.status.tolist() == ["no_rest", "ok"] and shot.status.tolist() == ["ok", "ok"]
    assert numbers(shot.run)[0] == pytest.approx([90.0, 90.0, 0.0, 90.0, 0.0, 30.0])
    assert np.isfinite(numbers(shot.run)[1]).all()


def test_a_bad_landing_is_masked_with_its_reason_and_the_others_run():
    landings = wb.Landing(np.array([20.0, -1.0, 20.0]), np.array([0.7, 0.7, 2.0]))
    shot = wb.play(landings, errors="mask")
    assert shot.run.status.tolist() == ["ok", "bad_input", "bad_input"]
    assert shot.mistakes[1].startswith("landing_speed is -1 m/s") and "descent_angle is 2 rad" in shot.mistakes[2]
    assert np.isnan(numbers(shot.run)[1:]).all()
    assert shot.run.total[0] == wb.play(wb.Landing(20.0, 0.7)).run.total
    with pytest.raises(wb.InputError, match="2 rows are bad, of 3"):
        wb.play(landings)


@pytest.mark.parametrize(
    ("start", "turf", "says"),
    [
        (wb.Landing(-1.0, 0.7), None, r"^landing_speed is -1 m/s .*accepted: 0 m/s to 150 m/s"),
        (wb.Landing(20.0, -0.1), None, r"^descent_angle is -0.1 rad .*accepted: 0 rad to 1.57"),
        (wb.Landing(20.0, 0.7, axial_spin_rate=5.0), None, r"^axial_spin_rate is 5 rad/s"),
        (IRON_LANDS, wb.Turf(friction=3.0), r"^turf friction is 3; accepted: 0 to 2"),
        (IRON_LANDS, wb.Turf(rolling_deceleration=np.nan), r"^rolling_deceleration is nan"),
        (IRON_LANDS, wb.Turf(restitution_scale=2.5), r"^restitution_scale is 2.5; accepted: 0 to 1.9"),
        (IRON_LANDS, wb.Turf(tilt_scale=-1.0), r"^tilt_scale is -1; accepted: 0 to 3"),
        (IRON_LANDS, "firm fairway", "turf"),
    ],
)
def test_what_cannot_land_is_refused_by_field_value_and_range(start, turf, says):
    with pytest.raises((wb.InputError, TypeError), match=says):
        wb.play(start, turf=turf)


def test_a_shot_from_a_landing_has_no_launch_to_fly_again():
    with pytest.raises(wb.InputError, match="no launch to fly again"):
        wb.at_standard_conditions(wb.play(IRON_LANDS))


def test_a_surface_counts_for_the_run_as_for_the_flight():
    def plane(x, y):
        return 0.02 * y - 0.01 * x

    sloped = wb.play(IRON_LANDS, terrain=wb.Terrain(slope_right=-0.01, slope_downrange=0.02))
    surface = wb.play(IRON_LANDS, terrain=wb.Terrain(surface=plane))
    assert surface.run.total == pytest.approx(sloped.run.total, abs=1e-3)
    assert surface.run.total_offline > 0


def test_an_out_of_range_bounce_is_told_by_how_much():
    excess = wb.play(wb.Landing(np.array([8.0, 20.0, 33.0]), np.array([45, 70, 10]) * deg)).out_of_range
    assert excess["bounce_speed"] == pytest.approx([-2.0, 0.0, 3.0])
    assert excess["bounce_angle"] == pytest.approx(np.array([0.0, -10.0, 20.0]) * deg)
    lines = words_shot.out_of_range(wb.play(wb.Landing(8.0, 70 * deg)))
    assert lines == [
        "Note: the landing speed in m/s went to 8, outside the law of the bounce's stated range (10 to 30); there "
        "the run is a rough guess.",
        "Note: the landing's angle from upright in degrees went to 20, outside the law of the bounce's stated "
        "range (30 to 60); there the run is a rough guess.",
    ]


# Turf


def test_the_shipped_turfs_are_six_and_the_first_is_the_default():
    assert list(wb.turfs) == ["firm fairway", "soft fairway", "rough", "soft green", "medium green", "firm green"]
    assert wb.turfs["firm fairway"] == wb.Turf()
    assert wb.turfs["medium green"] == wb.green(10 * ft, 0.5, name="medium green")
    with pytest.raises(wb.InputError, match="no turf is called 'bunker'; there are: firm fairway, soft"):
        wb.turfs["bunker"]


def test_a_green_is_slower_with_a_lower_reading_and_livelier_when_firm():
    greens = wb.green(np.array([8.0, 10.0, 12.0]) * ft, np.array([[0.0], [1.0]]))
    assert greens.rolling_deceleration.shape == (2, 3)
    assert greens.rolling_deceleration[0] == pytest.approx(STIMPMETER_RELEASE**2 / 2 / (np.array([8, 10, 12]) * ft))
    assert (greens.restitution_scale[1] > greens.restitution_scale[0]).all()
    assert wb.play(IRON_LANDS, turf=greens).shape == (2, 3)


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        ((0.5, 0.5), r"^stimp is 0.5 m; accepted: 1 m to 6 m"),
        ((3.0, -0.1), r"^firmness is -0.1; accepted: 0 to 1"),
        ((np.array([3.0, np.nan]), 0.5), "row 1: stimp is nan"),
    ],
)
def test_a_green_that_cannot_be_is_refused(arguments, says):
    with pytest.raises(wb.InputError, match=says):
        wb.green(*arguments)


TURFS = """
[[turf]]
name = "our greens in June"
stimp_ft = 11
firmness = 0.7

[[turf]]
name = "winter fairway"
restitution_scale = 0.5
rolling_deceleration_mps2 = 2.0

[[turf]]
name = "a green by its reading"
stimp_m = 2.5
"""


def test_turfs_of_ones_own_are_greens_or_numbers(tmp_path):
    (tmp_path / "turfs.toml").write_text(TURFS)
    own = wb.load_turfs(tmp_path / "turfs.toml")
    assert list(own) == ["our greens in June", "winter fairway", "a green by its reading"]
    assert own["our greens in June"] == wb.green(11 * ft, 0.7, name="our greens in June")
    assert own["winter fairway"] == wb.Turf("winter fairway", restitution_scale=0.5, rolling_deceleration=2.0)
    assert own["a green by its reading"] == wb.green(2.5, name="a green by its reading")


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("turf = 5", ["has no [[turf]]"]),
        ("", ["has no [[turf]]"]),
        ("turf = [5]", ["turf 1", "5 is not a [[turf]]"]),
        ("[[turf]\n", ["not a TOML file"]),
        ("[[turf]]\nfriction = 0.4\n", ["turf 1: needs a name"]),
        ('[[turf]]\nname = ""\n', ["turf 1: needs a name"]),
        ('[[turf]]\nname = "a"\n[[turf]]\nname = "a"\n', ["turf 2: 'a' is given twice"]),
        ('[[turf]]\nname = "a"\nstimp = 10\n', ["turf 1 (a)", "'stimp' has no unit", "stimp_m", "stimp_ft"]),
        ('[[turf]]\nname = "a"\nfirmness = 0.5\n', ["turf 1 (a): lacks stimp"]),
        ('[[turf]]\nname = "a"\nstimp_ft = 10\nfriction = 0.4\n', ["'friction' is not known", "stimp, firmness"]),
        ('[[turf]]\nname = "a"\nstimp_ft = 30\n', ["turf 1 (a): stimp is 30 ft; accepted: 3.281 ft to 19.69 ft"]),
        ('[[turf]]\nname = "a"\nfriction = 3\n', ["turf 1 (a): friction is 3; accepted: 0 to 2"]),
        ('[[turf]]\nname = "a"\nfriction = "much"\n', ["friction is 'much', not a number"]),
        ('[[turf]]\nname = "a"\nfriction = true\n', ["friction is True, not a number"]),
        ('[[turf]]\nname = "a"\nbounce = 3\n', ["'bounce' is not known", "restitution_scale"]),
        ('[[turf]]\nname = "a"\nrolling_deceleration_mph = 3\n', ["'mph'", "rolling_deceleration_mps2"]),
    ],
)
def test_a_mistake_in_a_file_of_turfs_names_file_turf_and_key(tmp_path, text, says):
    path = tmp_path / "turfs.toml"
    path.write_text(text)
    with pytest.raises(wb.InputError) as refused:
        wb.load_turfs(path)
    assert str(refused.value).startswith(str(path))
    for part in says:
        assert part in str(refused.value), refused.value


# Words


def test_a_run_is_told_with_its_turf_bounces_and_place_of_rest(shot):
    run = shot.run
    assert shot.in_words().endswith(
        f"On the firm fairway it ran {run.distance / yd:.1f} yd on, with {run.bounces:.0f} bounces, to rest "
        f"{run.total / yd:.1f} ± {wb.doubt(shot).sd('total') / yd:.1f} yd from the start, "
        f"{-run.total_offline / yd:.1f} yd left of the target line."
    )


def test_a_ball_that_spins_back_came_back():
    shot = wb.play(wb.Landing(24.0, 50 * deg, landing_spin_rate=9000 * rpm), turf=wb.turfs["soft green"])
    assert shot.run.distance < 0
    sure = wb.doubt(shot).sd("distance")
    assert shot.in_words("metric") == (
        "The ball came down at 24.0 m/s and 50.0° with 9,000 rpm of spin. On the soft green it came "
        f"{-shot.run.distance:.1f} ± {sure:.1f} m back, with {shot.run.bounces:.0f} bounces."
    )


def test_a_ball_that_drops_stopped_at_its_pitch_mark():
    told = wb.play(wb.Landing(5.0, 90 * deg), turf=wb.Turf("plugged", restitution_scale=0.0)).in_words()
    assert told.endswith("On plugged it stopped at its pitch mark, with 1 bounce.")


def test_a_ball_that_never_rests_is_told_so():
    told = wb.play(wb.Landing(5.0, 10 * deg), turf=wb.Turf("ice", friction=0.0)).in_words()
    where = "from its pitch mark: it has no place of rest."
    assert "On ice it was still moving 30 s after its last bounce, " in told and told.endswith(where)


def test_a_topped_ball_has_no_carry_and_runs():
    told = wb.play(wb.Launch(20.0, -3 * deg)).in_words()
    assert "never left the ground. There is no carry to report. On the firm fairway it ran " in told


def test_a_ball_that_never_comes_down_has_no_run():
    told = wb.play(wb.Launch(20.0, 0.3), terrain=wb.Terrain(height=100.0)).in_words()
    assert told.endswith("There is no carry to report. So there is no run.")


def test_a_repr_shows_the_run_and_its_turf(shot):
    assert "run, firm fairway" in repr(shot) and "run time" in repr(shot)
    landed = repr(wb.play(IRON_LANDS, turf=wb.turfs["soft green"]))
    assert "run, soft green" in landed and "descent angle" in landed and "launch" not in landed


# Tables


def test_a_table_has_the_run_of_every_row(tmp_path):
    pd = pytest.importorskip("pandas")
    frame = pd.DataFrame({"ball_speed_mph": [120, 60], "launch_angle_deg": [16, -3], "spin_rate_rpm": [7000, 500]})
    turf = wb.turfs["soft fairway"]
    table = wb.table(frame, turf=turf, accuracy="reference")
    for i in range(2):
        launch = wb.Launch(frame.ball_speed_mph[i] * mph, frame.launch_angle_deg[i] * deg, 0.0,
                           frame.spin_rate_rpm[i] * rpm)  # fmt: skip
        run = wb.play(launch, turf=turf).run
        for name in ("total", "total_downrange", "total_offline", "run_distance"):
            expected = getattr(run, name.removeprefix("run_")) / yd
            assert table[f"computed_{name}_yd"][i] == pytest.approx(expected, rel=1e-13, abs=1e-13)
        assert table.computed_bounces[i] == run.bounces
        assert table.computed_run_time_s[i] == run.run_time
    assert table.computed_status.tolist() == ["ok", "not_airborne"]
    assert table.computed_run_status.tolist() == ["ok", "ok"]
    assert "computed_total_m" in wb.table(frame, units="metric")


def test_a_table_says_which_rows_never_rest_and_which_are_bad():
    pd = pytest.importorskip("pandas")
    frame = pd.DataFrame({"ball_speed_mph": [120, -1], "launch_angle_deg": [16, 16], "spin_rate_rpm": [7000, 7000]})
    table = wb.table(frame, turf=wb.Turf("ice", friction=0.0))
    assert table.computed_run_status.tolist() == ["no_rest", "bad_input"]
    assert table.computed_status.tolist() == ["ok", "bad_input"]
    assert table.computed_total_yd.notna().tolist() == table.computed_carry_yd.notna().tolist() == [True, False]
    assert table.computed_total_yd[0] > table.computed_carry_yd[0]


# A green steeper than it holds

STEEP = {"terrain": wb.Terrain(slope_downrange=0.1), "turf": wb.turfs["medium green"]}


def test_chips_onto_a_green_that_does_not_hold_them_roll_back_in_arrays_and_alone():
    chips = wb.Launch(np.array([14.0, 16.0, 18.0]) * mph, 34 * deg, spin_rate=4000 * rpm)
    fast, reference = (wb.play(chips, accuracy=how, **STEEP).run for how in ("fast", "reference"))
    alone = wb.play(row(chips, 1), **STEEP).run
    assert fast.status.tolist() == reference.status.tolist() == ["no_rest"] * 3 and alone.status == "no_rest"
    assert (fast.total_downrange < 0).all() and (fast.run_time > 30).all()
    assert fast.total == pytest.approx(reference.total, abs=5e-3)
    assert alone.total == reference.total[1]
    assert alone.position_at(alone.run_time)[1] == pytest.approx(alone.total_downrange, abs=1e-9)


def test_a_cloud_counts_shots_that_do_not_stop_by_their_status_and_in_no_mean():
    chip = wb.Launch(16 * mph, 34 * deg, spin_rate=4000 * rpm)
    cloud = wb.dispersion(chip, sd={"ball_speed": 1 * mph}, at="rest", samples=200, **STEEP)
    assert cloud.failed == {"no_rest": 200}


def test_a_sweep_tells_where_a_ball_that_does_not_stop_is_after_half_a_minute():
    pytest.importorskip("xarray")
    slopes = np.array([0.0, 0.1])
    chip = wb.Launch(16 * mph, 34 * deg, spin_rate=4000 * rpm)
    told = wb.sweep(
        chip, outputs=("total_downrange",), turf=wb.turfs["medium green"], slope_up=slopes, progress=False
    )
    assert told.run_status.values.tolist() == [STATUSES.index("ok"), STATUSES.index("no_rest")]
    assert told.total_downrange[0] > 5 and told.total_downrange[1] < -30


# The command


def test_the_command_tells_of_a_chip_that_comes_back_down_a_steep_green(command):
    code, out, err = command("play", "--ball-speed", "16mph", "--launch-angle", "34deg", "--spin-rate", "4000rpm",
                             "--slope-up", "10%", "--turf", "medium green")  # fmt: skip
    assert (code, err) == (0, "")
    assert "it was still moving 30 s after its last bounce" in " ".join(out.split())


def test_the_command_plays_a_landing(command):
    code, out, err = command(*LANDING, "--turf", "medium green")
    landing = wb.Landing(50 * mph, 45 * deg, landing_spin_rate=6000 * rpm)
    shot = wb.play(landing, turf=wb.turfs["medium green"])
    assert (code, err) == (0, "")
    assert " ".join(shot.in_words().split()) in out
    assert f"distance {shot.run.distance / yd:.1f} yd" in out
    assert "carry" not in out


def test_json_of_a_landing_has_landing_turf_and_run_and_no_flight(command):
    code, out, _ = command(*LANDING, "--spin-axis-tilt", "10deg", "--stimp", "11ft", "--firmness", "0.3", "--json")
    told = json.loads(out)
    landing = wb.Landing(50 * mph, 45 * deg, 0.0, 6000 * rpm, 10 * deg)
    turf = wb.green(11 * ft, 0.3)
    shot = wb.play(landing, turf=turf)
    assert code == 0 and not {"launch", "flight", "impact", "delivery"} & set(told)
    assert told["run_status"] == "ok"
    assert told["landing"]["descent_angle"] == pytest.approx(45 * deg)
    assert told["turf"] == {"name": "green", **{name: float(x) for name, x in turf._numbers().items()}}
    for name, x in shot.run._numbers().items():
        assert told["run"][name] == pytest.approx(float(x), rel=1e-12, abs=1e-12), name


def test_json_of_a_ball_that_never_rests_has_where_it_is_after_half_a_minute(command, tmp_path):
    (tmp_path / "turfs.toml").write_text('[[turf]]\nname = "ice"\nfriction = 0\n')
    code, out, _ = command(*LAUNCH, "--turfs", tmp_path / "turfs.toml", "--turf", "ice", "--json")
    told = json.loads(out)
    assert code == 0 and (told["status"], told["run_status"]) == ("ok", "no_rest")
    assert told["run"]["total"] > told["flight"]["carry"] > 100 and told["run"]["run_time"] > 30
    code, out, _ = command(*LAUNCH, "--turfs", tmp_path / "turfs.toml", "--turf", "ice")
    assert code == 0 and "no place of rest" in out and "run time" not in out


def test_slopes_and_turf_count_on_the_command_line(command):
    _, out, _ = command(*LAUNCH, "--turf", "soft green", "--slope-up", "3%", "--slope-right=-2%", "--json")
    launch = wb.Launch(120 * mph, 16 * deg, spin_rate=7000 * rpm)
    ground_ = wb.Terrain(slope_right=-2 * percent, slope_downrange=3 * percent)
    shot = wb.play(launch, turf=wb.turfs["soft green"], terrain=ground_)
    told = json.loads(out)
    assert told["run"]["total"] == pytest.approx(shot.run.total, rel=1e-12)
    assert told["run"]["total_offline"] == pytest.approx(shot.run.total_offline, rel=1e-12)


def test_a_table_is_played_on_the_turf_named(command, tmp_path):
    pd = pytest.importorskip("pandas")
    (tmp_path / "x.csv").write_text("ball_speed_mph,launch_angle_deg,spin_rate_rpm\n120,16,7000\n")
    code, out, _ = command("table", tmp_path / "x.csv", "--stimp", "9ft", "--out", tmp_path / "out.csv")
    launch = wb.Launch(120 * mph, 16 * deg, spin_rate=7000 * rpm)
    total = wb.play(launch, turf=wb.green(9 * ft)).total / yd
    assert code == 0 and f"{total:.1f}" in out and "total, yd" in out
    assert pd.read_csv(tmp_path / "out.csv").computed_total_yd[0] == pytest.approx(total)


def test_a_picture_of_a_landing_is_drawn(command, tmp_path):
    code, out, _ = command(*LANDING, "--picture", tmp_path / "run.png")
    assert code == 0 and (tmp_path / "run.png").read_bytes().startswith(b"\x89PNG"), out


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        ((*LANDING, "--turf", "bunker"), ["no turf is called 'bunker'", "firm fairway"]),
        ((*LANDING, "--turf", "rough", "--stimp", "10ft"), ["--turf", "--stimp", "not both"]),
        ((*LANDING, "--turf", "rough", "--firmness", "0.5"), ["--turf", "--firmness", "not both"]),
        ((*LANDING, "--stimp", "10"), ["--stimp", "bare number needs a unit", "ft"]),
        ((*LANDING, "--stimp", "40ft"), ["stimp is 40 ft; accepted: 3.281 ft to 19.69 ft"]),
        ((*LANDING, "--firmness", "2"), ["firmness is 2", "0 to 1"]),
        ((*LANDING, "--turfs", "nowhere.toml", "--turf", "a"), ["nowhere.toml"]),
        ((*LANDING, "--turfs", "nowhere.toml"), ["--turfs needs --turf"]),
        (LANDING[:3], ["a landing also needs --descent-angle"]),
        ((*LANDING, "--ball-speed", "120mph"), ["give a landing alone, without a delivery, a launch or a club"]),
        ((*LANDING, "--club", "driver"), ["give a landing alone, without a delivery, a launch or a club"]),
        ((*LANDING, "--clubhead-speed", "90mph"), ["give a landing alone, without a delivery, a launch or a club"]),
        ((*LANDING, "--hand", "left"), ["a landing, takes no --impact, --hand, --clubs or --face-wetness"]),
        ((*LANDING[:3], "--descent-angle=-5deg"), ["descent_angle is -5 deg; accepted: 0 deg to 90 deg"]),
        ((*LANDING, "--slope-up", "300%"), ["slope_up is 300 %; accepted: -100 % to 100 %"]),
    ],
)
def test_a_mistake_about_the_ground_is_one_message_and_exit_code_2(command, arguments, says):
    code, out, err = command(*arguments)
    assert (code, out) == (2, "") and "Traceback" not in err
    for part in says:
        assert part in err, err


def test_the_docstring_of_a_file_of_turfs_can_be_loaded(tmp_path):
    example = ground.load_turfs.__doc__.split("::")[1].split("Raises")[0]
    (tmp_path / "turfs.toml").write_text("\n".join(line.strip() for line in example.splitlines()))
    assert list(wb.load_turfs(tmp_path / "turfs.toml")) == ["our greens in June", "winter fairway"]
