"""What the benchmark program and its rivals told, as Markdown: goals and what was reached, rates, growth."""

import os
import platform
from collections.abc import Callable
from dataclasses import dataclass

LEVELS = {"v4": "AVX-512", "v3": "AVX2", "v2": "SSE4.2"}
AS_EXACT_WORDS = {
    "same worst": "worst error as the fast path's",
    "same 99 in 100": "99 in 100 as exact",
    "same half": "half as exact",
}
PLAIN = "flight/plain Odeint/same worst"


def ratio(x):
    return f"{x:,.0f}×" if x >= 100 else f"{x:.3g}×"


@dataclass
class Goal:
    """A ratio of this run and what it should be; `reached` is None where this machine cannot tell."""

    what: str
    reached: float | None
    target: float
    limit: str
    stretch: float | None = None
    at_most: bool = False
    form: Callable[[float], str] = ratio

    def meets(self, target):
        return self.reached <= target if self.at_most else self.reached >= target

    def row(self):
        sign = "≤" if self.at_most else "≥"
        wanted = f"{sign} {self.form(self.target)}"
        if self.stretch is not None:
            wanted += f" (stretch {self.form(self.stretch)})"
        if self.reached is None:
            return self.what, wanted, "–", "not measured", "this machine cannot run it"
        met = "yes" if self.meets(self.target) else "**no**"
        if self.stretch is not None and self.meets(self.stretch):
            met = "yes, and the stretch"
        return self.what, wanted, self.form(self.reached), met, self.limit


def table(head, rows):
    lines = [head, ["---"] * len(head), *rows]
    return "\n".join("| " + " | ".join(str(cell) for cell in line) + " |" for line in lines)


class Told:
    """What the goals are made of."""

    def __init__(self, program, rivals):
        self.rates, self.counters, self.number = program.rates, program.counters, program.number
        self.rivals, self.worst = rivals.rates, rivals.worst
        self.best = program.context["kernels"]
        self.fast = self.rates[f"flight/lanes/{self.best}"]

    def ratio(self, above, below):
        """How many times faster, or None where one was not measured."""
        return self.rates[above] / self.rates[below] if {above, below} <= self.rates.keys() else None

    def share(self, level):
        """Of the flops that the core can do, those that flights do in lanes."""
        peak = self.rates.get(f"peak/multiply-add/{level}")
        return peak and self.rates[f"flight/lanes/{level}"] * self.number("flops a flight") / peak

    def paired(self):
        """The share that the best order of a flight's operations could reach: a sum with a product where one is."""
        sums, products = self.number("sums a flight"), self.number("products a flight")
        return self.number("flops a flight") / (2 * max(sums, products))

    def dividing(self, level):
        """The share of a flight's time that its quotients and roots alone take."""
        quotients = self.number("quotients a flight") / self.rates[f"peak/divide/{level}"]
        roots = self.number("roots a flight") / self.rates[f"peak/square root/{level}"]
        return (quotients + roots) * self.rates[f"flight/lanes/{level}"]


def lanes_goal(told, level, target, stretch=None):
    lanes = f"flight/lanes/{level}"
    reached = told.ratio(lanes, PLAIN)
    limit = "" if reached is None else (
        f"{told.share(level):.0%} of the core's flops; quotients and roots alone take "
        f"{told.dividing(level):.0%} of the time"
    )  # fmt: skip
    return Goal(f"flights on one core, {LEVELS[level]}, over plain Odeint", reached, target, limit, stretch)


def derivative_goals(told, what, target, more):
    """The time with derivatives over that without, by both ways of having none."""
    return [
        Goal(f"time of {what} with 7 derivatives over {words}",
             told.ratio(f"{what}/as derivatives, {without}", f"{what}/7 derivatives"), target,
             f"both at the tolerance that derivatives need{more}", at_most=True)
        for without, words in (("double", "the same in double, compiled for any x86-64"),
                               ("one lane", "the same in one lane of the kernel"))
    ]  # fmt: skip


def goals(told):
    """Every goal."""
    best, number, rates, rivals = told.best, told.number, told.rates, told.rivals
    impact_share = rates[f"delivery to landing/lanes/{best}"] / rates[f"impact/lanes/{best}"]
    return [
        Goal(f"worst carry error of {number('flights measured'):,.0f} flights, mm",
             number("fast path: worst carry error, mm"), 1.0, "the tolerance of a step", at_most=True,
             form="{:.3g}".format),
        lanes_goal(told, "v4", 12, 18),
        lanes_goal(told, "v3", 8),
        Goal("over SciPy's RK45 at 1e-6", told.fast / rivals["SciPy"], 2000, "the kernel, as above"),
        Goal("over a Dormand–Prince compiled by Numba at 1e-6", told.fast / rivals["Numba"], 18,
             f"its worst error is {told.worst['Numba']:.2g} mm"),
        Goal("over the same, as exact as the fast path", told.fast / rivals["Numba as exact"], 18,
             f"it flies {rivals['Numba as exact'] / rates[PLAIN]:.2g} times as fast as plain Odeint"),
        Goal("share of the multiply-add limit", told.share(best), 0.5,
             f"sums and products that do not pair leave {told.paired():.0%} of it; quotients and roots, "
             f"{told.dividing(best):.0%} of the time", 0.65, form="{:.0%}".format),
        Goal("a single flight over plain Odeint", told.ratio("flight/alone", PLAIN), 2,
             f"one lane of the kernel: {told.ratio(f'flight/one lane/{best}', PLAIN):.3g}×"),
        Goal("a million flights from Python over the same from C++", rivals["Python"] / rates["growth/1000000"],
             0.95, "Python also gets the landings and how far out of range", form="{:.3f}×".format),
        Goal("delivery to landing in lanes over one lane",
             told.ratio(f"delivery to landing/lanes/{best}", f"delivery to landing/one lane/{best}"), 5,
             f"{impact_share:.0%} of the time is the impact, whose lanes are "
             f"{told.ratio(f'impact/lanes/{best}', f'impact/one lane/{best}'):.3g}× one, a flight's "
             f"{told.ratio(f'flight/lanes/{best}', f'flight/one lane/{best}'):.3g}×; over plain Odeint "
             f"{told.ratio(f'delivery to landing/lanes/{best}', 'delivery to landing/plain Odeint'):.3g}×"),
        Goal("two threads over one", told.ratio("flight/threads/2", "flight/threads/1"), 1.9,
             f"{os.cpu_count()} cores"),
        *derivative_goals(told, "flight", 2, ""),
        *derivative_goals(told, "delivery to landing", 2.5, "; it looks for kinks of the contact too"),
    ]  # fmt: skip


