#pragma once
#include "whimbrel/flight/dynamics.hpp"
#include "whimbrel/ground/stretch.hpp"
#include "whimbrel/ground/turf.hpp"

namespace whimbrel {

/// A ball that stays on the ground. The slip is the velocity of the ball's lowest point over the turf:
/// zero when it rolls. The same type holds the rates of change.
template <Scalar T>
struct GroundState {
  Vec3<T> position, velocity, slip;

  friend GroundState operator+(const GroundState& a, const GroundState& b) {
    return {a.position + b.position, a.velocity + b.velocity, a.slip + b.slip};
  }
  friend GroundState operator*(const T& s, const GroundState& a) {
    return {s * a.position, s * a.velocity, s * a.slip};
  }
};

/// How far the turf's resistance to a ball's way grows with its speed, as a multiple of its rolling
/// deceleration: 1 + (v / 6 m/s - 1)^2 above 6 m/s. Up to there it is as measured at ordinary speeds. It
/// stands for grass and air together, which slow a fast ball more; calibrated by this project on common
/// practice: a ball hit along the firm fairway at 100 mph ends near where it would well struck, 150 yd.
inline constexpr double quick = 6.0;  // m/s

template <Scalar T>
T added_resistance(const T& speed) {
  return square(larger(speed / T(quick) - T(1.0), T(0.0)));
}

/// The motion of a ball on turf. It skids until its lowest point has come to rest, then rolls:
///
///   skid: dv/dt = g_t - mu g_n s/|s| - (1 + I / m r^2) d,
///         ds/dt = g_t - (1 + m r^2 / I) mu g_n s/|s| - (1 + I / m r^2) d
///   roll: dv/dt = g_t / (1 + I / m r^2) - a g_n / g v/|v| - d
///   with  d = a g_n / g q(v) v/|v|
///
/// with g_t and g_n gravity along and into the ground, a the rolling deceleration on the level and q what is
/// added to it when quick, a force on the ball's middle. On the level a skid ends at v - 2s/7 and a roll
/// after v^2 / 2a, where it is not quick. Left out: wind, the ground's curvature, and resistance of the turf
/// to a slow ball that skids. It reads `ball`, `terrain` and `turf` where they are.
template <Scalar T>
struct GroundMotion {
  const Ball<T>& ball;
  const Terrain<T>& terrain;
  const Turf<T>& turf;
  bool rolling = false;

  GroundState<T> operator()(const GroundState<T>& s) const {
    const auto heading_of = [](const Vec3<T>& moves, const Vec3<T>& pulled) {
      return value(norm(moves)) > 0.0 ? unit(moves) : unit(pulled);
    };
    const auto [pull, brake] = pull_and_brake(normal(s));
    if (rolling) return {s.velocity, pull - brake * heading_of(s.velocity, pull) - drag(s), {}};
    const Vec3<T> pulled = pull_on_slip(s), rub = -brake * heading_of(s.slip, pulled);
    return {s.velocity, pulled + (T(1.0) / (T(1.0) + spun())) * rub, pulled + rub};
  }

  /// What the turf takes from a quick ball besides, m/s^2.
  Vec3<T> drag(const GroundState<T>& s) const {
    return (turf.rolling_deceleration * normal(s).z * added_resistance(norm(s.velocity))) * unit(s.velocity);
  }

  /// What makes a ball slip that has no friction, m/s^2.
  Vec3<T> pull_on_slip(const GroundState<T>& s) const {
    return gravity_along(normal(s)) - (T(1.0) + T(1.0) / spun()) * drag(s);
  }

  /// Whether a ball that does not slip grips, and rolls: friction holds what would make it slip. Where it
  /// does not, as on a slope steeper than friction holds or at a speed at which the turf drags more than it
  /// can turn the ball, it slips on the other way.
  bool grips(const GroundState<T>& s) const {
    return value(norm(pull_on_slip(s))) <= value(pull_and_brake(normal(s)).brake);
  }

  Vec3<T> normal(const GroundState<T>& s) const { return ground_normal(terrain, s.position.x, s.position.y); }

  /// m r^2 / I: 5/2 of a uniform sphere.
  T spun() const { return ball.mass * square(ball.radius) / ball.inertia; }

  /// Gravity along the ground, m/s^2.
  Vec3<T> gravity_along(const Vec3<T>& n) const {
    const T g(standard_gravity);
    return g * n.z * n - Vec3<T>{T(0.0), T(0.0), g};
  }

  /// What pulls and brakes, of a ball that is not quick, what must come to rest.
  PullAndBrake<T> pull_and_brake(const Vec3<T>& n) const {
    if (rolling) return {(spun() / (T(1.0) + spun())) * gravity_along(n), turf.rolling_deceleration * n.z};
    return {gravity_along(n), (T(1.0) + spun()) * turf.friction * T(standard_gravity) * n.z};
  }

  /// What must come to rest: the slip of a skid, the velocity of a roll.
  const Vec3<T>& braked(const GroundState<T>& s) const { return rolling ? s.velocity : s.slip; }
};

}  // namespace whimbrel
