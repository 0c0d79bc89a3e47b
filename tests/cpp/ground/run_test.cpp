#include <doctest/doctest.h>

#include "agrees.hpp"
#include "mirrored.hpp"
#include "random_cases.hpp"
#include "shots.hpp"

using namespace whimbrel;
using namespace whimbrel::test;

namespace {

const Ball<> ball;

/// A result is defined: finite where the ball rests or rolls on, NaN with a status that says why.
void is_defined(const Run<>& run) {
  for (const auto& field : Run<>::fields()) {
    CAPTURE(std::string(field.name));
    CHECK(std::isfinite(run.*field.member) == (run.status == Status::ok || run.status == Status::no_rest));
  }
}

/// Of motion, spin and height, J.
double energy(const BallState<double>& s) {
  return 0.5 * ball.mass * dot(s.velocity, s.velocity) + 0.5 * ball.inertia * square(s.spin_rate) +
         ball.mass * standard_gravity * s.position.z;
}

Landing<> any_usual_landing(Random& random) {
  Landing<> landing = any_landing(random);
  landing.landing_speed = random.between(5, 35);
  landing.descent_angle = random.between(5, 60) * units::deg;
  return landing;
}

Setting<> on(const Terrain<>& terrain) { return {.terrain = terrain}; }

}  // namespace

TEST_CASE("10,000 random landings end within 20 hops, each with a status") {
  unsigned rested = 0, restless = 0;
  for (unsigned seed = 0; seed < 10 * random_cases; ++seed) {
    Random random{std::mt19937_64(seed)};
    const Landing<> landing = any_landing(random);
    const Setting<> setting = on(any_slope(random));
    const Turf<> turf = any_turf(random);
    INFO("seed ", seed, ": ", described(std::tuple(landing, setting, turf)));
    const Run<> run = kernel::play(landing, ball, setting, turf).run;
    is_defined(run);
    const bool ends = run.status == Status::ok || run.status == Status::no_rest;
    CHECK(ends);
    (run.status == Status::ok ? rested : restless)++;
    if (run.status == Status::ok) {
      CHECK(run.bounces <= most_hops);
      CHECK(run.bounces == std::floor(run.bounces));
      CHECK(run.run_time >= 0.0);
    }
    // 20 flights of some 100 steps, some hundred steps of skid and roll, and half a minute in steps of a
    // quarter of a second.
    CHECK(run.trajectory.knots.size() < 20000);  // a ball that swings in a hollow for 30 s has most
  }
  CHECK(rested > 5000);
  CHECK(restless > 100);  // steep, fast ground
}

TEST_CASE("a run never gains energy: what it wins in speed it loses in height") {
  // A knot's energy is off by the integrators' own errors: in the air as in the tests of the flight, 1e-7
  // J/kg a step; on the ground 8e-5 of the way (see roll_test) at the weight's pull and the turf's brake.
  in_random_cases(
      [](Random& random) { return std::tuple(any_landing(random), any_slope(random), any_turf(random)); },
      [](const Landing<>& landing, const Terrain<>& slope, const Turf<>& turf) {
        const Run<> run = kernel::play(landing, ball, on(slope), turf).run;
        const Touchdown<double> start = touchdown(landing);
        double before = energy({on_the_ground(ball, slope, 0.0, 0.0), start.velocity, norm(start.spin)});
        Vec3<double> here = on_the_ground(ball, slope, 0.0, 0.0);
        for (const auto& [time, state, rate] : run.trajectory.knots) {
          const double allowed = ball.mass * (1e-7 + 8e-5 * norm(state.position - here));
          CHECK(energy(state) <= before + allowed);
          before = energy(state);
          here = state.position;
        }
      });
}

