#include <doctest/doctest.h>

#include "agrees.hpp"
#include "runge_kutta.hpp"
#include "shots.hpp"

using namespace whimbrel;
using namespace whimbrel::test;

namespace {
const Setting<> vacuum{.air = {.density = 0.0}};
}

TEST_CASE("in a vacuum a ball flies a parabola") {
  // Derived: v^2 sin(2 a) / g = 117.324 m; tolerance as stated there.
  const Flight<> flight = fly(Launch<>{.ball_speed = 58.0, .launch_angle = 10_deg}, {}, vacuum);
  CHECK(agrees(flight.carry, 117.324, 0, 1e-6));
  CHECK(agrees(flight.carry, 58.0 * 58.0 * std::sin(20_deg) / standard_gravity, 0, 1e-9));
  CHECK(agrees(flight.apex, square(58.0 * std::sin(10_deg)) / (2 * standard_gravity), 0, 1e-9));
  CHECK(agrees(flight.apex_distance, flight.carry / 2, 0, 1e-9));
  CHECK(agrees(flight.flight_time, 2 * 58.0 * std::sin(10_deg) / standard_gravity, 0, 1e-9));
  CHECK(agrees(flight.descent_angle, 10_deg, 1e-9, 0));
  CHECK(agrees(flight.landing_speed, 58.0, 0, 1e-9));
}

TEST_CASE("without gravity constant coefficients fly a circle, its speed falling exponentially") {
  // Derived: radius 2 m / (rho A C_L) = 262.20 m; U / U0 = exp(-s / 209.76 m); tolerance as stated there.
  const ConstantCoefficients model{.drag = 0.25, .lift = 0.20};
  const Ball<> ball;
  const Launch<> launch{.ball_speed = 70.0, .spin_rate = 300.0};
  EquationOfMotion motion(model, ball, sea_level, launch);
  motion.gravity = 0.0;
  BallState<double> state = starting_state(launch, on_the_tee(ball, sea_level.terrain));
  const Vec3<double> centre = state.position + Vec3<double>{0, 0, 262.20};
  for (int i = 0; i < 6000; ++i) {
    state = stepped(motion, state, 1e-3);
    if (i % 500 != 0) continue;
    CHECK(agrees(norm(state.position - centre), 262.20, 0, 1e-5));
    const double arc = 262.20 * elevation(state.velocity);
    CHECK(agrees(norm(state.velocity), 70.0 * std::exp(-arc / 209.76), 0, 1e-5));
  }
}

TEST_CASE("a ball dropped from a great height falls at 45.354 m/s") {
  // Derived: sqrt(2 m g / (rho A C_D)); tolerance as stated there.
  const Setting<> cliff{.air = sea_level.air, .terrain = {.height = -1000.0}};
  const Flight<> fall = fly(Launch<>{}, ball_with(ConstantCoefficients{.drag = 0.25}), cliff);
  CHECK(fall.status == Status::ok);
  CHECK(agrees(fall.landing_speed, 45.354, 0, 1e-4));
  CHECK(agrees(fall.descent_angle, 90_deg, 1e-9, 0));
}

TEST_CASE("a ball with C_D 0.42 flies 72.63 m as in a problem of Herman") {
  // Problem published: Herman, A Course in Mathematical Methods for Physicists, ch. 2; answer derived.
  const ConstantCoefficients model{.drag = 0.42};
  const Ball<> ball{.mass = 0.046, .radius = 42.7_mm / 2};
  const Setting<> setting{.air = {.density = 1.21}};
  const Launch<> launch{.ball_speed = 36.0, .launch_angle = 30_deg};
  EquationOfMotion motion(model, ball, setting, launch);
  motion.gravity = 9.81;
  const BallState<double> start = starting_state(launch, on_the_tee(ball, setting.terrain));
  const auto landing = back_at_start_height(motion, start);
  CHECK(agrees(landing.state.position.y, 72.63, 0, 5e-4));
  CHECK(agrees(landing.time, 3.213, 0, 5e-4));
  CHECK(agrees(highest(motion, start).state.position.z - start.position.z, 12.77, 0, 5e-4));
}

TEST_CASE("constant coefficients carry 204.59 m") {
  // Derived; tolerance as stated there.
  const Launch<> launch{.ball_speed = 70.0, .launch_angle = 11_deg, .spin_rate = 300.0};
  const Flight<> flight = fly(launch, ball_with(ConstantCoefficients{.drag = 0.25, .lift = 0.15}), sea_level);
  CHECK(agrees(flight.carry, 204.59, 0, 2e-4));
  CHECK(agrees(flight.apex, 21.01, 0, 2e-4));
  CHECK(agrees(flight.flight_time, 5.301, 0, 2e-4));
  CHECK(agrees(flight.descent_angle / units::deg, 31.91, 0, 2e-4));
}

TEST_CASE("Smits and Smith's ball carries 215.135 m") {
  // Derived, constants from memory; tolerance as stated there.
  const Launch<> launch{.ball_speed = 70.0, .launch_angle = 12_deg, .spin_rate = 2700_rpm};
  const Flight<> flight = fly(launch, ball_with(SmitsSmith{}), sea_level);
  CHECK(agrees(flight.carry, 215.135, 0, 1e-4));
  CHECK(agrees(flight.apex, 31.342, 0, 1e-4));
  CHECK(agrees(flight.flight_time, 6.7593, 0, 1e-4));
  CHECK(agrees(flight.descent_angle / units::deg, 40.198, 0, 1e-4));
}

TEST_CASE("the square-root fit reproduces a teaching table within 3 m") {
  // Published: Rose-Hulman calculus problems, 58 m/s. The spin is not stated there: 2,900 rpm with a
  // constant drag of 0.26 and decay fits.
  const Ball<> ball = ball_with(SquareRootLift{.drag = 0.26, .drag_spin = 0.0});
  const std::array<std::array<double, 2>, 6> table{
      {{2.5, 94}, {5, 126}, {7.5, 145}, {10, 161}, {12.5, 170}, {15, 177}}};
  for (const auto& [angle, carry] : table) {
    const Launch<> launch{.ball_speed = 58.0, .launch_angle = angle * units::deg, .spin_rate = 2900_rpm};
    CHECK(agrees(fly(launch, ball, sea_level).carry, carry, 3.0, 0));
  }
}

TEST_CASE("the default ball carries the rules' launch 290.75 yd") {
  // Derived by independent code; tolerance as stated there.
  CHECK(agrees(fly(rules_launch, {}, rules_setting).carry / units::yd, 290.75, 0, 5e-4));
}

TEST_CASE("the default ball carries the rules' launch of 2028 307 yd") {
  // Derived, to the printed digits: 183 mph, 11 deg, 2,200 rpm.
  const Launch<> launch{.ball_speed = 183_mph, .launch_angle = 11_deg, .spin_rate = 2200_rpm};
  CHECK(agrees(fly(launch, {}, rules_setting).carry / units::yd, 307, 0.5, 0));
}
