"""Proves the errors that `core/polynomials.hpp` states of its polynomials."""

import re
from pathlib import Path

import pytest
from mpmath import binomial, factorial, log, mp, mpf, pi, sqrt, tan

HEADER = Path(__file__).parents[2] / "include/whimbrel/core/polynomials.hpp"
PIECES = 32
mp.dps = 40

#: In the header's order: the power series of the function, the interval, and the stated relative error.
PROVEN = [
    ("2^r", lambda k: log(2) ** k / factorial(k), mpf(-0.5), mpf(0.5), 1e-10),
    ("2 atanh(s)/s over s^2", lambda k: mpf(2) / (2 * k + 1), mpf(0), ((sqrt(2) - 1) / (sqrt(2) + 1)) ** 2, 1e-11),
    ("sin(r)/r over r^2", lambda k: (-1) ** k / factorial(2 * k + 1), mpf(0), (pi / 4) ** 2, 1e-15),
    ("cos(r) over r^2", lambda k: (-1) ** k / factorial(2 * k), mpf(0), (pi / 4) ** 2, 1e-15),
    ("atan(t)/t over t^2", lambda k: mpf((-1) ** k) / (2 * k + 1), mpf(0), tan(pi / 8) ** 2, 1e-15),
]
TERMS = 36


def coefficients():
    """Every list of coefficients in the header, in its order."""
    lists = re.findall(r"constexpr double [cs]\[\] = \{([^}]*)\}", HEADER.read_text(encoding="utf-8"))
    return [[mpf(float(c)) for c in re.split(r"[,\s]+", text.strip()) if c] for text in lists]


def on_piece(c, a, width):
    """The coefficients of c(a + width t) in t."""
    shifted = [mpf(0)]
    for coefficient in reversed(c):
        moved = [mpf(0), *(x * width for x in shifted)]
        shifted = [a * x + y for x, y in zip([*shifted, mpf(0)], moved, strict=True)]
        shifted[0] += coefficient
    return shifted


def bound(c):
    """A bound of |c(t)| on [0, 1]: the largest of its coefficients in Bernstein's basis."""
    n = len(c) - 1
    return max(abs(sum(binomial(i, j) / binomial(n, j) * c[j] for j in range(i + 1))) for i in range(n + 1))


def proven(number, c):
    """A bound of the relative error of the polynomial with coefficients c, on the whole interval of that number."""
    _, term, lower, upper, _ = PROVEN[number]
    series = [term(k) for k in range(TERMS)]
    far = max(abs(lower), abs(upper))
    left_out = 2 * abs(term(TERMS)) * far**TERMS  # of the series: its terms fall by more than half each
    difference = [(c[k] if k < len(c) else 0) - series[k] for k in range(TERMS)]
    width = (upper - lower) / PIECES
    largest = max(bound(on_piece(difference, lower + k * width, width)) for k in range(PIECES))
    smallest = min(abs(sum(s * x**k for k, s in enumerate(series))) for x in (lower, upper))  # f is monotone
    return float((largest + left_out) / (smallest - left_out))


@pytest.mark.parametrize("number", range(len(PROVEN)))
def test_the_stated_error_holds_on_the_whole_interval(number):
    assert proven(number, coefficients()[number]) < PROVEN[number][4], PROVEN[number][0]


@pytest.mark.parametrize("number", range(len(PROVEN)))
def test_a_wrong_coefficient_is_found(number):
    c = coefficients()[number]
    c[1] *= 1 + 100 * mpf(PROVEN[number][4])
    assert proven(number, c) > PROVEN[number][4]


if __name__ == "__main__":
    print(f"{'polynomial':<22} {'error below':>12} {'stated':>8}")
    for i, (name, *_, stated) in enumerate(PROVEN):
        print(f"{name:<22} {proven(i, coefficients()[i]):>12.1e} {stated:>8.0e}")
