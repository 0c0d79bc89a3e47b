"""What twelve launches of common practice leave open of the constants, as draws, other laws and spreads.

Prints the numbers of `include/whimbrel/inverse/open_constants.hpp`.
"""

import importlib.util
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path

import numpy as np
from scipy.optimize import brentq, least_squares

import whimbrel as wb
from whimbrel import _core
from whimbrel.row.aero import model_of
from whimbrel.units import deg, mph, rpm, yd

HERE = Path(__file__).parent
spec = importlib.util.spec_from_file_location("launches", HERE.parent / "impact_windows" / "launches.py")
assert spec is not None and spec.loader is not None
launches = importlib.util.module_from_spec(spec)
spec.loader.exec_module(launches)
LAUNCHES, WEDGES, SHIPPED = launches.LAUNCHES, launches.WEDGES, launches.Constants()

DEFAULT = wb.aero.MultiLayer()
CONSTANTS = list(DEFAULT._columns)
PRIOR = 0.20  # of the logarithm of each constant before the launches speak; judged
TEST_AIR = wb.setting.Air(
    density=1.1853, viscosity=1.832e-5
)  # the rules' test of a ball; the launches' own is not told
AIR = 0.02  # of the logarithm of its density: 6 °C up or down; judged
LEFT_OVER = {"carry": 0.014, "apex": 2.3 * yd, "descent_angle": 2.5 * deg}  # rms of the shipped ball's misses
PAIRS = 12  # of draws, one on either side of the shipped constants

MEASURED = {
    "carry": LAUNCHES.carry_yd.to_numpy() * yd,
    "apex": LAUNCHES.apex_yd.to_numpy() * yd,
    "descent_angle": LAUNCHES.descent_angle_deg.to_numpy() * deg,
}
DEVIATION = np.stack([LEFT_OVER["carry"] * MEASURED["carry"], np.full(12, LEFT_OVER["apex"]),
                      np.full(12, LEFT_OVER["descent_angle"])])  # fmt: skip


def flown(aero, air=TEST_AIR, table=LAUNCHES):
    """Carry, apex and descent angle of the launches, a row a quantity."""
    launch = wb.Launch(table.ball_speed_mph.to_numpy() * mph, table.launch_angle_deg.to_numpy() * deg,
                       spin_rate=table.spin_rate_rpm.to_numpy() * rpm)  # fmt: skip
    flight = wb.fly(launch, ball=wb.Ball(aero=aero), weather=air)
    return np.stack([flight.carry, flight.apex, flight.descent_angle])


def misses(aero, air=TEST_AIR, rows=slice(None)):
    """Ours less theirs, in deviations."""
    theirs = np.stack(list(MEASURED.values()))
    return ((flown(aero, air, LAUNCHES.iloc[rows]) - theirs[:, rows]) / DEVIATION[:, rows]).ravel()


def scaled(factors, model=DEFAULT):
    """The model with each constant multiplied."""
    return replace(model, **{name: getattr(model, name) * float(x) for name, x in
                             zip(CONSTANTS, factors, strict=True)})  # fmt: skip


# ---- the constants of the flight


def covariance_of_the_flight(rows=slice(None)):
    """Of the logarithms of the constants, by Laplace at the shipped ones; the air's density is marginalised."""
    step = 0.01

    def at(x):
        air = replace(TEST_AIR, density=TEST_AIR.density * float(np.exp(x[-1])))
        return misses(scaled(np.exp(x[:-1])), air, rows)

    unit = step * np.eye(len(CONSTANTS) + 1)
    slopes = np.stack([(at(e) - at(-e)) / (2 * step) for e in unit], axis=1)
    prior = np.diag([PRIOR**-2] * len(CONSTANTS) + [AIR**-2])
    return np.linalg.inv(slopes.T @ slopes + prior)[:-1, :-1]


# ---- laws of another form, fitted to the same launches


