"""Sweeps over any inputs of a shot, as labelled arrays."""

import itertools

import matplotlib
import matplotlib.pyplot as plt
import numpy as np
import pytest
import xarray as xr

import whimbrel as wb
from whimbrel.questions.inputs import axes_of
from whimbrel.sweeps import run as sweep_played
from whimbrel.units import celsius, deg, mph, yd

matplotlib.use("Agg")
ATTACK, LOFT = np.linspace(-5, 5, 5) * deg, np.linspace(8, 20, 4) * deg
LAUNCH = wb.Launch(60.0, 0.25, spin_rate=400.0)


@pytest.fixture(autouse=True)
def closed():
    yield
    plt.close("all")


@pytest.fixture
def driver():
    return wb.clubs["driver"]


@pytest.fixture
def hit():
    return wb.Delivery(100 * mph, dynamic_loft=14 * deg)


def test_every_point_of_a_grid_is_the_shot_played_alone(hit, driver):
    swept = wb.sweep(hit, driver, attack_angle=ATTACK, altitude=[0.0, 1500.0], outputs=["carry", "total"])
    assert swept.carry.dims == ("attack_angle", "altitude") and swept.carry.shape == (5, 2)
    for attack, altitude in itertools.product(ATTACK, [0.0, 1500.0]):
        one = wb.play(
            wb.Delivery(100 * mph, attack_angle=attack, dynamic_loft=14 * deg),
            driver,
            weather=wb.Weather(altitude=altitude),
        )
        point = swept.sel(attack_angle=attack, altitude=altitude)
        assert float(point.carry) == pytest.approx(one.carry, abs=2e-3)  # the fast path's 1 mm, and rounding
        assert float(point.total) == pytest.approx(one.total, abs=0.05)


def test_every_axis_reaches_its_number(hit, driver):
    """Each axis that can change a flight or run does, and the same number twice gives the same shot."""
    base = wb.Terrain(tee_height=0.02)
    wind = wb.Wind(3.0, 1.0, profile="power_law")
    off = wb.Delivery(100 * mph, 2 * deg, 0.0, 1 * deg, 14 * deg, 0.01, 0.005, 1 * deg, 10.0)
    for name, axis in axes_of(wb.Delivery).items():
        if axis.owner == "green":
            values, turf = np.array([2.0, 3.0]) if name == "stimp" else np.array([0.2, 0.8]), None
        else:
            turf = wb.Turf()
            owner = {"start": off, "club": driver, "ball": wb.Ball(), "wind": wind, "terrain": base, "turf": turf}
            now = getattr(owner.get(axis.owner), axis.field, None)
            now = {"temperature": 288.0, "pressure": 1e5, "altitude": 100.0, "relative_humidity": 0.3,
                   "ball_inertia": 8e-6}.get(name, now)  # fmt: skip
            values = np.array([now, now * 1.02 if now else 0.004])
        club = wb.clubs["sand wedge"] if name == "face_wetness" else driver  # only a wedge's face may be wet
        swept = wb.sweep(
            off, club, wind=wind, terrain=base, turf=turf, outputs=["total", "carry", "total_offline"],
            accuracy="reference", **{name: values},
        )  # fmt: skip
        assert (swept.status == 0).all(), name
        moved = abs(swept.total.diff(name)) + abs(swept.total_offline.diff(name))
        idle = {"lie_angle", "length", "loft", "face_width", "face_height"}
        assert (float(moved[0]) == 0) if name in idle else (float(moved[0]) > 0), name


def test_paired_axes_are_shots_in_a_row(hit, driver):
    swept = wb.sweep(hit, driver, design="paired", attack_angle=ATTACK[:4], dynamic_loft=LOFT)
    played = wb.play(wb.Delivery(100 * mph, attack_angle=ATTACK[:4], dynamic_loft=LOFT), driver)
    assert swept.carry.dims == ("shot",)
    np.testing.assert_array_equal(swept.carry, played.carry)
    np.testing.assert_array_equal(swept.dynamic_loft, LOFT)


