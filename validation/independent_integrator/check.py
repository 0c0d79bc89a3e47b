"""200 random flights against an independent equation of motion and integrator."""

import functools
import importlib.util
from pathlib import Path

import numpy as np
import pandas as pd
import pytest

import whimbrel as wb

FLIGHTS, SEED = 200, 2026
TOLERANCES = {  # what the library promises of a flight, far above the step tolerance of either integrator
    "carry_m": 1e-3,
    "offline_m": 1e-3,
    "apex_m": 1e-3,
    "flight_time_s": 1e-5,
    "descent_angle_deg": 1e-4,
}


def _neighbour(name):
    """A module of this folder, which is not on the import path under pytest."""
    spec = importlib.util.spec_from_file_location(name, Path(__file__).with_name(name + ".py"))
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


flight = _neighbour("flight")
TABLE = flight.Table()
MODELS = (
    (flight.MultiLayer(), wb.aero.MultiLayer()),
    (flight.SmitsSmith(), wb.aero.SmitsSmith()),
    (flight.SquareRootLift(), wb.aero.SquareRootLift()),
    (flight.Constant(), wb.aero.ConstantCoefficients()),
    (TABLE, wb.aero.AeroTable(TABLE.grid, [1e5], TABLE.drag_grid[:, None], TABLE.lift_grid[:, None])),
)


def random_case(draw, model):
    air = wb.setting.air(wb.Weather(altitude=draw.uniform(0, 2500), relative_humidity=draw.uniform(0, 1)))
    return flight.Case(
        ball_speed=draw.uniform(20, 80),
        launch_angle=np.radians(draw.uniform(5, 50)),
        launch_direction=np.radians(draw.uniform(-10, 10)),
        spin_rate=draw.uniform(1000, 10000) * np.pi / 30,
        spin_axis_tilt=np.radians(draw.uniform(-30, 30)),
        wind_speed=draw.uniform(0, 12),
        wind_from=draw.uniform(-np.pi, np.pi),
        density=air.density,
        viscosity=air.viscosity,
        height=draw.uniform(-10, 10),
        slope_right=draw.uniform(-0.03, 0.03),
        slope_downrange=draw.uniform(-0.03, 0.03),
        model=model,
    )


def ours(case, model):
    """The library's numbers; None for a ball that never comes down on the raised ground."""
    landed = wb.fly(
        wb.Launch(case.ball_speed, case.launch_angle, case.launch_direction, case.spin_rate, case.spin_axis_tilt),
        ball=wb.Ball(aero=model),
        weather=wb.setting.Air(case.density, case.viscosity),
        wind=wb.Wind(case.wind_speed, case.wind_from),
        terrain=wb.Terrain(0.0, case.height, case.slope_right, case.slope_downrange),
    )
    if landed.status == "no_landing":
        return None
    assert landed.status == "ok", (landed.status, case)
    lengths_and_time = ("carry_m", "offline_m", "apex_m", "flight_time_s")
    numbers = {name: getattr(landed, name.rsplit("_", 1)[0]) for name in lengths_and_time}
    return numbers | {"descent_angle_deg": np.degrees(landed.descent_angle)}


@functools.cache
def compared():
    """Ours minus theirs of the flights both land, and the cases only one of them lands."""
    draw = np.random.default_rng(SEED)
    rows, disagreed = [], []
    for i in range(FLIGHTS):
        theirs_model, our_model = MODELS[i % len(MODELS)]
        case = random_case(draw, theirs_model)
        landed, theirs = ours(case, our_model), flight.flown(case)
        if landed and theirs:
            differences = {name: landed[name] - theirs[name] for name in TOLERANCES}
            rows.append({"model": type(our_model).__name__, "case": case, **differences})
        elif landed or theirs:
            disagreed.append(case)
    return pd.DataFrame(rows), disagreed


def test_both_agree_which_of_200_random_flights_land():
    table, disagreed = compared()
    assert not disagreed
    assert len(table) > 0.9 * FLIGHTS  # the rest are too weak to reach the raised ground


@pytest.mark.parametrize("name", TOLERANCES)
def test_every_landed_flight_agrees_with_the_independent_integrator(name):
    table, _ = compared()
    worst = table.loc[table[name].abs().idxmax()]
    assert abs(worst[name]) < TOLERANCES[name], worst.case


if __name__ == "__main__":
    table, _ = compared()
    print(f"{len(table)} of {FLIGHTS} flights land; the largest difference of each number:\n")
    worst = table.drop(columns="case").set_index("model").abs().groupby("model").max()
    worst.loc["worst of all"] = worst.max()
    worst.loc["threshold"] = TOLERANCES
    print(worst.to_string(float_format="%.1e"))
