"""The fast path against its goals, in one run: `fast.py [file]` writes the page `results.md`. Asserts no time."""

import argparse
import time
from pathlib import Path

import numpy as np
from fast_program import Program, built
from fast_tables import tables
from numba_flight import numba_carries
from plain_flight import flight_of, scipy_carry

import whimbrel as wb
from whimbrel.units import deg, mph

ROUNDS, REPETITIONS = 4, 3
FLIGHTS = 200_000
SCIPY_FLIGHTS, NUMBA_FLIGHTS, MILLION = 100, 20_000, 1_000_000
WIND = wb.Wind(6.0, 30 * deg)  # of many flights, in the program and here
HIT = wb.Delivery(84 * mph, attack_angle=-6 * deg, club_path=4 * deg, dynamic_loft=24 * deg)
MOST_APART = 0.01  # m, of a carry at the tolerance of the others, which leaves 3 mm


def rate(count, action, clock=time.thread_time):
    """How many a second: by the time of this thread, or of the clock on the wall."""
    began = clock()
    action()
    return count / (clock() - began)


class Rivals:
    """The same flights by SciPy and by Numba, and by the library from Python."""

    def __init__(self, shots):
        speed, angle, direction, spin, tilt, _, wind, wind_from = shots[:, :8].T
        self.launch = wb.Launch(speed, angle, direction, spin, tilt)
        self.wind = wb.Wind(wind, wind_from)
        rows = np.column_stack([speed, angle, direction, spin, tilt, wind, wind_from])
        self.flights = [flight_of(*row) for row in rows[:NUMBA_FLIGHTS].tolist()]
        self.starts, self.constants = (np.array(part) for part in zip(*self.flights, strict=True))
        self.rates = {}

    def apart(self):
        """The largest differences of the others' carries from exact ones, mm; raises if they fly another model."""
        exact = wb.fly(self.some(NUMBA_FLIGHTS), wind=self.wind_of(NUMBA_FLIGHTS), accuracy="reference").carry
        carries = {
            "SciPy": np.array([scipy_carry(*flight) for flight in self.flights[:SCIPY_FLIGHTS]]),
            "Numba": numba_carries(self.starts, self.constants),
        }
        worst = {who: np.abs(those - exact[: len(those)]).max() for who, those in carries.items()}
        if not max(worst.values()) < MOST_APART:
            raise SystemExit(f"not the same model: carries differ by {worst} m")
        return {who: 1e3 * apart for who, apart in worst.items()}

    def some(self, count):
        return wb.Launch(*(getattr(self.launch, name)[:count] for name in LAUNCH))

    def wind_of(self, count):
        return wb.Wind(self.wind.speed[:count], self.wind.from_direction[:count])

    def race(self):
        """One more try of each; the best counts."""
        club = wb.clubs["7 iron"]
        tries = {
            "SciPy": rate(SCIPY_FLIGHTS, lambda: [scipy_carry(*f) for f in self.flights[:SCIPY_FLIGHTS]]),
            "Numba": rate(NUMBA_FLIGHTS, lambda: numba_carries(self.starts, self.constants)),
            "Python": rate(MILLION, lambda: wb.fly(self.launch, wind=WIND), time.perf_counter),
            "one play": rate(100, lambda: [wb.play(HIT, club) for _ in range(100)]),
        }
        for who, now in tries.items():
            self.rates[who] = max(self.rates.get(who, 0.0), now)


LAUNCH = ("ball_speed", "launch_angle", "launch_direction", "spin_rate", "spin_axis_tilt")


def main():
    arguments = argparse.ArgumentParser(description=__doc__)
    arguments.add_argument("file", nargs="?", type=Path, help="where the tables go; else the screen")
    arguments.add_argument("--program", type=Path, help="the benchmark program, where it is built already")
    arguments.add_argument("--flights", type=int, default=FLIGHTS, help="that the errors are measured over")
    given = arguments.parse_args()
    program = Program(given.program or built(), given.flights)
    rivals = Rivals(program.shots(MILLION))
    apart = rivals.apart()
    for _ in range(ROUNDS):
        program.run("-growth", REPETITIONS)
        program.run("growth/1000000/", REPETITIONS)
        rivals.race()
    program.run("growth")
    text = tables(program, rivals.rates, apart)
    if given.file:
        given.file.write_text(text, encoding="utf-8")
    else:
        print(text, end="")


if __name__ == "__main__":
    main()