@pytest.mark.parametrize("design", ["latin", "sobol"])
def test_samples_fill_their_ranges_and_come_again_with_their_seed(design):
    def drawn(seed):
        ranges = {"temperature": (270.0, 310.0), "wind_speed": (0.0, 9.0)}
        return wb.sweep(LAUNCH, design=design, samples=64, seed=seed, **ranges)

    first, again, other = drawn(1), drawn(1), drawn(2)
    np.testing.assert_array_equal(first.carry, again.carry)
    assert not np.array_equal(first.carry, other.carry)
    for name, low, high in (("temperature", 270, 310), ("wind_speed", 0, 9)):
        strata = np.sort(((first[name].values - low) / (high - low) * 64).astype(int))
        np.testing.assert_array_equal(strata, np.arange(64))  # one in each sixty-fourth
    assert first.attrs["seed"] == 1


def test_netcdf_keeps_units_and_provenance(hit, driver, tmp_path):
    swept = wb.sweep(hit, driver, attack_angle=ATTACK, temperature=celsius(np.array([5.0, 30.0])))
    for engine in ("scipy", "h5netcdf"):
        path = tmp_path / f"{engine}.nc"
        swept.to_netcdf(path, engine=engine)
        with xr.open_dataset(path, engine=engine) as back:
            xr.testing.assert_equal(back, swept)
            units = {name: back[name].attrs.get("units") for name in back.variables}
            assert units == {
                "attack_angle": "rad",
                "temperature": "K",
                "carry": "m",
                "offline": "m",
                "status": None,
            }
            assert back.carry.attrs["long_name"] == "carry"
            assert back.status.dtype == np.int8
            meanings = back.status.attrs["flag_meanings"].split()
            assert len(meanings) == len(back.status.attrs["flag_values"])
            told = back.attrs
            assert (told["club"], told["ball_model"], told["design"], told["accuracy"]) == (
                "driver", "MultiLayer", "grid", "fast")  # fmt: skip
            assert told["of_ball_model_lift"] == wb.aero.MultiLayer().lift
            assert told["of_start_clubhead_speed"] == pytest.approx(100 * mph)
            assert "of_start_attack_angle" not in told
            assert "of_weather_temperature" not in told  # an axis
            assert told["of_weather_pressure"] == pytest.approx(101325)
            assert told["whimbrel_version"] == wb.__version__ and told["caution"]


def test_a_bad_point_is_nan_and_says_so(driver):
    with pytest.warns(RuntimeWarning, match="bad input at 1 of 2 points, NaN .* altitude is -4000 m"):
        swept = wb.sweep(LAUNCH, altitude=[-4000.0, 0.0])
    assert swept.attrs["first_bad_input"].startswith("altitude is -4000 m; accepted")
    assert np.isnan(swept.carry[0]) and swept.carry[1] > 100
    names = dict(zip(swept.status.flag_values, swept.status.flag_meanings.split(), strict=True))
    assert [names[int(x)] for x in swept.status] == ["bad_input", "ok"]


def test_chunks_do_not_show(hit, driver, monkeypatch):
    whole = wb.sweep(hit, driver, attack_angle=ATTACK, dynamic_loft=LOFT)
    monkeypatch.setattr(sweep_played, "CHUNK", 7)
    pieces = wb.sweep(hit, driver, attack_angle=ATTACK, dynamic_loft=LOFT)
    np.testing.assert_array_equal(pieces.carry, whole.carry)


def test_an_interruption_keeps_what_is_done(hit, driver, monkeypatch):
    calls = itertools.count()

    def play(*arguments, **keywords):
        if next(calls) == 3:  # the trial and two chunks are done
            raise KeyboardInterrupt
        return wb.play(*arguments, **keywords)

    monkeypatch.setattr(sweep_played, "CHUNK", 5)
    monkeypatch.setattr(sweep_played, "play", play)
    with pytest.warns(RuntimeWarning, match="stopped after 10 of 20 points"):
        swept = wb.sweep(hit, driver, attack_angle=ATTACK, dynamic_loft=LOFT)
    assert swept.attrs["completed"] == 0.5
    carry, status = swept.carry.values.ravel(), swept.status.values.ravel()
    assert np.isfinite(carry[:10]).all() and np.isnan(carry[10:]).all()
    assert (status[:10] == 0).all() and (status[10:] == -1).all()


