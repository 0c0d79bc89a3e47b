"""Labels, masks and units mean what they say: numbers pair by label, masked ones are bad rows, units become SI."""

import sys
from datetime import date

import numpy as np
import pandas as pd
import pint
import pytest
import xarray as xr

import whimbrel as wb
from whimbrel.units import deg, mph

IRON = wb.clubs["7 iron"]
SPEED = xr.DataArray([35.0, 36.0, 37.0], dims="speed", coords={"speed": [35, 36, 37]})
LOFT = xr.DataArray([0.38, 0.40, 0.42], dims="loft", coords={"loft": [22, 23, 24]})
UNITS = pint.UnitRegistry()


def test_data_arrays_broadcast_by_dimension_and_results_are_data_arrays():
    shot = wb.play(wb.Delivery(SPEED, dynamic_loft=LOFT), IRON)
    plain = wb.play(wb.Delivery(SPEED.values[:, None], dynamic_loft=LOFT.values), IRON)
    for ours, theirs in ((shot.carry, plain.carry), (shot.total, plain.total), (shot.status, plain.status)):
        assert ours.dims == ("speed", "loft")
        assert np.array_equal(ours.values, theirs)
        assert ours.speed.values.tolist() == [35, 36, 37] and ours.loft.values.tolist() == [22, 23, 24]
    assert shot.carry.attrs == {"units": "m", "long_name": "carry"}
    assert shot.shape == (3, 3)
    assert shot.carry.sel(speed=36, loft=24) == plain.carry[1, 2]
    assert shot.delivery.clubhead_speed.dims == ("speed",) and shot.delivery.dynamic_loft.dims == ("loft",)
    assert shot.out_of_range["approach_speed"].dims == ("speed", "loft")
    assert shot.impact.struck_normal.dims == ("speed", "loft", "axis")
    assert np.array_equal(shot.flight.position_at(1.0), plain.flight.position_at(1.0))


def test_dimensions_of_different_values_broadcast_too():
    wind = xr.DataArray([0.0, 5.0], dims="wind")
    shot = wb.play(wb.Delivery(SPEED, dynamic_loft=0.4), IRON, wind=wb.Wind(wind))
    assert shot.carry.dims == ("speed", "wind")
    again = wb.what_if(shot, delivery={"face_angle": 0.02})
    assert again.carry.dims == ("speed", "wind")
    assert wb.sensitivity(shot, of="carry", by="wind_speed")["carry", "wind_speed"].dims == ("speed", "wind")
    assert wb.at_standard_conditions(shot).carry.dims == ("speed", "wind")


@pytest.mark.parametrize(
    "verb",
    [
        lambda x: wb.strike(wb.Delivery(x, dynamic_loft=0.4), IRON).smash_factor,
        lambda x: wb.fly(wb.Launch(x, 0.2, spin_rate=300.0)).carry,
        lambda x: wb.d_plane(wb.Delivery(40.0, x / 1000, dynamic_loft=0.4)).tilt,
        lambda x: wb.setting.air(wb.Weather(altitude=x)).density,
        lambda x: wb.present(IRON, clubhead_speed=x).clubhead_speed,
        lambda x: wb.usual_delivery(IRON, x).clubhead_speed,
        lambda x: wb.holding_green.spin_to_hold(x / 10, landing_speed=20.0, descent_angle=0.8),
        lambda x: wb.level_distance(wb.usual_delivery(IRON), IRON, distance=x * 3).level_distance,
        lambda x: wb.Launch.from_backspin(60.0, 0.2, backspin_rate=x, sidespin_rate=5.0).spin_rate,
        lambda x: wb.Ball(x / 1000).inertia,
        lambda x: wb.arcs.arc_of(wb.Delivery(40.0, attack_angle=-x / 1000), plane_inclination=1.0).low_point_ahead,
    ],
)
def test_every_verb_takes_labels_and_gives_them_back(verb):
    labelled, plain = verb(SPEED), verb(SPEED.values)
    assert labelled.dims == ("speed",) and np.array_equal(labelled.values, plain)
    assert verb(SPEED.to_series()).index.equals(SPEED.to_series().index)


