#include <doctest/doctest.h>

#include <whimbrel/setting/wind.hpp>

#include "agrees.hpp"
#include "dual.hpp"
#include "random_cases.hpp"

using namespace whimbrel;
using namespace whimbrel::test;

namespace {
constexpr std::array profiles{WindProfile::uniform, WindProfile::logarithmic, WindProfile::power_law};
using Vector = Vec3<double>;
}  // namespace

TEST_CASE("wind over grass of roughness 0.05 m blows 0.696 of itself at 2 m and 1.207 at 30 m") {
  // Derived from the plain logarithmic law; tolerance as stated there (the smooth form differs).
  const Wind<> wind{.speed = 5.0, .roughness_length = 0.05};
  CHECK(agrees(wind_share(wind, 2.0), 0.696, 0, 0.01));
  CHECK(agrees(wind_share(wind, 30.0), 1.207, 0, 0.01));
}

TEST_CASE("the logarithmic wind is calm at the ground, and no profile has a kink there") {
  for (const WindProfile profile : profiles) {
    const Wind<> wind{.profile = profile};
    CHECK(wind_share(wind, -5.0) == wind_share(wind, 0.0));
    const double near = wind_share(wind, 1e-9) - wind_share(wind, 0.0);
    CHECK(agrees(near, 0.0, 1e-7, 0));
  }
  CHECK(wind_share(Wind<>{}, 0.0) == 0.0);
}

TEST_CASE("every wind blows its own speed at its reference height and never less higher up") {
  in_random_cases(
      [](Random& random) {
        Wind<> wind = any_wind(random);
        wind.reference_height = random.between(1, 50);
        return std::tuple(wind, static_cast<int>(wind.profile), random.between(0, 60));
      },
      [](const Wind<>& wind, int, double height) {
        CHECK(agrees(wind_share(wind, wind.reference_height), 1.0, 1e-14, 0));
        CHECK(wind_share(wind, height + 1.0) >= wind_share(wind, height));
        CHECK(agrees(norm(wind_velocity(wind, height)), wind.speed * wind_share(wind, height), 1e-12, 0));
      });
}

TEST_CASE("a uniform wind is the same at every height, and the power law is steeper for a larger power") {
  for (const double z : {0.0, 1.0, 40.0})
    CHECK(wind_share(Wind<>{.profile = WindProfile::uniform}, z) == 1.0);
  const Wind<> weak{.exponent = 0.1, .profile = WindProfile::power_law};
  const Wind<> strong{.exponent = 0.3, .profile = WindProfile::power_law};
  CHECK(wind_share(strong, 40.0) > wind_share(weak, 40.0));
  // Derived: ((30.03) / (10.03))^(1/7).
  CHECK(agrees(wind_share(Wind<>{.profile = WindProfile::power_law}, 30.0), 1.16960, 5e-6, 0));
}

TEST_CASE(
    "a wind that is faster than any air where drives are highest is refused with the speed that is not") {
  for (const WindProfile profile : profiles) CHECK(!mistake(Wind<>{.speed = 100.0, .profile = profile}));
  // Derived: (50.03 / 1.03)^0.6 of 20 m/s is 205 m/s; 150 m/s there is 14.6 m/s at a metre.
  const auto error = mistake(
      Wind<>{.speed = 20.0, .reference_height = 1.0, .exponent = 0.6, .profile = WindProfile::power_law});
  REQUIRE(error);
  CHECK(error->field == "wind speed");
  CHECK(agrees(error->upper, 150.0 / std::pow(50.03 / 1.03, 0.6), 0, 1e-14));
}

TEST_CASE("a wind blows away from where it comes from") {
  CHECK(agrees(reference_velocity(head_wind(4.0)), Vector{0, -4, 0}, 1e-15, 0));
  CHECK(agrees(reference_velocity(tail_wind(4.0)), Vector{0, 4, 0}, 1e-15, 0));
  CHECK(agrees(reference_velocity(wind_from_right(4.0)), Vector{-4, 0, 0}, 1e-15, 0));
  CHECK(agrees(reference_velocity(wind_from_left(4.0)), Vector{4, 0, 0}, 1e-15, 0));
  CHECK(norm(reference_velocity(Wind<>{})) == 0.0);
}

TEST_CASE("the wind has the derivatives of its differences") {
  for (const WindProfile profile : profiles) {
    const auto blowing = [profile]<class T>(const T& height, const T& roughness) {
      const Wind<T> wind{
          .speed = T(6.0), .from_direction = T(0.4), .roughness_length = roughness, .profile = profile};
      const Vec3<T> v = wind_velocity(wind, height);
      return std::array{v.x, v.y, v.z};
    };
    dual::differentiates([&]<class T>(const T& z) { return blowing(z, T(0.03)); }, 12.0, 5.0);
    dual::differentiates([&]<class T>(const T& z0) { return blowing(T(12.0), z0); }, 0.05, 0.02);
  }
}
