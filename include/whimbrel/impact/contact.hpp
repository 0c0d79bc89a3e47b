#pragma once
#include "whimbrel/impact/contact_constants.hpp"
#include "whimbrel/impact/contact_steps.hpp"

namespace whimbrel {

/// Steps of each half of a contact without friction, for reference. Velocity and spin of the launch are
/// within 2e-6 of converged, and within 2e-7 in 99 of 100 random impacts. One impact in 100,000, where ball
/// and face almost stop sliding for a moment, is within 3e-4.
inline constexpr int contact_steps = 120;

/// Steps if many impacts are struck at once. In 20,000 random impacts every angle of the launch was within
/// 2e-4 rad and every speed and spin within 0.02 % of converged, except a spin of less than 4 rpm, within
/// 0.14 %.
inline constexpr int fewer_contact_steps = 36;

/// Stiffness k of the normal spring, N/m^1.5. It cancels out of the launch and sets only the time scale: a
/// driver is in contact for about 450 us (derived; 400 to 500 published: Smits & Ogg 2004).
inline constexpr double contact_stiffness = 3.0e7;

/// A contact makes no energy. If its steps made more than this share of the approach's energy, the result is
/// wrong. That happens to balls with a hundredth of a real ball's inertia, which stick and slide faster than
/// the steps can follow.
inline constexpr double energy_made_by_error = 1e-3;

/// What a contact has done by last touch.
template <Scalar T>
struct ContactEnd {
  Vec3<T> impulse;          ///< N s, on the ball; NaN of a contact that jams or that the steps cannot follow
  T time, slip_time;        ///< s
  T tangential_work;        ///< J, done on the tangential contact
  T least_tangential_work;  ///< J, its least on the way: 0, as a contact makes no energy
  T friction_changes;       ///< as `Impact` has it
};

/// Whether the contact jams: friction pushes the face on as fast as the normal force slows it, on a head that
/// turns very easily. No real head does. All numbers of such an impact are NaN.
template <Scalar T>
auto can_jam(const Vec3<T>& normal, const Matrix3<T>& mobility, const T& mu) {
  const Vec3<T> slowing = mobility * normal;
  const T along = dot(slowing, normal);
  return mu * norm(slowing - along * normal) >= along;
}

/// The contact that follows a first touch.
template <Scalar T>
ContactEnd<T> contact(const Touch<T>& touch, const Matrix3<T>& mobility, const ContactConstants<T>& constants,
                      int steps = contact_steps) {
  using std::pow;
  const T speed = dot(touch.approach, touch.normal);
  const auto& [e, kappa, mu] = constants;
  const ContactLaw<T> law{touch.normal, T(1.0) / speed * touch.approach, mobility, e, kappa, mu};
  ContactSteps<T> walk(law, steps);
  const ContactState<T> end = walk.run();
  const auto makes_none = end.least_tangential_work * law.slowing > T(-0.5 * energy_made_by_error);
  const auto certain = walk.ended() && makes_none && !can_jam(touch.normal, mobility, mu);
  const T compression = pow(T(1.25 / contact_stiffness) * square(speed) / law.slowing, T(0.4));
  const T duration = compression / speed;
  return {choose(certain, speed, T(NAN)) * end.impulse,
          duration * end.time,
          duration * end.slip_time,
          square(speed) * end.tangential_work,
          square(speed) * end.least_tangential_work,
          walk.changes()};
}

}  // namespace whimbrel
