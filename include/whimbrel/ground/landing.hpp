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
  T spin_axis_tilt{0.0};     ///< rad, as a launch's, about the direction of the landing
  T axial_spin_rate{0.0};    ///< rad/s, the part of the spin along that direction

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

/// The same motion as a launch: downward.
template <Scalar T>
Launch<T> as_launch(const Landing<T>& landing) {
  return {landing.landing_speed,     -landing.descent_angle, landing.landing_direction,
          landing.landing_spin_rate, landing.spin_axis_tilt, landing.axial_spin_rate};
}

template <Scalar T>
std::optional<InputError> mistake(const Landing<T>& landing) {
  if (auto error = out_of_bounds(landing)) return error;
  return mistake(as_launch(landing));
}

template <Scalar T>
Touchdown<T> touchdown(const Landing<T>& landing) {
  const Launch<T> down = as_launch(landing);
  return {launch_velocity(down), launch_spin(down)};
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
  const Launch<T> down = launch_of(ball.velocity, ball.spin);
  return {down.ball_speed, -down.launch_angle,  down.launch_direction,
          down.spin_rate,  down.spin_axis_tilt, down.axial_spin_rate};
}

}  // namespace whimbrel
