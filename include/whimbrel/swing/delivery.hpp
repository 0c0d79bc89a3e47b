#pragma once
#include <array>
#include <numbers>

#include "whimbrel/core/field.hpp"
#include "whimbrel/core/vector.hpp"

namespace whimbrel {

/// How the clubhead comes to the ball: the velocity of the face centre just before contact, and the
/// face normal at the face centre at first contact, with lie, lean and everything else included.
template <Scalar T = double>
struct Delivery {
  T clubhead_speed{};  ///< m/s
  T club_path{};       ///< rad, azimuth of the velocity: positive right of the target line
  T attack_angle{};    ///< rad, elevation of the velocity: positive up
  T face_angle{};      ///< rad, azimuth of the face normal: positive right
  T dynamic_loft{};    ///< rad, elevation of the face normal
  T strike_toe{};      ///< m, of the strike from the face centre toward the toe
  T strike_high{};     ///< m, toward the crown
  T lie_tilt{};        ///< rad, toe up: turns only the toe-heel and crown-sole axes
  T closure_rate{};    ///< rad/s, of the head about its vertical axis, closing the face

  static constexpr auto fields() {
    constexpr double quarter = std::numbers::pi / 2;
    return std::array<Field<Delivery, T>, 9>{
        {{"clubhead_speed", &Delivery::clubhead_speed, "m/s", 0.5, 100},
         {"club_path", &Delivery::club_path, "rad", -quarter, quarter},
         {"attack_angle", &Delivery::attack_angle, "rad", -quarter, quarter},
         {"face_angle", &Delivery::face_angle, "rad", -quarter, quarter},
         {"dynamic_loft", &Delivery::dynamic_loft, "rad", -quarter, quarter},
         {"strike_toe", &Delivery::strike_toe, "m", -0.1, 0.1},
         {"strike_high", &Delivery::strike_high, "m", -0.1, 0.1},
         {"lie_tilt", &Delivery::lie_tilt, "rad", -30 * units::deg, 30 * units::deg},
         {"closure_rate", &Delivery::closure_rate, "rad/s", -200, 200}}};
  }
};

/// Unit vector of the face centre's velocity.
template <Scalar T>
Vec3<T> path_direction(const Delivery<T>& delivery) {
  return direction(delivery.club_path, delivery.attack_angle);
}

/// Unit normal of the face.
template <Scalar T>
Vec3<T> face_normal(const Delivery<T>& delivery) {
  return direction(delivery.face_angle, delivery.dynamic_loft);
}

/// Angle between path and face normal, rad.
template <Scalar T>
T spin_loft(const Delivery<T>& delivery) {
  using std::atan2;
  const Vec3<T> p = path_direction(delivery), n = face_normal(delivery);
  return atan2(norm(cross(p, n)), dot(p, n));
}

/// Less than a right angle: the face must close on the ball (a choice of this project).
inline constexpr double greatest_spin_loft = 89.9 * units::deg;

/// A delivery must meet the ball.
template <Scalar T>
std::optional<InputError> mistake(const Delivery<T>& delivery) {
  if (auto error = out_of_bounds(delivery)) return error;
  const double angle = value(spin_loft(delivery));
  if (angle >= greatest_spin_loft)
    return InputError("spin loft", angle,
                      "the face is not approaching the ball: " + readable(angle, "rad") +
                          " between club path and face normal; accepted: below " +
                          readable(greatest_spin_loft, "rad"));
  return std::nullopt;
}

}  // namespace whimbrel
