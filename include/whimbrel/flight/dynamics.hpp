#pragma once
#include "whimbrel/ball/ball.hpp"
#include "whimbrel/core/vector.hpp"
#include "whimbrel/flight/launch.hpp"
#include "whimbrel/setting/setting.hpp"

namespace whimbrel {

inline constexpr double standard_gravity = 9.80665;  // m/s^2, ISO 80000-3

/// The ball in flight: the centre's position and velocity, and the spin rate. The spin axis keeps
/// its direction in space; the spin decays as a whole. The same type holds the rates of change.
template <Scalar T>
struct BallState {
  Vec3<T> position, velocity;
  T spin_rate{};
};

template <Scalar T>
BallState<T> choose(const Mask<T>& condition, const BallState<T>& a, const BallState<T>& b) {
  return {choose(condition, a.position, b.position), choose(condition, a.velocity, b.velocity),
          choose(condition, a.spin_rate, b.spin_rate)};
}

template <Scalar T>
BallState<Plain<T>> value(const BallState<T>& state) {
  return {value(state.position), value(state.velocity), value(state.spin_rate)};
}

/// The air as the ball meets it, and what its forces are made of.
template <Scalar T>
struct Airflow {
  Vec3<T> velocity;   ///< of the ball through the air, u, m/s
  Vec3<T> across;     ///< spin axis x u: the way lift pulls, m/s
  T speed{};          ///< U, m/s
  T surface_speed{};  ///< r w, m/s
  T spin_ratio{};     ///< W = r |w x u| / U^2
  T reynolds{};       ///< Re = 2 rho U r / mu
};

/// What is constant during one flight.
template <Scalar T>
struct FlightConditions {
  Vec3<T> spin_axis;  ///< unit vector, or zero for a ball without spin
  T radius;           ///< m, of the ball
  T decay;            ///< c / r, what share of its spin the ball loses in a metre of air, 1/m
  T force;            ///< 1/m, acceleration per square of the speed and coefficient: rho A / 2 m
  T reynolds;         ///< s/m, Reynolds number per speed: 2 rho r / mu
  WindAloft<T> wind;
  Terrain<T> terrain;
};

template <AeroModel Model, Scalar T>
FlightConditions<T> flight_conditions(const Model& model, const T& mass, const T& radius, const Air<T>& air,
                                      const Wind<T>& wind, const Terrain<T>& terrain,
                                      const Launch<T>& launch) {
  return {unit(launch_spin(launch)),
          radius,
          T(model.spin_decay) / radius,
          T(0.5) * air.density * T(std::numbers::pi) * square(radius) / mass,
          T(2.0) * air.density * radius / air.viscosity,
          aloft(wind),
          terrain};
}

template <Scalar T>
FlightConditions<Plain<T>> value(const FlightConditions<T>& in) {
  return {value(in.spin_axis), value(in.radius), value(in.decay),  value(in.force),
          value(in.reynolds),  value(in.wind),   value(in.terrain)};
}

/// The only equation of motion of the library:
///
///   m dv/dt = -m g z - 1/2 rho A C_D U u + 1/2 rho A r (C_L / W) w x u,   dw/dt = -c U w / r
///
/// with u the velocity through the air, U its size and w the spin. It reads `model` where it is.
template <Scalar T, AeroModel Model>
struct EquationOfMotion {
  const Model& model;
  WindProfile profile;
  FlightConditions<T> in;
  T gravity = T(standard_gravity);

  EquationOfMotion(const Model& model, WindProfile profile, const FlightConditions<T>& in)
      : model(model), profile(profile), in(in) {}
  EquationOfMotion(const Model& model, const Ball<T>& ball, const Setting<T>& setting,
                   const Launch<T>& launch)
      : EquationOfMotion(model, setting.wind.profile,
                         flight_conditions(model, ball.mass, ball.radius, setting.air, setting.wind,
                                           setting.terrain, launch)) {}

  Airflow<T> airflow(const BallState<T>& state) const {
    const T share = in.wind.share(profile, height_in_wind(in.terrain, state.position));
    const Vec3<T> u = state.velocity - share * in.wind.reference;
    const Vec3<T> across = cross(in.spin_axis, u);
    const T U_squared = dot(u, u), U = root(U_squared), surface_speed = in.radius * state.spin_rate;
    const T W = surface_speed * norm(across) / larger(U_squared, T(1e-12));
    return {u, across, U, surface_speed, W, in.reynolds * U};
  }

  BallState<T> operator()(const BallState<T>& state, const Airflow<T>& flow) const {
    const Aerodynamics<T> aero = aerodynamics(model, flow.spin_ratio, flow.reynolds);
    const T lift = in.force * aero.lift_per_spin_ratio * flow.surface_speed;
    const T drag = in.force * aero.drag * flow.speed;
    Vec3<T> acceleration = lift * flow.across - drag * flow.velocity;
    acceleration.z = acceleration.z - gravity;
    return {state.velocity, acceleration, -in.decay * (flow.speed * state.spin_rate)};
  }

  BallState<T> operator()(const BallState<T>& state) const { return (*this)(state, airflow(state)); }
};

/// The same motion in numbers without slopes.
template <Scalar T, AeroModel Model>
EquationOfMotion<Plain<T>, Model> value(const EquationOfMotion<T, Model>& motion) {
  return {motion.model, motion.profile, value(motion.in)};
}

/// Where the centre of a ball is whose bottom is at tee height over the origin.
template <Scalar T>
Vec3<T> on_the_tee(const T& radius, const Terrain<T>& terrain) {
  return {T(0.0), T(0.0), radius + terrain.tee_height};
}
template <Scalar T>
Vec3<T> on_the_tee(const Ball<T>& ball, const Terrain<T>& terrain) {
  return on_the_tee(ball.radius, terrain);
}

/// Where the centre of a ball is that touches the ground there.
template <Scalar T>
Vec3<T> on_the_ground(const Ball<T>& ball, const Terrain<T>& terrain, const T& x, const T& y) {
  return {x, y, ground_height(terrain, x, y) + ball.radius};
}

/// The ball at the instant it leaves the face.
template <Scalar T>
BallState<T> starting_state(const Launch<T>& launch, const Vec3<T>& start) {
  return {start, launch_velocity(launch), launch.spin_rate};
}

/// Height of the ball's bottom above the ground under it, m.
template <Scalar T>
T clearance(const BallState<T>& state, const FlightConditions<T>& in) {
  return state.position.z - in.radius - ground_height(in.terrain, state.position.x, state.position.y);
}

}  // namespace whimbrel