@dataclass(frozen=True)
class Law:
    """How a law departs from the default form; see `OtherLaw` in the header."""

    lift_reynolds_power: float = 0.0
    drag_reynolds_power: float = 0.0
    induced_drag: bool = False

    def table(self, constants):
        numbers = np.array([[getattr(constants, name) for name in CONSTANTS]])
        return model_of(
            _core.law_table(numbers, self.lift_reynolds_power, self.drag_reynolds_power, self.induced_drag)
        )


LAWS = {
    "the default form": Law(),
    "lift falls with the Reynolds number, as in the tunnel of 1976": Law(lift_reynolds_power=-0.22),
    "drag grows with it above the crisis, as there": Law(drag_reynolds_power=0.15),
    "drag grows with the square of the lift, as a wing's": Law(induced_drag=True),
}


def fitted(law, rows=slice(None)):
    """The constants of a law of this form, and half the sum of squares left."""

    def at(x):
        return np.concatenate([misses(law.table(scaled(np.exp(x))), rows=rows), x / PRIOR])

    found = least_squares(at, np.zeros(len(CONSTANTS)), diff_step=1e-3, x_scale=0.1)
    return scaled(np.exp(found.x)), found.cost


def fitted_laws(rows=slice(None)):
    """Each with its constants and its weight: its likelihood among all."""
    found = {name: fitted(law, rows) for name, law in LAWS.items()}
    costs = np.array([cost for _, cost in found.values()])
    weights = np.exp(costs.min() - costs)
    return [(name, LAWS[name], constants, weight) for (name, (constants, _)), weight in
            zip(found.items(), weights / weights.sum(), strict=True)]  # fmt: skip


# ---- the contact


@cache
def stiffness_of_each_club():
    """The logarithm of kappa that brings launch angle and spin to what is stated, over the shipped one."""
    found = []
    for row in LAUNCHES.index:
        table = LAUNCHES.loc[[row]]

        def at(x, table=table):
            constants = replace(SHIPPED, kappa=SHIPPED.kappa * float(np.exp(x[0])))
            return np.concatenate(launches.misses(np.array([x[1]]), constants, table))

        start = [0.0, launches.nearest_loft(SHIPPED, table)[0]]
        found.append(least_squares(at, start, x_scale=[0.1, 0.01], diff_step=1e-4).x[0])
    return np.array(found)


@cache
def restitution_of_each_club():
    """What the stated ball speed asks of the face beyond the shipped restitution."""
    speed = launches.struck(LAUNCHES, launches.nearest_loft(SHIPPED), SHIPPED).ball_speed
    restitution = np.array([wb.clubs[name].face_restitution for name in LAUNCHES["head"]])
    return (LAUNCHES.ball_speed_mph.to_numpy() * mph / speed - 1) * (1 + restitution)


@cache
def deviation_of_friction():
    """Of the logarithm of mu, from the wedges' windows, each as even inside."""
    loft, step = WEDGES.dynamic_loft_deg.to_numpy() * deg, 0.01
    more, less = (launches.struck(WEDGES, loft, replace(SHIPPED, mu=SHIPPED.mu * np.exp(x))).spin_rate / rpm
                  for x in (step, -step))  # fmt: skip
    width = (WEDGES.spin_rate_rpm_upper - WEDGES.spin_rate_rpm_lower).to_numpy() / np.sqrt(12)
    return (PRIOR**-2 + (((more - less) / (2 * step) / width) ** 2).sum()) ** -0.5


def deviations_of_the_contact(rows=slice(None)):
    """Of the logarithms of kappa and mu and of the restitution: how far one club with its ball is from ours.

    Without what the rounding of the stated speeds to a mile an hour makes of it."""
    stiffness, restitution = stiffness_of_each_club()[rows], restitution_of_each_club()[rows]
    heads, balls = (LAUNCHES[name].to_numpy()[rows] for name in ("clubhead_speed_mph", "ball_speed_mph"))
    rounding = 1.75**2 / 12 * (1 / heads**2 + 1 / balls**2)  # (1 + e) times the ratio's
    of_restitution = np.sqrt((restitution**2 - rounding).mean())
    return np.array([np.sqrt((stiffness**2).mean()), deviation_of_friction(), of_restitution])


