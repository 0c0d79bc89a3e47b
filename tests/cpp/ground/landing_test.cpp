#include <doctest/doctest.h>

#include "agrees.hpp"
#include "random_cases.hpp"
#include "shots.hpp"

using namespace whimbrel;
using namespace whimbrel::test;

namespace {

/// Two runs are one: to the integrator's error, that of two flights of 250 m (see symmetry_test).
void same_run(const Run<>& a, const Run<>& b) {
  CHECK(a.status == b.status);
  if (a.status != Status::ok) return;
  // Where a last hop is as good as none, the integrator's error decides whether it is one.
  const double close = a.bounces == b.bounces ? 1e-4 : 2e-3;
  CHECK(agrees(a.distance, b.distance, close, 0));
  CHECK(agrees(a.run_time, b.run_time, close, 0));
  CHECK(agrees(a.bounces, b.bounces, 1.0, 0));
}

Launch<> any_long_launch(Random& random) {
  Launch<> launch = any_launch(random);
  launch.ball_speed = random.between(20, 80);
  return launch;
}

}  // namespace

TEST_CASE("a landing and the motion it stands for are one") {
  in_random_cases([](Random& random) { return std::tuple(any_landing(random)); },
                  [](const Landing<>& landing) {
                    const Landing<> back = landing_of(touchdown(landing));
                    const Touchdown<double> once = touchdown(landing), twice = touchdown(back);
                    CHECK(agrees(twice.velocity, once.velocity, 1e-12, 0));
                    CHECK(agrees(twice.spin, once.spin, 1e-10, 0));
                    CHECK(agrees(back.descent_angle, landing.descent_angle, 1e-12, 0));
                    CHECK(agrees(back.landing_spin_rate, landing.landing_spin_rate, 1e-10, 0));
                  });
}

TEST_CASE("a landing without tilt has backspin, one of half a turn topspin") {
  Landing<> landing{.landing_speed = 20.0, .descent_angle = 40_deg, .landing_spin_rate = 300.0};
  CHECK(touchdown(landing).spin.x == 300.0);
  landing.spin_axis_tilt = 180_deg;
  CHECK(agrees(touchdown(landing).spin, {-300.0, 0.0, 0.0}, 1e-12, 0));
}

TEST_CASE("a flight comes down with its speed and spin, about the axis it was launched with") {
  in_random_cases([](Random& random) { return std::tuple(any_long_launch(random)); },
                  [](const Launch<>& launch) {
                    const Shot<> shot = play(launch);
                    CHECK(agrees(shot.landing.landing_speed, shot.flight.landing_speed, 0, 1e-15));
                    CHECK(agrees(shot.landing.descent_angle, shot.flight.descent_angle, 1e-12, 0));
                    CHECK(agrees(shot.landing.landing_spin_rate, shot.flight.landing_spin_rate, 1e-9, 0));
                    const Vec3<double> axis = unit(touchdown(shot.landing).spin);
                    CHECK(agrees(axis, unit(launch_spin(launch)), 1e-12, 0));
                  });
}

TEST_CASE("a shot runs as a ball does that comes down like it, wherever that is") {
  in_random_cases(
      [](Random& random) {
        Setting<> setting{.wind = any_wind(random), .terrain = any_slope(random)};
        setting.wind.profile = WindProfile::uniform;  // blows the same at the tee as where the shot lands
        return std::tuple(any_long_launch(random), setting, any_turf(random));
      },
      [](const Launch<>& launch, const Setting<>& setting, const Turf<>& turf) {
        const Shot<> shot = play(launch, {}, setting, turf);
        if (shot.flight.status != Status::ok || shot.flight.descent_angle < 0.0)
          return;  // into a rising slope
        same_run(play(shot.landing, {}, setting, turf).run, shot.run);
      });
}

