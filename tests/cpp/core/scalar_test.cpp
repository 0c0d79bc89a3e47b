#include <doctest/doctest.h>

#include <whimbrel/core/scalar.hpp>

#include "dual.hpp"

using namespace whimbrel;
using test::agrees;

TEST_CASE("a number held between edges is the nearest number inside") {
  CHECK(held(0.5, 0.0, 1.0) == 0.5);
  CHECK(held(-3.0, 0.0, 1.0) == 0.0);
  CHECK(held(7.0, 0.0, 1.0) == 1.0);
  CHECK(excess(0.5, 0.0, 1.0) == 0.0);
  CHECK(excess(-3.0, 0.0, 1.0) == -3.0);
  CHECK(excess(7.0, 0.0, 1.0) == 6.0);
  CHECK(smaller(2.0, 3.0) == 2.0);
  CHECK(larger(2.0, 3.0) == 3.0);
}

TEST_CASE("the dual number of the tests differentiates each of its functions") {
  const auto every = [](const auto& x) {
    using T = std::remove_cvref_t<decltype(x)>;
    using std::acos, std::asin, std::atan, std::atan2, std::cos, std::exp, std::log, std::pow, std::sin,
        std::sqrt, std::tan;
    return std::array<T, 12>{x + x,
                             x - x * x,
                             x / (T(1.0) + x),
                             -x,
                             sqrt(x),
                             exp(x),
                             log(x),
                             sin(x),
                             cos(x),
                             acos(x) * x,
                             asin(x) * atan(x) * tan(x),
                             pow(x, x) + atan2(x, cos(x))};
  };
  for (const double x : {0.2, 0.5, 0.8}) dual::differentiates(every, x, 0.1);
}

TEST_CASE("a held number has slope 1 inside its edges and 0 outside") {
  CHECK(held(dual::moving(0.5), 0.0, 1.0).slope(0) == 1.0);
  CHECK(held(dual::moving(1.5), 0.0, 1.0).slope(0) == 0.0);
  CHECK(square(dual::moving(3.0)).slope(0) == 6.0);
}
