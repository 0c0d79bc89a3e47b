"""Tangential restitution of a ball on a heavy plate against the angle of incidence.

``python check.py curve.png`` also draws it.
"""

import sys
import warnings

import numpy as np
import pandas as pd

import whimbrel as wb
from whimbrel.units import deg

NORMAL_SPEED, FACE = 20.0, 0.745  # m/s; restitution of a rigid face, where kappa is as stated
RESTITUTION = FACE - 0.0019 * (NORMAL_SPEED - 43.8)
ROUNDING = 1e-9
# A head as heavy, and a ball as light, as the library takes: 200 to 1. Struck in line with its centre of mass
# the plate does not turn.
BALL = wb.Ball(mass=0.005, inertia=0.4 * 0.005 * wb.Ball().radius ** 2)
FRICTION = BALL.face_friction * (43.8 / NORMAL_SPEED) ** 0.4  # of an approach at this speed
PLATE = wb.Club("plate", 0.0, 1.0, 1.0, mass=1.0, face_restitution=FACE, cg_depth=0.0, face_width=0.2,
                shaft_mass=0.0)  # fmt: skip
RATIO = BALL.mass / PLATE.mass
# Sliding to the end the ball's surface slows by (7/2 + m/M) of its tangential impulse over its mass, mu of the
# normal one; that stops it at this tangent of the angle.
STOPPED = FRICTION * (1 + RESTITUTION) * (3.5 + RATIO) / (1 + RATIO)
# Below that, friction still holds as long as the unloading spring of the contact turns the surface round no
# faster than mu e v_n / (1.5 kappa): from the law of the contact at its end.
SLIP_LIMIT = np.arctan(STOPPED - FRICTION * RESTITUTION / (1.5 * BALL.contact_stiffness_ratio))


def restitution_at(angle):
    """Angles of incidence (an array) to the part of the contact's tangential speed that is turned round (-1
    keeps it, +1 reverses it) and the part of the contact spent sliding."""
    speed = NORMAL_SPEED / np.cos(angle)
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", wb.InputWarning)  # faster than anyone swings a club: this is a plate
        impact = wb.strike(wb.Delivery(speed, dynamic_loft=angle), PLATE, ball=BALL)
    launch = impact.launch

    def up_the_face(velocity):
        return velocity[:, 2] * np.cos(angle) - velocity[:, 1] * np.sin(angle)

    ball = launch.ball_speed * np.sin(launch.launch_angle - angle)
    surface = ball - BALL.radius * launch.spin_rate  # backspin: the ball's back runs down
    before = -speed * np.sin(angle)
    return -(up_the_face(impact.head_velocity_after) - surface) / before, impact.slip_time / impact.contact_time


def curve(step=1.0):
    """To 78 degrees: the normal speed kept, more would need a faster head than the library takes."""
    angle = np.arange(1.0, 78.0 + step / 2, step)
    turned, sliding = restitution_at(angle * deg)
    return pd.DataFrame({"angle_deg": angle, "tangential_restitution": turned, "sliding": sliding})


def test_at_small_angles_the_tangential_restitution_is_negative():
    table = curve()
    assert (table.tangential_restitution[table.angle_deg <= 20] < 0).all(), table
    assert table.sliding[0] < 0.05  # it sticks, and is negative all the same


def test_it_peaks_above_zero_near_the_slip_limit():
    """Near: between half the slip limit's tangent and the limit."""
    table = curve(0.25)
    peak = table.loc[table.tangential_restitution.idxmax()]
    assert peak.tangential_restitution > 0.3
    assert 0.5 * np.tan(SLIP_LIMIT) < np.tan(peak.angle_deg * deg) < np.tan(SLIP_LIMIT), peak


def test_from_the_slip_limit_on_and_only_there_the_ball_slides_to_the_end():
    """Derived, see above; to the step of the curve."""
    step = 0.25
    table = curve(step)
    gross = table.sliding > 1 - ROUNDING
    first = table.angle_deg[gross].iloc[0]
    assert gross[table.angle_deg >= first].all()
    assert abs(first - SLIP_LIMIT / deg) <= step, (first, SLIP_LIMIT / deg)


def test_in_gross_slip_it_falls_as_friction_alone_says():
    """Derived, exact: mu (1 + e) (7/2 + m/M) / (1 + m/M) / tan(angle) - 1."""
    table = curve()
    beyond = table[table.angle_deg * deg > SLIP_LIMIT]
    expected = STOPPED / np.tan(beyond.angle_deg * deg) - 1
    assert len(beyond) > 10
    assert (abs(beyond.tangential_restitution - expected) < ROUNDING).all(), beyond
    assert (np.diff(beyond.tangential_restitution) < 0).all()


def draw(file):
    import matplotlib

    matplotlib.use("Agg")
    import matplotlib.pyplot as plt

    table = curve(0.25)
    figure, ax = plt.subplots(figsize=(7, 4.2), layout="constrained")
    ax.axhline(0.0, color="#555555", lw=1)
    ax.axvline(SLIP_LIMIT / deg, color="#555555", lw=1, ls=":")
    ax.annotate("slides to the end from here", (SLIP_LIMIT / deg, -0.75), xytext=(-5, 0), ha="right",
                textcoords="offset points", color="#555555")  # fmt: skip
    ax.plot(table.angle_deg, table.tangential_restitution, color="#0072B2", lw=2.2)
    ax.set_xlim(0, 80)
    ax.set_ylim(-0.85, 0.6)
    ax.set_xlabel("angle of incidence from the face normal, degrees")
    ax.set_ylabel("tangential restitution (ratio of speeds)")
    ax.set_title(f"A ball on a heavy plate, friction {FRICTION:.2f}", loc="left", fontweight="bold")
    figure.savefig(file, dpi=100)


if __name__ == "__main__":
    shown = curve().iloc[[0, 9, 19, 29, 39, 45, 49, 54, 59, 64, 69, 77]]
    print(f"slip limit {SLIP_LIMIT / deg:.2f}°\n")
    print(shown.round(3).to_string(index=False))
    if len(sys.argv) > 1:
        draw(sys.argv[1])
