"""The constants of the independent code of the contact, given to the library through a club's and a ball's numbers."""

from dataclasses import replace

import numpy as np

import whimbrel as wb

KAPPA, MU, SLOPE = 0.77, 0.30, 0.0029  # of the independent code; the slope of restitution in s/m
# The library's own: `include/whimbrel/impact/restitution.hpp` and `contact_constants.hpp`.
OWN_SLOPE, REFERENCE_SPEED, RIGID_FACE, SOFTENING, FRICTION_POWER = 0.0019, 43.8, 0.745, 1.2, 0.4


def struck(delivery, club):
    """A strike whose contact has kappa 0.77, mu 0.30, restitution falling by 0.0029 s/m and nothing of the shaft."""
    normal = wb.strike(delivery, club).struck_normal
    attack, path = np.asarray(delivery.attack_angle), np.asarray(delivery.club_path)
    way = np.stack(np.broadcast_arrays(np.cos(attack) * np.sin(path), np.cos(attack) * np.cos(path), np.sin(attack)),
                   axis=-1)  # fmt: skip
    approach = delivery.clubhead_speed * (way * normal).sum(axis=-1)
    face = club.face_restitution - (SLOPE - OWN_SLOPE) * (approach - REFERENCE_SPEED)
    ball = wb.Ball(
        contact_stiffness_ratio=KAPPA * (1 - SOFTENING * (face - RIGID_FACE)),
        face_friction=MU * (approach / REFERENCE_SPEED) ** FRICTION_POWER,
    )
    return wb.strike(delivery, replace(club, face_restitution=face, shaft_mass=0.0), ball=ball)