def test_a_bar_shows_progress(hit, driver, capsys):
    wb.sweep(hit, driver, attack_angle=ATTACK, progress=True)
    assert "5.00/5.00" in capsys.readouterr().err
    wb.sweep(hit, driver, attack_angle=ATTACK)
    assert capsys.readouterr().err == ""


@pytest.mark.parametrize(
    ("asked", "words"),
    [
        ({"mass": [0.2]}, "'mass' is not a known axis .* nearest: club_mass, ball_mass"),
        ({"atack_angle": [0.2]}, "'atack_angle' .* nearest: attack_angle"),
        ({"atack": [0.2]}, "'atack' is not a known axis .* nearest: attack_angle"),
        ({"attack_angle_deg": [2.0]}, "'attack_angle_deg' has a unit in its name: give attack_angle, in SI"),
        ({"ball_speed": [60.0]}, "ball_speed goes with a launch; this sweep starts from a delivery"),
        ({"descent_angle": [0.8]}, "descent_angle goes with a landing; this sweep starts from a delivery"),
        ({}, "a sweep needs an axis"),
        ({"attack_angle": []}, "attack_angle is empty"),
        ({"attack_angle": 0.1}, r"attack_angle has the shape \(\)"),
        ({"attack_angle": [0.0, np.nan]}, "attack_angle: value 1 is nan"),
        ({"attack_angle": "steep"}, "attack_angle: 'steep' is not an array of numbers"),
        ({"attack_angle": ["1", "2"]}, "attack_angle: .* is not an array of numbers"),
        ({"attack_angle": [[0.0, 0.1], [0.2]]}, "attack_angle: .* is not an array of numbers"),
        ({"attack_angle": [0.1j]}, "attack_angle: .* is not an array of numbers"),
        ({"attack_angle": [True]}, "attack_angle: .* is not an array of numbers"),
        ({"outputs": 5, "attack_angle": [0.1]}, "outputs is 5; it takes a list"),
        ({"most_points": "many", "attack_angle": [0.1]}, "most_points is 'many'; accepted: a whole number"),
        ({"pressure": [1e5], "altitude": [0.0]}, "pressure and altitude cannot both"),
        ({"design": "paired", "attack_angle": [0, 0.1], "club_path": [0.0]}, "attack_angle has 2, club_path has 1"),
        ({"design": "latin", "attack_angle": (0, 0.1)}, "needs samples"),
        ({"design": "sobol", "samples": 100, "attack_angle": (0, 0.1)}, "samples is 100; .* 64 or 128"),
        ({"design": "latin", "samples": 8, "seed": 2**31, "attack_angle": (0, 0.1)}, "seed .* to 2,147,483,647"),
        (
            {"chunks": 10**6, "attack_angle": np.linspace(0, 0.1, 10**6), "club_path": np.linspace(0, 0.1, 10**6)},
            "1,000,000,000,000 points .* 17,000.0 GB .* most_points is 100,000,000,000",
        ),
        ({"design": "sobol", "samples": 8, "attack_angle": (0.1, 0)}, "attack_angle .* low below high"),
        ({"samples": 8, "attack_angle": [0.1]}, "samples is for"),
        ({"design": "random", "attack_angle": [0.1]}, "design is 'random'; accepted: grid"),
        (
            {"outputs": ["cary"], "attack_angle": [0.1]},
            "'cary' is not a known output of a sweep from a delivery; nearest: carry",
        ),
        ({"outputs": "carry", "attack_angle": [0.1]}, "outputs is 'carry'; it takes a list"),
        ({"weather": "cold", "temperature": [280.0]}, "weather is 'cold'"),
        ({"weather": wb.setting.Air(), "temperature": [280.0]}, "give weather as Weather"),
        ({"wind": wb.Wind(np.array([1.0, 2.0])), "attack_angle": [0.1]}, "wind has the shape"),
        ({"stimp": [1000.0]}, "stimp is 1000"),
        ({"turf": wb.Turf(), "stimp": [3.0]}, "stimp describes a green"),
        (
            {"attack_angle": np.linspace(0, 0.1, 10**6), "club_path": np.linspace(0, 0.1, 10**6)},
            "1,000,000,000,000 points .* 17,000.0 GB .* most_points is 50,000,000",
        ),
    ],
)
def test_a_mistake_is_named_before_any_shot_is_played(hit, driver, asked, words, monkeypatch):
    monkeypatch.setattr(sweep_played, "play", lambda *_, **__: pytest.fail("played"))
    with pytest.raises(wb.InputError, match=words):
        wb.sweep(hit, driver, **asked)