TEST_CASE("a run's path begins at the landing, is never broken and ends at rest") {
  in_random_cases(
      [](Random& random) { return std::tuple(any_landing(random), any_slope(random), any_turf(random)); },
      [](const Landing<>& landing, const Terrain<>& slope, const Turf<>& turf) {
        const Run<> run = kernel::play(landing, ball, on(slope), turf).run;
        if (run.status != Status::ok) return;
        const Vec3<double> start = on_the_ground(ball, slope, 0.0, 0.0);
        const Trajectory<>& path = run.trajectory;
        CHECK(agrees(path.position_at(0.0), start, 1e-12, 0));
        const Vec3<double> rest = path.position_at(run.run_time);
        CHECK(agrees(std::hypot(rest.x, rest.y), run.total, 1e-12, 0));
        CHECK(agrees(rest.x, run.total_offline, 1e-12, 0));
        CHECK(agrees(rest.z, on_the_ground(ball, slope, rest.x, rest.y).z, 1e-12, 0));
        double last = 0.0;
        Vec3<double> here = start;
        for (const Knot<double>& knot : path.knots) {
          CHECK(knot.time >= last);
          const double lasted = knot.time - last;
          // No faster than it came down, was driven by its spin, or fell since.
          const double fastest =
              landing.landing_speed + ball.radius * landing.landing_spin_rate + standard_gravity * knot.time;
          CHECK(norm(knot.state.position - here) <= fastest * lasted + 1e-9);
          CHECK(agrees(path.position_at(knot.time), knot.state.position, 1e-9, 0));
          last = knot.time;
          here = knot.state.position;
        }
        CHECK(norm(path.knots.back().state.velocity) == 0.0);
      });
}

TEST_CASE("a mirrored landing on a mirrored slope is the mirrored run") {
  in_random_cases(
      [](Random& random) {
        return std::tuple(any_usual_landing(random), any_slope(random), any_turf(random));
      },
      [](const Landing<>& landing, const Terrain<>& slope, const Turf<>& turf) {
        const Setting<> setting = on(slope);
        const Run<> one = kernel::play(landing, ball, setting, turf).run;
        const Run<> other = kernel::play(mirrored(landing), ball, mirrored(setting), turf).run;
        CHECK(one.status == other.status);
        if (one.status != Status::ok) return;
        CHECK(agrees(other.total_offline, -one.total_offline, 1e-6, 1e-6));
        CHECK(agrees(other.total_downrange, one.total_downrange, 1e-6, 1e-6));
        CHECK(other.bounces == one.bounces);
      });
}

TEST_CASE("on the level a landing turned is the run turned") {
  in_random_cases(
      [](Random& random) {
        return std::tuple(any_usual_landing(random), any_turf(random), random.between(-90, 90) * units::deg);
      },
      [](Landing<> landing, const Turf<>& turf, double turn) {
        landing.landing_direction = 0.0;
        const Run<> one = kernel::play(landing, ball, {}, turf).run;
        landing.landing_direction = turn;
        const Run<> other = kernel::play(landing, ball, {}, turf).run;
        CHECK(one.status == other.status);
        if (one.status != Status::ok) return;
        CHECK(agrees(other.total, one.total, 1e-6, 1e-6));
        CHECK(agrees(other.distance, one.distance, 1e-6, 1e-6));
        const double c = std::cos(turn), s = std::sin(turn);
        CHECK(agrees(other.total_offline, c * one.total_offline + s * one.total_downrange, 1e-6, 1e-6));
      });
}

TEST_CASE("a ball dropped without spin hops on the spot, and stays") {
  for (const double speed : {0.0, 0.5, 5.0, 30.0}) {
    const Run<> run = play(Landing<>{.landing_speed = speed, .descent_angle = 90_deg}).run;
    CHECK(run.status == Status::ok);
    CHECK(agrees(run.total, 0.0, 1e-9, 0));
    CHECK(agrees(run.trajectory.position_at(run.run_time), {0.0, 0.0, ball.radius}, 1e-9, 0));
    CHECK((run.bounces > 0.0) == (speed > 0.0));
  }
}

TEST_CASE("on turf without restitution or lean a ball bounces once and then skids") {
  const Turf<> dead{.restitution_scale = 0.0, .tilt_scale = 0.0};
  const Landing<> landing{.landing_speed = 12.0, .descent_angle = 50_deg};
  const Run<> run = play(landing, {}, {}, dead).run;
  CHECK(run.bounces == 1.0);
  // The bounce grips: five sevenths of the speed along the turf are left, and it rolls at once.
  const double left = 5.0 / 7.0 * 12.0 * std::cos(50_deg);
  Turf<> grippy = dead;
  grippy.friction = 1.0;
  CHECK(agrees(play(landing, {}, {}, grippy).run.total, left * left / (2 * dead.rolling_deceleration), 1e-9,
               0));
}

