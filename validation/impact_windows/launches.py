"""The launches of common practice, and what a contact of given constants makes of them."""

from dataclasses import dataclass, replace
from pathlib import Path

import numpy as np
import pandas as pd

import whimbrel as wb
from whimbrel.units import deg, gram, mph, rpm

HERE = Path(__file__).parent
LAUNCHES = pd.read_csv(HERE / "launches.csv")
WEDGES = pd.read_csv(HERE / "wedges.csv")
NEAR_ANGLE, NEAR_SPIN = 1.0 * deg, 0.06  # what counts as the same launch
# The library's own: see `include/whimbrel/impact/contact_constants.hpp`.
RIGID_FACE, REFERENCE_SPEED, SOFTENING, FRICTION_POWER = 0.745, 43.8, 1.2, 0.4


@dataclass(frozen=True)
class Constants:
    """Of a contact: kappa; mu at 43.8 m/s; how fast the normal spring softens with the restitution of the face; the
    power of the approach speed by which mu falls."""

    kappa: float = wb.Ball().contact_stiffness_ratio
    mu: float = wb.Ball().face_friction
    softening: float = SOFTENING
    friction_power: float = FRICTION_POWER

    def ball(self, face_restitution, approach_speed):
        """The ball with which the library's contact has these constants."""
        springiness = face_restitution - RIGID_FACE
        return wb.Ball(
            contact_stiffness_ratio=self.kappa * (1 - SOFTENING * springiness) / (1 - self.softening * springiness),
            face_friction=self.mu * (REFERENCE_SPEED / approach_speed) ** (self.friction_power - FRICTION_POWER),
        )


def heads(table):
    """One club with a number a row."""
    clubs = [wb.clubs[name] for name in table.get("head", table["club"])]
    numbers = {name: np.array([getattr(club, name) for club in clubs]) for name in clubs[0]._numbers()}
    club = wb.Club("rows", **numbers)
    return replace(club, mass=table.head_mass_g.to_numpy() * gram) if "head_mass_g" in table else club


def struck(table, dynamic_loft, constants):
    """The launches of a table's clubs and speeds at these lofts."""
    club = heads(table)
    speed, attack = table.clubhead_speed_mph.to_numpy() * mph, table.attack_angle_deg.to_numpy() * deg
    ball = constants.ball(club.face_restitution, speed * np.cos(dynamic_loft - attack))
    return wb.strike(wb.Delivery(speed, attack_angle=attack, dynamic_loft=dynamic_loft), club, ball=ball).launch


def told_loft(launch_angle, spin_rate, ball_speed):
    """The loft that the face had where it was struck: any contact at one point leaves a uniform ball so (derived)."""
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
