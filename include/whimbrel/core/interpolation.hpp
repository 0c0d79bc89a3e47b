#pragma once
#include <algorithm>
#include <cstddef>
#include <span>

#include "whimbrel/core/scalar.hpp"

namespace whimbrel {

/// Cubic Hermite on [0, 1] of a step of width h: values a, b and slopes da, db at its ends.
template <Scalar T>
T cubic_hermite(const T& s, const T& h, const T& a, const T& da, const T& b, const T& db) {
  const T r = T(1.0) - s;
  return r * r * ((T(1.0) + T(2.0) * s) * a + s * h * da) + s * s * ((T(3.0) - T(2.0) * s) * b - r * h * db);
}

/// Slope at a knot between two intervals (widths h, secants d) that keeps data monotone.
/// Source: Fritsch & Butland, SIAM J. Sci. Stat. Comput. 5 (1984) 300 (from memory).
template <Scalar T>
T monotone_slope(double h0, double h1, const T& d0, const T& d1) {
  const auto same_sign = d0 * d1 > T(0.0);
  const double w0 = 2 * h1 + h0, w1 = h1 + 2 * h0;
  const T safe0 = choose(same_sign, d0, T(1.0)), safe1 = choose(same_sign, d1, T(1.0));
  return choose(same_sign, T(w0 + w1) / (T(w0) / safe0 + T(w1) / safe1), T(0.0));
}

/// Slope at the first or last knot: one-sided, three-point, kept monotone (same source).
template <Scalar T>
T monotone_end_slope(double h0, double h1, const T& d0, const T& d1) {
  const T slope = (T(2 * h0 + h1) * d0 - T(h0) * d1) * T(1.0 / (h0 + h1));
  const T limited = choose(square(slope) > T(9.0) * square(d0) && !(d0 * d1 > T(0.0)), T(3.0) * d0, slope);
  return choose(slope * d0 > T(0.0), limited, T(0.0));
}

/// Monotone cubic interpolation through (x_i, y(i)), x held inside the knots. Between two knots
/// it reads at most four values of `y`, a callable of the index.
template <Scalar T, class Y>
T monotone_cubic(std::span<const double> knots, const Y& y, const T& x) {
  const std::size_t n = knots.size();
  if (n == 1) return y(0);
  const T inside = held(x, knots.front(), knots.back());
  const auto above = std::upper_bound(knots.begin() + 1, knots.end() - 1, value(inside));
  const std::size_t i = static_cast<std::size_t>(above - knots.begin()) - 1;
  const auto width = [&](std::size_t k) { return knots[k + 1] - knots[k]; };
  const auto secant = [&](std::size_t k) { return (y(k + 1) - y(k)) * T(1.0 / width(k)); };
  const auto slope = [&](std::size_t k) -> T {
    if (n == 2) return secant(0);
    if (k == 0) return monotone_end_slope(width(0), width(1), secant(0), secant(1));
    if (k == n - 1) return monotone_end_slope(width(n - 2), width(n - 3), secant(n - 2), secant(n - 3));
    return monotone_slope(width(k - 1), width(k), secant(k - 1), secant(k));
  };
  const T s = (inside - T(knots[i])) * T(1.0 / width(i));
  return cubic_hermite(s, T(width(i)), y(i), slope(i), y(i + 1), slope(i + 1));
}

}  // namespace whimbrel