TEST_CASE("without friction a ball keeps its speed along the turf, and never rests") {
  const Turf<> ice{.friction = 0.0, .tilt_scale = 0.0, .rolling_deceleration = 0.0};
  const Setting<> vacuum{.air = {.density = 0.0}};
  const Landing<> landing{.landing_speed = 20.0, .descent_angle = 40_deg, .landing_spin_rate = 300.0};
  const Run<> run = play(landing, {}, vacuum, ice).run;
  CHECK(run.status == Status::no_rest);
  const BallState<double>& last = run.trajectory.knots.back().state;
  CHECK(agrees(last.velocity.y, 20.0 * std::cos(40_deg), 1e-6, 0));
}

TEST_CASE("hops end at the rebound of a fall from the ball's radius") {
  const double least = std::sqrt(2 * standard_gravity * ball.radius);
  const Turf<> turf{.tilt_scale = 0.0};
  const double needed = [&] {  // the approach with just that rebound
    double low = 0.0, high = 5.0;
    for (int i = 0; i < 60; ++i) {
      const double v = 0.5 * (low + high);
      (turf_restitution(turf, v) * v < least ? low : high) = v;
    }
    return low;
  }();
  const auto bounces = [&](double speed) {
    return play(Landing<>{.landing_speed = speed, .descent_angle = 90_deg}, {}, {}, turf).run.bounces;
  };
  CHECK(bounces(needed * 0.999) == 1.0);
  CHECK(bounces(needed * 1.001) == 2.0);
}

TEST_CASE("backspin brings a ball back on a soft green, topspin sends it on") {
  const Turf<> green = shipped_turf("soft green");
  Landing<> landing{.landing_speed = 24.0, .descent_angle = 50_deg, .landing_spin_rate = 900.0};
  const double back = play(landing, {}, {}, green).run.distance;
  landing.landing_spin_rate = 0.0;
  const double none = play(landing, {}, {}, green).run.distance;
  landing.landing_spin_rate = 900.0;
  landing.spin_axis_tilt = 180_deg;
  const double on = play(landing, {}, {}, green).run.distance;
  CHECK(back < 0.0);
  CHECK(none > 0.0);
  CHECK(on > none);
}

TEST_CASE("a ball that curved in its flight runs on to the same side") {
  // Its axis was tilted when the ball climbed and keeps its direction, so that it also spins about its way.
  for (Launch<> launch : club_launches)
    for (const double side : {-1.0, 1.0}) {
      launch.spin_axis_tilt = side * 10_deg;
      const Shot<> shot = play(launch);
      const Vec3<double> right = right_of(shot.landing.landing_direction);
      const Vec3<double> ran{shot.run.total_offline - shot.flight.offline,
                             shot.run.total_downrange - shot.flight.downrange, 0.0};
      CHECK(side * shot.flight.curve > 1.0);
      CHECK(side * dot(ran, right) > 0.05);
    }
}

TEST_CASE("a side slope takes a straight ball down it, level ground leaves it on its line") {
  const Landing<> landing{.landing_speed = 25.0, .descent_angle = 40_deg, .landing_spin_rate = 300.0};
  CHECK(agrees(play(landing).run.total_offline, 0.0, 1e-9, 0));
  CHECK(play(landing, {}, on({.slope_right = 0.03})).run.total_offline < -0.1);
  CHECK(play(landing, {}, on({.slope_right = -0.03})).run.total_offline > 0.1);
}

TEST_CASE("uphill a ball runs shorter, downhill longer") {
  const auto distance = [](double slope) {
    return play(Landing<>{.landing_speed = 25.0, .descent_angle = 40_deg, .landing_spin_rate = 200.0}, {},
                on({.slope_downrange = slope}))
        .run.distance;
  };
  CHECK(distance(0.05) < distance(0.0));
  CHECK(distance(0.0) < distance(-0.05));
}

