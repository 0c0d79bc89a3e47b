#pragma once
#include <doctest/doctest.h>

#include <array>
#include <whimbrel/core/dual.hpp>

#include "agrees.hpp"

/// Derivatives by one number, and what they are checked against.
namespace dual {

using Dual = whimbrel::Dual<1>;

/// A number that moves as fast as `slope` says.
inline Dual moving(double x, double slope = 1.0) { return {x, Dual::Slopes{slope}}; }

/// `f`, a generic function of one number that gives an array of them, is the same for `Dual` as for
/// `double` (to rounding), and its derivative at x is its central difference.
///
/// With a step of h = 6e-6 s (the cube root of the rounding unit times the scale s on which f varies)
/// the difference's own error is about 4e-11 |f| / s of rounding and as much of truncation: 1e-8 is allowed,
/// or `allowed` where f itself is not that smooth.
template <class F>
void differentiates(const F& f, double x, double scale, double allowed = 1e-8) {
  const double h = 6e-6 * scale;
  const auto with_slope = f(moving(x));
  const auto here = f(x), before = f(x - h), after = f(x + h);
  for (std::size_t i = 0; i < here.size(); ++i) {
    CAPTURE(i);
    CHECK(whimbrel::test::agrees(value(with_slope[i]), here[i], 1e-15, 1e-14));
    const double size = std::abs(here[i]) / scale + std::abs(with_slope[i].slope(0));
    CHECK(whimbrel::test::agrees(with_slope[i].slope(0), (after[i] - before[i]) / (2 * h),
                                 allowed * size + 1e-9, 0));
  }
}

}  // namespace dual
