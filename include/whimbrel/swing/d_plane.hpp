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
  using std::atan2, std::sqrt;
  const Vec3<T> p = path_direction(delivery), n = face_normal(delivery);
  const Vec3<T> across = cross(p, n);
  return {atan2(norm(across), dot(p, n)), -elevation(across)};
}

/// A delivery must meet the ball: a spin loft of 90 degrees or more moves the face away from it.
template <Scalar T>
std::optional<InputError> mistake(const Delivery<T>& delivery) {
  if (auto error = out_of_bounds(delivery)) return error;
  const double spin_loft = value(d_plane(delivery).spin_loft);
  if (spin_loft >= 89.9 * units::deg)
    return InputError("spin loft", spin_loft,
                      "the face is not approaching the ball: " + readable(spin_loft, "rad") +
                          " between club path and face normal; accepted: below 89.9 deg");
  return std::nullopt;
}

}  // namespace whimbrel