TEST_CASE("a plane given as a function is the same ground to run on") {
  // A surface is looked at every 10 cm of a roll: other steps of the same method, off by 8e-5 of the way
  // each.
  in_random_cases(
      [](Random& random) {
        const Terrain<> slope = any_slope(random);
        Turf<> turf = any_turf(random);
        turf.rolling_deceleration += 7.0 * std::hypot(slope.slope_right, slope.slope_downrange);
        return std::tuple(any_usual_landing(random), slope, turf);
      },
      [](const Landing<>& landing, const Terrain<>& slope, const Turf<>& turf) {
        Terrain<> function;
        function.surface = [slope](double x, double y) {
          return slope.slope_right * x + slope.slope_downrange * y;
        };
        const Run<> plane = kernel::play(landing, ball, on(slope), turf).run;
        const Run<> surface = kernel::play(landing, ball, on(function), turf).run;
        CHECK(plane.status == surface.status);
        if (plane.status != Status::ok) return;
        const double allowed = 8e-5 * landing.landing_speed * plane.run_time + 1e-6;
        CHECK(agrees(surface.total_offline, plane.total_offline, allowed, 0));
        CHECK(agrees(surface.total_downrange, plane.total_downrange, allowed, 0));
        CHECK(surface.bounces == plane.bounces);
      });
}

TEST_CASE("in a bowl a ball comes to rest where the slope is under the critical one") {
  const Terrain<> bowl{
      .surface = [](double x, double y) { return 0.02 * (x * x + (y - 10.0) * (y - 10.0)); }};
  const Turf<> green = shipped_turf("medium green");
  in_random_cases(
      [](Random& random) { return std::tuple(random.between(1, 8), random.between(-80, 80) * units::deg); },
      [&](double speed, double way) {
        const Run<> run =
            kernel::play(Landing<>{.landing_speed = speed, .landing_direction = way}, ball, on(bowl), green)
                .run;
        CHECK(run.status == Status::ok);
        const double from_bottom = std::hypot(run.total_offline, run.total_downrange - 10.0);
        // The slope is 0.04 times the distance from the bottom; a surface is looked at every 10 cm.
        const double critical = 7.0 * green.rolling_deceleration / (5.0 * standard_gravity);
        CHECK(from_bottom <= critical / 0.04 + looks_ahead);
      });
}

TEST_CASE("ground that is not a number somewhere has a status") {
  for (const double start : {0.5, 3.0, 10.0, 20.0}) {
    const Setting<> hole = on({.surface = [=](double, double y) { return y > start ? NAN : 0.0; }});
    const Run<> run =
        kernel::play(Landing<>{.landing_speed = 25.0, .descent_angle = 30_deg}, ball, hole, Turf<>{}).run;
    is_defined(run);
    CHECK(run.status != Status::ok);
  }
}

TEST_CASE("a landing outside what the bounce was measured at says by how much") {
  const auto out = [](double speed, double descent, double slope = 0.0) {
    return play(Landing<>{.landing_speed = speed, .descent_angle = descent}, {},
                on({.slope_downrange = slope}))
        .run.out_of_range;
  };
  CHECK(out(20.0, 45_deg).bounce_speed == 0.0);
  CHECK(out(20.0, 45_deg).bounce_angle == 0.0);
  CHECK(agrees(out(8.0, 45_deg).bounce_speed, -2.0, 1e-12, 0));
  CHECK(agrees(out(33.0, 45_deg).bounce_speed, 3.0, 1e-12, 0));
  // The angle is from the normal of the ground: 60 degrees of descent are 30 from upright.
  CHECK(agrees(out(20.0, 65_deg).bounce_angle, -5_deg, 1e-12, 0));
  CHECK(agrees(out(20.0, 20_deg).bounce_angle, 10_deg, 1e-12, 0));
  CHECK(agrees(out(20.0, 30_deg, std::tan(35_deg)).bounce_angle, -5_deg, 1e-12, 0));
  CHECK(play(drive).run.out_of_range.bounce_angle < 1_deg);
}

TEST_CASE("many runs at once are each run by itself") {
  std::vector<Landing<>> landings;
  for (unsigned seed = 0; seed < 200; ++seed) {
    Random random{std::mt19937_64(seed)};
    landings.push_back(any_landing(random));
  }
  landings[7].descent_angle = -1.0;
  const auto rows = play_all(std::span<const Landing<>>(landings), ball, {}, Turf<>{}, 2);
  for (std::size_t i = 0; i < rows.size(); ++i) {
    CAPTURE(i);
    is_defined(rows[i].shot.run);
    if (i == 7) {
      CHECK(rows[i].shot.run.status == Status::bad_input);
      CHECK(rows[i].error->field == "descent_angle");
      continue;
    }
    const Run<> run = kernel::play(landings[i], ball, {}, Turf<>{}).run;
    CHECK(rows[i].shot.run.status == run.status);
    if (run.status == Status::ok) CHECK(rows[i].shot.run.total == run.total);
  }
}
