#pragma once
#include <doctest/doctest.h>

#include <cmath>
#include <whimbrel/core/scalar.hpp>

#include "agrees.hpp"

/// The least a number of one's own must bring to be a `whimbrel::Scalar`: a value with one derivative.
namespace dual {

struct Dual {
  double number = 0.0, slope = 0.0;

  constexpr Dual() = default;
  constexpr explicit Dual(double number, double slope = 0.0) : number(number), slope(slope) {}

  friend constexpr Dual operator+(Dual a, Dual b) { return Dual(a.number + b.number, a.slope + b.slope); }
  friend constexpr Dual operator-(Dual a, Dual b) { return Dual(a.number - b.number, a.slope - b.slope); }
  friend constexpr Dual operator-(Dual a) { return Dual(-a.number, -a.slope); }
  friend constexpr Dual operator*(Dual a, Dual b) {
    return Dual(a.number * b.number, a.slope * b.number + a.number * b.slope);
  }
  friend constexpr Dual operator/(Dual a, Dual b) {
    return Dual(a.number / b.number, (a.slope - a.number / b.number * b.slope) / b.number);
  }
  friend constexpr auto operator<=>(Dual a, Dual b) { return a.number <=> b.number; }
  friend constexpr bool operator==(Dual a, Dual b) { return a.number == b.number; }
};

constexpr double value(Dual x) { return x.number; }
constexpr Dual choose(bool condition, Dual a, Dual b) { return condition ? a : b; }

inline Dual sqrt(Dual x) { return Dual(std::sqrt(x.number), x.slope / (2 * std::sqrt(x.number))); }
inline Dual exp(Dual x) { return Dual(std::exp(x.number), std::exp(x.number) * x.slope); }
inline Dual log(Dual x) { return Dual(std::log(x.number), x.slope / x.number); }
inline Dual sin(Dual x) { return Dual(std::sin(x.number), std::cos(x.number) * x.slope); }
inline Dual cos(Dual x) { return Dual(std::cos(x.number), -std::sin(x.number) * x.slope); }
inline Dual tan(Dual x) {
  return Dual(std::tan(x.number), x.slope / (std::cos(x.number) * std::cos(x.number)));
}
inline Dual asin(Dual x) { return Dual(std::asin(x.number), x.slope / std::sqrt(1 - x.number * x.number)); }
inline Dual atan(Dual x) { return Dual(std::atan(x.number), x.slope / (1 + x.number * x.number)); }
inline Dual acos(Dual x) { return Dual(std::acos(x.number), -x.slope / std::sqrt(1 - x.number * x.number)); }
inline Dual atan2(Dual y, Dual x) {
  return Dual(std::atan2(y.number, x.number),
              (x.number * y.slope - y.number * x.slope) / (x.number * x.number + y.number * y.number));
}
inline Dual pow(Dual x, Dual y) {
  const double power = std::pow(x.number, y.number);
  return Dual(power, power * (y.number * x.slope / x.number + std::log(x.number) * y.slope));
}

static_assert(whimbrel::Scalar<Dual>);

/// `f`, a generic function of one number that gives an array of them, is the same for `Dual` as for
/// `double` (to rounding), and its derivative at x is its central difference.
///
/// With a step of h = 6e-6 s (the cube root of the rounding unit times the scale s on which f varies)
/// the difference's own error is about 4e-11 |f| / s of rounding and as much of truncation: 1e-8 is allowed,
/// or `allowed` where f itself is not that smooth.
template <class F>
void differentiates(const F& f, double x, double scale, double allowed = 1e-8) {
  const double h = 6e-6 * scale;
  const auto with_slope = f(Dual(x, 1.0));
  const auto here = f(x), before = f(x - h), after = f(x + h);
  for (std::size_t i = 0; i < here.size(); ++i) {
    CAPTURE(i);
    CHECK(whimbrel::test::agrees(value(with_slope[i]), here[i], 1e-15, 1e-14));
    const double size = std::abs(here[i]) / scale + std::abs(with_slope[i].slope);
    CHECK(whimbrel::test::agrees(with_slope[i].slope, (after[i] - before[i]) / (2 * h), allowed * size + 1e-9,
                                 0));
  }
}

}  // namespace dual
