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

/// The air as the ball meets it.
template <Scalar T>
struct Airflow {
  Vec3<T> velocity;  ///< of the ball through the air, m/s
  T speed{};         ///< U, m/s
  T spin_ratio{};    ///< W = r |w x u| / U^2
  T reynolds{};      ///< Re = 2 rho U r / mu
};

/// The only equation of motion of the library:
///
///   m dv/dt = -m g z - 1/2 rho A C_D U u + 1/2 rho A r (C_L / W) w x u,   dw/dt = -c U w / r
///
/// with u the velocity through the air, U its size and w the spin. It reads `ball`, `setting` and
/// `model` where they are: they must outlive it.
template <Scalar T, AeroModel Model>
struct EquationOfMotion {
  const Model& model;
  const Ball<T>& ball;
  const Setting<T>& setting;
  Vec3<T> spin_axis;       ///< unit vector, or zero for a ball without spin
  Vec3<T> reference_wind;  ///< m/s
  T gravity = T(standard_gravity);

  EquationOfMotion(const Model& model, const Ball<T>& ball, const Setting<T>& setting,
                   const Launch<T>& launch)
      : model(model),
        ball(ball),
        setting(setting),
        spin_axis(unit(launch_spin(launch))),
        reference_wind(reference_velocity(setting.wind)) {}

  Airflow<T> airflow(const BallState<T>& state) const {
    const T z = height_in_wind(setting.terrain, state.position);
    const Vec3<T> u = state.velocity - wind_share(setting.wind, z) * reference_wind;
    const T U = norm(u);
    const T across = state.spin_rate * norm(cross(spin_axis, u));
    return {u, U, ball.radius * across / larger(square(U), T(1e-12)),
            T(2.0) * setting.air.density * U * ball.radius / setting.air.viscosity};
  }

  BallState<T> operator()(const BallState<T>& state) const {
    const Airflow<T> flow = airflow(state);
    const Aerodynamics<T> aero = aerodynamics(model, flow.spin_ratio, flow.reynolds);
    const T area = T(std::numbers::pi) * square(ball.radius);
    const T k = T(0.5) * setting.air.density * area / ball.mass;
    const T lift = k * aero.lift_per_spin_ratio * ball.radius * state.spin_rate;
    const Vec3<T> acceleration = lift * cross(spin_axis, flow.velocity) -
                                 k * aero.drag * flow.speed * flow.velocity -
                                 Vec3<T>{T(0.0), T(0.0), gravity};
    return {state.velocity, acceleration, T(-model.spin_decay) * flow.speed * state.spin_rate / ball.radius};
  }
};

/// Where the centre of a ball is whose bottom is at tee height over the origin.
template <Scalar T>
Vec3<T> on_the_tee(const Ball<T>& ball, const Terrain<T>& terrain) {
  return {T(0.0), T(0.0), ball.radius + terrain.tee_height};
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
T clearance(const BallState<T>& state, const Ball<T>& ball, const Terrain<T>& terrain) {
  return state.position.z - ball.radius - ground_height(terrain, state.position.x, state.position.y);
}

}  // namespace whimbrel
