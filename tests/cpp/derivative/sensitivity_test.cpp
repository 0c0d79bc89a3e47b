#include "differences.hpp"
#include "shots.hpp"

using namespace whimbrel;
using namespace whimbrel::test;

namespace {

std::size_t place_of(std::string_view name, const std::vector<NamedNumber>& among) {
  for (std::size_t k = 0; k < among.size(); ++k)
    if (among[k].name == name) return k;
  FAIL("no number is called ", std::string(name));
  return 0;
}

/// The derivative of one result of a measured launch by one input.
double derivative(const ShotInputs<>& inputs, std::string_view of, std::string_view by) {
  const std::array places{place_of(by, inputs_of(inputs))};
  return sensitivity(inputs, places).slopes[place_of(of, results_of(inputs))];
}

/// In still air without density, over level ground.
ShotInputs<> in_vacuum(double speed, double angle) {
  ShotInputs<> inputs = measured({.ball_speed = speed, .launch_angle = angle}, false);
  inputs.setting.air.density = 0.0;
  return inputs;
}

}  // namespace

TEST_CASE("in a vacuum the derivatives are those of the parabola") {
  const double v = 50.0, a = 0.6, g = standard_gravity;
  const ShotInputs<> shot = in_vacuum(v, a);
  CHECK(agrees(derivative(shot, "carry", "ball_speed"), 2 * v * std::sin(2 * a) / g, 0, 1e-10));
  CHECK(agrees(derivative(shot, "carry", "launch_angle"), 2 * v * v * std::cos(2 * a) / g, 0, 1e-10));
  CHECK(agrees(derivative(shot, "apex", "launch_angle"), v * v * std::sin(2 * a) / (2 * g), 0, 1e-10));
  CHECK(agrees(derivative(shot, "apex_distance", "launch_angle"), v * v * std::cos(2 * a) / g, 0, 1e-10));
  CHECK(agrees(derivative(shot, "flight_time", "ball_speed"), 2 * std::sin(a) / g, 0, 1e-10));
  CHECK(agrees(derivative(shot, "descent_angle", "launch_angle"), 1.0, 0, 1e-10));
  CHECK(agrees(derivative(shot, "landing_speed", "launch_angle"), 0.0, 1e-10 * v, 0));
  CHECK(agrees(derivative(shot, "offline", "launch_direction"), v * v * std::sin(2 * a) / g, 0, 1e-10));
}

TEST_CASE("a little higher ground shortens a parabola by the cotangent of its descent") {
  const ShotInputs<> shot = in_vacuum(50.0, 0.6);
  CHECK(agrees(derivative(shot, "carry", "height"), -1 / std::tan(0.6), 0, 1e-10));
  CHECK(agrees(derivative(shot, "apex", "height"), 0.0, 1e-10, 0));
}

TEST_CASE("carry has no slope at the launch angle that carries farthest") {
  const ShotInputs<> shot = in_vacuum(50.0, std::numbers::pi / 4);
  CHECK(agrees(derivative(shot, "carry", "launch_angle"), 0.0, 1e-8, 0));
}

TEST_CASE("a mirrored launch has mirrored slopes") {
  ShotInputs<> shot = measured(mid_iron);
  shot.launch.spin_axis_tilt = 0.2;
  ShotInputs<> mirrored = shot;
  mirrored.launch.spin_axis_tilt = -0.2;
  CHECK(agrees(derivative(shot, "offline", "spin_axis_tilt"),
               derivative(mirrored, "offline", "spin_axis_tilt"), 0, 1e-9));
  CHECK(agrees(derivative(shot, "carry", "spin_axis_tilt"), -derivative(mirrored, "carry", "spin_axis_tilt"),
               0, 1e-9));
}

TEST_CASE("the derivatives of a place of rest are its differences, between the kinks of the run") {
  // The reference flight of a hop is good to 1e-9 of a step; over 2e-4 of a launch that is 1e-4 of a slope.
  // Where a bounce goes over from sliding to gripping within those differences, slopes jump.
  int compared = 0, apart = 0, flagged = 0;
  for (const Launch<>& launch : club_launches)
    for (const Turf<>& turf : turf_set()) {
      ShotInputs<> shot = measured(launch);
      shot.turf = turf;
      const std::size_t total = place_of("total", results_of(shot));
      const std::array<std::size_t, 4> by{0, 1, 2, 3};  // speed, angle, direction, spin
      const Sensitivity told = sensitivity(shot, by);
      flagged += told.kinks.hops;
      if (told.kinks.hops) continue;
      for (const std::size_t k : by) {
        const double size = std::array{50.0, 0.5, 0.5, 500.0}[k], h = 1e-4 * size;
        const auto run = [&](double step) { return kernel::play(moved(shot, k, step)).run; };
        const auto runs = around(run, h);
        for (const auto member : {&Run<>::total, &Run<>::total_offline}) {
          const double theirs = slope(runs, member);
          const double ours =
              told.slopes[(total + (member == &Run<>::total_offline ? 2 : 0)) * by.size() + k];
          ++compared;
          apart += !agrees(ours, theirs, 1e-4 * 200.0 / size, 1e-4);
        }
      }
    }
  CAPTURE(apart);
  CHECK(compared > 100);
  CHECK(apart <= compared / 20);
  CHECK(flagged <= 2);
}

TEST_CASE("inputs beyond one pass have the slopes they have alone") {
  const ShotInputs<> shot = measured(drive);
  std::vector<std::size_t> all;
  for (std::size_t k = 0; k < inputs_of(shot).size(); ++k) all.push_back(k);
  const Sensitivity together = sensitivity(shot, all);
  const std::size_t carry = place_of("carry", results_of(shot));
  for (const std::size_t k : all) {
    const std::array alone{k};
    CHECK(agrees(together.slopes[carry * all.size() + k], sensitivity(shot, alone).slopes[carry], 0, 1e-12));
  }
}

TEST_CASE("a ball that never leaves the ground says so: its carry stays 0") {
  const ShotInputs<> shot = measured({.ball_speed = 40.0, .launch_angle = -0.1});
  const std::array<std::size_t, 1> by{0};
  const std::size_t carry = place_of("carry", results_of(shot));
  const Sensitivity told = sensitivity(shot, by);
  CHECK(told.status == Status::not_airborne);
  CHECK(told.slopes[carry] == 0.0);
}

TEST_CASE("what cannot be differentiated is refused by name") {
  ShotInputs<> shot = measured(drive);
  const std::array<std::size_t, 1> by{0};
  shot.launch.ball_speed = -1.0;
  CHECK_THROWS_WITH_AS(sensitivity(shot, by), doctest::Contains("ball_speed is -1 m/s"), InputError);
  shot.launch = drive;
  shot.setting.terrain.surface = [](double, double) { return 0.0; };
  CHECK_THROWS_WITH_AS(sensitivity(shot, by), doctest::Contains("plane ground"), InputError);
}
