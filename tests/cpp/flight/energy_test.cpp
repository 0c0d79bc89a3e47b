#include <doctest/doctest.h>

#include "agrees.hpp"
#include "random_cases.hpp"
#include "runge_kutta.hpp"
#include "shots.hpp"

using namespace whimbrel;
using namespace whimbrel::test;

TEST_CASE("drag alone never adds energy") {
  in_random_cases(
      [](Random& random) {
        Launch<> launch = any_launch(random);
        launch.spin_rate = launch.axial_spin_rate = 0.0;
        return std::tuple(launch);
      },
      [](const Launch<>& launch) {
        const Flight<> flight = fly(launch);
        double before = std::numeric_limits<double>::infinity();
        for (const auto& [time, state, rate] : flight.trajectory.knots) {
          const double energy =
              0.5 * dot(state.velocity, state.velocity) + standard_gravity * state.position.z;
          CHECK(energy <= before + 1e-7);  // J/kg; the integrator's own error
          before = energy;
        }
        CHECK(flight.landing_speed <= launch.ball_speed + 1e-9);
      });
}

TEST_CASE("lift does no work: in still air speed and height together never grow") {
  for (const Launch<>& launch : club_launches) {
    const Flight<> flight = fly(launch);
    CHECK(flight.landing_speed < launch.ball_speed);
    CHECK(flight.landing_spin_rate < launch.spin_rate);
  }
}

TEST_CASE("in a vacuum the energy stays") {
  in_random_cases([](Random& random) { return std::tuple(any_launch(random)); },
                  [](const Launch<>& launch) {
                    const Flight<> flight =
                        fly(launch, ball_with(ConstantCoefficients{}), Setting<>{.air = {.density = 0.0}});
                    CHECK(agrees(flight.landing_speed, launch.ball_speed, 0, 1e-9));
                    CHECK(agrees(flight.descent_angle, launch.launch_angle, 1e-9, 0));
                    CHECK(agrees(flight.landing_spin_rate, launch.spin_rate, 1e-12, 0));
                  });
}

TEST_CASE("an integrator of another kind flies every launch to the same place") {
  // The adaptive one allows itself 1e-9 of the position a step: 2.5e-7 m at 250 m, in some 50 steps
  // 1.2e-5 m; divided by a landing speed of 20 m/s that is 6e-7 s.
  in_random_cases(
      [](Random& random) {
        Launch<> launch = any_launch(random);
        launch.ball_speed = random.between(20, 80);
        Setting<> setting{.wind = any_wind(random)};
        setting.wind.profile = WindProfile::uniform;
        return std::tuple(launch, setting);
      },
      [](const Launch<>& launch, const Setting<>& setting) {
        const MultiLayer model;
        const Ball<> ball;
        const EquationOfMotion motion(model, ball, setting, launch);
        const BallState<double> start = starting_state(launch, on_the_tee(ball, setting.terrain));
        const auto landing = back_at_start_height(motion, start, 5e-3);
        const Flight<> flight = fly(launch, ball, setting);
        CHECK(agrees(flight.offline, landing.state.position.x, 1.2e-5, 0));
        CHECK(agrees(flight.downrange, landing.state.position.y, 1.2e-5, 0));
        CHECK(agrees(flight.flight_time, landing.time, 6e-7, 0));
      });
}