def test_labels_in_another_order_pair_by_label():
    turned = SPEED[::-1] / 100
    shot = wb.play(wb.Delivery(SPEED, dynamic_loft=turned), IRON)
    straight = wb.play(wb.Delivery(SPEED.values, dynamic_loft=SPEED.values / 100), IRON)
    assert np.array_equal(shot.carry.values, straight.carry)
    series = SPEED.to_series()
    shot = wb.play(wb.Delivery(series, dynamic_loft=series[::-1] / 100), IRON)
    assert isinstance(shot.carry, pd.Series) and shot.carry.index.equals(series.index)
    assert np.array_equal(shot.carry, straight.carry) and np.array_equal(shot.total, straight.total)


def test_labels_that_differ_are_refused_in_words():
    with pytest.raises(wb.InputError, match=r"Delivery.clubhead_speed and Delivery.dynamic_loft .* labels along"):
        wb.play(wb.Delivery(SPEED, dynamic_loft=SPEED.assign_coords(speed=[35, 36, 38]) / 100), IRON)
    with pytest.raises(wb.InputError, match="3 and 2 values along 'speed'"):
        wb.play(wb.Delivery(SPEED, dynamic_loft=xr.DataArray([0.4, 0.4], dims="speed")), IRON)
    series = pd.Series([35.0, 36.0], index=[1, 2])
    with pytest.raises(wb.InputError, match="different rows"):
        wb.play(wb.Delivery(series, dynamic_loft=pd.Series([0.4, 0.4], index=[2, 3])), IRON)
    with pytest.raises(wb.InputError, match=r"Wind.speed has the shape \(3,\) and no labels"):
        wb.play(wb.Delivery(SPEED, dynamic_loft=0.4), IRON, wind=wb.Wind(np.ones(3)))
    with pytest.raises(wb.InputError, match="the same way"):
        wb.play(wb.Delivery(SPEED, dynamic_loft=series), IRON)
    with pytest.raises(wb.InputError, match="DataFrame holds several"):
        wb.Launch(pd.DataFrame({"a": [1.0]}), 0.2)


def test_chunked_data_arrays_stay_lazy_and_labelled():
    pytest.importorskip("dask")
    flight = wb.play(wb.Delivery(SPEED.chunk(speed=2), dynamic_loft=LOFT), IRON)
    assert flight.carry.chunks is not None and flight.carry.dims == ("speed", "loft")
    plain = wb.play(wb.Delivery(SPEED, dynamic_loft=LOFT), IRON)
    done = flight.compute(scheduler="sync")
    assert done.carry.equals(plain.carry) and done.total.equals(plain.total)


@pytest.mark.parametrize("container", ["masked", "nullable", "missing"])
def test_a_masked_entry_is_a_bad_row(container):
    speeds = {
        "masked": lambda: np.ma.masked_array([35.0, 36.0, 37.0], [False, True, False]),
        "nullable": lambda: pd.Series([35, None, 37], dtype="Int64"),
        "missing": lambda: pd.array([35.0, None, 37.0], dtype="Float64"),
    }[container]()
    hits = wb.Delivery(speeds, dynamic_loft=0.4)
    with pytest.raises(wb.InputError, match=r"row 1: clubhead_speed is nan"):
        wb.play(hits, IRON)
    shot = wb.play(hits, IRON, errors="mask")
    assert list(shot.status) == ["ok", "bad_input", "ok"]
    assert np.isnan(np.asarray(shot.carry)[1]) and np.isfinite(np.asarray(shot.carry)[[0, 2]]).all()


NO_NUMBERS = {
    "truth value": True,
    "truth values": np.array([True, False]),
    "text": "40",
    "numeric text": np.array(["40", "41"]),
    "text series": pd.Series(["40", "41"]),
    "dates": np.array(["2024-01-01"], dtype="datetime64[D]"),
    "date": date(2024, 1, 1),
    "dates series": pd.Series(pd.to_datetime(["2024-01-01"])),
    "durations": np.array([3], dtype="timedelta64[s]"),
    "complex": 40 + 0j,
    "objects": np.array([40.0, None], dtype=object),
    "masked truth values": np.ma.masked_array([True, False]),
    "data array of truth values": xr.DataArray([True, False]),
    "nothing": None,
}


