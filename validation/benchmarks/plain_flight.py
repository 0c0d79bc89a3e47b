"""A flight in plain Python: the library's equation of motion over level ground, written for one number after the
other, and flown by SciPy. Numba compiles the same equation (`numba_flight.py`)."""

from math import cos, exp, log, sin, sqrt

import numpy as np
from scipy.integrate import solve_ivp

import whimbrel as wb

RELATIVE, ABSOLUTE_OVER_RELATIVE = 1e-6, 1e-3  # the tolerances of others
LONGEST = 60.0  # s


def rates(x, y, z, vx, vy, vz, spin, constants):
    """The rates of change of a ball's position, velocity and spin rate; `constants` as `flight_of` makes them."""
    force, reynolds_per_speed, radius, ax, ay, az, wx, wy, roughness, wind_factor = constants
    share = log(1.0 + max(z, 0.0) / roughness) * wind_factor
    ux, uy, uz = vx - share * wx, vy - share * wy, vz
    speed = sqrt(ux * ux + uy * uy + uz * uz)
    cx, cy, cz = ay * uz - az * uy, az * ux - ax * uz, ax * uy - ay * ux
    spin_ratio = radius * spin * sqrt(cx * cx + cy * cy + cz * cz) / max(speed * speed, 1e-12)
    w = min(max(spin_ratio, 0.02), 0.8)
    crisis = (min(max(reynolds_per_speed * speed, 3e4), 2.4e5) / 0.541e5) ** 6
    drag = 0.170 + 0.186 * (1.0 - exp(-((w / 0.189) ** 1.5))) + 0.263 / (1.0 + crisis)
    lift = 0.404 * (1.0 - exp(-w / 0.184)) / max(spin_ratio, 0.02)
    back, up = force * drag * speed, force * lift * radius * spin
    return (
        vx,
        vy,
        vz,
        up * cx - back * ux,
        up * cy - back * uy,
        up * cz - back * uz - 9.80665,
        -2.0e-5 / radius * speed * spin,
    )


def flight_of(speed, angle, direction, spin, tilt, wind_speed=0.0, wind_from=0.0):
    """The state in which a ball is launched from the tee, and the constants of its flight. SI."""
    ball, air, wind = wb.Ball(), wb.setting.Air(), wb.Wind()
    force = 0.5 * air.density * np.pi * ball.radius**2 / ball.mass
    ux, uy, uz = cos(angle) * sin(direction), cos(angle) * cos(direction), sin(angle)
    rx, ry = cos(direction), -sin(direction)
    px, py, pz = ry * uz, -rx * uz, rx * uy - ry * ux
    axis = (cos(tilt) * rx - sin(tilt) * px, cos(tilt) * ry - sin(tilt) * py, -sin(tilt) * pz)
    blowing = (-wind_speed * sin(wind_from), -wind_speed * cos(wind_from))
    wind_factor = 1.0 / log(1.0 + wind.reference_height / wind.roughness_length)
    start = (0.0, 0.0, ball.radius, speed * ux, speed * uy, speed * uz, spin)
    constants = (force, 2.0 * air.density * ball.radius / air.viscosity, ball.radius)
    return start, (*constants, *axis, *blowing, wind.roughness_length, wind_factor)


def scipy_carry(start, constants):
    """Carry, m, by SciPy's RK45."""
    radius = constants[2]

    def landing(_, state):
        return state[2] - radius

    landing.terminal, landing.direction = True, -1
    solved = solve_ivp(
        lambda _, state: rates(*state.tolist(), constants),
        (0.0, LONGEST),
        start,
        method="RK45",
        rtol=RELATIVE,
        atol=RELATIVE * ABSOLUTE_OVER_RELATIVE,
        events=landing,
    )
    return float(np.hypot(*solved.y_events[0][0][:2]))