def test_the_run_from_a_landing_is_swept_alone():
    landing = wb.Landing(24.0, 0.8, landing_spin_rate=500.0)
    angles, stimps = np.array([0.7, 0.9]), np.array([2.5, 3.5])
    swept = wb.sweep(landing, descent_angle=angles, stimp=stimps)
    assert set(swept.data_vars) == {"distance", "total_offline", "status", "run_status"}
    assert swept.attrs["start"] == "landing" and "of_club_loft" not in swept.attrs
    for angle, stimp in itertools.product(angles, stimps):
        run = wb.play(wb.Landing(24.0, angle, landing_spin_rate=500.0), turf=wb.green(stimp)).run
        assert float(swept.distance.sel(descent_angle=angle, stimp=stimp)) == run.distance
    for asked, words in (
        ({"outputs": ["carry"], "stimp": stimps}, "'carry' is not a known output of a sweep from a landing"),
        ({"loft": [0.2, 0.3]}, "loft goes with a delivery; this sweep starts from a landing"),
    ):
        with pytest.raises(wb.InputError, match=words):
            wb.sweep(landing, **asked)


def test_a_delivery_needs_a_club_and_other_starts_none(hit, driver):
    for arguments in ((hit,), (LAUNCH, driver), (wb.Landing(24.0, 0.8), driver)):
        with pytest.raises(wb.InputError, match="club"):
            wb.sweep(*arguments, altitude=[0.0])


def test_trajectories_are_positions_over_shot_and_time():
    shots = wb.play(wb.Launch(np.array([40.0, 60.0]), 0.25, spin_rate=400.0))
    ways = wb.trajectories(shots, [0.0, 1.0, 2.0])
    assert ways.x.dims == ("shot", "time") and ways.x.shape == (2, 3)
    assert {name: ways[name].attrs["units"] for name in ("x", "y", "z", "time")} == {
        "x": "m", "y": "m", "z": "m", "time": "s"}  # fmt: skip
    where = shots.flight.position_at([0.0, 1.0, 2.0])
    np.testing.assert_array_equal(ways.z, where[..., 2])
    with pytest.raises(wb.InputError, match="times"):
        wb.trajectories(shots, [np.nan])


def test_pictures_say_quantity_and_unit(hit, driver):
    swept = wb.sweep(hit, driver, attack_angle=ATTACK, dynamic_loft=LOFT)
    ax = wb.plot_sweep(swept, "carry", ridge="dynamic_loft")
    assert (ax.get_xlabel(), ax.get_ylabel()) == ("Attack angle, °", "Dynamic loft, °")
    assert ax.figure.axes[1].get_ylabel() == "Carry, yd"
    best = ax.lines[-1].get_xydata()
    np.testing.assert_allclose(best[:, 0], ATTACK / deg)
    most = LOFT[swept.carry.values.argmax(axis=1)] / deg  # from a point of the grid half a step at most
    assert np.abs(best[:, 1] - most).max() <= 0.5 * (LOFT[1] - LOFT[0]) / deg + 1e-9
    line = wb.plot_sweep(swept.isel(dynamic_loft=0), "carry", units="metric")
    assert (line.get_xlabel(), line.get_ylabel()) == ("Attack angle, °", "Carry, m")
    np.testing.assert_allclose(line.lines[0].get_ydata(), swept.carry[:, 0])
    np.testing.assert_allclose(
        wb.plot_sweep(swept.isel(dynamic_loft=0), "carry").lines[0].get_ydata(), swept.carry[:, 0] / yd
    )


