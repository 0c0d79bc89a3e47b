#include <doctest/doctest.h>

#include <whimbrel/swing/swing_arc.hpp>

#include "agrees.hpp"
#include "arcs.hpp"
#include "dual.hpp"

using namespace whimbrel;
using namespace whimbrel::test;

TEST_CASE("hitting down on an inclined plane moves the path away from the player's side of the base line") {
  // Derived: attack, inclination -> path less base direction, in degrees; tolerance: the printed digits.
  const std::array<std::array<double, 3>, 5> table{
      {{-5, 60, 2.895}, {-4, 62, 2.131}, {-3, 50, 2.520}, {3, 47, -2.801}, {5, 45, -5.019}}};
  for (const auto& [attack, inclination, path] : table)
    for (const Hand hand : {Hand::right, Hand::left}) {
      const double expected = toe_side(hand) * path * units::deg;
      const SwingArc<> arc = arc_through(7_deg, attack * units::deg, inclination * units::deg, hand);
      CHECK(agrees(7_deg - arc.base_direction, expected, 5e-4_deg, 0));
      CHECK(agrees(at_ball(arc, hand).club_path, 7_deg, 1e-14, 0));
      CHECK(agrees(at_ball(arc, hand).attack_angle, attack * units::deg, 1e-14, 0));
    }
}

TEST_CASE("a radius of 1.6 m hit 5 degrees down bottoms 161 mm ahead of the ball and 7.0 mm lower") {
  // Derived; tolerance: the printed digits.
  const SwingArc<> arc = arc_through(0.0, -5_deg, 60_deg, Hand::right);
  CHECK(agrees(arc.low_point_ahead, 0.161, 5e-4, 0));
  CHECK(agrees(arc.low_point_height, -7.0_mm, 0.05_mm, 0));
  CHECK(agrees(at_ball(arc, Hand::right).edge_height, 0.0, 1e-15, 0));
}

TEST_CASE("moving the ball on the same arc changes attack, path and height by the arc's geometry") {
  // Derived: ball forward, cm -> attack, path less base, degrees, arc higher at the ball, mm; tolerance: the
  // printed digits.
  const std::array<std::array<double, 4>, 6> table{{{-10, -8.12, 4.73, 11.5},
                                                    {-5, -6.56, 3.81, 5.1},
                                                    {-2, -5.62, 3.26, 1.9},
                                                    {2, -4.38, 2.53, -1.6},
                                                    {5, -3.45, 1.99, -3.7},
                                                    {10, -1.89, 1.09, -6.0}}};
  const SwingArc<> arc = arc_through(0.0, -5_deg, 60_deg, Hand::right);
  for (const auto& [forward, attack, path, higher] : table) {
    const ArcAtBall<> at = at_ball(with_ball_moved(arc, forward * units::cm), Hand::right);
    CHECK(agrees(at.attack_angle / units::deg, attack, 5e-3, 0));
    CHECK(agrees((at.club_path - arc.base_direction) / units::deg, path, 5e-3, 0));
    CHECK(agrees(at.edge_height / units::mm, higher, 0.05, 0));
  }
}

TEST_CASE("the deeper the low point, the farther behind it the sole enters the turf") {
  // Derived from the parabola sqrt(2 R D / sin(inclination)): D 2, 5, 8, 12 mm -> 8.6, 13.6, 17.2, 21.1 cm,
  // by its printed digits. The circle is shorter by D / (4 R sin) of it, to the square of that.
  const std::array<std::array<double, 2>, 4> table{{{2, 8.6}, {5, 13.6}, {8, 17.2}, {12, 21.1}}};
  for (const auto& [depth, printed] : table) {
    SwingArc<> arc = arc_through(0.0, -5_deg, 60_deg, Hand::right);
    arc.low_point_height = -depth * units::mm;
    const double sagitta = depth * units::mm / std::sin(60_deg);
    const double parabola = std::sqrt(2 * arc.radius * sagitta);
    CHECK(agrees(parabola / units::cm, printed, 0.05, 0));
    const double order = sagitta / (4 * arc.radius);
    CHECK(agrees(turf_entry_behind_low_point(arc), parabola * (1 - order), 0, square(order)));
  }
  CHECK(agrees(turf_entry_behind_low_point(SwingArc<>{.radius = 1.6, .low_point_height = -12_mm}) / units::cm,
               21.01, 5e-3, 0));
  CHECK(turf_entry_behind_low_point(SwingArc<>{.low_point_height = 5_mm}) == 0.0);
}

TEST_CASE("a swing that looks over the top measures in to out only within its downward offset") {
  // Derived: attack, inclination -> the offset the path must stay below, degrees; tolerance: the printed
  // digits. Inside it the base line points left and the path right.
  const std::array<std::array<double, 3>, 3> table{{{-4, 62, 2.13}, {-6, 62, 3.20}, {-8, 60, 4.65}}};
  for (const auto& [attack, inclination, offset] : table) {
    const SwingArc<> level = arc_through(0.0, attack * units::deg, inclination * units::deg, Hand::right);
    CHECK(agrees(-level.base_direction / units::deg, offset, 5e-3, 0));
    for (const double within : {-0.01, 0.01}) {
      const double path = (offset + within) * units::deg;
      const SwingArc<> arc = arc_through(path, attack * units::deg, inclination * units::deg, Hand::right);
      CHECK((arc.base_direction < 0.0) == (within < 0.0));
    }
  }
}

