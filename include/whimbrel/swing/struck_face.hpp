#pragma once
#include "whimbrel/swing/club.hpp"
#include "whimbrel/swing/delivery.hpp"

namespace whimbrel {

/// The face where the ball meets it, in the frame.
template <Scalar T>
struct StruckFace {
  Vec3<T> forward, toe, up;  ///< the head's axes: yawed by the face angle, level, turned by the lie tilt
  Vec3<T> from_centre;       ///< m, from the face centre to the strike
  Vec3<T> normal;
  Vec3<T> rotation;  ///< rad/s, of the head
  Vec3<T> velocity;  ///< m/s, of the face there
};

/// Loft is in the face, a paraboloid whose normal at t toward the toe and h high is along
/// n0 + (t/bulge) toe + (h/roll) up.
template <Scalar T>
StruckFace<T> struck_face(const Delivery<T>& delivery, const Club<T>& club) {
  const T side = T(toe_side(club.hand));
  const Vec3<T> forward = direction(delivery.face_angle, T(0.0));
  const auto tilted = [&](const Vec3<T>& axis) { return turned(axis, forward, -side * delivery.lie_tilt); };
  const Vec3<T> toe = tilted(side * right_of(delivery.face_angle));
  const Vec3<T> up = tilted({T(0.0), T(0.0), T(1.0)});

  const Vec3<T> n0 = face_normal(delivery);
  const Vec3<T> face_toe = unit(toe - dot(toe, n0) * n0);
  const Vec3<T> face_up = side * cross(face_toe, n0);
  const T &t = delivery.strike_toe, &h = delivery.strike_high;
  const Vec3<T> normal = unit(n0 + t / club.bulge_radius * face_toe + h / club.roll_radius * face_up);
  const T set_back = T(0.5) * (t * t / club.bulge_radius + h * h / club.roll_radius);
  const Vec3<T> where = t * face_toe + h * face_up - set_back * n0;
  const Vec3<T> rotation = side * delivery.closure_rate * up;
  const Vec3<T> velocity = delivery.clubhead_speed * path_direction(delivery) + cross(rotation, where);
  return {forward, toe, up, where, normal, rotation, velocity};
}

}  // namespace whimbrel
