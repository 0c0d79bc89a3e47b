"""A ball's bounce and run in NumPy and SciPy, independent of the library, on a plane through the origin: bounces in
components, hops by the flight code of the neighbouring folder, skid and roll by DOP853."""

from dataclasses import dataclass

import numpy as np
from scipy.integrate import solve_ivp

GRAVITY = 9.80665
MASS, RADIUS = 0.04593, 0.021335


@dataclass
class Turf:
    restitution_scale: float = 1.0
    friction: float = 0.40
    tilt_scale: float = 1.0
    rolling_deceleration: float = 1.0


def restitution(normal_speed, scale=1.0):
    held = min(normal_speed, 20.0)
    return scale * (0.510 - 0.0375 * held + 0.000903 * held**2)


def lean(speed, from_upright, scale=1.0):
    """How far the surface leans back: Penner's line, held from 30 m/s on, faded where the ball presses with less
    than 8 m/s, and bent into the descent angle."""
    published = scale * np.radians(15.4) * (min(speed, 30.0) / 18.6) * (from_upright / np.radians(44.4))
    lightness = max(0.0, 1 - speed * np.cos(from_upright) / 8.0)
    tilt, descent = published * (1 - lightness**2), np.pi / 2 - from_upright
    if tilt <= 0.75 * descent:
        return tilt
    return descent if tilt >= 1.25 * descent else tilt - (tilt - 0.75 * descent) ** 2 / descent


def hop_speed(rebound):
    """What turf leaves of a rebound's upward speed."""
    least = np.sqrt(2 * GRAVITY * RADIUS)
    free = np.clip(rebound / least - 1, 0, 1)
    return rebound * (3 * free**2 - 2 * free**3)


def bounced(velocity, spin, normal, turf):
    """Velocity and spin after a bounce of a uniform sphere: the axes are forward and up of the tilted surface, and
    across both."""
    up_speed = velocity @ normal
    along = velocity - up_speed * normal
    forward = along / np.linalg.norm(along)
    speed, from_upright = np.linalg.norm(velocity), np.arctan2(np.linalg.norm(along), -up_speed)
    tilt = lean(speed, from_upright, turf.tilt_scale)
    ahead = np.cos(tilt) * forward + np.sin(tilt) * normal
    up = np.cos(tilt) * normal - np.sin(tilt) * forward
    side = np.cross(ahead, up)
    a, u = velocity @ ahead, velocity @ up
    turning, tumbling = spin @ side, spin @ ahead  # backspin, and what rolls the ball to the side
    e = restitution(-u, turf.restitution_scale)
    slip = np.array([a + RADIUS * turning, -RADIUS * tumbling])
    size = np.hypot(*slip)
    push = min(2 / 7 * size, turf.friction * (1 + e) * -u) / size if size > 0 else 0.0
    gain_ahead, gain_side = -push * slip
    after = (a + gain_ahead) * ahead + gain_side * side - e * u * up
    turned = spin + 2.5 / RADIUS * (gain_ahead * side - gain_side * ahead)
    return after, turned


def hop(case, position, velocity, spin):
    """One flight from the ground to the ground: where, with which velocity and spin rate it comes down."""

    def touching(_, state):
        return state[2] - RADIUS - case.ground(state[0], state[1])

    touching.terminal, touching.direction = True, -1
    rate = np.linalg.norm(spin)
    case.axis = spin / rate if rate > 0 else np.zeros(3)
    start = np.concatenate([position, velocity, [rate]])
    climbing = velocity[2] - case.ground(velocity[0], velocity[1])  # over the plane; the first step ends in the air
    flight = solve_ivp(case.rates, (0, 60), start, "DOP853", rtol=1e-11, atol=1e-11, events=touching,
                       first_step=min(0.5 * climbing / GRAVITY, 1e-2))  # fmt: skip
    down = flight.y_events[0][0]
    return down[:3], down[3:6], down[6] * case.axis


def skid_and_roll(position, velocity, spin, normal, turf):
    """Where a ball on the plane comes to rest."""
    downhill = -GRAVITY * (np.array([0, 0, 1.0]) - normal[2] * normal)
    press = GRAVITY * normal[2]

    def slowed(v):
        """What grass and air add to the rolling deceleration above 6 m/s."""
        speed = np.linalg.norm(v)
        return turf.rolling_deceleration * normal[2] * max(speed / 6 - 1, 0) ** 2 * v / max(speed, 6)

    def skidding(_, s):
        slip = s[6:]
        rub = -turf.friction * press * slip / np.sqrt(slip @ slip + 1e-12)
        drag = 1.4 * slowed(s[3:6])
        return np.concatenate([s[3:6], downhill + rub - drag, downhill + 3.5 * rub - drag])

    def rolling(_, s):
        braked = turf.rolling_deceleration * normal[2] * s[3:] / np.linalg.norm(s[3:])
        return np.concatenate([s[3:], 5 / 7 * downhill - braked - slowed(s[3:])])

    def gripped(_, s):
        return np.linalg.norm(s[6:]) - 1e-4

    def stopped(_, s):
        return np.linalg.norm(s[3:]) - 1e-3  # a millimetre a second stops within a few micrometres

    gripped.terminal = stopped.terminal = True
    along = velocity - (velocity @ normal) * normal
    state = np.concatenate([position, along, along - RADIUS * np.cross(spin, normal)])
    if gripped(0, state) > 0:
        state = solve_ivp(skidding, (0, 60), state, "DOP853", rtol=1e-9, atol=1e-9, events=gripped).y_events[0][0]
    return solve_ivp(rolling, (0, 60), state[:6], "DOP853", rtol=1e-9, atol=1e-9, events=stopped).y_events[0][0][:3]


def rest(case, velocity, spin, turf):
    """Where a ball that lands at the origin comes to rest, and how often it bounced."""
    normal = np.array([-case.slope_right, -case.slope_downrange, 1.0])
    normal /= np.linalg.norm(normal)
    position, bounces = np.array([0.0, 0.0, RADIUS]), 0
    while bounces < 20:
        velocity, spin = bounced(velocity, spin, normal, turf)
        bounces += 1
        rebound = velocity @ normal
        velocity = velocity + (hop_speed(rebound) - rebound) * normal
        if hop_speed(rebound) == 0:
            break
        position, velocity, spin = hop(case, position, velocity, spin)
    return skid_and_roll(position, velocity, spin, normal, turf), bounces
