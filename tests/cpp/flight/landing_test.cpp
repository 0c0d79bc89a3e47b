#include <doctest/doctest.h>

#include "agrees.hpp"
#include "random_cases.hpp"
#include "shots.hpp"

using namespace whimbrel;
using namespace whimbrel::test;

namespace {

/// The ball's bottom is on the ground at the landing, and above it before.
void lands_on_the_ground(const Flight<>& flight, const Setting<>& setting) {
  const auto bottom = [&](double time) {
    const Vec3<double> p = flight.trajectory.position_at(time);
    return p.z - Ball<>{}.radius - ground_height(setting.terrain, p.x, p.y);
  };
  CHECK(agrees(bottom(flight.flight_time), 0.0, 1e-9, 0));
  for (int i = 1; i < 50; ++i) CHECK(bottom(flight.flight_time * i / 50) > -1e-6);
}

}  // namespace

TEST_CASE("a plane given as a function is the same ground") {
  in_random_cases([](Random& random) { return std::tuple(any_launch(random), any_setting(random)); },
                  [](const Launch<>& launch, const Setting<>& setting) {
                    Setting<> function = setting;
                    function.terrain.surface = [plane = setting.terrain](double x, double y) {
                      return plane.height + plane.slope_right * x + plane.slope_downrange * y;
                    };
                    const Flight<> a = fly(launch, {}, setting), b = fly(launch, {}, function);
                    CHECK(a.status == b.status);
                    if (a.status != Status::ok) return;
                    CHECK(agrees(a.carry, b.carry, 1e-9, 0));
                    CHECK(agrees(a.offline, b.offline, 1e-9, 0));
                    CHECK(agrees(a.flight_time, b.flight_time, 1e-9, 0));
                  });
}

TEST_CASE("a ball lands with its bottom on the plane") {
  in_random_cases([](Random& random) { return std::tuple(any_launch(random), any_setting(random)); },
                  [](const Launch<>& launch, const Setting<>& setting) {
                    const Flight<> flight = fly(launch, {}, setting);
                    if (flight.status == Status::ok) lands_on_the_ground(flight, setting);
                  });
}

TEST_CASE("a ball lands on a bump that stands in its way") {
  const auto bump = [](double, double y) { return 20.0 * std::exp(-square((y - 140.0) / 5.0)); };
  const Setting<> bumpy{.terrain = {.surface = bump}};
  const Flight<> level = fly(mid_iron), stopped = fly(mid_iron, {}, bumpy);
  CHECK(stopped.status == Status::ok);
  CHECK(stopped.carry < level.carry - 5.0);
  CHECK(agrees(stopped.carry, 140.0, 10.0, 0));
  lands_on_the_ground(stopped, bumpy);
}

TEST_CASE("a ball clears a bump lower than its flight") {
  const auto bump = [](double, double y) { return 10.0 * std::exp(-square((y - 80.0) / 5.0)); };
  CHECK(
      agrees(fly(mid_iron, {}, Setting<>{.terrain = {.surface = bump}}).carry, fly(mid_iron).carry, 1e-9, 0));
}

TEST_CASE("a thin wall is not flown through") {
  const auto wall = [](double, double y) { return std::abs(y - 40.0) < 0.6 ? 30.0 : 0.0; };
  CHECK(agrees(fly(drive, {}, Setting<>{.terrain = {.surface = wall}}).carry, 40.0, 0.7, 0));
}

TEST_CASE("a tee adds what the descent gives for its height") {
  const Flight<> ground = fly(drive), tee = fly(drive, {}, Setting<>{.terrain = {.tee_height = 40_mm}});
  CHECK(agrees(tee.carry - ground.carry, 40_mm / std::tan(ground.descent_angle), 2_mm, 0));
  CHECK(agrees(tee.apex - ground.apex, 40_mm, 1e-6, 0));
}

TEST_CASE("a launch below the slope stays on the ground, one above it flies") {
  const Setting<> uphill{.terrain = {.slope_downrange = 0.2}};
  const double slope = std::atan(0.2);
  for (const double below : {1e-6, 0.05, 0.5}) {
    const Flight<> flight = fly(Launch<>{.ball_speed = 50.0, .launch_angle = slope - below}, {}, uphill);
    CAPTURE(below);
    CHECK(flight.status == Status::not_airborne);
    CHECK(flight.carry == 0.0);
  }
  const Flight<> above = fly(Launch<>{.ball_speed = 50.0, .launch_angle = slope + 0.1}, {}, uphill);
  CHECK(above.status == Status::ok);
  CHECK(above.carry > 10.0);
}

TEST_CASE("downhill a ball may be struck below the horizon and still fly") {
  const Setting<> downhill{.terrain = {.slope_downrange = -0.3}};
  const Flight<> flight = fly(Launch<>{.ball_speed = 50.0, .launch_angle = -5_deg}, {}, downhill);
  CHECK(flight.status == Status::ok);
  CHECK(flight.carry > 20.0);
  CHECK(flight.apex == 0.0);
}

TEST_CASE("a launch along a slope, to rounding, either stays or lands near by") {
  in_random_cases(
      [](Random& random) {
        const Terrain<> plane{.slope_right = random.between(-0.3, 0.3),
                              .slope_downrange = random.between(-0.3, 0.3)};
        const double heading = random.between(-40, 40) * units::deg;
        const Vec3<double> way = direction(heading, 0.0);
        const double slope = std::atan(plane.slope_right * way.x + plane.slope_downrange * way.y);
        return std::tuple(
            Launch<>{.ball_speed = random.between(1, 80), .launch_angle = slope, .launch_direction = heading},
            Setting<>{.terrain = plane});
      },
      [](const Launch<>& launch, const Setting<>& setting) {
        const Flight<> flight = fly(launch, {}, setting);
        CHECK((flight.status == Status::ok || flight.status == Status::not_airborne));
        CHECK(flight.carry < 1e-3);
      });
}
