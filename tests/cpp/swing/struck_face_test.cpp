#include "whimbrel/swing/struck_face.hpp"

#include <doctest/doctest.h>

#include "agrees.hpp"

using namespace whimbrel;
using namespace whimbrel::test;

TEST_CASE("a bulged face lies back by t^2 / 2R where it is struck, and is turned there by t / R") {
  // A parabola for the circle. Without loft, square, 20 mm toward the toe and 10 mm high.
  const Club<> club{.loft = 0.2, .lie_angle = 1.0, .length = 1.1, .bulge_radius = 0.30, .roll_radius = 0.25};
  const Delivery<> delivery{.clubhead_speed = 40.0, .strike_toe = 0.020, .strike_high = 0.010};
  const StruckFace<double> face = struck_face(delivery, club);
  const double back = 0.020 * 0.020 / 0.60 + 0.010 * 0.010 / 0.50;
  CHECK(agrees(face.from_centre, Vec3<double>{0.020, -back, 0.010}, 1e-15, 0));
  CHECK(agrees(face.normal, unit(Vec3<double>{0.020 / 0.30, 1.0, 0.010 / 0.25}), 1e-15, 0));
}

TEST_CASE("a closing head moves its toe forward, and what lies back of the face to the toe's side") {
  const Club<> club{.loft = 0.2, .lie_angle = 1.0, .length = 1.1, .bulge_radius = 0.30};
  const Delivery<> delivery{.clubhead_speed = 40.0, .strike_toe = 0.020, .closure_rate = 50.0};
  const Vec3<double> more = struck_face(delivery, club).velocity - Vec3<double>{0.0, 40.0, 0.0};
  // 50 rad/s about the vertical, counterclockwise from above, at (20, -0.667) mm
  CHECK(agrees(more, Vec3<double>{50.0 * 0.0004 / 0.60, 50.0 * 0.020, 0.0}, 1e-13, 0));
}
