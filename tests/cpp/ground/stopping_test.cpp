#include <doctest/doctest.h>

#include "agrees.hpp"
#include "random_cases.hpp"

using namespace whimbrel;
using namespace whimbrel::test;

namespace {

const Ball<> ball;
const Landing<> iron_lands{.landing_speed = 23.0, .descent_angle = 48_deg, .landing_spin_rate = 6000_rpm};

// Just below an answer: beyond the 36 halvings of the search (2e-8 rad/s, 2e-11 rad), and far
// enough for the run, sure to 1e-5 m, to be longer: it grows by some 0.1 m per rad/s and 100 m per radian.
constexpr double spin_step = 1e-3, angle_step = 1e-6;  // rad/s, rad

Setting<> on_slope(double downrange) { return {.terrain = {.slope_downrange = downrange}}; }

/// m, within which runs are in the order of descent and spin (validation/turf_run).
constexpr double in_order = 1e-4;

/// How far a ball runs: without end where it does not stop.
double run_of(const Landing<>& landing, const Setting<>& setting, const Turf<>& turf) {
  const Run<> run = play(landing, ball, setting, turf).run;
  return run.status == Status::ok ? run.distance : INFINITY;
}
double run_with_spin(Landing<> landing, double spin, const Setting<>& setting, const Turf<>& turf) {
  landing.landing_spin_rate = spin;
  return run_of(landing, setting, turf);
}
double run_from(Landing<> landing, double descent, const Setting<>& setting, const Turf<>& turf) {
  landing.descent_angle = descent;
  return run_of(landing, setting, turf);
}

/// A landing with backspin as of an iron or a wood, and a green.
Landing<> any_approach(Random& random) {
  return {.landing_speed = random.between(12, 32),
          .descent_angle = random.between(20, 60) * units::deg,
          .landing_direction = random.between(-20, 20) * units::deg,
          .landing_spin_rate = random.between(0, 1000),
          .spin_axis_tilt = random.between(-20, 20) * units::deg};
}
Turf<> any_green(Random& random) {
  return turf_of(Green<>{.stimp = random.between(7, 13) * units::ft, .firmness = random.between(0, 1)});
}

}  // namespace

TEST_CASE("what holds from a bound on up is found as that bound") {
  for (const double bound : {0.0301, 0.5, 0.77, 0.99999}) {
    const double least = least_that_holds(0.0, 1.0, [&](double x) { return x >= bound; });
    CHECK(least >= bound);
    CHECK(agrees(least, bound, 0x1p-36, 0));
  }
  CHECK(agrees(least_that_holds(-4.0, 8.0, [](double x) { return x >= 1.0; }), 1.0, 12 * 0x1p-36, 0));
}

TEST_CASE("what always holds does so from the lower bound on, what never holds from nowhere") {
  CHECK(least_that_holds(-2.0, 1.0, [](double) { return true; }) == -2.0);
  CHECK(std::isnan(least_that_holds(-2.0, 1.0, [](double) { return false; })));
  CHECK(std::isnan(least_that_holds(0.0, 1.0, [](double x) { return x < 0.5; })));
  CHECK(least_that_holds(0.0, 1.0, [](double x) { return x == 1.0; }) > 1.0 - 0x1p-35);
}

TEST_CASE("a ball with the least spin that holds stops within the room, with less it runs on") {
  unsigned found = 0, any_spin = 0;
  in_random_cases(
      [](Random& random) {
        return std::tuple(any_approach(random), any_green(random), random.between(-0.03, 0.05),
                          Room<>{random.between(0, 25)});
      },
      [&](const Landing<>& landing, const Turf<>& green, double slope, const Room<>& room) {
        const Setting<> setting = on_slope(slope);
        const double spin = spin_to_hold(landing, room, ball, setting, green);
        if (std::isnan(spin)) {
          const double most = run_with_spin(landing, most_spin_to_hold, setting, green);
          const bool held = most <= room.depth;  // not one that spins back down a slope without end
          CHECK(!held);
          return;
        }
        ++found;
        any_spin += spin == 0.0;
        CHECK(run_with_spin(landing, spin, setting, green) <= room.depth);
        if (spin > 0.0)
          CHECK(run_with_spin(landing, spin - spin_step, setting, green) > room.depth - in_order);
        CHECK(run_with_spin(landing, 0.5 * (spin + most_spin_to_hold), setting, green) <=
              room.depth + in_order);
      });
  CHECK(found > 700);
  CHECK(any_spin > 30);
  CHECK(any_spin < found / 2);
}