TEST_CASE("a well-struck mid-iron bottoms 4 to 6 inches ahead of the ball") {
  // Common practice; attack -4 to -5 degrees on a plane of 60 to 62. True of every radius from 1.35 to 1.5 m;
  // 1.6 m gives 6.3 inches at the steepest of them.
  const auto inches = [](double attack_deg, double inclination_deg, double radius) {
    return arc_through(0.0, attack_deg * units::deg, inclination_deg * units::deg, Hand::right, radius)
               .low_point_ahead /
           units::inch;
  };
  for (const double attack : {-4.0, -4.5, -5.0})
    for (const double inclination : {60.0, 61.0, 62.0})
      for (const double radius : {1.35, 1.40, 1.45, 1.50}) {
        CHECK(inches(attack, inclination, radius) > 4.0);
        CHECK(inches(attack, inclination, radius) < 6.0);
      }
  CHECK(agrees(inches(-5, 60, 1.6), 6.34, 5e-3, 0));
}

TEST_CASE("an attack steeper than the plane is refused with its value and the range") {
  try {
    arc_through(0.0, -61_deg, 60_deg, Hand::right);
    FAIL("an impossible arc");
  } catch (const InputError& error) {
    CHECK(error.field == "attack_angle");
    CHECK(agrees(error.value, -61_deg, 1e-15, 0));
    // the ball may lie 1 m along the base line from the low point: sin(attack) = sin(60 deg) / 1.6
    const double steepest = std::asin(std::sin(60_deg) / 1.6);
    CHECK(agrees(error.lower, -steepest, 1e-15, 0));
    CHECK(agrees(error.upper, steepest, 1e-15, 0));
    CHECK(std::string(error.what()).find("-61 deg") != std::string::npos);
  }
}

TEST_CASE("a small arc is refused an attack by its own reach") {
  // Nine tenths of 0.6 m are nearer than 1 m: sin(attack) = 0.9 sin(60 deg).
  const double steepest = std::asin(0.9 * std::sin(60_deg));
  const auto met = [](double attack) { return arc_of(0.0, attack, 60_deg, 0.6, 0.2, Hand::right); };
  CHECK(agrees(met(-steepest + 1e-9).low_point_ahead, 0.54, 1e-8, 0));
  try {
    met(-steepest - 1e-9);
    FAIL("an impossible arc");
  } catch (const InputError& error) {
    CHECK(error.field == "attack_angle");
    CHECK(agrees(error.upper, steepest, 1e-15, 0));
  }
}

TEST_CASE("an arc takes the numbers of swings, and refuses the next beyond them") {
  // Common practice, wide: a low point at most a metre off, from 20 cm in the ground to 50 cm above it; radii
  // of 0.5 to 3 m; planes from 20 degrees to upright.
  struct Range {
    double SwingArc<>::*member;
    double lower, upper;
  };
  for (const auto& [member, lower, upper] : {Range{&SwingArc<>::radius, 0.5, 3.0},
                                             {&SwingArc<>::plane_inclination, 20_deg, 90_deg},
                                             {&SwingArc<>::base_direction, -90_deg, 90_deg},
                                             {&SwingArc<>::low_point_ahead, -1.0, 1.0},
                                             {&SwingArc<>::low_point_height, -0.2, 0.5}}) {
    SwingArc<> arc;
    for (const double edge : {lower, upper}) {
      arc.*member = edge;
      CHECK(!mistake(arc));
      arc.*member = edge + (edge == lower ? -1e-9 : 1e-9);
      const auto error = mistake(arc);
      REQUIRE(error);
      CHECK(agrees(error->value, arc.*member, 0, 0));
      CHECK(agrees(error->lower, lower, 1e-15, 0));
      CHECK(agrees(error->upper, upper, 1e-15, 0));
    }
  }
}

TEST_CASE("a ball beyond the arc's reach is refused") {
  const auto error = mistake(SwingArc<>{.radius = 0.6, .low_point_ahead = 0.6});
  REQUIRE(error);
  CHECK(error->field == "low_point_ahead");
  CHECK(agrees(error->upper, 0.54, 1e-15, 0));
}

TEST_CASE("an arc, and what it does at the ball, have the derivatives of their differences") {
  const auto numbers = []<class T>(const T& path, const T& attack, const T& plane) {
    const SwingArc<T> arc = arc_of(path, attack, plane, T(1.6), T(0.002), Hand::left);
    const ArcAtBall<T> at = at_ball(with_ball_moved(arc, path), Hand::left);
    return std::array{arc.base_direction,
                      arc.low_point_ahead,
                      arc.low_point_height,
                      at.attack_angle,
                      at.club_path,
                      at.edge_height,
                      turf_entry_behind_low_point(arc)};
  };
  dual::differentiates([&]<class T>(const T& x) { return numbers(x, T(-0.08), T(1.05)); }, 0.03, 0.5);
  dual::differentiates([&]<class T>(const T& x) { return numbers(T(0.03), x, T(1.05)); }, -0.08, 0.05);
  dual::differentiates([&]<class T>(const T& x) { return numbers(T(0.03), T(-0.08), x); }, 1.05, 0.5);
}
