"""Density of moist air against the CIPM-2007 equation, a handbook table and CoolProp's humid air."""

from pathlib import Path

import numpy as np
import pandas as pd
from CoolProp.HumidAirProp import HAPropsSI

import whimbrel as wb
from whimbrel.units import celsius, mmHg, percent

HERE = Path(__file__).parent
ROUNDING = 0.5e-5  # kg/m3, of the check values
HANDBOOK = 0.001  # kg/m3, the last printed digit of the handbook
ABOVE_FREEZING = 1e-4  # relative; CIPM-2007's own uncertainty, the molar mass of dry air and virial terms
SATURATION_OVER_ICE = 2e-4  # relative; below 0 C CoolProp counts humidity over ice, CIPM-2007 over water


def saturation(kelvin):
    """Vapour pressure over water, Pa, of the CIPM-2007 equation."""
    return np.exp(1.2378847e-5 * kelvin**2 - 1.9121316e-2 * kelvin + 33.93711047 - 6.3431645e3 / kelvin)


def vapour_share(kelvin, pressure, humidity):
    """Mole fraction of vapour by the CIPM-2007 equation."""
    enhancement = 1.00062 + 3.14e-8 * pressure + 5.6e-7 * (kelvin - 273.15) ** 2
    return humidity * enhancement * saturation(kelvin) / pressure


def density(kelvin, pressure, humidity):
    return wb.setting.air(wb.Weather(temperature=kelvin, pressure=pressure, relative_humidity=humidity)).density


def check_values():
    table = pd.read_csv(HERE / "check_values.csv")
    humidity = table.relative_humidity_pct.to_numpy() * percent
    table["ours_kgpm3"] = density(celsius(table.temperature_c.to_numpy()), 101325.0, humidity)
    return table


def handbook():
    table = pd.read_csv(HERE / "dew_point_10_c.csv")
    kelvin, pressure = celsius(table.temperature_c.to_numpy(float)), 760 * mmHg
    dew = vapour_share(celsius(10.0), pressure, 1.0)
    table["ours_kgpm3"] = density(kelvin, pressure, dew / vapour_share(kelvin, pressure, 1.0))
    return table


def coolprop(content="relative humidity"):
    """Over the grid, ours against CoolProp's for equal relative humidity or equal vapour share."""
    axes = np.arange(-10, 46, 5.0), np.arange(70e3, 105.1e3, 5e3), np.linspace(0, 1, 5)
    celsius_, pressure, humidity = (x.ravel() for x in np.meshgrid(*axes, indexing="ij"))
    kelvin = celsius(celsius_)
    key, vapour = "R", humidity
    if content == "vapour share":
        key, vapour = "Y", np.maximum(vapour_share(kelvin, pressure, humidity), 1e-9)  # 0 is refused
    theirs = [
        1 / HAPropsSI("Vha", "T", t, "P", p, key, v) for t, p, v in zip(kelvin, pressure, vapour, strict=True)
    ]
    ours = density(kelvin, pressure, humidity)
    table = pd.DataFrame({"temperature_c": celsius_, "theirs_kgpm3": theirs, "ours_kgpm3": ours})
    return table.assign(relative=table.ours_kgpm3 / table.theirs_kgpm3 - 1)


def test_the_density_is_that_of_the_cipm_2007_equation():
    table = check_values()
    assert (abs(table.ours_kgpm3 - table.density_kgpm3) <= ROUNDING).all(), table


def test_the_density_is_that_of_the_handbook_at_a_dew_point_of_10_celsius():
    table = handbook()
    assert (abs(table.ours_kgpm3 - table.density_kgpm3) <= HANDBOOK).all(), table


def test_the_density_agrees_with_coolprop_from_0_to_45_celsius():
    table = coolprop()
    assert table[table.temperature_c >= 0].relative.abs().max() < ABOVE_FREEZING


def test_below_freezing_the_density_agrees_with_coolprop_but_for_saturation_over_ice():
    table = coolprop()
    assert table[table.temperature_c < 0].relative.abs().max() < SATURATION_OVER_ICE


def test_below_freezing_air_with_the_same_vapour_agrees_with_coolprop_as_well_as_above():
    table = coolprop("vapour share")
    assert table[table.temperature_c < 0].relative.abs().max() < ABOVE_FREEZING


if __name__ == "__main__":
    print(check_values().to_string(index=False), handbook().to_string(index=False), sep="\n\n")
    for content in ("relative humidity", "vapour share"):
        worst = coolprop(content).groupby("temperature_c").relative.agg(["min", "max"])
        print(f"\nrelative to CoolProp, equal {content}", worst.to_string(float_format="%.1e"), sep="\n")
