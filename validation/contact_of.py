"""Strikes with a contact of given constants, set through the numbers of a club and a ball."""

from dataclasses import replace

import numpy as np

import whimbrel as wb

# The library's own, from `include/whimbrel/impact/restitution.hpp` and `contact_constants.hpp`.
SLOPE, REFERENCE_SPEED, FRICTION_POWER = 0.0019, 43.8, 0.4


def approach_speed(delivery, club):
    """Of face and ball along the normal where they meet, m/s."""
    normal = wb.strike(delivery, club).struck_normal
    attack, path = np.asarray(delivery.attack_angle), np.asarray(delivery.club_path)
    way = np.cos(attack) * np.sin(path), np.cos(attack) * np.cos(path), np.sin(attack)
    return delivery.clubhead_speed * (np.stack(np.broadcast_arrays(*way), axis=-1) * normal).sum(axis=-1)


def struck(delivery, club, *, kappa, mu, restitution=None):
    """A strike whose contact has these constants; the restitution is the club's own if not given."""
    approach = approach_speed(delivery, club)
    face = club.face_restitution
    if restitution is not None:
        face = restitution + SLOPE * (approach - REFERENCE_SPEED)
    ball = wb.Ball(contact_stiffness_ratio=kappa, face_friction=mu * (approach / REFERENCE_SPEED) ** FRICTION_POWER)
    return wb.strike(delivery, replace(club, face_restitution=face), ball=ball)


def struck_as_worked(delivery, club):
    """With the constants of the independent code: a head alone, restitution falling by 0.0029 s/m."""
    head = replace(club, shaft_mass=0.0)
    restitution = club.face_restitution - 0.0029 * (approach_speed(delivery, head) - REFERENCE_SPEED)
    return struck(delivery, head, kappa=0.77, mu=0.30, restitution=restitution)
