#include "dual.hpp"

#include <doctest/doctest.h>

#include <array>
#include <whimbrel/core/dual.hpp>
#include <whimbrel/core/vector.hpp>

#include "agrees.hpp"

using namespace whimbrel;
using namespace whimbrel::test;

namespace {

using Dual7 = whimbrel::Dual<7>;

}  // namespace

TEST_CASE("every function of a number has its known derivative") {
  const double x = 0.6;
  const dual::Dual moving = dual::moving(x);
  const auto slope = [](const dual::Dual& y) { return y.slope(0); };
  CHECK(agrees(slope(sqrt(moving)), 0.5 / std::sqrt(x), 0, 1e-15));
  CHECK(agrees(slope(exp(moving)), std::exp(x), 0, 1e-15));
  CHECK(agrees(slope(log(moving)), 1 / x, 0, 1e-15));
  CHECK(agrees(slope(sin(moving)), std::cos(x), 0, 1e-15));
  CHECK(agrees(slope(cos(moving)), -std::sin(x), 0, 1e-15));
  CHECK(agrees(slope(tan(moving)), 1 / (std::cos(x) * std::cos(x)), 0, 1e-14));
  CHECK(agrees(slope(asin(moving)), 1 / std::sqrt(1 - x * x), 0, 1e-15));
  CHECK(agrees(slope(acos(moving)), -1 / std::sqrt(1 - x * x), 0, 1e-15));
  CHECK(agrees(slope(atan(moving)), 1 / (1 + x * x), 0, 1e-15));
  CHECK(agrees(slope(abs(-moving)), 1, 0, 0));
  CHECK(agrees(slope(pow(moving, dual::Dual(2.5))), 2.5 * std::pow(x, 1.5), 0, 1e-15));
  CHECK(agrees(slope(pow(dual::Dual(2.5), moving)), std::log(2.5) * std::pow(2.5, x), 0, 1e-15));
  CHECK(agrees(slope(atan2(moving, dual::Dual(2.0))), 2.0 / (4 + x * x), 0, 1e-15));
  CHECK(agrees(slope(atan2(dual::Dual(2.0), moving)), -2.0 / (4 + x * x), 0, 1e-15));
  CHECK(agrees(slope(dual::Dual(3.0) / moving), -3 / (x * x), 0, 1e-15));
}

TEST_CASE("every function of a number has the derivative of its differences") {
  for (const double x : {-0.7, -0.2, 0.3, 0.8})
    dual::differentiates(
        [](auto y) {
          using std::sin, std::cos, std::tan, std::atan, std::asin, std::acos, std::exp, std::atan2, std::abs;
          return std::array{sin(y),  cos(y),          tan(y),           atan(y),          asin(y),
                            acos(y), exp(y) * abs(y), atan2(y, cos(y)), atan2(-cos(y), y)};
        },
        x, 0.1);
}

TEST_CASE("one number has seven slopes at once, each that of its own input") {
  std::array<Dual7, 7> x;
  for (int k = 0; k < 7; ++k) x[static_cast<std::size_t>(k)] = Dual7::input(1.0 + 0.1 * k, k);
  Dual7 product(1.0), sum(0.0);
  for (const Dual7& factor : x) {
    product = product * factor;
    sum = sum + factor * factor;
  }
  for (int k = 0; k < 7; ++k) {
    const double here = value(x[static_cast<std::size_t>(k)]);
    CHECK(agrees(product.slope(k), value(product) / here, 0, 1e-15));
    CHECK(agrees(sum.slope(k), 2 * here, 0, 1e-15));
  }
}

TEST_CASE("a choice, a held number and a larger one take the slopes of what they are") {
  const Dual7 a = Dual7::input(1.0, 0), b = Dual7::input(2.0, 1);
  CHECK(choose(a < b, a, b).slope(0) == 1.0);
  CHECK(larger(a, b).slope(0) == 0.0);
  CHECK(larger(a, b).slope(1) == 1.0);
  CHECK(smaller(a, b).slope(0) == 1.0);
  CHECK(held(a, 0.0, 0.5).slope(0) == 0.0);
  CHECK(held(a, 0.0, 1.5).slope(0) == 1.0);
}

TEST_CASE("a comparison looks at the value alone") {
  const Dual7 a = Dual7::input(1.0, 0), same(1.0), more(2.0);
  CHECK((a <= same && a >= same && a < more && more > a));
  CHECK_FALSE((a < same || a > same));
}

TEST_CASE(
    "nothing that vanishes has an infinite slope: a length at zero, an angle at the origin, a power of 0") {
  const Dual7 none = Dual7::input(0.0, 0);
  CHECK(root(none).slope(0) == 0.0);
  CHECK(norm(Vec3<Dual7>{none, none, none}).slope(0) == 0.0);
  CHECK(atan2(none, none).slope(0) == 0.0);
  CHECK(pow(none, Dual7(2.0)).slope(0) == 0.0);
  const Dual7 flat(std::numeric_limits<double>::infinity());  // the radius of a flat face
  CHECK((Dual7::input(0.01, 2) / flat).slope(2) == 0.0);
}

TEST_CASE("a power of 1.5 is the number times its root, slopes too") {
  dual::differentiates(
      [](auto w) {
        using std::pow, std::sqrt;
        return std::array{pow(w, decltype(w)(1.5)) - w * sqrt(w)};
      },
      0.4, 0.1);
  const dual::Dual w = dual::moving(0.4);
  CHECK(agrees(pow(w, dual::Dual(1.5)).slope(0), (w * sqrt(w)).slope(0), 0, 1e-14));
}