# ---- balls and turfs

DRIVE = wb.Launch(167 * mph, 11 * deg, spin_rate=2700 * rpm)
BALLS = 13  # whose carries span 18 m (published: Lyu, Kensrud, Smith, Tosaya, Proceedings 2 (2018) 238)
SPAN = 3.336  # of the largest and smallest of 13 normal numbers, in deviations (tables of quality control)
BALL_TO_BALL = 18.0 / SPAN  # m of carry
RUN_OF_A_DRIVE = 20 * yd / 4  # common practice: 10 to 30 yd on a firm fairway, taken as two deviations a side


def spread_of_drag():
    """Of the logarithm of a ball's drag, so that a drive's carry spreads as published."""

    def wide(x):
        carries = [wb.fly(DRIVE, ball=wb.Ball(aero=with_drag(np.exp(s * x)))).carry for s in (-1, 1)]
        return (carries[0] - carries[1]) / 2 - BALL_TO_BALL

    return brentq(wide, 0.001, 0.2)


def with_drag(factor, model=DEFAULT):
    named = {name: getattr(model, name) * float(factor) for name in ("drag", "drag_spin", "drag_laminar")}
    return replace(model, **named)


TURF = list(wb.Turf._columns)


def spread_of_turf():
    """Of the logarithm of each constant of a turf, so that a drive's run spreads over the trade's window."""

    def wide(x):
        variance, run = 0.0, wb.play(DRIVE).run.distance
        for name in TURF:
            for side in (-x, x):
                turf = replace(wb.Turf(), **{name: getattr(wb.Turf(), name) * float(np.exp(side))})
                variance += (wb.play(DRIVE, turf=turf).run.distance - run) ** 2 / 2
        return np.sqrt(variance) - RUN_OF_A_DRIVE

    return brentq(wide, 0.02, 0.6, xtol=1e-4)


# ---- the draws


def draws(flight=None, contact=None, seed=1):
    """Half of the draws, a row a draw, a column a constant; the others lie opposite. Together their mean is 0 and
    their covariance that of the constants, exactly."""
    flight = covariance_of_the_flight() if flight is None else flight
    contact = deviations_of_the_contact() if contact is None else contact
    count = len(flight) + len(contact)
    even, _ = np.linalg.qr(np.random.default_rng(seed).normal(size=(PAIRS, count)))
    root = np.zeros((count, count))
    root[: len(flight), : len(flight)] = np.linalg.cholesky(flight)
    root[len(flight) :, len(flight) :] = np.diag(contact)
    return np.sqrt(PAIRS) * even @ root.T


def print_header():
    print("draws:")
    for row in draws():
        print("    {{" + ", ".join(f"{x:.4f}" for x in row) + "}},")
    print("laws:")
    for name, law, constants, weight in fitted_laws():
        numbers = ", ".join(f"{getattr(constants, constant):.4g}" for constant in CONSTANTS)
        print(f"    {{{weight:.3f}, {{{numbers}}}, {law.lift_reynolds_power}, {law.drag_reynolds_power}, "
              f"{str(law.induced_drag).lower()}}},  // {name}")  # fmt: skip
    print(f"drag of balls {spread_of_drag():.4f}, turf {spread_of_turf():.3f}")


if __name__ == "__main__":
    print("left over:", {name: rms for name, rms in zip(
        LEFT_OVER, np.sqrt((misses(DEFAULT).reshape(3, 12) ** 2).mean(axis=1)).round(2), strict=True)})  # fmt: skip
    print("logarithm of kappa, club by club:", stiffness_of_each_club().round(3))
    print("restitution, club by club:", restitution_of_each_club().round(4))
    print("deviations of the contact:", deviations_of_the_contact().round(4))
    print("deviations of the flight:", np.sqrt(np.diag(covariance_of_the_flight())).round(3))
    print_header()
