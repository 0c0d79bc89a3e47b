"""Bounce and run: worked bounces, the trade's windows, the rules' total, and 50 runs by an independent code."""

import functools
import importlib.util
from pathlib import Path

import numpy as np
import pandas as pd
import pytest

import whimbrel as wb
from whimbrel.units import deg, mph, rpm, yd

HERE = Path(__file__).parent
RUNS, SEED = 50, 2026
TOLERANCE = 0.01  # m of the place of rest
TEST_AIR = wb.setting.Air(density=1.1853, viscosity=1.832e-5)  # 75 F, 30.00 inHg, 50 % (from memory)
SPEEDS, SPINS = (12.0, 20.0, 27.0, 34.0), (0.0, 250.0, 700.0)  # m/s, rad/s of landings
FASTEST_SKIM = 26.0  # m/s: below 25° of descent no flight is faster with more than 400 rad/s
MOST_CHANGE, MOST_UNEVEN = 1.0, 0.1  # m, of a run by 0.1° of descent, and of one half beside the other
LIFT_OF_HOPS, BRAKED_SKIMS = 0.15, 0.1  # m
LIMIT = 317 + 3  # yd, published
STANDARDS = {"176 mph, 10°, 2,520 rpm": (176, 10, 2520), "183 mph, 11°, 2,200 rpm (2028)": (183, 11, 2200)}


def _module(path):
    """A module that is not on the import path under pytest."""
    spec = importlib.util.spec_from_file_location(path.stem, path)
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


run = _module(HERE / "run.py")
flight = _module(HERE.parent / "independent_integrator" / "flight.py")


def launched(ball_speed_mph, launch_angle_deg, spin_rate_rpm, **conditions):
    launch = wb.Launch(ball_speed_mph * mph, launch_angle_deg * deg, spin_rate=spin_rate_rpm * rpm)
    return wb.play(launch, **conditions)


def windows():
    """Every launch of the trade's windows, and how far it runs."""
    table = pd.read_csv(HERE / "windows.csv")
    launches = table[["ball_speed_mph", "launch_angle_deg", "spin_rate_rpm"]].itertuples(index=False)
    ours = [launched(*launch, turf=wb.turfs[turf]).run for launch, turf in zip(launches, table.turf, strict=True)]
    return table.assign(run_yd=[one.distance / yd for one in ours], bounces=[int(one.bounces) for one in ours])


def scanned():
    """By turf: the longest change of a run by a tenth of a degree of descent, its largest share in one half of that
    step, and by how much a run is longer than one from a flatter descent or with less backspin, m."""
    tenth, rows = np.arange(10, 80.01, 0.05) * deg, []
    spins = np.arange(0.0, 1201.0, 25.0)
    for name, turf in wb.turfs.items():
        change = halves = flatter = spun = 0.0
        for speed in SPEEDS:
            for spin in SPINS:
                runs = _runs(speed, tenth, spin, turf)
                whole, half = abs(runs[2::2] - runs[:-2:2]), abs(np.diff(runs)).reshape(-1, 2).max(axis=1)
                change, halves = max(change, whole.max()), max(halves, (half - 0.5 * whole).max())
                flatter = max(flatter, _longer(runs))
            for descent in np.arange(10, 80.1, 5):
                if descent >= 25 or speed <= FASTEST_SKIM:
                    spun = max(spun, _longer(_runs(speed, descent * deg, spins, turf)))
        rows.append([name, change, halves, flatter, spun])
    return pd.DataFrame(rows, columns=["turf", "change_m", "uneven_m", "steeper_longer_m", "spun_longer_m"])


def _runs(speed, descent, spin, turf):
    landings = wb.Landing(speed, descent, landing_spin_rate=spin)
    return wb.play(landings, turf=turf, accuracy="reference").run.distance


def _longer(runs):
    return max(0.0, (runs - np.minimum.accumulate(runs)).max())


