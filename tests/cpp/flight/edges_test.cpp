#include <doctest/doctest.h>

#include "agrees.hpp"
#include "random_cases.hpp"
#include "shots.hpp"

using namespace whimbrel;
using namespace whimbrel::test;

namespace {

/// A result is defined: finite with a landing, NaN with a status that says why.
void is_defined(const Flight<>& flight) {
  const bool landed = flight.status == Status::ok || flight.status == Status::not_airborne;
  for (const auto& field : Flight<>::fields()) {
    CAPTURE(std::string(field.name));
    CHECK(std::isfinite(flight.*field.member) == landed);
  }
}

}  // namespace

TEST_CASE("a ball without spin flies, and does not curve") {
  const Flight<> flight = fly(Launch<>{.ball_speed = 60.0, .launch_angle = 20_deg});
  is_defined(flight);
  CHECK(flight.status == Status::ok);
  CHECK(flight.curve == 0.0);
  CHECK(flight.carry > 80.0);
}

TEST_CASE("next to no spin flies next to as no spin does") {
  Launch<> launch{.ball_speed = 60.0, .launch_angle = 20_deg};
  const double without = fly(launch).carry;
  for (const double spin : {1e-300, 1e-12, 1e-6}) {
    launch.spin_rate = spin;
    CHECK(agrees(fly(launch).carry, without, 1e-4, 0));
  }
}

TEST_CASE("a ball hit straight up comes straight down") {
  const Flight<> flight = fly(Launch<>{.ball_speed = 40.0, .launch_angle = 90_deg});
  is_defined(flight);
  CHECK(flight.status == Status::ok);
  CHECK(agrees(flight.carry, 0.0, 1e-9, 0));
  CHECK(agrees(flight.descent_angle, 90_deg, 1e-9, 0));
  CHECK(flight.apex > 40.0);
}

TEST_CASE("a wind stronger than the ball brings it back over the player") {
  const Wind<> gale{.speed = 40.0, .profile = WindProfile::uniform};
  const Flight<> flight = fly(Launch<>{.ball_speed = 20.0, .launch_angle = 45_deg, .spin_rate = 300.0}, {},
                              Setting<>{.wind = gale});
  is_defined(flight);
  CHECK(flight.status == Status::ok);
  CHECK(flight.downrange < 0.0);
}

TEST_CASE("a ball that is not struck, or struck into the ground, never leaves it") {
  for (const Launch<>& launch :
       {Launch<>{}, Launch<>{.ball_speed = 50.0}, Launch<>{.ball_speed = 50.0, .launch_angle = -5_deg},
        Launch<>{.ball_speed = 50.0, .launch_angle = -90_deg, .spin_rate = 100.0}}) {
    const Flight<> flight = fly(launch);
    is_defined(flight);
    CHECK(flight.status == Status::not_airborne);
    CHECK(flight.carry == 0.0);
    CHECK(flight.flight_time == 0.0);
    CHECK(flight.landing_speed == launch.ball_speed);
  }
}

TEST_CASE("from a tee a ball may leave level or down, and lands") {
  const Setting<> tee{.terrain = {.tee_height = 40_mm}};
  for (const double angle : {0_deg, -1_deg, -90_deg}) {
    const Flight<> flight = fly(Launch<>{.ball_speed = 30.0, .launch_angle = angle}, {}, tee);
    is_defined(flight);
    CHECK(flight.status == Status::ok);
    CHECK(agrees(flight.apex, 40_mm, 1e-12, 0));
  }
  CHECK(fly(Launch<>{.ball_speed = 30.0}, {}, tee).carry > 1.0);
}

TEST_CASE("ground far above the ball is never reached") {
  const Flight<> flight = fly(mid_iron, {}, Setting<>{.terrain = {.height = 200.0}});
  is_defined(flight);
  CHECK(flight.status == Status::no_landing);
}

TEST_CASE("no flight lands later than the 60 s after which it counts as not landing") {
  // The lightest ball accepted, with the most drag, falls at about 4 m/s, so that it comes down around 60 s.
  for (double height = -300.0; height < -50.0; height += 0.5) {
    const Ball<> balloon{.mass = 0.005, .radius = 0.0287, .aero = ConstantCoefficients{.drag = 2.0}};
    const Flight<> flight = fly(Launch<>{}, balloon, Setting<>{.terrain = {.height = height}});
    is_defined(flight);
    CAPTURE(height);
    if (flight.status == Status::ok) CHECK(flight.flight_time <= 60.0);
  }
}

TEST_CASE("however flat a ball leaves the ground, it lands") {
  for (double angle = 1e-15; angle < 0.1; angle *= 1.7)
    for (const double speed : {1.0, 30.0, 80.0}) {
      const Flight<> flight = fly(Launch<>{.ball_speed = speed, .launch_angle = angle});
      CAPTURE(angle);
      CAPTURE(speed);
      is_defined(flight);
      CHECK((flight.status == Status::ok || flight.status == Status::not_airborne));
    }
}

TEST_CASE("however slow a ball leaves the ground, it lands") {
  for (double speed = 1e-300; speed < 1.0; speed *= 1e4) {
    const Flight<> flight = fly(Launch<>{.ball_speed = speed, .launch_angle = 30_deg, .spin_rate = 100.0});
    CAPTURE(speed);
    is_defined(flight);
    CHECK((flight.status == Status::ok || flight.status == Status::not_airborne));
  }
}

TEST_CASE("ground that is not a number somewhere fails with a status") {
  for (const double width : {0.01, 0.3, 3.0, 300.0})
    for (const double start : {-1.0, 10.0, 120.0, 150.0, 155.0, 156.0, 157.0}) {
      const auto hole = [=](double, double y) { return y > start && y < start + width ? NAN : 0.0; };
      const Row row = play_row(mid_iron, {}, Setting<>{.terrain = {.surface = hole}});
      is_defined(row.shot.flight);
    }
}

TEST_CASE("drag that pushes fails with a status") {
  // A wave larger than the constant part makes C_D negative at high Reynolds numbers.
  const Ball<> pushed = ball_with(SmitsSmith{.drag_wave = -0.68});
  const Setting<> far_below{.air = {.viscosity = 1e-6}, .terrain = {.height = -1000.0}};
  is_defined(play_row(mid_iron, pushed, far_below).shot.flight);
}

TEST_CASE("every launch within the accepted ranges has a defined result") {
  in_random_cases(
      [](Random& random) {
        Launch<> launch;
        for (const auto& field : Launch<>::fields())
          launch.*field.member = random.between(field.lower, field.upper);
        launch.axial_spin_rate = random.between(-1, 1) * launch.spin_rate;
        Setting<> setting = any_setting(random);
        setting.wind.speed = random.between(0, 100);
        setting.terrain.height = random.between(-1000, 1000);
        return std::tuple(launch, setting);
      },
      [](const Launch<>& launch, const Setting<>& setting) { is_defined(fly(launch, {}, setting)); });
}
