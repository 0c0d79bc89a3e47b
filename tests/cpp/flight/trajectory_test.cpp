#include <doctest/doctest.h>

#include "agrees.hpp"
#include "random_cases.hpp"
#include "runge_kutta.hpp"
#include "shots.hpp"

using namespace whimbrel;
using namespace whimbrel::test;

TEST_CASE("a trajectory passes through every step of its flight") {
  const Flight<> flight = fly(drive, {}, Setting<>{.wind = wind_from_left(5.0)});
  CHECK(flight.trajectory.knots.size() > 5);
  for (const auto& knot : flight.trajectory.knots)
    CHECK(agrees(flight.trajectory.position_at(knot.time), knot.state.position, 1e-12, 0));
}

TEST_CASE("a trajectory begins at the ball, tops at the apex and ends at the landing") {
  in_random_cases(
      [](Random& random) { return std::tuple(any_launch(random), any_setting(random)); },
      [](const Launch<>& launch, const Setting<>& setting) {
        const Flight<> flight = fly(launch, {}, setting);
        if (flight.status != Status::ok) return;
        const auto& path = flight.trajectory;
        const Ball<> ball;
        CHECK(agrees(path.position_at(0.0), {0, 0, ball.radius + setting.terrain.tee_height}, 0, 0));
        const Vec3<double> end = path.position_at(flight.flight_time);
        CHECK(agrees(end.x, flight.offline, 1e-9, 0));
        CHECK(agrees(end.y, flight.downrange, 1e-9, 0));
        double highest = 0.0;
        for (int i = 0; i <= 1000; ++i)
          highest = std::max(highest, path.position_at(flight.flight_time * i / 1000).z - ball.radius);
        // Between samples a time dt apart the top is missed by at most a dt^2 / 8, a some 3 g here.
        const double missed = 40.0 * square(flight.flight_time / 1000) / 8;
        CHECK(highest <= flight.apex + 1e-6);
        CHECK(highest >= flight.apex - missed - 1e-6);
      });
}

TEST_CASE("between its steps a trajectory agrees with an independent integration") {
  const MultiLayer model;
  const Ball<> ball;
  for (const Launch<>& launch : club_launches) {
    const Flight<> flight = fly(launch);
    const Setting<> setting;
    const EquationOfMotion motion(model, ball, setting, launch);
    BallState<double> state = starting_state(launch, on_the_tee(ball, setting.terrain));
    for (int i = 1; i * 1e-3 < flight.flight_time; ++i) {
      state = stepped(motion, state, 1e-3);
      CHECK(agrees(flight.trajectory.position_at(i * 1e-3), state.position, 1e-5, 0));
    }
  }
}

TEST_CASE("before its start and after its end a trajectory stays where it began and ended") {
  const Trajectory<> path = fly(mid_iron).trajectory;
  CHECK(agrees(path.position_at(-1.0), path.knots.front().state.position, 0, 0));
  CHECK(agrees(path.position_at(100.0), path.knots.back().state.position, 1e-12, 0));
}

TEST_CASE("a ball that never left the ground has a trajectory of one point") {
  const Trajectory<> path = fly(Launch<>{}).trajectory;
  CHECK(path.knots.size() == 1);
  CHECK(agrees(path.position_at(1.0), {0, 0, Ball<>{}.radius}, 0, 0));
}

TEST_CASE("a ball that was never launched is nowhere") {
  CHECK(std::isnan(Trajectory<>{}.position_at(0.0).y));
  const Row bad = play_row(Launch<>{.ball_speed = -1.0}, {}, {});
  CHECK(std::isnan(bad.shot.flight.trajectory.position_at(1.0).y));
}
