#pragma once
#include <array>

#include "whimbrel/swing/delivery.hpp"

namespace whimbrel {

/// The plane through the path and the face normal: it sets how much the ball spins and about which
/// axis. Start direction is not geometry: it comes from impact.
/// Idea: Jorgensen, The Physics of Golf, 2nd ed. 1999.
template <Scalar T = double>
struct DPlane {
  T spin_loft{};  ///< rad, angle between path and face normal
  T tilt{};       ///< rad, of the spin axis, positive when the ball curves right

  static constexpr auto fields() {
    return std::array<Field<DPlane, T>, 2>{
        {{"spin_loft", &DPlane::spin_loft, "rad"}, {"tilt", &DPlane::tilt, "rad"}}};
  }
};

template <Scalar T>
DPlane<T> d_plane(const Delivery<T>& delivery) {
  const Vec3<T> p = path_direction(delivery), n = face_normal(delivery);
  return {spin_loft(delivery), -elevation(cross(p, n))};
}

}  // namespace whimbrel
