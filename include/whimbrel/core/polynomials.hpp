#pragma once
#include <cstddef>
#include <cstdint>

/// exp, log, sin, cos and atan2 by polynomials, for numbers that give access to their bits
/// (`core/lanes.hpp`).
///
/// Coefficients and proven error bounds: `validation/polynomials`.
namespace whimbrel::polynomials {

/// c_0 + c_1 x + … by Estrin's scheme: halves that do not wait for each other. `powers` are x, x^2, x^4, x^8.
template <std::size_t First, std::size_t Count, class T, std::size_t N>
[[gnu::always_inline]] inline T part(const T (&powers)[4], const double (&c)[N]) {
  if constexpr (Count == 1) {
    return T(c[First]);
  } else {
    constexpr std::size_t level = Count > 8   ? 3
                                  : Count > 4 ? 2
                                  : Count > 2 ? 1
                                              : 0,
                          half = std::size_t{1} << level;
    return part<First, half>(powers, c) + powers[level] * part<First + half, Count - half>(powers, c);
  }
}

template <class T, std::size_t N>
[[gnu::always_inline]] inline T polynomial(const T& x, const double (&c)[N]) {
  static_assert(N <= 16);
  const T x2 = x * x, x4 = x2 * x2;
  const T powers[4] = {x, x2, x4, x4 * x4};
  return part<0, N>(powers, c);
}

inline constexpr int mantissa_bits = 52, exponent_bias = 1023;
inline constexpr std::uint64_t one_bits = 0x3ff0000000000000;
inline constexpr double to_integer =
    0x1.8p52;  // added to a number, it rounds it; its low bits are the integer

/// Relative error below 1e-10; x held to +-700.
template <class T>
T exp(const T& x) {
  // 2^r for what is left of the power of two beside its nearest whole number.
  constexpr double c[] = {0.9999999999595618,     0.6931471805568324,    0.24022651213498092,
                          0.055504109063258665,   0.009618025613318034,  0.0013333478473685416,
                          0.00015469729214118296, 1.5303700711365693e-05};
  constexpr double per_power = 0x1.71547652b82fep+0;  // 1 / ln(2)
  // In this order NaN stays NaN, as arithmetic makes it: with nothing in its low bits.
  const T power = smaller(T(700.0 * per_power), larger(per_power * x, T(-700.0 * per_power)));
  const T shifted = power + T(to_integer), whole = shifted - T(to_integer);
  return T::from_bits(polynomial(power - whole, c).bits() + (shifted.bits() << mantissa_bits));
}

/// Of a positive, finite number: relative error below 1e-11. NaN for NaN and below zero.
template <class T>
T log(const T& x) {
  constexpr double c[] = {2.0000000000083595, 0.6666666524748752, 0.4000038467237519, 0.2853505103781631,
                          0.23616359099145984};
  // x = 2^n m with m in [sqrt(1/2), sqrt(2)), and log m = 2 atanh((m - 1) / (m + 1)).
  constexpr std::uint64_t root_half = 0x3fe6a09e667f3bcd;
  const typename T::Bits n_bits =
      ((x.bits() + T::all(one_bits - root_half)) >> mantissa_bits) - T::all(exponent_bias);
  const T m = T::from_bits(x.bits() - (n_bits << mantissa_bits));
  const T n = T::from_bits(n_bits + T(to_integer).bits()) - T(to_integer);
  const T s = (m - T(1.0)) / (m + T(1.0));
  const T result = n * T(0x1.62e42fefa39efp-1) + s * polynomial(s * s, c);
  return choose(x >= T(0.0), result, T(__builtin_nan("")));
}

/// x^power within 12 %, for a positive x and a small power. The bits of a number, read as an integer, are its
/// logarithm except for the curve between powers of two.
template <class T>
T rough_power(const T& x, double power) {
  constexpr int kept = 32;  // bits of the logarithm after its point
  constexpr double scale = 4294967296.0;
  const T raised = T(0x1p52);
  const T log2 = (T::from_bits((x.bits() >> (mantissa_bits - kept)) + raised.bits()) - raised) -
                 T(exponent_bias * scale);
  const T result = T(power) * log2 + T(exponent_bias * scale + to_integer);
  return T::from_bits((result.bits() - T(to_integer).bits()) << (mantissa_bits - kept));
}

/// An angle less the nearest whole number of quarter turns, and that number plus to_integer; for |x| < 1e5.
template <class T>
struct QuarterTurns {
  T rest, shifted;
};

template <class T>
QuarterTurns<T> quarter_turns(const T& x) {
  const T shifted = x * T(0x1.45f306dc9c883p-1) + T(to_integer), n = shifted - T(to_integer);
  return {((x - n * T(0x1.921fb544p+0)) - n * T(0x1.0b4611a6p-34)) - n * T(0x1.3198a2e037073p-69), shifted};
}

/// The sine of r and some quarter turns: of r itself or its cosine, or either negative.
template <class T>
T turned_sine(const T& r, const typename T::Bits& turns) {
  constexpr double s[] = {1.0,
                          -0.16666666666666616,
                          0.008333333333320363,
                          -0.000198412698286503,
                          2.755731337640013e-06,
                          -2.5050716974102745e-08,
                          1.5894736651849094e-10};
  constexpr double c[] = {1.0,
                          -0.5,
                          0.04166666666666645,
                          -0.0013888888888861095,
                          2.4801587283881152e-05,
                          -2.7557313097790086e-07,
                          2.0875582380663952e-09,
                          -1.1353379638297575e-11};
  const T r2 = r * r;
  const T size = choose(T::where_set(turns, 1), polynomial(r2, c), r * polynomial(r2, s));
  return T::from_bits(size.bits() ^ ((turns & T::all(2)) << 62));
}

/// Relative error below 1e-15 of the larger of the sine and 1e-3.
template <class T>
T sin(const T& x) {
  const QuarterTurns<T> q = quarter_turns(x);
  return turned_sine(q.rest, q.shifted.bits());
}

template <class T>
T cos(const T& x) {
  const QuarterTurns<T> q = quarter_turns(x);
  return turned_sine(q.rest, q.shifted.bits() + T::all(1));
}

/// Error below 1e-15 rad. The angle of (0, 0) is 0.
template <class T>
T atan2(const T& y, const T& x) {
  constexpr double c[] = {1.0,
                          -0.3333333333332844,
                          0.1999999999885511,
                          -0.14285714180976467,
                          0.11111106180455946,
                          -0.09090773074808414,
                          0.07689953496306857,
                          -0.06640233930429408,
                          0.056883492268090106,
                          -0.04348052215716462,
                          0.021135373157693246};
  constexpr double pi = 0x1.921fb54442d18p+1, tan_eighth = 0x1.a827999fcef32p-2;  // tan(pi/8)
  const T a = abs(x), b = abs(y);
  const typename T::Condition steep = b > a;
  const T large = choose(steep, b, a), small = choose(steep, a, b);
  // atan(p/q) = pi/4 + atan((p - q) / (p + q)) beyond an eighth of a half turn.
  const typename T::Condition far = small > T(tan_eighth) * large;
  const T p = choose(far, small - large, small), q = choose(far, small + large, large);
  const T t = p / choose(q > T(0.0), q, T(1.0));
  const T near = choose(far, T(pi / 4), T(0.0)) + t * polynomial(t * t, c);
  const T first = choose(steep, T(pi / 2) - near, near);
  const T upper = choose(x < T(0.0), T(pi) - first, first);
  return choose(y < T(0.0), -upper, upper);
}

}  // namespace whimbrel::polynomials
