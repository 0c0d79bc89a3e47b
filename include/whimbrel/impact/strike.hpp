#pragma once
#include "whimbrel/impact/compliant.hpp"
#include "whimbrel/impact/rigid.hpp"

namespace whimbrel {

namespace kernel {

/// Delivery to impact without checks; a compliant contact in so many steps.
template <Scalar T>
Impact<T> strike(const Swing<T>& swing, const Ball<T>& ball, int steps = contact_steps) {
  const auto& [delivery, club, model] = swing;
  if (model == ImpactModel::compliant) return compliant_impact(delivery, club, ball, steps);
  const T approach = delivery.clubhead_speed * dot(path_direction(delivery), face_normal(delivery));
  return rigid_impact(delivery, moving_mass(club), restitution(club.face_restitution, approach), ball);
}

}  // namespace kernel

/// Strikes a ball: from a delivery, with a club, to how the ball leaves.
/// @throws InputError for a number outside its range, a face that does not approach the ball, or a ball that
/// misses the face; std::runtime_error if the contact jams (much friction on a head that hardly resists
/// turning).
template <Scalar T>
Impact<T> strike(const Delivery<T>& delivery, const Club<T>& club, const Ball<T>& ball = {},
                 ImpactModel model = ImpactModel::compliant) {
  const Swing<T> swing{delivery, club, model};
  check(swing, ball);
  const Impact<T> impact = kernel::strike(swing, ball);
  if (!std::isfinite(value(impact.energy_lost))) throw std::runtime_error("the impact calculation failed");
  return impact;
}

}  // namespace whimbrel
