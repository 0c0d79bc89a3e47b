#include "differences.hpp"
#include "shots.hpp"

using namespace whimbrel;
using namespace whimbrel::test;

TEST_SUITE_BEGIN("each level");

namespace {

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

TEST_CASE("the derivatives of a place of rest are its differences") {
  // The reference flight of a hop is good to 1e-9 of a step; over 2e-4 of a launch that is 1e-4 of a slope.
  // Where a bounce goes over from sliding to gripping within those differences, slopes jump.
  int compared = 0, apart = 0;
  for (const Launch<>& launch : club_launches)
    for (const Turf<>& turf : turf_set()) {
      ShotInputs<> shot = measured(launch);
      shot.turf = turf;
      const std::size_t total = place_of("total", results_of(shot));
      const std::array<std::size_t, 4> by{0, 1, 2, 3};  // speed, angle, direction, spin
      const Sensitivity told = sensitivity(shot, by);
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
}

namespace {

/// Where a count changes between two inputs, as near as doubles of that size tell.
template <class Count>
double edge_of(const Count& count, double below, double above) {
  const double first = count(below);
  REQUIRE(count(above) != first);
  while (above - below > 1e-13 * above) {
    const double middle = 0.5 * (below + above);
    (count(middle) == first ? below : above) = middle;
  }
  return above;
}

}  // namespace

TEST_CASE("where a ball begins to slide before it sticks to the face, a kink of the contact is found") {
  ShotInputs<> shot;
  shot.swing = {{.clubhead_speed = 84_mph, .attack_angle = -4_deg}, shipped_club("7 iron")};
  const auto with_loft = [&](double loft) {
    ShotInputs<> other = shot;
    other.swing.delivery.dynamic_loft = loft;
    return other;
  };
  const double edge = edge_of(
      [&](double loft) {
        const ShotInputs<> there = with_loft(loft);
        return kernel::strike(there.swing, there.ball).friction_changes;
      },
      11_deg, 11.3_deg);
  const std::array by{place_of("dynamic_loft", inputs_of(shot))};
  const std::size_t slip_time = place_of("slip_time", results_of(shot)),
                    spin_rate = place_of("spin_rate", results_of(shot));
  const auto at = [&](double apart) { return sensitivity(with_loft(edge + apart), by); };
  const double h = 0.3 * nearly;
  const Sensitivity below = at(-h), above = at(h), far_below = at(-4 * h), far_above = at(4 * h);
  CHECK(below.kinks.contact);
  CHECK(above.kinks.contact);
  CHECK(!far_below.kinks.contact);
  CHECK(!far_above.kinks.contact);
  // On one side the slopes hardly change; on the other they start with the root of the distance.
  CHECK(std::abs(above.slopes[slip_time]) > 50 * std::abs(below.slopes[slip_time]));
  CHECK(std::abs(above.slopes[spin_rate] - below.slopes[spin_rate]) >
        10 * std::abs(below.slopes[spin_rate] - far_below.slopes[spin_rate]) / 3);
}

TEST_CASE("where a drive takes one hop less, neither its place of rest nor the slopes of that jump") {
  ShotInputs<> shot = measured(drive);
  shot.turf = turf_set().front();
  const auto with_speed = [&](double speed) {
    ShotInputs<> other = shot;
    other.launch.ball_speed = speed;
    return other;
  };
  const double edge =
      edge_of([&](double speed) { return kernel::play(with_speed(speed)).run.bounces; }, 45.0, 75.0);
  const std::array by{place_of("ball_speed", inputs_of(shot))};
  const std::size_t total = place_of("total", results_of(shot)),
                    bounces = place_of("bounces", results_of(shot));
  const auto at = [&](double apart) { return sensitivity(with_speed(edge + apart), by); };
  const double h = 1e-4 * edge;  // the slopes' own flights change at another edge, by their accuracy
  const Sensitivity below = at(-h), above = at(h);
  CHECK(std::abs(below.results[bounces] - above.results[bounces]) == 1.0);
  CHECK(agrees(above.results[total], below.results[total], 4 * h * std::abs(below.slopes[total]) + 1e-6, 0));
  CHECK(agrees(above.slopes[total], below.slopes[total], 0, 1e-3));
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

TEST_SUITE_END();