TEST_CASE("a ball at the least descent that holds stops within the room, flatter it runs on") {
  unsigned found = 0, any_descent = 0;
  in_random_cases(
      [](Random& random) {
        return std::tuple(any_approach(random), any_green(random), random.between(-0.03, 0.05),
                          Room<>{random.between(0, 25)});
      },
      [&](const Landing<>& landing, const Turf<>& green, double slope, const Room<>& room) {
        const Setting<> setting = on_slope(slope);
        const double descent = descent_to_hold(landing, room, ball, setting, green);
        if (std::isnan(descent)) {
          CHECK(run_from(landing, 90_deg, setting, green) > room.depth);
          return;
        }
        ++found;
        any_descent += descent == 0.0;
        CHECK(run_from(landing, descent, setting, green) <= room.depth);
        if (descent > 0.0)
          CHECK(run_from(landing, descent - angle_step, setting, green) > room.depth - in_order);
        CHECK(run_from(landing, 0.5 * (descent + 90_deg), setting, green) <= room.depth + in_order);
      });
  CHECK(found > 700);
  CHECK(any_descent < found / 2);
}

TEST_CASE("a shallower green takes more spin and a steeper descent") {
  for (const Turf<>& turf : turf_set()) {
    double spin = most_spin_to_hold, descent = 90_deg;
    for (const double depth : {0.0, 1.0, 3.0, 6.0, 10.0, 15.0, 25.0, 60.0}) {
      CAPTURE(turf.name);
      CAPTURE(depth);
      const double less = spin_to_hold(iron_lands, {depth}, ball, {}, turf),
                   flatter = descent_to_hold(iron_lands, {depth}, ball, {}, turf);
      CHECK(less <= spin);
      CHECK(flatter <= descent);
      spin = less;
      descent = flatter;
    }
    CHECK(spin == 0.0);  // 60 m hold any ball that comes down so
    CHECK(descent < 35_deg);
  }
}

TEST_CASE("a firmer green takes more spin to hold than a softer one") {
  const auto needed = [](const char* green) {
    return spin_to_hold(iron_lands, {5.0}, ball, {}, shipped_turf(green));
  };
  CHECK(needed("soft green") < needed("medium green"));
  CHECK(needed("medium green") < needed("firm green"));
}

TEST_CASE("a green that rises holds a ball with less spin than one that falls") {
  const Turf<> green = shipped_turf("medium green");
  const double up = spin_to_hold(iron_lands, {4.0}, ball, on_slope(0.03), green),
               flat = spin_to_hold(iron_lands, {4.0}, ball, {}, green),
               down = spin_to_hold(iron_lands, {4.0}, ball, on_slope(-0.03), green);
  CHECK(up < flat);
  CHECK(flat < down);
}

TEST_CASE("no descent holds on the spot a ball without spin on a green that falls away, and no spin on ice") {
  Landing<> spinless = iron_lands;
  spinless.landing_spin_rate = 0.0;
  const Turf<> green = shipped_turf("firm green");
  CHECK(run_from(spinless, 90_deg, on_slope(-0.05), green) > 0.0);
  CHECK(std::isnan(descent_to_hold(spinless, {0.0}, ball, on_slope(-0.05), green)));

  const Turf<> ice{.name = "ice", .friction = 0.0, .rolling_deceleration = 0.5};
  CHECK(std::isnan(spin_to_hold(iron_lands, {3.0}, ball, {}, ice)));
}

TEST_CASE("a landing's own spin counts for nothing where spin is asked, its descent where descent is") {
  Landing<> other = iron_lands;
  other.landing_spin_rate = 10.0;
  CHECK(spin_to_hold(other, {5.0}) == spin_to_hold(iron_lands, {5.0}));
  other = iron_lands;
  other.descent_angle = 20_deg;
  CHECK(descent_to_hold(other, {5.0}) == descent_to_hold(iron_lands, {5.0}));
}

TEST_CASE("what cannot be held is refused by field, value and range") {
  const auto refused = [](const Landing<>& landing, double depth, const Turf<>& turf = {}) {
    std::array<std::string, 2> said{"accepted", "accepted"};
    try {
      spin_to_hold(landing, {depth}, ball, {}, turf);
    } catch (const InputError& error) {
      said[0] = error.what();
    }
    try {
      descent_to_hold(landing, {depth}, ball, {}, turf);
    } catch (const InputError& error) {
      said[1] = error.what();
    }
    CHECK(said[0] == said[1]);
    return said[0];
  };
  CHECK(refused(iron_lands, -1.0) == "depth is -1 m; accepted: 0 m to 200 m");
  CHECK(refused(iron_lands, NAN) == "depth is nan m; accepted: 0 m to 200 m");
  CHECK(refused({.landing_speed = 200.0}, 5.0).starts_with("landing_speed is 200 m/s"));
  CHECK(refused(iron_lands, 5.0, {.friction = 3.0}) == "turf friction is 3; accepted: 0 to 2");
}
