#pragma once
#include "whimbrel/flight/fly.hpp"
#include "whimbrel/ground/bounce.hpp"

namespace whimbrel {

/// How a ball comes down: where the row may be entered when only the landing is known.
template <Scalar T = double>
struct Landing {
  T landing_speed{0.0};      ///< m/s
  T descent_angle{0.0};      ///< rad, of the path below the horizontal
  T landing_direction{0.0};  ///< rad, azimuth of the path: positive right of the target line
  T landing_spin_rate{0.0};  ///< rad/s, total
  T spin_axis_tilt{0.0};     ///< rad, of the spin axis from the level, positive where the ball curves right
  T axial_spin_rate{0.0};    ///< rad/s, the part of the spin along the level landing direction

  static constexpr auto fields() {
    constexpr double quarter = std::numbers::pi / 2, half = std::numbers::pi;
    return std::array<Field<Landing, T>, 6>{
        {{"landing_speed", &Landing::landing_speed, "m/s", 0, 150},
         {"descent_angle", &Landing::descent_angle, "rad", 0, quarter},
         {"landing_direction", &Landing::landing_direction, "rad", -half, half},
         {"landing_spin_rate", &Landing::landing_spin_rate, "rad/s", 0, 3000},
         {"spin_axis_tilt", &Landing::spin_axis_tilt, "rad", -half, half},
         {"axial_spin_rate", &Landing::axial_spin_rate, "rad/s", -3000, 3000}}};
  }
};

/// The landing's spin as that of a level launch in the same direction.
template <Scalar T>
Launch<T> as_level_launch(const Landing<T>& landing) {
  return {landing.landing_speed,     T(0.0),
          landing.landing_direction, landing.landing_spin_rate,
          landing.spin_axis_tilt,    landing.axial_spin_rate};
}

template <Scalar T>
std::optional<InputError> mistake(const Landing<T>& landing) {
  if (auto error = out_of_bounds(landing)) return error;
  return mistake(as_level_launch(landing));
}

template <Scalar T>
Touchdown<T> touchdown(const Landing<T>& landing) {
  return {landing.landing_speed * direction(landing.landing_direction, T(-landing.descent_angle)),
          launch_spin(as_level_launch(landing))};
}

/// The motion with which a flight comes down. The spin axis is the launch's: it keeps its direction.
template <Scalar T>
Touchdown<T> touchdown(const Flight<T>& flight, const Launch<T>& launch) {
  const BallState<T>& last = flight.trajectory.knots.back().state;
  return {last.velocity, last.spin_rate * unit(launch_spin(launch))};
}

/// How a ball comes down that moves so.
template <Scalar T>
Landing<T> landing_of(const Touchdown<T>& ball) {
  const T heading = azimuth(ball.velocity);
  const Launch<T> level = launch_of(direction(heading, T(0.0)), ball.spin);
  return {norm(ball.velocity), -elevation(ball.velocity), heading,
          level.spin_rate,     level.spin_axis_tilt,      level.axial_spin_rate};
}

}  // namespace whimbrel
