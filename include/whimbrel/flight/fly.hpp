#pragma once
#include "whimbrel/core/out_of_range.hpp"
#include "whimbrel/flight/trajectory.hpp"

namespace whimbrel {

inline constexpr double longest_flight = 60.0;  // s

/// From launch to landing: the first time the ball's bottom meets the ground from above.
template <Scalar T = double>
struct Flight {
  T carry{};              ///< m, horizontal distance from the start to the landing
  T downrange{};          ///< m, y of the landing
  T offline{};            ///< m, x of the landing: positive right of the target line
  T curve{};              ///< m, sideways distance of the landing from the start line, positive right
  T apex{};               ///< m, greatest height of the ball's bottom above the ground at the origin
  T apex_distance{};      ///< m, horizontal distance from the start to the apex
  T flight_time{};        ///< s
  T descent_angle{};      ///< rad, of the path below the horizontal at landing
  T landing_speed{};      ///< m/s
  T landing_spin_rate{};  ///< rad/s
  Status status = Status::ok;
  OutOfRange<T> out_of_range{};
  Trajectory<T> trajectory{};

  static constexpr auto fields() {
    return std::array<Field<Flight, T>, 10>{{{"carry", &Flight::carry, "m"},
                                             {"downrange", &Flight::downrange, "m"},
                                             {"offline", &Flight::offline, "m"},
                                             {"curve", &Flight::curve, "m"},
                                             {"apex", &Flight::apex, "m"},
                                             {"apex_distance", &Flight::apex_distance, "m"},
                                             {"flight_time", &Flight::flight_time, "s"},
                                             {"descent_angle", &Flight::descent_angle, "rad"},
                                             {"landing_speed", &Flight::landing_speed, "m/s"},
                                             {"landing_spin_rate", &Flight::landing_spin_rate, "rad/s"}}};
  }
};

/// What the landing says of a flight, when the ball comes down in this state at this time.
template <Scalar T>
void describe_landing(Flight<T>& flight, const BallState<T>& landing, const T& time, const Launch<T>& launch,
                      const Vec3<T>& start) {
  const Vec3<T> way = landing.position - start;
  flight.carry = horizontal_distance(way);
  flight.downrange = landing.position.y;
  flight.offline = landing.position.x;
  flight.curve = dot(way, right_of(launch.launch_direction));
  flight.flight_time = time;
  flight.descent_angle = -elevation(landing.velocity);
  flight.landing_speed = norm(landing.velocity);
  flight.landing_spin_rate = landing.spin_rate;
}

/// Kernels neither check nor throw: they return a status.
namespace kernel {

/// From any position of the ball's centre: a hop is a flight that starts on the ground.
/// Defined for `double` by Boost.Odeint (`fly_odeint.hpp`, or the compiled target).
template <Scalar T>
Flight<T> fly(const Launch<T>& launch, const Ball<T>& ball, const Setting<T>& setting, const Vec3<T>& start);

template <Scalar T>
Flight<T> fly(const Launch<T>& launch, const Ball<T>& ball, const Setting<T>& setting) {
  return fly(launch, ball, setting, on_the_tee(ball, setting.terrain));
}

}  // namespace kernel

/// A single flight that fails numerically is an exception; a batch keeps its status.
inline void throw_if_failed(Status status) {
  if (status == Status::numerical_failure) throw std::runtime_error(std::string(describe(status)));
}

/// Flies one launch to the ground. A launch at or below the slope of the ground it stands on never
/// leaves it: carry 0 and `Status::not_airborne`. A ball still in the air after 60 s:
/// `Status::no_landing`, the numbers of the landing NaN.
/// @throws InputError for a number outside its range; std::runtime_error if the integration fails.
template <Scalar T>
Flight<T> fly(const Launch<T>& launch, const Ball<T>& ball = {}, const Setting<T>& setting = {}) {
  check(launch, ball, setting);
  Flight<T> flight = kernel::fly(launch, ball, setting);
  throw_if_failed(flight.status);
  return flight;
}

/// The same measured launch in standard still air over level ground: compares launches of
/// different days and places.
template <Scalar T>
Flight<T> at_standard_conditions(const Launch<T>& launch, const Ball<T>& ball = {}) {
  return fly(launch, ball, Setting<T>{});
}

}  // namespace whimbrel
