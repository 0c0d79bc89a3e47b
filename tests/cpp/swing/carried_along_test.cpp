#include <doctest/doctest.h>

#include <whimbrel/swing/swing_arc.hpp>

#include "agrees.hpp"
#include "arcs.hpp"
#include "mirrored.hpp"

using namespace whimbrel;
using namespace whimbrel::test;

namespace {

void are_the_same(const Delivery<>& a, const Delivery<>& b) {
  for (const auto& field : Delivery<>::fields()) CHECK(agrees(a.*field.member, b.*field.member, 2e-13, 0));
}

/// A delivery that comes along an arc.
Delivery<> on(const SwingArc<>& arc, Hand hand, Delivery<> delivery) {
  const ArcAtBall<> at = at_ball(arc, hand);
  delivery.club_path = at.club_path;
  delivery.attack_angle = at.attack_angle;
  return delivery;
}

/// `holds` on a delivery on an arc, the arc, the hand, and how far the ball is moved.
template <class Holds>
void in_random_moves(const Holds& holds) {
  in_random_cases(
      [](Random& random) {
        return std::tuple{any_swing(random).delivery, any_arc(random), any_hand(random),
                          random.between(-0.1, 0.1)};
      },
      [&](const Delivery<>& delivery, const SwingArc<>& arc, Hand hand, double forward) {
        holds(on(arc, hand, delivery), arc, hand, forward);
      });
}

constexpr std::array both_faces{FaceOnArc::turning, FaceOnArc::held};

}  // namespace

TEST_CASE("the arc behind a path and an attack has that path and attack at the ball") {
  in_random_cases(
      [](Random& random) {
        return std::tuple{any_arc(random), any_hand(random)};
      },
      [](const SwingArc<>& arc, Hand hand) {
        const ArcAtBall<> at = at_ball(arc, hand);
        const SwingArc<> back =
            arc_of(at.club_path, at.attack_angle, arc.plane_inclination, arc.radius, at.edge_height, hand);
        for (const auto& field : SwingArc<>::fields())
          CHECK(agrees(back.*field.member, arc.*field.member, 1e-13, 0));
        CHECK(
            agrees(std::sin(at.attack_angle), std::sin(at.beta) * std::sin(arc.plane_inclination), 1e-15, 0));
      });
}

TEST_CASE("the clubhead moves in the swing plane, at the lowest of it toward the base direction") {
  in_random_cases(
      [](Random& random) {
        return std::tuple{any_arc(random), any_hand(random)};
      },
      [](SwingArc<> arc, Hand hand) {
        // The plane leans from the base line toward the player: to the left of it for a
        // right-hander.
        const Vec3<double> normal = std::sin(arc.plane_inclination) * right_of(arc.base_direction) +
                                    Vec3<double>{0, 0, toe_side(hand) * std::cos(arc.plane_inclination)};
        const ArcAtBall<> at = at_ball(arc, hand);
        CHECK(agrees(dot(direction(at.club_path, at.attack_angle), normal), 0.0, 1e-15, 0));
        arc.low_point_ahead = 0.0;
        CHECK(at_ball(arc, hand).club_path == arc.base_direction);
        CHECK(at_ball(arc, hand).attack_angle == 0.0);
        CHECK(at_ball(arc, hand).edge_height == arc.low_point_height);
      });
}

TEST_CASE("a face that turns with the arc keeps its spin loft wherever the ball lies") {
  in_random_moves([](const Delivery<>& delivery, const SwingArc<>& arc, Hand hand, double forward) {
    const Delivery<> moved =
        carried_along(delivery, arc, with_ball_moved(arc, forward), hand, FaceOnArc::turning);
    CHECK(agrees(d_plane(moved).spin_loft, d_plane(delivery).spin_loft, 1e-13, 0));
    are_the_same(moved, on(with_ball_moved(arc, forward), hand, moved));
  });
}

TEST_CASE("a face held by the hands keeps its angle and loft wherever the ball lies") {
  in_random_moves([](const Delivery<>& delivery, const SwingArc<>& arc, Hand hand, double forward) {
    const SwingArc<> to = with_ball_moved(arc, forward);
    const Delivery<> moved = carried_along(delivery, arc, to, hand, FaceOnArc::held);
    are_the_same(moved, on(to, hand, delivery));
  });
}

TEST_CASE("moving the ball forward and back again changes nothing") {
  in_random_moves([](const Delivery<>& delivery, const SwingArc<>& arc, Hand hand, double forward) {
    const SwingArc<> there = with_ball_moved(arc, forward);
    for (const FaceOnArc face : both_faces) {
      const Delivery<> moved = carried_along(delivery, arc, there, hand, face);
      are_the_same(carried_along(moved, there, with_ball_moved(there, -forward), hand, face), delivery);
    }
  });
}

TEST_CASE("a left-hander's arc is the mirrored right-hander's") {
  in_random_moves([](const Delivery<>& delivery, const SwingArc<>& arc, Hand hand, double forward) {
    SwingArc<> image = arc;
    image.base_direction *= -1;
    const Hand other = hand == Hand::right ? Hand::left : Hand::right;
    are_the_same(on(image, other, mirrored(delivery)), mirrored(delivery));
    for (const FaceOnArc face : both_faces)
      are_the_same(carried_along(mirrored(delivery), image, with_ball_moved(image, forward), other, face),
                   mirrored(carried_along(delivery, arc, with_ball_moved(arc, forward), hand, face)));
  });
}

TEST_CASE(
    "a ball moved back is hit more down, more from the inside, and with a face more open and delofted") {
  const SwingArc<> arc = arc_through(0.0, -5_deg, 60_deg, Hand::right);
  const Delivery<> iron{.clubhead_speed = 38.0, .attack_angle = -5_deg, .dynamic_loft = 25_deg};
  const SwingArc<> back = with_ball_moved(arc, -50_mm);
  const Delivery<> turning = carried_along(iron, arc, back, Hand::right, FaceOnArc::turning);
  const Delivery<> held = carried_along(iron, arc, back, Hand::right, FaceOnArc::held);
  CHECK(turning.attack_angle < iron.attack_angle);
  CHECK(turning.club_path > iron.club_path);
  CHECK(turning.face_angle > 0.0);
  CHECK(turning.dynamic_loft < iron.dynamic_loft);
  CHECK(d_plane(held).spin_loft > d_plane(turning).spin_loft);
}
