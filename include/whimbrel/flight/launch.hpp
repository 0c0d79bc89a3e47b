#pragma once
#include <array>
#include <numbers>

#include "whimbrel/core/field.hpp"
#include "whimbrel/core/vector.hpp"

namespace whimbrel {

/// How the ball leaves the face.
template <Scalar T = double>
struct Launch {
  T ball_speed{0.0};        ///< m/s
  T launch_angle{0.0};      ///< rad, elevation
  T launch_direction{0.0};  ///< rad, azimuth: positive right of the target line
  T spin_rate{0.0};         ///< rad/s, total
  T spin_axis_tilt{0.0};    ///< rad, positive when the ball curves right; 0 is pure backspin
  T axial_spin_rate{0.0};   ///< rad/s, the part of the spin along the launch direction

  static constexpr auto fields() {
    constexpr double quarter = std::numbers::pi / 2, half = std::numbers::pi;
    return std::array<Field<Launch, T>, 6>{
        {{"ball_speed", &Launch::ball_speed, "m/s", 0, 150},
         {"launch_angle", &Launch::launch_angle, "rad", -quarter, quarter},
         {"launch_direction", &Launch::launch_direction, "rad", -half, half},
         {"spin_rate", &Launch::spin_rate, "rad/s", 0, 3000},
         {"spin_axis_tilt", &Launch::spin_axis_tilt, "rad", -half, half},
         {"axial_spin_rate", &Launch::axial_spin_rate, "rad/s", -3000, 3000}}};
  }
};

template <Scalar T>
std::optional<InputError> mistake(const Launch<T>& launch) {
  if (auto error = out_of_bounds(launch)) return error;
  const double axial = value(launch.axial_spin_rate), spin = value(launch.spin_rate);
  if (std::abs(axial) > spin * (1 + 1e-9)) return InputError("axial_spin_rate", axial, "rad/s", -spin, spin);
  return std::nullopt;
}

template <Scalar T>
Vec3<T> launch_velocity(const Launch<T>& launch) {
  return launch.ball_speed * direction(launch.launch_direction, launch.launch_angle);
}

/// The spin vector, rad/s: along R (right, horizontal), P = R x u and the launch direction u.
template <Scalar T>
Vec3<T> launch_spin(const Launch<T>& launch) {
  using std::cos, std::sin, std::sqrt;
  const Vec3<T> u = direction(launch.launch_direction, launch.launch_angle);
  const Vec3<T> R = right_of(launch.launch_direction);
  const Vec3<T> P = cross(R, u);
  const T& axial = launch.axial_spin_rate;
  const T across_squared = square(launch.spin_rate) - square(axial);
  const auto some = across_squared > T(0.0);
  const T across = choose(some, sqrt(choose(some, across_squared, T(1.0))), T(0.0));
  return across * (cos(launch.spin_axis_tilt) * R - sin(launch.spin_axis_tilt) * P) + axial * u;
}

/// The launch with this velocity and spin vector. A vertical velocity has launch direction 0.
template <Scalar T>
Launch<T> launch_of(const Vec3<T>& velocity, const Vec3<T>& spin) {
  using std::atan2;
  const T angle = elevation(velocity), heading = azimuth(velocity);
  const Vec3<T> u = direction(heading, angle);
  const Vec3<T> R = right_of(heading);
  const Vec3<T> P = cross(R, u);
  return {norm(velocity), angle, heading, norm(spin), atan2(-dot(spin, P), dot(spin, R)), dot(spin, u)};
}

}  // namespace whimbrel
