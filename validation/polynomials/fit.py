"""Fits the polynomials of `core/polynomials.hpp` and prints their coefficients, lowest power first."""

import mpmath as mp

mp.mp.dps = 60


def fitted(f, lower, upper, degree):
    """The polynomial through f at the Chebyshev points of [lower, upper], by Newton's divided differences."""
    n = degree + 1
    points = [(lower + upper) / 2 + (upper - lower) / 2 * mp.cos(mp.pi * (2 * k + 1) / (2 * n)) for k in range(n)]
    table = [f(x) for x in points]
    for level in range(1, n):
        for k in range(n - 1, level - 1, -1):
            table[k] = (table[k] - table[k - 1]) / (points[k] - points[k - level])
    coefficients = [mp.mpf(0)]
    for k in range(n - 1, -1, -1):  # Horner on (x - points[k])
        shifted = [mp.mpf(0), *coefficients]
        for i, c in enumerate(coefficients):
            shifted[i] -= points[k] * c
        shifted[0] += table[k]
        coefficients = shifted
    return [float(c) for c in coefficients[:n]]


def of_square(f, at_zero):
    """f(sqrt(q)) / sqrt(q) for an odd f, or f(sqrt(q)) for one that is even already."""
    return lambda q: at_zero if q == 0 else f(mp.sqrt(q))


LARGEST_S = (mp.sqrt(2) - 1) / (mp.sqrt(2) + 1)
QUARTER_PI = mp.pi / 4
EIGHTH = mp.tan(mp.pi / 8)

#: Name: function of the fitted variable, its interval, the degree.
FITS = {
    "2^r on |r| <= 1/2": (lambda r: mp.mpf(2) ** r, mp.mpf(-0.5), mp.mpf(0.5), 7),
    "2 atanh(s)/s over s^2": (of_square(lambda s: 2 * mp.atanh(s) / s, mp.mpf(2)), mp.mpf(0), LARGEST_S**2, 4),
    "sin(r)/r over r^2": (of_square(lambda r: mp.sin(r) / r, mp.mpf(1)), mp.mpf(0), QUARTER_PI**2, 6),
    "cos(r) over r^2": (of_square(mp.cos, mp.mpf(1)), mp.mpf(0), QUARTER_PI**2, 7),
    "atan(t)/t over t^2": (of_square(lambda t: mp.atan(t) / t, mp.mpf(1)), mp.mpf(0), EIGHTH**2, 10),
}

if __name__ == "__main__":
    for name, (f, lower, upper, degree) in FITS.items():
        coefficients = fitted(f, lower, upper, degree)
        grid = [lower + (upper - lower) * k / 2000 for k in range(2001)]
        worst = max(abs(mp.polyval(coefficients[::-1], x) / f(x) - 1) for x in grid)
        print(f"{name}: relative error {mp.nstr(worst, 3)}")
        for c in coefficients:
            print(f"    {c!r},")
