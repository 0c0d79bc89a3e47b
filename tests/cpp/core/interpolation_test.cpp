#include <doctest/doctest.h>

#include <array>
#include <whimbrel/core/interpolation.hpp>

#include "agrees.hpp"
#include "dual.hpp"
#include "random_cases.hpp"

using namespace whimbrel;
using namespace whimbrel::test;

namespace {
constexpr std::array knots{0.0, 0.1, 0.15, 0.4, 1.0};
constexpr std::array rising{0.0, 0.2, 0.21, 0.3, 0.9};

template <class Values, class T>
T through(const Values& y, const T& x) {
  return monotone_cubic(
      std::span<const double>(knots), [&](std::size_t i) { return T(y[i]); }, x);
}
}  // namespace

TEST_CASE("a curve through points passes through them") {
  for (std::size_t i = 0; i < knots.size(); ++i)
    CHECK(agrees(through(rising, knots[i]), rising[i], 1e-15, 0));
}

TEST_CASE("a curve through rising points never falls") {
  in_random_cases(
      [](Random& random) {
        std::array<double, knots.size()> y{};
        for (std::size_t i = 1; i < y.size(); ++i)
          y[i] = y[i - 1] + random.between(0, 1) * random.between(0, 1);
        return std::tuple(y[1], y[2], y[3], y[4]);
      },
      [](double a, double b, double c, double d) {
        const std::array y{0.0, a, b, c, d};
        for (double x = 0; x < 1; x += 0.01) CHECK(through(y, x + 0.01) >= through(y, x) - 1e-15);
      });
}

TEST_CASE("a curve through points of a line is the line") {
  std::array<double, knots.size()> line{};
  for (std::size_t i = 0; i < line.size(); ++i) line[i] = 2 - 3 * knots[i];
  for (double x = 0; x <= 1; x += 0.01) CHECK(agrees(through(line, x), 2 - 3 * x, 1e-14, 0));
}

TEST_CASE("a curve stays at its ends beyond them, and turns flat at a peak") {
  CHECK(through(rising, -1.0) == rising.front());
  CHECK(through(rising, 2.0) == rising.back());
  constexpr std::array peak{0.0, 0.5, 1.0, 0.5, 0.0};
  for (double x = 0; x <= 1; x += 0.01) CHECK(through(peak, x) <= 1.0);
  const std::array one{3.0};
  CHECK(monotone_cubic(
            std::span<const double>(one), [](std::size_t) { return 7.0; }, 5.0) == 7.0);
}

TEST_CASE("a curve through points has the derivative of its differences") {
  for (const double x : {0.05, 0.12, 0.3, 0.7})
    dual::differentiates([](const auto& at) { return std::array{through(rising, at)}; }, x, 0.05);
}

TEST_CASE("a Hermite cubic reproduces any cubic") {
  const auto f = [](double x) { return 1 - x + 2 * x * x - 3 * x * x * x; };
  const auto df = [](double x) { return -1 + 4 * x - 9 * x * x; };
  const double a = 0.3, h = 1.7;
  for (double s = 0; s <= 1; s += 0.125)
    CHECK(agrees(cubic_hermite(s, h, f(a), df(a), f(a + h), df(a + h)), f(a + s * h), 1e-13, 1e-13));
}
