#pragma once
#include <array>

#include "whimbrel/flight/launch.hpp"

namespace whimbrel {

/// What happened between club and ball.
template <Scalar T = double>
struct Impact {
  Launch<T> launch{};
  T smash_factor{};    ///< ball speed over clubhead speed
  T start_fraction{};  ///< where the start direction lies from path (0) to face (1); 1 where the two agree
  T energy_lost{};     ///< J, of the kinetic energy of head and ball
  Vec3<T> head_velocity_after{};  ///< m/s, of the head's centre of mass

  static constexpr auto fields() {
    return std::array<Field<Impact, T>, 3>{{{"smash_factor", &Impact::smash_factor, "1"},
                                            {"start_fraction", &Impact::start_fraction, "1"},
                                            {"energy_lost", &Impact::energy_lost, "J"}}};
  }
};

}  // namespace whimbrel
