#include <doctest/doctest.h>

#include "agrees.hpp"
#include "shots.hpp"

using namespace whimbrel;
using namespace whimbrel::test;

// How a run answers to the numbers that decide it: without jumps, and each in its own sense.

namespace {

const Ball<> ball;

/// How far a ball runs on level ground that comes down so, m.
double run_of(double speed, double descent, double spin, const Turf<>& turf) {
  const Landing<> landing{.landing_speed = speed, .descent_angle = descent, .landing_spin_rate = spin};
  return kernel::run(landing, ball, {}, turf).distance;
}

/// By how much a run, at its worst, is longer than one with less of what should shorten it.
class Longer {
 public:
  void next(double run) {
    most = std::max(most, run - shortest);
    shortest = std::min(shortest, run);
  }
  double most = 0.0;

 private:
  double shortest = INFINITY;
};

constexpr double descents[] = {10_deg, 80_deg}, speeds[] = {10.0, 40.0}, most_spin = 1200.0;

}  // namespace

TEST_CASE("on every turf a steeper descent runs no longer") {
  // In rough a ball that skims is braked all the way, one that hops is not: some centimetres.
  for (const Turf<>& turf : turf_set())
    for (double speed = speeds[0]; speed <= speeds[1]; speed += 6.0)
      for (double spin = 0.0; spin <= most_spin; spin += 300.0) {
        Longer longer;
        for (double descent = descents[0]; descent <= descents[1]; descent += 0.5_deg)
          longer.next(run_of(speed, descent, spin, turf));
        CAPTURE(turf.name);
        CAPTURE(speed);
        CAPTURE(spin);
        CHECK(longer.most <= (turf.name == "rough" ? 0.1 : 1e-4));
      }
}

TEST_CASE("on every turf more backspin runs no longer, but for what it lifts the hops") {
  // Under 25 degrees of descent no flight comes down faster than 26 m/s with more than 400 rad/s: such a ball
  // would sail on with its spin. The others' hops gain up to 15 cm from it.
  for (const Turf<>& turf : turf_set())
    for (double descent = descents[0]; descent <= descents[1]; descent += 5_deg)
      for (double speed = speeds[0]; speed <= (descent < 25_deg ? 26.0 : speeds[1]); speed += 4.0) {
        Longer longer;
        for (double spin = 0.0; spin <= most_spin; spin += 25.0)
          longer.next(run_of(speed, descent, spin, turf));
        CAPTURE(turf.name);
        CAPTURE(descent);
        CAPTURE(speed);
        CHECK(longer.most <= 0.15);
      }
}

TEST_CASE("a run has no jump: half a step of descent is about half the change") {
  // At a jump one half would have all of it. A centimetre is left for bends.
  for (const Turf<>& turf : turf_set())
    for (const double speed : {12.0, 20.0, 27.0, 34.0})
      for (const double spin : {0.0, 250.0, 700.0}) {
        constexpr double step = 0.1_deg;
        double before = run_of(speed, descents[0], spin, turf);
        for (double descent = descents[0] + step; descent <= descents[1]; descent += step) {
          const double now = run_of(speed, descent, spin, turf), change = std::abs(now - before);
          const double half = std::abs(run_of(speed, descent - 0.5 * step, spin, turf) - before);
          if (change > 1.0 || std::max(half, change - half) > 0.75 * change + 0.01) {
            CAPTURE(turf.name);
            CAPTURE(speed);
            CAPTURE(spin);
            CAPTURE(descent / units::deg);
            CHECK(change <= 1.0);
            CHECK(std::max(half, change - half) <= 0.75 * change + 0.01);
          }
          before = now;
        }
        CHECK(std::isfinite(before));
      }
}

TEST_CASE("where a ball just makes one hop more it runs as far as where it just does not") {
  for (const Turf<>& turf : turf_set())
    for (const double spin : {0.0, 250.0, 700.0}) {
      const auto run = [&](double descent) {
        return kernel::run(
            Landing<>{.landing_speed = 27.0, .descent_angle = descent, .landing_spin_rate = spin}, ball, {},
            turf);
      };
      double low = 20_deg, high = 70_deg;
      REQUIRE(run(low).bounces != run(high).bounces);
      const double hops = run(low).bounces;
      while (high - low > 1e-9) {
        const double middle = 0.5 * (low + high);
        (run(middle).bounces == hops ? low : high) = middle;
      }
      CAPTURE(turf.name);
      CHECK(run(low).bounces != run(high).bounces);
      CHECK(agrees(run(low).distance, run(high).distance, 1e-5, 0));
    }
}

TEST_CASE("the stronger the wind from behind, the longer a shot in total") {
  constexpr std::array launches{
      drive, mid_iron, wedge,
      Launch<>{.ball_speed = 103_mph, .launch_angle = 15.5_deg, .spin_rate = 2900_rpm}};
  for (const Turf<>& turf : turf_set())
    for (const Launch<>& launch : launches) {
      double shorter = 0.0;
      for (double wind = -15.0; wind <= 15.0; wind += 1.0) {
        const Setting<> setting{.wind = wind < 0.0 ? head_wind(-wind) : tail_wind(wind)};
        const double total = kernel::play(launch, ball, setting, turf).run.total;
        CAPTURE(turf.name);
        CAPTURE(wind);
        CHECK(total > shorter);
        shorter = total;
      }
    }
}

TEST_CASE("a drive bounces three to seven times on a fairway, in rough it runs little") {
  for (const Launch<>& launch :
       {drive, Launch<>{150_mph, 13_deg, 0.0, 2800_rpm}, Launch<>{103_mph, 15.5_deg, 0.0, 2900_rpm}}) {
    for (const char* fairway : {"firm fairway", "soft fairway"}) {
      const double bounces = kernel::play(launch, ball, {}, shipped_turf(fairway)).run.bounces;
      CHECK(bounces >= 3.0);
      CHECK(bounces <= 7.0);
    }
    const double rough = kernel::play(launch, ball, {}, shipped_turf("rough")).run.distance;
    CHECK(rough > 0.0);
    CHECK(rough < 8 * units::yd);
  }
}

TEST_CASE(
    "a full wedge hops on from its pitch mark on a medium green and checks, on a soft one it comes back") {
  const auto path = [&](const char* green) {
    const Shot<> shot = kernel::play(wedge, ball, {}, shipped_turf(green));
    const Vec3<double> along = direction(shot.landing.landing_direction, 0.0);
    const Vec3<double> pitch = shot.run.trajectory.knots.front().state.position;
    double farthest = 0.0;
    for (const auto& knot : shot.run.trajectory.knots)
      farthest = std::max(farthest, dot(knot.state.position - pitch, along));
    return std::pair(farthest, shot.run.distance);
  };
  const auto [checked_from, checks] = path("medium green");
  CHECK(checked_from > 0.2);
  CHECK(checks < checked_from);
  CHECK(std::abs(checks) < 3 * units::yd);
  const auto [back_from, back] = path("soft green");
  CHECK(back_from > 0.0);
  CHECK(back < 0.0);
  CHECK(back > -3 * units::yd);
}
