"""What a call of `play` takes beside its compiled part, on this machine: `calls.py [file]`. Asserts nothing.

The compiled part is what the call asks of the compiled half, recorded and asked again with the same arguments.
Calls and compiled parts take turns, and the shortest time of each counts: whatever else the machine does can only
lengthen it.
"""

import sys
import time
from pathlib import Path

import numpy as np

import whimbrel as wb
from whimbrel import _core
from whimbrel.units import deg, mph, rpm

IRON = wb.clubs["7 iron"]
TURNS, CALLS = 200, 20


def launch(speed=120 * mph):
    return wb.Launch(speed, 16 * deg, spin_rate=7000 * rpm)


def hit(speed=84 * mph):
    return wb.Delivery(speed, attack_angle=-6 * deg, club_path=4 * deg, dynamic_loft=24 * deg)


def cases():
    one, many, swing = launch(), launch(np.linspace(110, 130, 10) * mph), hit()
    swings = hit(np.linspace(80, 90, 10) * mph)
    return {
        "a launch": lambda: wb.play(one),
        "a launch, made for the call": lambda: wb.play(launch()),
        "a delivery": lambda: wb.play(swing, IRON),
        "a delivery, made for the call": lambda: wb.play(hit(), IRON),
        "10 launches": lambda: wb.play(many),
        "10 deliveries": lambda: wb.play(swings, IRON),
    }


def compiled_part(call):
    """A function that asks of the compiled half what a call does."""
    functions = {name: f for name, f in vars(_core).items() if callable(f) and not isinstance(f, type)}
    asked = []

    def recorded(f):
        def ask(*arguments):
            asked.append((f, arguments))
            return f(*arguments)

        return ask

    call()  # what is worked out once for all calls
    try:
        for name, f in functions.items():
            setattr(_core, name, recorded(f))
        call()
    finally:
        for name, f in functions.items():
            setattr(_core, name, f)
    return lambda: [f(*arguments) for f, arguments in asked]


def seconds(action):
    began = time.perf_counter()
    for _ in range(CALLS):
        action()
    return (time.perf_counter() - began) / CALLS


def shortest(*actions):
    """The shortest time of each action, s, in turn with the others."""
    return np.min([[seconds(action) for action in actions] for _ in range(TURNS)], axis=0)


def report():
    lines = [
        "| call of `play` | whole over compiled part | whole, µs | beside the compiled part, µs |",
        "|---|---|---|---|",
    ]
    for name, call in cases().items():
        whole, compiled = shortest(call, compiled_part(call)) * 1e6
        lines.append(f"| {name} | {whole / compiled:.2f} | {whole:.0f} | {whole - compiled:.0f} |")
    return "\n".join(lines) + "\n"


if __name__ == "__main__":
    text = report()
    if len(sys.argv) > 1:
        Path(sys.argv[1]).write_text(text, "utf-8")
    else:
        print(text, end="")