def rates_table(told):
    """Flights a second on one core, with their errors."""

    def error(who, which="worst carry error, mm"):
        return f"{told.number(f'{who}: {which}'):.2g}"

    def errors(who):
        return (
            error(who),
            error(who, "carry error of 99 in 100 below, mm"),
            error(who, "carry error of half below, mm"),
        )

    def row(what, rate, cells):
        return what, f"{rate:,.0f}", *cells, f"{rate / told.rates[PLAIN]:.3g}"

    rows = [
        row("SciPy's RK45, 1e-6, plain Python", told.rivals["SciPy"], (f"{told.worst['SciPy']:.2g}", "", "")),
        *(row(f"Dormand–Prince by Numba, {how}", told.rivals[who], (f"{told.worst[who]:.2g}", "", ""))
          for who, how in (("Numba", "1e-6"), ("Numba as exact", "worst of 20,000 as the fast path's"))),
        *(row(f"plain Odeint, {words}", told.rates[f"flight/plain Odeint/{same}"], errors(f"plain Odeint, {same}"))
          for same, words in AS_EXACT_WORDS.items()),
        row("the reference path, 1e-9", told.rates["flight/reference"], ("", "", "")),
        row("the fast path, a single flight", told.rates["flight/alone"], errors("fast path")),
        row("the fast path, lanes", told.fast, errors("fast path")),
    ]  # fmt: skip
    head = (
        "flights on one core",
        "a second",
        "worst error, mm",
        "99 in 100 below",
        "half below",
        "over plain Odeint",
    )
    return table(head, rows)


def levels_table(told):
    """The kernels of each instruction set."""
    rows = []
    for level, name in LEVELS.items():
        if f"flight/lanes/{level}" not in told.rates or f"peak/divide/{level}" not in told.rates:
            continue
        rate = told.rates
        rows.append((
            f"{name} ({level})",
            *(f"{rate[f'{what}/{level}']:,.0f}" for what in
              ("flight/lanes", "flight/one lane", "impact/lanes", "impact/one lane", "delivery to landing/lanes",
               "delivery to landing/one lane")),
            f"{rate[f'peak/multiply-add/{level}'] / 1e9:.3g}",
            f"{told.share(level):.0%}",
            f"{told.dividing(level):.0%}",
        ))  # fmt: skip
    head = ("a second, one core", "flights", "one lane", "impacts", "one lane", "delivery to landing", "one lane",
            "peak, Gflop/s", "flights' share of it", "dividing")  # fmt: skip
    return table(head, rows)


def growth_table(told):
    """Time and memory a shot, from one to ten million in a call."""
    rows = []
    for name, rate in told.rates.items():
        if name.startswith("growth/"):
            shots = int(name.removeprefix("growth/"))
            rows.append((f"{shots:,}", f"{1e6 / rate:.3g}", f"{shots / rate:.3g}", f"{told.counters[name]:,.0f}"))
    rows.sort(key=lambda row: int(row[0].replace(",", "")))
    return table(("flights in a call", "µs each", "s", "bytes each"), rows)


def tables(program, rivals):
    """The whole page."""
    told = Told(program, rivals)
    counts = {what: told.number(f"{what} a flight") for what in
              ("flops", "sums", "products", "quotients", "roots", "choices")}  # fmt: skip
    return f"""<!-- Written by fast.py. -->
# The fast path: goals and what was reached

{platform.machine()}, {os.cpu_count()} cores; kernels: {LEVELS.get(told.best, told.best)}. Ratios are of one run.
How each is measured: [README.md](README.md).

{table(("goal", "wanted", "reached", "met", "what limits it"), [goal.row() for goal in goals(told)])}

One `play` of a delivery from Python takes {1e6 / told.rivals["one play"]:.0f} µs.

## Flights on one core

{rates_table(told)}

A flight takes {counts["flops"]:,.0f} floating-point operations: {counts["sums"]:,.0f} sums,
{counts["products"]:,.0f} products, {counts["quotients"]:,.0f} quotients and {counts["roots"]:,.0f} square roots;
beside them {counts["choices"]:,.0f} comparisons and choices.

## Instruction sets

{levels_table(told)}

"Dividing": the share of a flight's time that its quotients and roots take at the divider's own peak.

## From one flight to ten million

All cores, one call of `fly_all`. Bytes: the most that the process grew by, its input apart; results are
80 bytes a flight and a status.

{growth_table(told)}
"""