TEST_CASE("a run's numbers from the start are the flight's and the run's together") {
  in_random_cases([](Random& random) { return std::tuple(any_long_launch(random)); },
                  [](const Launch<>& launch) {
                    const Shot<> shot = play(launch);
                    const Run<>& run = shot.run;
                    if (run.status != Status::ok) return;
                    CHECK(agrees(run.total, std::hypot(run.total_downrange, run.total_offline), 1e-12, 0));
                    const double right = run.total_offline - shot.flight.offline;
                    const double on = run.total_downrange - shot.flight.downrange;
                    const double way = shot.landing.landing_direction;
                    CHECK(agrees(run.distance, right * std::sin(way) + on * std::cos(way), 1e-9, 0));
                    CHECK(run.bounces >= 1.0);
                  });
}

TEST_CASE("a ball struck along or into the ground has no carry, and runs") {
  for (const double angle : {0_deg, -3_deg, -20_deg}) {
    const Shot<> shot = play(Launch<>{.ball_speed = 20.0, .launch_angle = angle});
    CHECK(shot.flight.status == Status::not_airborne);
    CHECK(shot.run.status == Status::ok);
    CHECK(shot.run.total > 5.0);
    CHECK(agrees(shot.run.total, shot.run.distance, 1e-12, 0));
  }
  const Setting<> uphill{.terrain = {.slope_downrange = 0.1}};
  const Shot<> shot =
      play(Launch<>{.ball_speed = 20.0, .launch_angle = 5_deg}, {}, uphill, shipped_turf("soft fairway"));
  CHECK(shot.flight.status == Status::not_airborne);
  CHECK(shot.run.bounces == 1.0);
  CHECK(shot.run.total > 5.0);
}

TEST_CASE("a flight without a landing has no run, and says why") {
  const Shot<> shot = play(mid_iron, {}, Setting<>{.terrain = {.height = 200.0}});
  CHECK(shot.flight.status == Status::no_landing);
  CHECK(shot.run.status == Status::no_landing);
  for (const auto& field : Run<>::fields()) CHECK(std::isnan(shot.run.*field.member));
  for (const auto& field : Landing<>::fields()) CHECK(std::isnan(shot.landing.*field.member));
}

TEST_CASE("a shot from a landing has a flight of no length") {
  const Landing<> landing{.landing_speed = 20.0, .descent_angle = 40_deg, .landing_spin_rate = 300.0};
  const Shot<> shot = play(landing);
  CHECK(!shot.impact);
  CHECK(shot.flight.carry == 0.0);
  CHECK(shot.flight.flight_time == 0.0);
  CHECK(agrees(shot.flight.descent_angle, 40_deg, 1e-15, 0));
  CHECK(agrees(shot.run.total, shot.run.distance, 1e-12, 0));
}

TEST_CASE("a landing that cannot be is refused with field, value and range") {
  const auto refusal = [](const Landing<>& landing) {
    try {
      play(landing);
    } catch (const InputError& error) {
      return std::string(error.what());
    }
    return std::string("accepted");
  };
  CHECK(refusal({.landing_speed = -1.0}) ==
        "landing_speed is -1 m/s (-2.237 mph); accepted: 0 m/s to 150 m/s (335.5 mph)");
  CHECK(refusal({.landing_speed = 20.0, .descent_angle = -0.1}) ==
        "descent_angle is -0.1 rad (-5.73 deg); accepted: 0 rad to 1.5708 rad (90 deg)");
  CHECK(refusal({.landing_speed = 20.0, .descent_angle = 0.5, .landing_spin_rate = NAN}) ==
        "landing_spin_rate is nan rad/s; accepted: 0 rad/s to 3000 rad/s (2.865e+04 rpm)");
  CHECK(
      refusal({.landing_speed = 20.0,
               .descent_angle = 0.5,
               .landing_spin_rate = 100.0,
               .axial_spin_rate = 200.0}) ==
      "axial_spin_rate is 200 rad/s (1910 rpm); accepted: -100 rad/s (-954.9 rpm) to 100 rad/s (954.9 rpm)");
}
