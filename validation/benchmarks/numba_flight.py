"""The same flight by Dormand and Prince's pair, compiled by Numba; coefficients and dense output are SciPy's."""

import numba
import numpy as np
from plain_flight import ABSOLUTE_OVER_RELATIVE, LONGEST, rates
from scipy.integrate import RK45

STAGES, NUMBERS = 6, 7
A, B, E, P = (np.ascontiguousarray(table) for table in (RK45.A, RK45.B, RK45.E, RK45.P))
LANDING_ROUNDS, LANDING_HEIGHT = 30, 1e-10  # m

compiled = numba.njit(fastmath=True, error_model="numpy")
rates_of = compiled(rates)


@compiled
def set_rates(k, state, constants):
    k[0], k[1], k[2], k[3], k[4], k[5], k[6] = rates_of(
        state[0], state[1], state[2], state[3], state[4], state[5], state[6], constants
    )


@compiled
def step(k, state, h, constants, tolerance, stage, end):
    """Makes a step from a state whose rates are k[0]; the square of its error as a share of the tolerance."""
    for s in range(1, STAGES):
        for i in range(NUMBERS):
            total = 0.0
            for j in range(s):
                total += A[s, j] * k[j, i]
            stage[i] = state[i] + h * total
        set_rates(k[s], stage, constants)
    for i in range(NUMBERS):
        total = 0.0
        for j in range(STAGES):
            total += B[j] * k[j, i]
        end[i] = state[i] + h * total
    set_rates(k[STAGES], end, constants)
    share = 0.0
    for i in range(NUMBERS):
        error = 0.0
        for j in range(STAGES + 1):
            error += E[j] * k[j, i]
        size = ABSOLUTE_OVER_RELATIVE + max(abs(state[i]), abs(end[i]))
        share += (h * error / (tolerance * size)) ** 2
    return share / NUMBERS


@compiled
def within(k, state, h, s, i):
    """Number i of the state a share s of the step after its beginning."""
    total = 0.0
    for j in range(STAGES + 1):
        total += k[j, i] * (s * (P[j, 0] + s * (P[j, 1] + s * (P[j, 2] + s * P[j, 3]))))
    return state[i] + h * total


@compiled
def landing_share(k, state, end, h, radius):
    """Where in a step the ball is down: the secant, held in a bracket (the Illinois rule)."""
    low, high, above, below, s = 0.0, 1.0, state[2] - radius, end[2] - radius, 0.0
    last = 0
    for _ in range(LANDING_ROUNDS):
        s = low + (high - low) * above / (above - below)
        height = within(k, state, h, s, 2) - radius
        if abs(height) < LANDING_HEIGHT:
            break
        if height > 0.0:
            low, above = s, height
            below *= 0.5 if last > 0 else 1.0
            last = 1
        else:
            high, below = s, height
            above *= 0.5 if last < 0 else 1.0
            last = -1
    return s


@compiled
def numba_carry(start, constants, tolerance):
    """Carry, m, of one flight, to a relative tolerance."""
    radius = constants[2]
    state, stage, end = np.empty(NUMBERS), np.empty(NUMBERS), np.empty(NUMBERS)
    k = np.empty((STAGES + 1, NUMBERS))
    for i in range(NUMBERS):
        state[i] = start[i]
    set_rates(k[0], state, constants)
    time, h = 0.0, 0.01
    while time < LONGEST:
        share = step(k, state, h, constants, tolerance, stage, end)
        factor = 0.9 * max(share, 1e-12) ** -0.1
        if share <= 1.0:
            if end[2] <= radius:
                s = landing_share(k, state, end, h, radius)
                return np.hypot(within(k, state, h, s, 0), within(k, state, h, s, 1))
            time += h
            state, end = end, state
            for i in range(NUMBERS):
                k[0, i] = k[STAGES, i]
        h *= min(5.0, max(0.2, factor))
    return np.nan


@compiled
def numba_carries(starts, constants, tolerance):
    """Carries of flights, a row each, to a relative tolerance."""
    carries = np.empty(len(starts))
    for row in range(len(starts)):
        c = constants[row]
        row_of_constants = (c[0], c[1], c[2], c[3], c[4], c[5], c[6], c[7], c[8], c[9])
        carries[row] = numba_carry(starts[row], row_of_constants, tolerance)
    return carries
