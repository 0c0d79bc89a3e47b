#include <doctest/doctest.h>

#include "agrees.hpp"
#include "heads.hpp"
#include "mirrored.hpp"
#include "random_cases.hpp"

using namespace whimbrel;
using namespace whimbrel::test;

namespace {

/// The same head delivered in the mirror: what points to the toe points to the heel.
Delivery<> toe_for_heel(const Delivery<>& delivery) {
  Delivery<> other = mirrored(delivery);
  other.strike_toe *= -1;
  other.lie_tilt *= -1;
  other.closure_rate *= -1;
  return other;
}

void are_mirrored(const Impact<>& a, const Impact<>& b) {
  const double spin = a.launch.spin_rate;
  CHECK(agrees(launch_velocity(b.launch), mirrored(launch_velocity(a.launch)), 0, 1e-12));
  CHECK(agrees(launch_spin(b.launch), -mirrored(launch_spin(a.launch)), 1e-12 * spin, 0));
  CHECK(agrees(b.head_velocity_after, mirrored(a.head_velocity_after), 0, 1e-12));
  CHECK(agrees(b.head_rotation_after, -mirrored(a.head_rotation_after), 1e-10, 1e-12));
  CHECK(agrees(b.energy_lost, a.energy_lost, 0, 1e-11));
  CHECK(agrees(b.contact_time, a.contact_time, 0, 1e-12));
}

}  // namespace

TEST_CASE("a left-hander's impact is the mirrored right-hander's, all over the face") {
  in_random_cases([](Random& random) { return std::tuple(any_swing(random)); },
                  [](const Swing<>& swing) {
                    are_mirrored(strike(swing.delivery, swing.club),
                                 strike(mirrored(swing.delivery), mirrored(swing.club)));
                  });
}

TEST_CASE("a heel strike is the mirrored toe strike of a head that is its own mirror image") {
  in_random_cases([](Random& random) { return std::tuple(any_swing(random)); },
                  [](const Swing<>& swing) {
                    are_mirrored(strike(swing.delivery, swing.club),
                                 strike(toe_for_heel(swing.delivery), swing.club));
                  });
}

TEST_CASE("a head closing at 40 rad/s turns about a degree in 450 microseconds") {
  CHECK(agrees(40.0 * 450e-6 / units::deg, 1.0, 0.05, 0));  // derived
}

TEST_CASE("closing turns the path of the face centre away from the head's") {
  // Derived: the centre of mass, a depth behind the face, moves aside at closure times depth.
  for (const Hand hand : {Hand::right, Hand::left}) {
    Club<> club = measured_driver();
    club.hand = hand;
    const Delivery<> closing{.clubhead_speed = 50.0, .closure_rate = 40.0};
    const Touch<double> at = touch(closing, club, Ball<>{});
    CHECK(agrees(at.approach, {0.0, 50.0, 0.0}, 1e-12, 0));
    CHECK(agrees(at.head_velocity, {toe_side(hand) * 40.0 * club.cg_depth, 50.0, 0.0}, 1e-12, 0));
    CHECK(at.head_rotation.z * toe_side(hand) >
          0.0);  // anticlockwise from above closes a right-hander's face
  }
}
