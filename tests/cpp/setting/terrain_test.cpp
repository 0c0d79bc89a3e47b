#include <doctest/doctest.h>

#include <whimbrel/setting/setting.hpp>

#include "agrees.hpp"
#include "random_cases.hpp"

using namespace whimbrel;
using namespace whimbrel::test;

TEST_CASE("a plane rises by its slopes from its height") {
  const Terrain<> plane{.height = -3.0, .slope_right = 0.02, .slope_downrange = -0.05};
  CHECK(agrees(ground_height(plane, 10.0, 200.0), -3.0 + 0.2 - 10.0, 1e-13, 0));
}

TEST_CASE("a surface function stands in place of the plane") {
  const Terrain<> terrain{.height = 50.0, .surface = [](double x, double y) { return x * y; }};
  CHECK(ground_height(terrain, 3.0, 4.0) == 12.0);
}

TEST_CASE("the wind is read from the lower of tee level and ground") {
  CHECK(height_in_wind(Terrain<>{.height = -8.0}, {0, 100, 5}) == 13.0);
  CHECK(height_in_wind(Terrain<>{.height = 3.0}, {0, 100, 5}) == 5.0);
}

TEST_CASE("a setting is refused for the first mistake of its air, wind or ground") {
  CHECK(!mistake(Setting<>{}));
  CHECK(mistake(Setting<>{.air = {.density = -1.0}})->field == "density");
  CHECK(mistake(Setting<>{.wind = {.speed = -1.0}})->field == "wind speed");
  CHECK(mistake(Setting<>{.terrain = {.slope_right = 2.0}})->field == "slope_right");
}

TEST_CASE("the ground's normal leans away from the rise, on a plane as on a surface of that shape") {
  const Terrain<> plane{.slope_right = 0.3, .slope_downrange = -0.4};
  const double up = std::sqrt(1 + 0.09 + 0.16);
  CHECK(agrees(ground_normal(plane, 5.0, 7.0), Vec3<double>{-0.3 / up, 0.4 / up, 1 / up}, 1e-15, 0));
  const Terrain<> same{.surface = [](double x, double y) { return 0.3 * x - 0.4 * y; }};
  CHECK(
      agrees(ground_normal(same, 5.0, 7.0), ground_normal(plane, 5.0, 7.0), 1e-13, 0));  // differences, 2 cm
}
