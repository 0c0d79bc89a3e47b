"""Times of the library on this machine, as a small Markdown table: `report.py [file]`. Asserts nothing."""

import os
import platform
import shutil
import subprocess
import sys
import time
from pathlib import Path

import numpy as np
import pandas as pd
from plain_flight import flight_of, scipy_carry

import whimbrel as wb
from whimbrel.units import deg, mph, rpm

HIT = wb.Delivery(84 * mph, attack_angle=-6 * deg, club_path=4 * deg, dynamic_loft=24 * deg)
LAUNCH = wb.Launch(120 * mph, 16 * deg, spin_rate=7000 * rpm)
SHOTS = 10_000
STRIKES = (3, 55, 3_000, 100_000)


def best(action, repeats=5, each=1):
    """Shortest time of one action, s: what else the machine does can only lengthen it."""
    times = []
    for _ in range(repeats):
        began = time.perf_counter()
        for _ in range(each):
            action()
        times.append((time.perf_counter() - began) / each)
    return min(times)


def process(*command):
    return lambda: subprocess.run(command, check=True, stdout=subprocess.DEVNULL)


def many(threads):
    speeds = np.linspace(70, 100, SHOTS) * mph
    hits = wb.Delivery(speeds, attack_angle=-6 * deg, club_path=4 * deg, dynamic_loft=24 * deg)
    return lambda: wb.play(hits, wb.clubs["7 iron"], threads=threads)


def sessions():
    """Times of whole sessions of invented deliveries, by strikes: landings played, changes, scatter, target."""
    rng, times = np.random.default_rng(0), {}
    for n in STRIKES:
        frame = pd.DataFrame({
            "club": "7 iron",
            "block": np.where(np.arange(n) < n / 2, "before", "after"),
            "clubhead_speed_mph": rng.normal(80, 1.3, n),
            "club_path_deg": rng.normal(2, 1.2, n),
            "attack_angle_deg": rng.normal(-6, 1.2, n),
            "face_angle_deg": rng.normal(0.5, 1.8, n),
            "dynamic_loft_deg": rng.normal(24.5, 1.1, n),
        })  # fmt: skip
        times[n] = best(
            lambda frame=frame: wb.session(frame, target=wb.targets.Circle(130, 8)), 2 if n < 10_000 else 1
        )
    return times


def report():
    beside_python = str(Path(sys.executable).parent)
    command = shutil.which("whimbrel", path=beside_python) or shutil.which("whimbrel") or "whimbrel"
    flags = ("--club", "7 iron", "--clubhead-speed", "84mph", "--dynamic-loft", "24deg")
    start = best(process(sys.executable, "-c", "import whimbrel"))
    struck = best(lambda: wb.play(HIT, wb.clubs["7 iron"]), 20, 20)
    flight = flight_of(LAUNCH.ball_speed, LAUNCH.launch_angle, 0.0, LAUNCH.spin_rate, 0.0)
    one, theirs = best(lambda: wb.play(LAUNCH), 20, 20), best(lambda: scipy_carry(*flight), 5, 5)
    serial, parallel = best(many(1)), best(many(0))
    rows = [
        ("`import whimbrel`, a fresh process", f"{start:.2f} s"),
        ("the same process without it", f"{best(process(sys.executable, '-c', 'pass')):.2f} s"),
        ("`whimbrel play`, the whole command", f"{best(process(command, 'play', *flags)):.2f} s"),
        ("one `play` from Python, a delivery", f"{struck * 1e6:.0f} µs"),
        ("one `play` from Python, a launch", f"{one * 1e6:.0f} µs"),
        ("the same launch by SciPy's RK45 in plain Python, rtol 1e-6", f"{theirs * 1e6:.0f} µs"),
        ("SciPy's time over ours", f"{theirs / one:.0f}"),
        (f"{SHOTS:,} deliveries as one array, 1 thread", f"{serial:.3f} s ({SHOTS / serial:,.0f} a second)"),
        (f"the same on all {os.cpu_count()} cores", f"{parallel:.3f} s ({SHOTS / parallel:,.0f} a second)"),
    ]
    rows += [(f"a session of {n:,} strikes", f"{took:.1f} s") for n, took in sessions().items()]
    apart = abs(scipy_carry(*flight) - wb.play(LAUNCH).carry)
    return "\n".join(
        [
            f"Python {platform.python_version()}, {platform.machine()}, {os.cpu_count()} cores, "
            f"whimbrel {wb.__version__}. Each time is the best of several.",
            "",
            "| what | time |",
            "|---|---|",
            *(f"| {what} | {took} |" for what, took in rows),
            "",
            f"The two single flights differ by {apart * 1000:.2g} mm of carry.",
        ]
    )


if __name__ == "__main__":
    text = report()
    if len(sys.argv) > 1:
        Path(sys.argv[1]).write_text(text + "\n", encoding="utf-8")
    else:
        print(text)
