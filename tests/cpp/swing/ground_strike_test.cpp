#include "whimbrel/swing/ground_strike.hpp"

#include <doctest/doctest.h>

#include <cmath>

#include "agrees.hpp"
#include "whimbrel/swing/club_set.hpp"

using namespace whimbrel;
using namespace whimbrel::test;

namespace {

constexpr double loft = 24 * units::deg, radius = 0.021335;
const Club<> iron = club_set()[6];

/// An iron's arc, down 5 degrees on a 60 degree plane, the leading edge so high above the turf at the ball.
SwingArc<> arc_at(double edge) {
  return arc_of(0.0, -5 * units::deg, 60 * units::deg, 1.5, edge, Hand::right);
}

GroundStrike<> met(double edge, double tee = 0.0, double sole = 0.0) {
  return ground_strike(arc_at(edge), iron, loft, tee, radius, sole);
}

}  // namespace

TEST_CASE(
    "with the leading edge at the turf the face meets the ball r (1 - sin loft) / cos loft up from it") {
  // derived by hand: 21.335 mm (1 - 0.40674) / 0.91355 = 13.855 mm, less half of the 40 mm face
  const GroundStrike<> strike = met(0.0);
  CHECK(agrees(strike.strike_high, 13.855e-3 - 20e-3, 5e-7, 0));
  CHECK(agrees(strike.turf_entry, 0.0, 1e-12, 0));
  CHECK(strike.contact == GroundContact::clean);
}

TEST_CASE(
    "a higher edge moves the strike down the face until it is thin, a lower one meets the ground first") {
  CHECK(agrees(met(0.004).strike_high, met(0.0).strike_high - 0.004 / std::cos(loft), 1e-12, 0));
  CHECK(met(0.004).contact == GroundContact::clean);
  CHECK(met(0.009).contact == GroundContact::thin);
  CHECK(met(-0.004).contact == GroundContact::fat);
  CHECK(met(-0.004).turf_entry < -clean_turf_margin);
}

TEST_CASE("the sole enters the turf where the arc lowered by its depth crosses it") {
  const SwingArc<> lowered = arc_at(-0.003);
  const double entry = lowered.low_point_ahead - turf_entry_behind_low_point(lowered);
  CHECK(agrees(met(0.0, 0.0, 0.003).turf_entry, entry, 1e-12, 0));
  CHECK(agrees(met(0.0, 0.0, 0.003).divot_depth, -lowered.low_point_height, 1e-12, 0));
}

TEST_CASE("a sole that enters the turf more than 5 mm behind the ball is fat") {
  // The margin is common practice. A circle in the plane is R - sqrt(R^2 - x^2) up, x from its low point.
  for (const double beyond : {-1e-6, 1e-6}) {
    SwingArc<> arc{.radius = 1.5, .plane_inclination = 60 * units::deg, .low_point_ahead = 0.1};
    const double entry = -0.005 - beyond, x = arc.low_point_ahead - entry;
    arc.low_point_height =
        -std::sin(arc.plane_inclination) * (arc.radius - std::sqrt(arc.radius * arc.radius - x * x));
    const GroundStrike<> strike = ground_strike(arc, iron, loft, 0.0, radius);
    CHECK(agrees(strike.turf_entry, entry, 1e-12, 0));
    CHECK((strike.contact == GroundContact::fat) == (beyond > 0));
  }
}

TEST_CASE("an arc above the turf takes no divot, and a tee lifts the strike on the face") {
  const GroundStrike<> swept = met(0.05, 0.05);
  CHECK(std::isnan(swept.turf_entry));
  CHECK(swept.divot_depth == 0.0);
  CHECK(agrees(met(0.0, 0.03).strike_high, met(0.0).strike_high + 0.03 / std::cos(loft), 1e-12, 0));
}

TEST_CASE("a ball teed higher than its radius is not fat, however low the club") {
  CHECK(met(-0.004, 0.03).contact == GroundContact::clean);
}
