"""A golf ball's flight in NumPy and SciPy, independent of the library: its own equation of motion, its own
models, its own frame, written from the published formulas, integrated by DOP853 with events."""

from dataclasses import dataclass, field

import numpy as np
from scipy.integrate import solve_ivp
from scipy.interpolate import PchipInterpolator

GRAVITY = 9.80665
LINEAR_LIFT_BELOW = 0.01


class MultiLayer:
    spin_ratios, reynolds, decay = (0.02, 0.8), (3e4, 2.4e5), 2.0e-5

    def __call__(self, w, re):
        drag = 0.170 + 0.186 * (1 - np.exp(-((w / 0.189) ** 1.5))) + 0.263 / (1 + (re / 0.541e5) ** 6)
        return drag, 0.404 * (1 - np.exp(-w / 0.184))


class SmitsSmith:
    spin_ratios, reynolds, decay = (0.05, np.inf), (0.7e5, 2.1e5), 2.0e-5

    def __call__(self, w, re):
        return 0.24 + 0.18 * w + 0.06 * np.sin(np.pi * (re - 9e4) / 2e5), 0.54 * w**0.4


class SquareRootLift:
    spin_ratios, reynolds, decay = (0.0, np.inf), (0.0, np.inf), 2.0e-5

    def __call__(self, w, re):
        return 0.24 + 0.18 * w, -0.05 + np.sqrt(0.0025 + 0.36 * w)


class Constant:
    spin_ratios, reynolds, decay = (0.0, np.inf), (0.0, np.inf), 0.0

    def __call__(self, w, re):
        return 0.25, 0.15


class Table:
    """A grid over the spin ratio alone, by SciPy's monotone interpolation."""

    grid = np.array([0.0, 0.1, 0.2, 0.35, 0.6, 1.0])
    drag_grid = np.array([0.21, 0.235, 0.28, 0.33, 0.38, 0.40])
    lift_grid = np.array([0.0, 0.15, 0.25, 0.32, 0.36, 0.38])
    spin_ratios, reynolds, decay = (0.0, 1.0), (1e5, 1e5), 2.0e-5

    def __init__(self):
        self.both = PchipInterpolator(self.grid, np.column_stack([self.drag_grid, self.lift_grid]))

    def __call__(self, w, re):
        return self.both(w)


@dataclass
class Case:
    """One flight. SI; angles in rad."""

    ball_speed: float
    launch_angle: float
    launch_direction: float
    spin_rate: float
    spin_axis_tilt: float
    wind_speed: float
    wind_from: float
    density: float
    viscosity: float
    height: float
    slope_right: float
    slope_downrange: float
    model: object
    roughness: float = 0.03
    mass: float = 0.04593
    radius: float = 0.021335
    axis: np.ndarray = field(init=False)

    def __post_init__(self):
        u = self.heading()
        right = np.array([np.cos(self.launch_direction), -np.sin(self.launch_direction), 0.0])
        upward = np.cross(right, u)
        self.axis = np.cos(self.spin_axis_tilt) * right - np.sin(self.spin_axis_tilt) * upward

    def heading(self):
        level = np.cos(self.launch_angle)
        azimuth = self.launch_direction
        return np.array([level * np.sin(azimuth), level * np.cos(azimuth), np.sin(self.launch_angle)])

    def ground(self, x, y):
        return self.height + self.slope_right * x + self.slope_downrange * y

    def air_velocity(self, x, y, z):
        above = max(z - min(0.0, self.ground(x, y)), 0.0)
        share = np.log1p(above / self.roughness) / np.log1p(10.0 / self.roughness)
        return -self.wind_speed * share * np.array([np.sin(self.wind_from), np.cos(self.wind_from), 0.0])

    def rates(self, _, state):
        position, velocity, spin = state[:3], state[3:6], state[6]
        through_air = velocity - self.air_velocity(*position)
        speed = np.sqrt(through_air @ through_air)
        side = np.array(
            [
                self.axis[1] * through_air[2] - self.axis[2] * through_air[1],
                self.axis[2] * through_air[0] - self.axis[0] * through_air[2],
                self.axis[0] * through_air[1] - self.axis[1] * through_air[0],
            ]
        )
        w = self.radius * spin * np.sqrt(side @ side) / speed**2
        re = 2 * self.density * speed * self.radius / self.viscosity
        lowest = max(self.model.spin_ratios[0], LINEAR_LIFT_BELOW)
        held_w = min(max(w, lowest), self.model.spin_ratios[1])
        held_re = min(max(re, self.model.reynolds[0]), self.model.reynolds[1])
        drag, lift = self.model(held_w, held_re)
        lift_per_w = lift / max(w, lowest)
        dynamic = 0.5 * self.density * np.pi * self.radius**2 / self.mass
        force = dynamic * (lift_per_w * self.radius * spin * side - drag * speed * through_air)
        force[2] -= GRAVITY
        return np.concatenate([velocity, force, [-self.model.decay * speed * spin / self.radius]])


def flown(case):
    """carry_m, offline_m, apex_m, flight_time_s, descent_angle_deg of one case; None without a landing."""

    def landing(_, state):
        return state[2] - case.radius - case.ground(state[0], state[1])

    def top(_, state):
        return state[5]

    landing.terminal, landing.direction, top.direction = True, -1, -1
    start = np.concatenate([[0.0, 0.0, case.radius], case.ball_speed * case.heading(), [case.spin_rate]])
    solution = solve_ivp(
        case.rates, (0.0, 60.0), start, method="DOP853", rtol=1e-12, atol=1e-12, events=(landing, top)
    )
    if not solution.t_events[0].size:
        return None
    time, end = solution.t_events[0][0], solution.y_events[0][0]
    heights = [start[2], end[2], *(state[2] for state in solution.y_events[1])]
    return {
        "carry_m": float(np.hypot(end[0], end[1])),
        "offline_m": float(end[0]),
        "apex_m": float(max(heights) - case.radius),
        "flight_time_s": float(time),
        "descent_angle_deg": float(np.degrees(np.arctan2(-end[5], np.hypot(end[3], end[4])))),
    }
