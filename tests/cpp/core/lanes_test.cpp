#include <doctest/doctest.h>

#include <whimbrel/core/paired.hpp>

#include "agrees.hpp"
#include "random_cases.hpp"

using namespace whimbrel;
using namespace whimbrel::test;

namespace {

struct ThisTest;
using Two = Lanes<2, ThisTest>;
using Four = Paired<Two>;
using One = Lane<ThisTest>;

template <class T>
double in_lane(const T& numbers, int i) {
  return reinterpret_cast<const double*>(&numbers)[i];
}

/// A number in the last lane of many, others beside it.
template <class T>
T beside_others(double x) {
  T numbers(0.5);
  reinterpret_cast<double*>(&numbers)[T::width - 1] = x;
  return numbers;
}

template <class T, class F, class G>
void same_in_lanes(const F& f, const G& expected, double x, double absolute, double relative) {
  const double got = in_lane(f(beside_others<T>(x)), T::width - 1);
  CAPTURE(x);
  CHECK(agrees(got, expected(x), absolute, relative));
}

}  // namespace

static_assert(Scalar<One> && Scalar<Two> && Scalar<Four>);
static_assert(is_lanes<Four> && !is_lanes<double>);

TEST_CASE_TEMPLATE("the functions of lanes are those of numbers, to their stated errors", T, One, Two, Four) {
  Random random{std::mt19937_64(1)};
  for (unsigned i = 0; i < random_cases; ++i) {
    const double x = random.between(-30, 30), y = random.between(-3, 3), positive = std::exp(x);
    same_in_lanes<T>([](const T& v) { return exp(v); }, [](double v) { return std::exp(v); }, x, 0, 1e-10);
    same_in_lanes<T>([](const T& v) { return log(v); }, [](double v) { return std::log(v); }, positive, 0,
                     1e-11);
    same_in_lanes<T>([](const T& v) { return sin(v); }, [](double v) { return std::sin(v); }, x, 1e-15, 0);
    same_in_lanes<T>([](const T& v) { return cos(v); }, [](double v) { return std::cos(v); }, x, 1e-15, 0);
    same_in_lanes<T>([](const T& v) { return sqrt(v); }, [](double v) { return std::sqrt(v); }, positive, 0,
                     1e-16);
    same_in_lanes<T>([&](const T& v) { return atan2(v, T(y)); }, [&](double v) { return std::atan2(v, y); },
                     x, 1e-15, 0);
    same_in_lanes<T>([](const T& v) { return pow(v, T(0.4)); }, [](double v) { return std::pow(v, 0.4); },
                     positive, 0, 2e-10);
    same_in_lanes<T>([&](const T& v) { return reciprocals(v, T(y)).first; }, [](double v) { return 1 / v; },
                     positive, 0, 1e-15);
    same_in_lanes<T>([&](const T& v) { return reciprocals(T(y), v).second; }, [](double v) { return 1 / v; },
                     positive, 0, 1e-15);
    same_in_lanes<T>([](const T& v) { return rough_power(v, -0.1); },
                     [](double v) { return std::pow(v, -0.1); }, positive, 0, 0.12);
  }
}

TEST_CASE_TEMPLATE("a choice, the smaller and the larger are made lane by lane, and keep what is no number",
                   T, One, Two, Four) {
  const int last = T::width - 1;
  const T x = beside_others<T>(-2.0), zero(0.0);
  CHECK(in_lane(choose(x < zero, T(1.0), T(2.0)), last) == 1.0);
  CHECK(in_lane(choose(x < zero || x > T(5.0), T(1.0), T(2.0)), last) == 1.0);
  CHECK(in_lane(choose(!(x < zero) && x < zero, T(1.0), T(2.0)), last) == 2.0);
  CHECK(in_lane(smaller(x, zero), last) == -2.0);
  CHECK(in_lane(larger(x, zero), last) == 0.0);
  if (T::width > 1) CHECK(in_lane(choose(x < zero, T(1.0), T(2.0)), 0) == 2.0);
  CHECK(lanes_where(x < zero) == 1u << last);
  CHECK(any(x < zero));
  CHECK_FALSE(any(x > T(5.0)));
  const T none = beside_others<T>(NAN);
  for (const T& result : {exp(none), log(none), sin(none), atan2(none, T(1.0)), larger(none, zero)})
    CHECK(std::isnan(in_lane(result, last)));
  CHECK(std::isnan(in_lane(log(x), last)));
}
