#include <doctest/doctest.h>

#include <whimbrel/flight/dynamics.hpp>

#include "agrees.hpp"
#include "dual.hpp"
#include "random_cases.hpp"
#include "shots.hpp"

using namespace whimbrel;
using namespace whimbrel::test;

namespace {

/// The rates of change of a ball of which one number, `x`, is added to the i-th of its state.
template <class T, class Model>
std::array<T, 7> rates(const Model& model, WindProfile profile, std::size_t i, const T& x) {
  const Ball<T> ball;
  Setting<T> setting;
  setting.wind = {.speed = T(5.0), .from_direction = T(0.7), .profile = profile};
  setting.terrain.height = T(-2.0);
  const Launch<T> launch{T(60.0), T(0.2), T(-0.05), T(280.0), T(0.1), T(20.0)};
  const EquationOfMotion<T, Model> motion(model, ball, setting, launch);
  std::array<T, 7> s{T(1.0), T(20.0), T(9.0), T(-1.0), T(50.0), T(8.0), T(260.0)};
  s[i] = s[i] + x;
  const BallState<T> rate = motion(BallState<T>{{s[0], s[1], s[2]}, {s[3], s[4], s[5]}, s[6]});
  const auto &v = rate.position, &a = rate.velocity;
  return {v.x, v.y, v.z, a.x, a.y, a.z, rate.spin_rate};
}

}  // namespace

TEST_CASE("the equation of motion has the derivatives of its differences, with every model and wind") {
  for (const WindProfile profile : {WindProfile::uniform, WindProfile::logarithmic, WindProfile::power_law})
    for (const AnyAeroModel& any :
         {AnyAeroModel(MultiLayer{}), AnyAeroModel(SmitsSmith{}), AnyAeroModel(SquareRootLift{}),
          AnyAeroModel(ConstantCoefficients{}), AnyAeroModel(AeroTable{})})
      std::visit(
          [&](const auto& model) {
            for (std::size_t i = 0; i < 7; ++i)
              dual::differentiates([&]<class T>(const T& x) { return rates(model, profile, i, x); }, 0.0,
                                   1.0);
          },
          any);
}

TEST_CASE("a ball at rest in still air only falls") {
  const MultiLayer model;
  const Ball<> ball;
  const EquationOfMotion motion(model, ball, sea_level, Launch<>{});
  const BallState<double> rate = motion(BallState<double>{});
  CHECK(agrees(rate.velocity, {0, 0, -standard_gravity}, 0, 0));
  CHECK(rate.spin_rate == 0.0);
}

TEST_CASE("drag opposes the motion through the air, and lift is across it") {
  in_random_cases(
      [](Random& random) { return std::tuple(any_launch(random), any_setting(random)); },
      [](const Launch<>& launch, const Setting<>& setting) {
        const MultiLayer model;
        const Ball<> ball;
        const EquationOfMotion motion(model, ball, setting, launch);
        const BallState<double> state = starting_state(launch, on_the_tee(ball, setting.terrain));
        const Airflow<double> flow = motion.airflow(state);
        const Vec3<double> force = motion(state).velocity + Vec3<double>{0, 0, standard_gravity};
        const auto own = aerodynamics(model, flow.spin_ratio, flow.reynolds);
        const double k = 0.5 * setting.air.density * std::numbers::pi * ball.radius * ball.radius / ball.mass;
        CHECK(agrees(dot(force, unit(flow.velocity)), -k * own.drag * square(flow.speed), 1e-11, 1e-12));
        const Vec3<double> lift = force - dot(force, unit(flow.velocity)) * unit(flow.velocity);
        CHECK(agrees(norm(lift), k * own.lift_per_spin_ratio * flow.spin_ratio * square(flow.speed), 1e-10,
                     1e-12));
      });
}

TEST_CASE("axial spin makes no side force") {
  const Launch<> bullet{.ball_speed = 60, .spin_rate = 200, .axial_spin_rate = 200};
  const MultiLayer model;
  const Ball<> ball;
  const EquationOfMotion motion(model, ball, sea_level, bullet);
  const Vec3<double> acceleration =
      motion(starting_state(bullet, on_the_tee(ball, sea_level.terrain))).velocity;
  CHECK(agrees(acceleration.x, 0, 1e-12, 0));
  CHECK(agrees(acceleration.z, -standard_gravity, 1e-12, 0));
}

TEST_CASE("the ball starts with its bottom at tee height") {
  const Terrain<> tee{.tee_height = 38_mm};
  const BallState<double> start = starting_state(drive, on_the_tee(Ball<>{}, tee));
  CHECK(agrees(start.position, {0, 0, 0.021335 + 0.038}, 1e-15, 0));
  const MultiLayer model;
  const EquationOfMotion motion(model, Ball<>{}, {.terrain = tee}, drive);
  CHECK(agrees(clearance(start, motion.in), 0.038, 1e-15, 0));
}
