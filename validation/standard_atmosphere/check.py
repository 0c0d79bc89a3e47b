"""Air at an altitude against ISO 2533 and the `ambiance` package."""

from pathlib import Path

import ambiance
import numpy as np
import pandas as pd

import whimbrel as wb

HERE = Path(__file__).parent
GAS_LAW = 6e-4  # relative; ISO 2533 takes air as an ideal gas, CIPM-2007 as a real one (Z near 0.9996)
FORMULA = 1e-6  # relative; the same formula with the same constants, theirs with a rounded pressure base


def printed():
    table = pd.read_csv(HERE / "iso_2533.csv")
    return table.assign(ours_kgpm3=wb.setting.air(wb.Weather(altitude=table.altitude_m.to_numpy(float))).density)


def compared():
    """Relative differences of ours from `ambiance`."""
    altitude = np.arange(-500.0, 10_001.0, 500.0)
    theirs = ambiance.Atmosphere(altitude)
    ours = wb.setting.air(wb.Weather(altitude=altitude))
    # Pressure and temperature are not results of their own: each is found by what it does to the air.
    hot = wb.setting.air(wb.Weather(altitude=altitude, temperature=theirs.temperature))
    pressed = wb.setting.air(wb.Weather(temperature=theirs.temperature, pressure=theirs.pressure))
    return pd.DataFrame(
        {
            "altitude_m": altitude,
            "density": ours.density / theirs.density - 1,
            "viscosity": ours.viscosity / theirs.dynamic_viscosity - 1,
            "by_temperature": ours.density / hot.density - 1,
            "by_pressure": hot.density / pressed.density - 1,
        }
    )


def test_the_density_is_that_of_iso_2533():
    table = printed()
    assert (abs(table.ours_kgpm3 / table.density_kgpm3 - 1) < GAS_LAW).all(), table


def test_real_air_is_a_little_denser_than_the_ideal_gas_of_iso_2533():
    assert (compared().density > 0).all()


def test_density_and_viscosity_agree_with_ambiance_up_to_10_km():
    table = compared()
    assert table.density.abs().max() < GAS_LAW
    assert table.viscosity.abs().max() < FORMULA


def test_pressure_and_temperature_agree_with_ambiance_up_to_10_km():
    table = compared()
    assert table.by_temperature.abs().max() < FORMULA
    assert table.by_pressure.abs().max() < FORMULA


if __name__ == "__main__":
    print(printed().to_string(index=False))
    print("\nrelative to ambiance", compared().to_string(index=False, float_format="%.2e"), sep="\n")
