#pragma once
#include "whimbrel/impact/rigid.hpp"

namespace whimbrel {

namespace kernel {

/// Delivery to impact without checks.
template <Scalar T>
Impact<T> strike(const Delivery<T>& delivery, const Club<T>& club, const Ball<T>& ball) {
  const T approach = delivery.clubhead_speed * dot(path_direction(delivery), face_normal(delivery));
  return rigid_impact(delivery, club.mass, restitution(club.face_restitution, approach), ball);
}

}  // namespace kernel

/// Strikes a ball: from a delivery, with a club, to how the ball leaves.
/// @throws InputError for a number outside its range, or a face that does not approach the ball.
template <Scalar T>
Impact<T> strike(const Delivery<T>& delivery, const Club<T>& club, const Ball<T>& ball = {}) {
  check(delivery, club, ball);
  return kernel::strike(delivery, club, ball);
}

}  // namespace whimbrel