def test_the_ridge_runs_through_the_tops_of_parabolas_between_the_points_of_the_grid():
    attack, loft = np.linspace(-5, 5, 7), np.array([8.0, 10, 11, 13, 16, 18, 20])
    top = 13 + 0.7 * attack + 0.05 * attack**2
    carry = 200 - (loft - top[:, None]) ** 2
    swept = xr.Dataset(
        {"carry": (("attack_angle", "dynamic_loft"), carry, {"units": "m"})},
        {"attack_angle": ("attack_angle", attack * deg, {"units": "rad"}),
         "dynamic_loft": ("dynamic_loft", loft * deg, {"units": "rad"})},
    )  # fmt: skip
    for of in (swept, swept.transpose()):
        ax = wb.plot_sweep(of, "carry", ridge="dynamic_loft")
        line = ax.get_lines()[-1]
        x, y = (line.get_xdata(), line.get_ydata()) if of is swept else (line.get_ydata(), line.get_xdata())
        np.testing.assert_allclose(x, attack, atol=1e-9)
        np.testing.assert_allclose(y, np.clip(top, 8, 20), atol=1e-9)


def test_a_ridge_beyond_the_grid_or_beside_a_gap_stays_on_its_points():
    from whimbrel.plots.sweep import _where_most

    x = np.arange(5.0)
    assert _where_most(x, x) == 4
    assert _where_most(x, np.array([1, 3, np.nan, 2, 1])) == 1
    assert _where_most(x, np.array([0.0, 1, 1, 1, 0])) == pytest.approx(1.5)  # a level top: in its first half
    assert _where_most(x, np.ones(5)) == 0


def test_values_in_any_order_are_drawn_as_if_sorted(hit, driver):
    swept = wb.sweep(hit, driver, attack_angle=ATTACK[[3, 0, 4, 1, 2]])
    line = wb.plot_sweep(swept, "carry", units="metric").lines[0].get_xydata()
    np.testing.assert_allclose(line[:, 0], ATTACK / deg)
    np.testing.assert_allclose(line[:, 1], swept.carry.sortby("attack_angle"))


def test_what_cannot_be_drawn_is_said(hit, driver):
    swept = wb.sweep(hit, driver, attack_angle=ATTACK)
    row = wb.sweep(hit, driver, design="paired", attack_angle=ATTACK)
    for dataset, asked, words in (
        (swept, {"output": "total"}, "no output 'total'; there are: carry, offline"),
        (swept, {"output": "carry", "ridge": "attack_angle"}, "ridge"),
        (row, {"output": "carry"}, "dimensions shot"),
        (swept.carry, {"output": "carry"}, "(?s)swept is .* it takes a Dataset"),
    ):
        with pytest.raises(wb.InputError, match=words):
            wb.plot_sweep(dataset, **asked)


def test_a_sweep_tells_the_inertia_of_its_ball_unless_that_follows_from_an_axis(hit, driver):
    ball = wb.Ball()
    speeds = wb.sweep(hit, driver, clubhead_speed=np.array([40.0, 45.0]), outputs=["carry"])
    assert speeds.attrs["of_ball_inertia"] == float(ball.inertia)
    mass = np.array([0.045, 0.0459])
    masses = wb.sweep(hit, driver, ball_mass=mass, outputs=["carry"])
    assert "of_ball_inertia" not in masses.attrs and masses.attrs["of_ball_radius"] == float(ball.radius)
    given = wb.sweep(
        hit, driver, ball=wb.Ball(inertia=8e-6), ball_mass=np.array([0.045, 0.0459]), outputs=["carry"]
    )
    assert given.attrs["of_ball_inertia"] == 8e-6
