#pragma once
#include "whimbrel/ball/ball.hpp"
#include "whimbrel/core/out_of_range.hpp"
#include "whimbrel/impact/restitution.hpp"
#include "whimbrel/swing/club.hpp"

namespace whimbrel {

/// Friction of ball and face at an approach speed, from that at 43.8 m/s: in proportion to the area of
/// contact, as of rubber (textbooks, from memory). By Hertz that area grows as the 2/3 power of the force,
/// and the force as the 6/5 power of the speed; friction over force therefore falls as the power -2/5. Below
/// the calibrated speeds it stays constant.
template <Scalar T>
T friction_at(const T& friction, const T& approach_speed) {
  using std::pow;
  const T calibrated = larger(approach_speed, T(least_approach_speed));
  return friction * pow(T(reference_approach_speed) / calibrated, T(0.4));
}

/// Of its friction, what the wettest face loses: a full wedge then spins a fifth to two fifths less and
/// leaves 2 to 6.5 degrees higher. Judged, on the careful side: common practice, from memory, is a third to a
/// half less spin from wet grass.
inline constexpr double wet_friction_loss = 0.4;

/// The constants that one contact keeps from first touch to last.
template <Scalar T>
struct ContactConstants {
  T restitution;  ///< e, along the normal
  T kappa;        ///< tangential over normal stiffness
  T mu;           ///< friction
};

template <Scalar T>
ContactConstants<T> contact_constants(const Club<T>& club, const Ball<T>& ball, const T& approach_speed) {
  return {restitution(club.face_restitution, approach_speed), ball.contact_stiffness_ratio,
          friction_at(T(ball.face_friction * (T(1.0) - T(wet_friction_loss) * club.face_wetness)),
                      approach_speed)};
}

}  // namespace whimbrel
