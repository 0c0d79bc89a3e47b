#pragma once
#include "random_cases.hpp"

namespace whimbrel::test {

/// The arc of a path and attack, the leading edge level with the turf at the ball; 1.6 m unless said.
inline SwingArc<> arc_through(double path, double attack, double inclination, Hand hand,
                              double radius = 1.6) {
  return arc_of(path, attack, inclination, radius, 0.0, hand);
}

inline Hand any_hand(Random& random) { return random.below(2) == 0 ? Hand::right : Hand::left; }

inline SwingArc<> any_arc(Random& random) {
  return {.radius = random.between(1.2, 1.8),
          .plane_inclination = random.between(40, 70) * units::deg,
          .base_direction = random.between(-10, 10) * units::deg,
          .low_point_ahead = random.between(-0.15, 0.25),
          .low_point_height = random.between(-0.02, 0.04)};
}

}  // namespace whimbrel::test
