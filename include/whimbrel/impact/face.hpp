#pragma once
#include "whimbrel/ball/ball.hpp"
#include "whimbrel/impact/impact.hpp"
#include "whimbrel/swing/swing.hpp"

namespace whimbrel {

/// Head and ball at first touch, in the frame; frozen for the contact. (Letting it move changes speed by
/// less than 0.4 % and spin by less than 60 rpm: derived.)
template <Scalar T>
struct Touch {
  Vec3<T> normal;                    ///< of the face where the ball touches it
  Vec3<T> head_arm;                  ///< m, from the head's centre of mass to the touch
  Vec3<T> ball_arm;                  ///< m, from the ball's centre to the touch
  std::array<Vec3<T>, 3> head_axes;  ///< target line, vertical, heel-toe, turned by the lie tilt
  Vec3<T> head_velocity;             ///< m/s, of the head's centre of mass
  Vec3<T> head_rotation;             ///< rad/s
  Vec3<T> approach;                  ///< m/s, of the face toward the ball at the touch
};

/// The centre of mass lies behind the face centre along the face normal, with offsets toward toe and crown.
template <Scalar T>
Touch<T> touch(const Delivery<T>& delivery, const Club<T>& club, const Ball<T>& ball) {
  const StruckFace<T> face = struck_face(delivery, club);
  const Vec3<T> centre_of_mass =
      club.cg_toe * face.toe + club.cg_crown * face.up - club.cg_depth * face_normal(delivery);
  return {face.normal,
          face.from_centre - centre_of_mass,
          -ball.radius * face.normal,
          {face.forward, face.up, face.toe},
          delivery.clubhead_speed * path_direction(delivery) + cross(face.rotation, centre_of_mass),
          face.rotation,
          face.velocity};
}

/// A symmetric matrix by its columns.
template <Scalar T>
struct Matrix3 {
  Vec3<T> x, y, z;
  friend constexpr Vec3<T> operator*(const Matrix3& m, const Vec3<T>& v) {
    return v.x * m.x + v.y * m.y + v.z * m.z;
  }
};

/// How a head turns: its spin change for an angular impulse, and back.
template <Scalar T>
Vec3<T> along_axes(const std::array<Vec3<T>, 3>& axes, const std::array<T, 3>& factors, const Vec3<T>& v) {
  return factors[0] * dot(axes[0], v) * axes[0] + factors[1] * dot(axes[1], v) * axes[1] +
         factors[2] * dot(axes[2], v) * axes[2];
}

template <Scalar T>
Vec3<T> spin_from(const Vec3<T>& angular_momentum, const Touch<T>& touch, const Club<T>& club) {
  const std::array<T, 3> mobility{T(1.0) / club.inertia_target, T(1.0) / club.inertia_vertical,
                                  T(1.0) / club.inertia_heel_toe};
  return along_axes(touch.head_axes, mobility, angular_momentum);
}

template <Scalar T>
Vec3<T> angular_momentum(const Vec3<T>& spin, const Touch<T>& touch, const Club<T>& club) {
  return along_axes(touch.head_axes, {club.inertia_target, club.inertia_vertical, club.inertia_heel_toe},
                    spin);
}

/// The change of contact velocity per impulse on the ball, 1/kg:
/// G = (1/m + 1/M) 1 - [r_h] I_h^-1 [r_h] - [r_b]^2 / I, M with what moves of the shaft.
template <Scalar T>
Matrix3<T> contact_mobility(const Touch<T>& touch, const Club<T>& club, const Ball<T>& ball) {
  const auto column = [&](const Vec3<T>& J) {
    return (T(1.0) / ball.mass + T(1.0) / moving_mass(club)) * J +
           cross(spin_from(cross(touch.head_arm, J), touch, club), touch.head_arm) +
           T(1.0) / ball.inertia * cross(cross(touch.ball_arm, J), touch.ball_arm);
  };
  const T one(1.0), zero(0.0);
  return {column({one, zero, zero}), column({zero, one, zero}), column({zero, zero, one})};
}

/// What an impulse on the ball makes of head and ball.
template <Scalar T>
Impact<T> after_impulse(const Vec3<T>& J, const Touch<T>& touch, const Delivery<T>& delivery,
                        const Club<T>& club, const Ball<T>& ball) {
  const Vec3<T> ball_velocity = T(1.0) / ball.mass * J;
  const Vec3<T> ball_spin = T(1.0) / ball.inertia * cross(touch.ball_arm, J);
  Impact<T> impact;
  describe_launch(impact, launch_of(ball_velocity, ball_spin), delivery, touch.normal);
  impact.head_velocity_after = touch.head_velocity - T(1.0) / moving_mass(club) * J;
  impact.head_rotation_after = touch.head_rotation - spin_from(cross(touch.head_arm, J), touch, club);
  const auto head_energy = [&](const Vec3<T>& v, const Vec3<T>& w) {
    return T(0.5) * (moving_mass(club) * dot(v, v) + dot(w, angular_momentum(w, touch, club)));
  };
  const T ball_energy =
      T(0.5) * (ball.mass * dot(ball_velocity, ball_velocity) + ball.inertia * dot(ball_spin, ball_spin));
  impact.energy_lost =
      energy_loss<T>(head_energy(touch.head_velocity, touch.head_rotation),
                     head_energy(impact.head_velocity_after, impact.head_rotation_after) + ball_energy);
  return impact;
}

}  // namespace whimbrel
