#pragma once
#include <array>

#include "whimbrel/core/out_of_range.hpp"
#include "whimbrel/flight/launch.hpp"
#include "whimbrel/swing/delivery.hpp"

namespace whimbrel {

/// What happened between club and ball.
template <Scalar T = double>
struct Impact {
  Launch<T> launch{};
  T smash_factor{};    ///< ball speed over clubhead speed
  T start_fraction{};  ///< where the start direction lies from path (0) to the face where struck (1); 1 where
                       ///< they agree
  T energy_lost{};     ///< J, of the kinetic energy of head and ball
  T contact_time{};    ///< s; 0 for the rigid model
  T slip_time{};       ///< s, of the contact time with ball and face sliding on each other
  /// How often ball and face went over from sticking to sliding or back. A contact ends sliding, so this
  /// names its sequence of phases: where it is another at inputs nearby, the launch has a kink between.
  T friction_changes{};
  Vec3<T> struck_normal{};        ///< unit normal of the face where struck
  Vec3<T> head_velocity_after{};  ///< m/s, of the head's centre of mass
  Vec3<T> head_rotation_after{};  ///< rad/s
  OutOfRange<T> out_of_range{};

  static constexpr auto fields() {
    return std::array<Field<Impact, T>, 5>{{{"smash_factor", &Impact::smash_factor, "1"},
                                            {"start_fraction", &Impact::start_fraction, "1"},
                                            {"energy_lost", &Impact::energy_lost, "J"},
                                            {"contact_time", &Impact::contact_time, "s"},
                                            {"slip_time", &Impact::slip_time, "s"}}};
  }
};

/// Smash factor and start fraction follow from the launch and from where the face pointed at the touch.
template <Scalar T>
void describe_launch(Impact<T>& impact, const Launch<T>& launch, const Delivery<T>& delivery,
                     const Vec3<T>& struck_normal) {
  impact.launch = launch;
  impact.struck_normal = struck_normal;
  impact.smash_factor = launch.ball_speed / delivery.clubhead_speed;
  const T apart = azimuth(struck_normal) - delivery.club_path;
  const auto same = square(apart) < T(1e-24);
  impact.start_fraction =
      choose(same, T(1.0), (launch.launch_direction - delivery.club_path) / choose(same, T(1.0), apart));
}

/// The energy that an impact loses, given that before and after. An impact makes none: where it loses next to
/// nothing, rounding may leave less than nothing, which counts as 0. (Of a contact that failed, NaN.)
template <Scalar T>
T energy_loss(const T& before, const T& after) {
  const T lost = before - after;
  return choose(lost < T(0.0), T(0.0), lost);
}

}  // namespace whimbrel
