"""Builds and runs the benchmark program, and keeps the best of what its runs tell."""

import json
import shutil
import subprocess
import sys
from pathlib import Path

import numpy as np

ROOT = Path(__file__).resolve().parents[2]
BUILT = ROOT / "build/cmake/benchmarks/validation/benchmarks/fast/whimbrel_benchmarks"
AS_EXACT = ("same worst", "same 99 in 100", "same half")  # ways of the plain integrator to be so
SHOT_NUMBERS = 11  # of a launch and its wind


def built():
    """The program, built if it is not up to date."""
    beside_python = Path(sys.executable).parent
    cmake = shutil.which("cmake", path=str(beside_python)) or shutil.which("cmake")
    if cmake is None:
        raise SystemExit("needs cmake and ninja (pip install cmake ninja)")
    for arguments in (["--preset", "benchmarks"], ["--build", "--preset", "benchmarks"]):
        subprocess.run([cmake, *arguments], cwd=ROOT, check=True, stdout=subprocess.DEVNULL)
    return BUILT


class Program:
    """The runs of the program: per second, the most of each thing that any repetition of any run did."""

    def __init__(self, path, flights):
        self.path, self.flights = path, flights
        self.rates, self.counters, self.context = {}, {}, {}

    def run(self, which, repetitions=1, seconds=0.05):
        """Runs the benchmarks whose names match, their repetitions in random order."""
        command = [
            self.path,
            f"--benchmark_filter={which}",
            f"--benchmark_repetitions={repetitions}",
            f"--benchmark_min_time={seconds}",
            "--benchmark_enable_random_interleaving=true",
            "--benchmark_format=json",
            f"--flights={self.flights}",
        ]
        if self.context:
            known = (self.context[f"tolerance of plain Odeint, {same}"] for same in AS_EXACT)
            command.append("--tolerances=" + ",".join(known))
        told = json.loads(subprocess.run(command, check=True, stdout=subprocess.PIPE).stdout)
        self.context = told["context"] | self.context
        for result in told["benchmarks"]:
            if result["run_type"] != "iteration":
                continue
            name = result["run_name"].removesuffix("/real_time")
            self.rates[name] = max(self.rates.get(name, 0.0), result["items_per_second"])
            if "bytes a shot" in result:
                self.counters[name] = result["bytes a shot"]

    def number(self, name):
        """A number of the context."""
        return float(self.context[name])

    def shots(self, count):
        """The first launches and winds that the program times, as an array of rows."""
        file = ROOT / "build/benchmark_shots.bin"
        subprocess.run([self.path, f"--write_shots={file},{count}"], check=True)
        return np.fromfile(file).reshape(count, SHOT_NUMBERS)
