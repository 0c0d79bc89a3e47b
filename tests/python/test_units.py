"""Every factor from the exact definition of its unit, and back."""

import numpy as np
import pytest

from whimbrel import units

EXACT = {
    "mm": 0.001,
    "cm": 0.01,
    "inch": 0.0254,  # international yard and pound agreement of 1959
    "ft": 0.3048,
    "yd": 0.9144,
    "mile": 1609.344,
    "mph": 0.44704,
    "kmh": 1 / 3.6,
    "knot": 1852 / 3600,
    "fps": 0.3048,
    "deg": np.pi / 180,
    "rpm": 2 * np.pi / 60,
    "gram": 0.001,
    "lb": 0.45359237,
    "hPa": 100.0,
    "mmHg": 133.322387415,  # 13595.1 kg/m3 under 9.80665 m/s2
    "inHg": 3386.388640341,
    "percent": 0.01,
}


def factors():
    return {name: x for name, x in vars(units).items() if isinstance(x, float)}


def test_there_is_a_check_for_every_factor():
    assert set(factors()) == set(EXACT)


@pytest.mark.parametrize("name", EXACT)
def test_a_factor_is_its_units_definition(name):
    assert factors()[name] == pytest.approx(EXACT[name], rel=4e-16, abs=0)


@pytest.mark.parametrize("name", EXACT)
def test_a_number_comes_back_from_a_unit(name, draw):
    x = draw.uniform(-1e3, 1e3, 1000)
    assert np.allclose(x * factors()[name] / factors()[name], x, rtol=4e-16, atol=0)


@pytest.mark.parametrize(
    ("celsius", "fahrenheit", "kelvin"), [(0, 32, 273.15), (100, 212, 373.15), (-40, -40, 233.15)]
)
def test_temperatures_meet_at_the_fixed_points(celsius, fahrenheit, kelvin):
    assert units.celsius(celsius) == pytest.approx(kelvin, rel=1e-15)
    assert units.fahrenheit(fahrenheit) == pytest.approx(kelvin, rel=1e-15)
    assert units.in_celsius(kelvin) == pytest.approx(celsius, abs=1e-12)
    assert units.in_fahrenheit(kelvin) == pytest.approx(fahrenheit, abs=1e-12)


def test_temperatures_take_arrays():
    assert np.allclose(units.in_fahrenheit(units.fahrenheit(np.array([-10.0, 59.0]))), [-10.0, 59.0], rtol=1e-14)
