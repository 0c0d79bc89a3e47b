#include "whimbrel/swing/delivered_on.hpp"

#include <doctest/doctest.h>

#include "agrees.hpp"
#include "whimbrel/swing/club_set.hpp"

using namespace whimbrel;
using namespace whimbrel::test;

namespace {

constexpr double radius = 0.021335;
const SwingArc<> arc{.radius = 1.5, .low_point_ahead = 0.12, .low_point_height = -0.004};
const Club<> iron = club_set()[6], driver = club_set()[0];

}  // namespace

TEST_CASE("one arc hits down on a ball on the ground and up on a teed ball farther forward") {
  const Delivery<> down = delivered_on(arc, iron, {.shaft_lean = 7 * units::deg}, 38.0, {}, radius);
  const Delivery<> up = delivered_on(arc, driver, {}, 43.0, {.forward = 0.2, .tee_height = 0.025}, radius);
  CHECK(down.attack_angle < 0.0);
  CHECK(up.attack_angle > 0.0);
  CHECK(down.club_path >
        0.0);  // the base points at the target: hitting down goes right of it, hitting up left
  CHECK(up.club_path < 0.0);
  CHECK(up.strike_high > down.strike_high);
}

TEST_CASE("a delivery on an arc is the arc's path, the hands' face and the heights' strike") {
  const Presentation<> hands{.shaft_lean = 6 * units::deg, .face_angle = 2 * units::deg};
  const BallPlace<> place{.forward = 0.03, .tee_height = 0.01};
  const Delivery<> d = delivered_on(arc, iron, hands, 38.0, place, radius);
  const SwingArc<> moved = with_ball_moved(arc, 0.03);
  CHECK(d.clubhead_speed == 38.0);
  CHECK(d.attack_angle == at_ball(moved, Hand::right).attack_angle);
  CHECK(d.club_path == at_ball(moved, Hand::right).club_path);
  CHECK(d.dynamic_loft == present(iron, hands).dynamic_loft);
  CHECK(d.strike_high == ground_strike(moved, iron, d.dynamic_loft, 0.01, radius).strike_high);
}

TEST_CASE("a ball moved off the arc or teed too high is refused by name") {
  CHECK_THROWS_WITH_AS(delivered_on(arc, iron, {}, 38.0, {.forward = 1.5}, radius),
                       doctest::Contains("ball_forward is 1.5 m"), InputError);
  CHECK_THROWS_WITH_AS(delivered_on(arc, iron, {}, 38.0, {.tee_height = 0.5}, radius),
                       doctest::Contains("tee_height is 0.5 m"), InputError);
}
