"""The fast path against its goals, in one run: `fast.py [file]` writes the page `results.md`. Asserts no time."""

import argparse
import time
from pathlib import Path

import numpy as np
from fast_program import Program, built
from fast_tables import tables
from numba_flight import numba_carries
from plain_flight import RELATIVE, flight_of, scipy_carry

import whimbrel as wb
from whimbrel.units import deg, mph

ROUNDS, REPETITIONS = 4, 3
FLIGHTS = 200_000
SCIPY_FLIGHTS, NUMBA_FLIGHTS, MILLION = 100, 20_000, 1_000_000
WIND = wb.Wind(6.0, 30 * deg)  # of many flights, in the program and here
HIT = wb.Delivery(84 * mph, attack_angle=-6 * deg, club_path=4 * deg, dynamic_loft=24 * deg)
MOST_APART = 10.0  # mm, of a carry at the tolerance of the others, which leaves 3 mm


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
        self.some = wb.Launch(*(getattr(self.launch, name)[:NUMBA_FLIGHTS] for name in LAUNCH))
        self.exact = self.carries("reference")
        self.rates = {}
        self.worst = {  # errors of the carry, mm
            "SciPy": 1e3 * self.apart([scipy_carry(*flight) for flight in self.flights[:SCIPY_FLIGHTS]]),
            "Numba": 1e3 * self.apart(self.numba(RELATIVE)),
        }
        if not max(self.worst.values()) < MOST_APART:
            raise SystemExit(f"not the same model: carries differ by {self.worst} mm")
        self.tolerance_as_exact = self.found_as_exact()
        self.worst["Numba as exact"] = 1e3 * self.apart(self.numba(self.tolerance_as_exact))

    def carries(self, accuracy):
        wind = wb.Wind(self.wind.speed[:NUMBA_FLIGHTS], self.wind.from_direction[:NUMBA_FLIGHTS])
        return wb.fly(self.some, wind=wind, accuracy=accuracy).carry

    def numba(self, tolerance):
        return numba_carries(self.starts, self.constants, tolerance)

    def apart(self, carries):
        """The largest difference from exact carries, m."""
        return np.abs(carries - self.exact[: len(carries)]).max()

    def found_as_exact(self):
        """The loosest tolerance of Numba's flights at which their worst error is that of the fast path."""
        wanted = self.apart(self.carries("fast"))
        strict, loose = 1e-9, RELATIVE
        while loose > 1.05 * strict:
            middle = (strict * loose) ** 0.5
            if self.apart(self.numba(middle)) <= wanted:
                strict = middle
            else:
                loose = middle
        return strict

    def race(self):
        """One more try of each; the best counts."""
        club = wb.clubs["7 iron"]
        tries = {
            "SciPy": rate(SCIPY_FLIGHTS, lambda: [scipy_carry(*f) for f in self.flights[:SCIPY_FLIGHTS]]),
            "Numba": rate(NUMBA_FLIGHTS, lambda: self.numba(RELATIVE)),
            "Numba as exact": rate(NUMBA_FLIGHTS, lambda: self.numba(self.tolerance_as_exact)),
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
    for _ in range(ROUNDS):
        program.run("-growth", REPETITIONS)
        program.run("growth/1000000/", REPETITIONS)
        for _ in range(REPETITIONS):
            rivals.race()
    program.run("growth")
    text = tables(program, rivals)
    if given.file:
        given.file.write_text(text, encoding="utf-8")
    else:
        print(text, end="")


if __name__ == "__main__":
    main()
