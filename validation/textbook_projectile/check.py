"""A textbook's ball without spin under constant drag."""

from pathlib import Path

import numpy as np
import pandas as pd

import whimbrel as wb
from whimbrel.units import deg

HERE = Path(__file__).parent
TOLERANCE = 5e-4  # relative, with the library's g; the problem's g is larger by 3.4e-4
ROUNDING = pd.Series({"carry_m": 0.005, "apex_m": 0.005, "flight_time_s": 0.0005})  # of the answer


def flown(gravity=9.80665):
    """The flight under another gravity, by similarity: with k = sqrt(g / 9.80665), a ball launched slower
    by k flies the same path k times slower, as long as its drag coefficient is constant."""
    k = np.sqrt(gravity / 9.80665)
    ball = wb.Ball(mass=0.046, radius=0.02135, aero=wb.aero.ConstantCoefficients(drag=0.42, lift=0.0))
    flight = wb.fly(wb.Launch(36.0 / k, 30 * deg, spin_rate=0.0), ball=ball, weather=wb.setting.Air(density=1.21))
    return pd.Series({"carry_m": flight.carry, "apex_m": flight.apex, "flight_time_s": flight.flight_time / k})


def answer():
    return pd.read_csv(HERE / "answer.csv").iloc[0]


def test_the_flight_is_the_textbooks_within_what_its_g_changes():
    assert (abs(flown() / answer() - 1) < TOLERANCE).all()


def test_under_the_textbooks_g_the_flight_is_its_answer_to_the_last_digit():
    assert (abs(flown(gravity=9.81) - answer()) <= ROUNDING).all()


if __name__ == "__main__":
    columns = {"answer": answer(), "ours": flown(), "ours, g 9.81": flown(9.81)}
    print(pd.DataFrame(columns).round(4).to_string())