def blown():
    """Totals of each window's launch from 15 m/s against it to 15 m/s behind it, m."""
    table = pd.read_csv(HERE / "windows.csv")
    launches = table[["ball_speed_mph", "launch_angle_deg", "spin_rate_rpm"]].itertuples(index=False)
    winds = np.arange(-15.0, 15.1, 1.0)
    wind = wb.Wind(abs(winds), from_direction=np.where(winds < 0, 0.0, 180 * deg))
    return [
        launched(*launch, turf=wb.turfs[turf], wind=wind).total
        for launch, turf in zip(launches, table.turf, strict=True)
    ]


def standard():
    """Carry and total of the rules' launches on the firm fairway, yd."""
    shots = [launched(*launch, weather=TEST_AIR) for launch in STANDARDS.values()]
    totals = {"carry_yd": [s.carry / yd for s in shots], "total_yd": [s.total / yd for s in shots]}
    return pd.DataFrame({"launch": STANDARDS.keys(), **totals, "limit_yd": LIMIT})


def random_case(draw):
    """A landing, a plane that holds the ball, and a turf."""
    landing = wb.Landing(
        landing_speed=draw.uniform(10, 35),
        descent_angle=draw.uniform(15, 65) * deg,
        landing_direction=draw.uniform(-30, 30) * deg,
        landing_spin_rate=draw.uniform(0, 1000),
        spin_axis_tilt=draw.uniform(-90, 90) * deg,
    )
    turf = run.Turf(draw.uniform(0.4, 1.2), draw.uniform(0.2, 0.6), draw.uniform(0.5, 1.5), draw.uniform(0.6, 3))
    return landing, draw.uniform(-0.04, 0.04), draw.uniform(-0.04, 0.04), turf


def theirs(landing, slope_right, slope_downrange, turf):
    case = flight.Case(
        landing.landing_speed, -landing.descent_angle, landing.landing_direction, landing.landing_spin_rate,
        landing.spin_axis_tilt, 0.0, 0.0, 1.2255, 1.7894e-5, 0.0, slope_right, slope_downrange, flight.MultiLayer(),
    )  # fmt: skip
    heading, tilt = landing.landing_direction, landing.spin_axis_tilt  # told from the level
    axis = np.cos(tilt) * np.array([np.cos(heading), -np.sin(heading), 0.0]) - np.sin(tilt) * np.array([0, 0, 1.0])
    return run.rest(case, landing.landing_speed * case.heading(), landing.landing_spin_rate * axis, turf)


@functools.cache
def compared():
    """The place of rest of random landings, theirs and ours, m."""
    draw, rows = np.random.default_rng(SEED), []
    for _ in range(RUNS):
        case = random_case(draw)
        landing, slope_right, slope_downrange, turf = case
        ours = wb.play(
            landing,
            weather=wb.setting.Air(1.2255, 1.7894e-5),
            terrain=wb.Terrain(slope_right=slope_right, slope_downrange=slope_downrange),
            turf=wb.Turf(
                "random", turf.restitution_scale, turf.friction, turf.tilt_scale, turf.rolling_deceleration
            ),
        ).run
        (x, y, _), bounces = theirs(*case)
        apart = np.hypot(ours.total_offline - x, ours.total_downrange - y)
        rows.append([np.hypot(x, y), ours.total, apart, bounces, ours.bounces, case])
    return pd.DataFrame(rows, columns=["total_m", "ours_m", "apart_m", "bounces", "our_bounces", "case"])


def spin_that_survives():
    """Landing spin, rad/s, from which a ball that lands as a mid-iron's leaves the first bounce with backspin."""
    landing = launched(120, 16, 7000).landing
    speed, angle = landing.landing_speed, landing.descent_angle
    down = speed * np.array([0.0, np.cos(angle), -np.sin(angle)])

    def backspin_after(spin, turf):
        own = run.Turf(turf.restitution_scale, turf.friction, turf.tilt_scale)
        return run.bounced(down, np.array([spin, 0.0, 0.0]), np.array([0.0, 0.0, 1.0]), own)[1][0]

    spins = np.arange(0.0, 1500.0)
    return {
        name: next((spin for spin in spins if backspin_after(spin, turf) > 0), np.inf)
        for name, turf in wb.turfs.items()
    }


