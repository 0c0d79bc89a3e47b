#pragma once
#include "whimbrel/core/scalar.hpp"

namespace whimbrel {

/// Normal restitution of club and ball at an approach speed, held in [0, 1].
/// Slope from memory of Penner 2001, about 43.8 m/s, where the rules' initial-velocity limit gives
/// 0.773 for a rigid face.
template <Scalar T>
T restitution(const T& face_restitution, const T& approach_speed) {
  return held(T(face_restitution - T(0.0029) * (approach_speed - T(43.8))), 0.0, 1.0);
}

}  // namespace whimbrel
