"""The wind at a height, against the plain logarithmic law and its two tabulated shares."""

from pathlib import Path

import numpy as np
import pandas as pd

import whimbrel as wb

HERE = Path(__file__).parent
SMOOTH_FORM = 0.01  # relative; ln(1 + z/z0) for ln(z/z0)


def tabulated():
    table = pd.read_csv(HERE / "shares.csv")
    table["ours"] = [
        float(wb.Wind(1.0, roughness_length=row.roughness_length_m).share_at(row.height_m))
        for row in table.itertuples()
    ]
    return table


def plain_law():
    """Shares of the 10 m wind from 2 to 40 m by the plain law u ln(z/z0)/ln(10 m/z0), and ours."""
    heights = np.array([2.0, 5.0, 10.0, 20.0, 30.0, 40.0])
    tables = []
    for roughness in (0.03, 0.05):
        theirs = np.log(heights / roughness) / np.log(10.0 / roughness)
        ours = wb.Wind(1.0, roughness_length=roughness).share_at(heights)
        tables.append(
            pd.DataFrame({"roughness_length_m": roughness, "height_m": heights, "share": theirs, "ours": ours})
        )
    return pd.concat(tables)


def test_the_tabulated_shares_are_met_within_a_hundredth():
    table = tabulated()
    assert (abs(table.ours / table.share - 1) < SMOOTH_FORM).all(), table


def test_from_2_to_40_m_the_smooth_form_is_the_plain_law_within_a_hundredth():
    table = plain_law()
    assert (abs(table.ours / table.share - 1) < SMOOTH_FORM).all(), table


def test_the_wind_is_zero_at_the_ground_and_its_stated_speed_at_its_reference_height():
    wind = wb.Wind(5.0, reference_height=3.0)
    assert wind.share_at(0.0) == 0.0
    assert abs(wind.share_at(3.0) - 1) < 1e-15


if __name__ == "__main__":
    print(tabulated().round(4).to_string(index=False), plain_law().round(4).to_string(index=False), sep="\n\n")