@pytest.mark.parametrize(("speed", "value"), [(10, 0.2253), (18.6, 0.1249), (20, 0.1212)])
def test_the_restitution_is_the_worked_one(speed, value):
    """Dropped straight down in a vacuum, a ball hops to the height (e v)^2 / 2 g."""
    assert run.restitution(speed) == pytest.approx(value, abs=5e-5)
    drop = wb.play(wb.Landing(speed, 90 * deg), weather=wb.setting.Air(0.0, 1.8e-5)).run
    top = max(drop.position_at(np.linspace(0, 2.2 * value * speed / run.GRAVITY, 20001))[:, 2]) - run.RADIUS
    assert np.sqrt(2 * run.GRAVITY * top) / speed == pytest.approx(value, abs=6e-5)


def test_the_worked_bounce_leaves_at_5_61_forward_and_3_89_up():
    landing = wb.Landing(18.6, (90 - 44.4) * deg)
    after = wb.play(landing, weather=wb.setting.Air(0.0, 1.8e-5)).run
    times = np.array([0.0, 0.1])
    first, second = after.position_at(times)
    moved = (second - first) / 0.1 + [0, 0, run.GRAVITY * 0.05]
    assert moved == pytest.approx([0.0, 5.61, 3.89], abs=5e-3)


@pytest.mark.parametrize("i", range(len(pd.read_csv(HERE / "windows.csv"))))
def test_a_launch_runs_within_the_window_of_the_trade(i):
    shot = windows().iloc[i]
    assert shot.shortest_yd <= shot.run_yd <= shot.longest_yd, shot


def test_drives_bounce_three_to_seven_times_on_fairways():
    shots = windows()
    drives = shots[(shots.shot == "drive") & shots.turf.str.contains("fairway")]
    assert len(drives) == 12 and drives.bounces.between(3, 7).all(), drives


def test_a_full_wedge_leaves_a_medium_green_forward():
    shots = windows()
    for shot in shots[(shots.shot == "full wedge") & (shots.turf == "medium green")].itertuples():
        one = launched(shot.ball_speed_mph, shot.launch_angle_deg, shot.spin_rate_rpm, turf=wb.turfs[shot.turf])
        first, second = one.run.position_at(np.array([0.0, 0.2]))
        assert second[1] - first[1] > 0.1, shot


def test_a_run_has_no_jump_and_shortens_with_descent_and_backspin():
    scans = scanned().set_index("turf")
    assert (scans.change_m < MOST_CHANGE).all() and (scans.uneven_m < MOST_UNEVEN).all(), scans
    assert (scans.spun_longer_m < LIFT_OF_HOPS).all() and (scans.steeper_longer_m < BRAKED_SKIMS).all(), scans


def test_a_shot_is_the_longer_the_more_the_wind_helps():
    assert all((np.diff(totals) > 0).all() for totals in blown())


def test_the_drive_of_the_distance_standard_ends_between_300_and_320_yards():
    assert 300 <= standard().total_yd[0] <= 320


def test_50_random_runs_end_where_the_independent_code_says():
    table = compared()
    assert len(table) == RUNS and (table.bounces == table.our_bounces).all()
    worst = table.loc[table.apart_m.idxmax()]
    assert worst.apart_m < TOLERANCE, worst.case


if __name__ == "__main__":
    table = compared()
    print(windows().round(1).to_string(index=False), standard().round(1).to_string(index=False), sep="\n\n")
    print("", scanned().round(3).to_string(index=False), sep="\n")
    print("\nleast landing spin, rad/s, of a mid-iron that leaves the first bounce with backspin:")
    print("  " + ", ".join(f"{name} {spin:.0f}" for name, spin in spin_that_survives().items()))
    print(f"\n{len(table)} random runs of {table.total_m.min():.1f} to {table.total_m.max():.1f} m,")
    print(f"{table.bounces.min()} to {table.bounces.max()} bounces: at most {table.apart_m.max():.1e} m apart")
