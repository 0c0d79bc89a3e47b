"""The launches of common practice, and what a contact of given constants makes of them."""

import importlib.util
from dataclasses import dataclass, replace
from pathlib import Path

import numpy as np
import pandas as pd

import whimbrel as wb
from whimbrel.units import deg, gram, mph, rpm

HERE = Path(__file__).parent
spec = importlib.util.spec_from_file_location("contact_of", HERE.parent / "contact_of.py")
assert spec is not None and spec.loader is not None
contact_of = importlib.util.module_from_spec(spec)
spec.loader.exec_module(contact_of)

LAUNCHES = pd.read_csv(HERE / "launches.csv")
WEDGES = pd.read_csv(HERE / "wedges.csv")
NEAR_ANGLE, NEAR_SPIN = 1.0 * deg, 0.06  # what counts as the same launch


@dataclass(frozen=True)
class Constants:
    """Of a contact: kappa; mu at 43.8 m/s; the power of the approach speed by which mu falls; how fast the normal
    spring softens with the restitution of the face, which the library leaves out."""

    kappa: float = wb.Ball().contact_stiffness_ratio
    mu: float = wb.Ball().face_friction
    friction_power: float = contact_of.FRICTION_POWER
    softening: float = 0.0

    def strike(self, delivery, club):
        approach = contact_of.approach_speed(delivery, club)
        springiness = club.face_restitution - wb.clubs["7 iron"].face_restitution
        return contact_of.struck(
            delivery,
            club,
            kappa=self.kappa / (1 - self.softening * springiness),
            mu=self.mu * (contact_of.REFERENCE_SPEED / approach) ** self.friction_power,
        )


def heads(table):
    """One club with a number a row."""
    clubs = [wb.clubs[name] for name in table.get("head", table["club"])]
    numbers = {name: np.array([getattr(club, name) for club in clubs]) for name in clubs[0]._numbers()}
    club = wb.Club("rows", **numbers)
    return replace(club, mass=table.head_mass_g.to_numpy() * gram) if "head_mass_g" in table else club


def struck(table, dynamic_loft, constants):
    """The launches of a table's clubs and speeds at these lofts."""
    speed, attack = table.clubhead_speed_mph.to_numpy() * mph, table.attack_angle_deg.to_numpy() * deg
    hit = wb.Delivery(speed, attack_angle=attack, dynamic_loft=dynamic_loft)
    return constants.strike(hit, heads(table)).launch


def told_loft(launch_angle, spin_rate, ball_speed):
    """The loft of the face where it was struck: any contact at one point leaves a uniform ball so (derived)."""
    return launch_angle + np.arcsin(0.4 * wb.Ball().radius * spin_rate / ball_speed)


def misses(loft, constants, table=LAUNCHES):
    """Launch angle and spin off the stated ones, in units of what counts as the same. Spin is compared at the
    stated ball speed, which is the restitution's part."""
    launch = struck(table, loft, constants)
    angle = (launch.launch_angle - table.launch_angle_deg.to_numpy() * deg) / NEAR_ANGLE
    spin = launch.spin_rate / launch.ball_speed
    stated = table.spin_rate_rpm.to_numpy() * rpm / (table.ball_speed_mph.to_numpy() * mph)
    return angle, (spin / stated - 1) / NEAR_SPIN


def nearest_loft(constants, table=LAUNCHES):
    """The lofts, which nobody states, at which launch angle and spin together come nearest (Gauss and Newton)."""
    loft = told_loft(*(table[name].to_numpy() * unit for name, unit in
                       (("launch_angle_deg", deg), ("spin_rate_rpm", rpm), ("ball_speed_mph", mph))))  # fmt: skip
    step = 1e-3
    for _ in range(5):
        here, beside = np.array(misses(loft, constants, table)), np.array(misses(loft + step, constants, table))
        slope = (beside - here) / step
        loft = loft - (here * slope).sum(axis=0) / (slope**2).sum(axis=0)
    return loft