@pytest.mark.parametrize("bad", NO_NUMBERS.values(), ids=NO_NUMBERS)
def test_what_is_no_real_number_is_refused_everywhere_by_its_field(bad):
    for call in (
        lambda: wb.play(wb.Delivery(bad, dynamic_loft=0.4), IRON),
        lambda: wb.sweep(wb.Delivery(40.0, dynamic_loft=0.4), IRON, clubhead_speed=bad),
    ):
        with pytest.raises(wb.InputError, match="clubhead_speed"):
            call()
    with pytest.raises(wb.InputError, match=r"speed"):
        wb.play(wb.Launch(60.0, 0.2, spin_rate=300.0), wind=wb.Wind(speed=bad))


def test_the_refusal_names_the_type():
    with pytest.raises(wb.InputError, match=r"ball_speed: array\(\[ True\]\) is not a number.*its type is bool"):
        wb.Launch(np.array([True]), 0.2)


@pytest.mark.parametrize("number", [40, np.float32(40), np.int16(40), np.array(40.0), np.uint8(40)], ids=repr)
def test_real_numbers_of_any_width_are_numbers(number):
    assert wb.Delivery(number).clubhead_speed == 40.0


def test_quantities_are_converted_to_si():
    hit = wb.Delivery(84 * UNITS.mph, 2 * UNITS.degree, dynamic_loft=np.array([20, 24]) * UNITS.degree)
    assert hit.clubhead_speed == pytest.approx(84 * mph, rel=1e-14)
    assert hit.club_path == pytest.approx(2 * deg, rel=1e-14)
    assert hit.dynamic_loft == pytest.approx(np.array([20, 24]) * deg, rel=1e-14)
    assert wb.Weather(UNITS.Quantity(12, "degC")).temperature == pytest.approx(285.15, rel=1e-14)
    assert wb.Launch(60.0, 0.2, spin_rate=UNITS.Quantity(3000, "rpm")).spin_rate == pytest.approx(
        314.159265, rel=1e-8
    )
    assert wb.Club("x", 0.5, 1.1, 0.9, 0.27, inertia_target=UNITS.Quantity(900, "g*cm^2")).inertia_target == (
        pytest.approx(9e-5, rel=1e-14)
    )
    assert wb.Weather(relative_humidity=UNITS.Quantity(40, "percent")).relative_humidity == pytest.approx(0.4)


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda: wb.Delivery(UNITS.Quantity(84, "kg")), "clubhead_speed is in kilogram; it takes m/s"),
        (lambda: wb.Delivery(40.0, UNITS.Quantity(12, "")), "club_path is in .*; it takes rad"),
        (lambda: wb.Delivery(40.0, UNITS.Quantity(12, "mph")), "club_path is in mile_per_hour; it takes rad"),
        (lambda: wb.Launch(60.0, 0.2, spin_rate=UNITS.Quantity(50, "Hz")), "spin_rate is in hertz; it takes rad/s"),
        (lambda: wb.Terrain(slope_right=3 * UNITS.degree), "slope_right is in degree; it takes a number without"),
        (lambda: wb.Launch([60 * UNITS.mph], 0.2), "ball_speed: a list of quantities"),
    ],
)
def test_units_of_another_kind_are_refused_by_field_and_unit(call, says):
    with pytest.raises(wb.InputError, match=says):
        call()


def test_labels_are_known_without_importing_their_packages(monkeypatch):
    code = "import sys, whimbrel as wb; wb.play(wb.Launch(60.0, 0.2, spin_rate=300.0)); print(set(sys.modules))"
    import subprocess

    loaded = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout
    assert not any(f"'{name}'" in loaded for name in ("xarray", "pandas", "pint"))
