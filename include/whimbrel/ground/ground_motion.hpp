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

/// Above this speed a ball meets more resistance than its rolling deceleration: (v / 6 m/s - 1)^2 times as
/// much is added. The addition stands for grass and air together. It is calibrated by this project on common
/// practice: a ball hit along the firm fairway at 100 mph stops near 150 yd, about where it would end well
/// struck.
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
/// where g_t and g_n are gravity along and into the ground, a is the rolling deceleration on the level, and q
/// is the added share above 6 m/s, a force on the ball's centre. On the level, below 6 m/s, a skid ends at v
/// - 2s/7 and a roll after v^2 / 2a. Left out: wind, the ground's curvature, and the turf's resistance to a
/// slow ball that skids. It refers to `ball`, `terrain` and `turf` without copying them.
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

  /// The added resistance above 6 m/s, m/s^2.
  Vec3<T> drag(const GroundState<T>& s) const {
    return (turf.rolling_deceleration * normal(s).z * added_resistance(norm(s.velocity))) * unit(s.velocity);
  }

  /// The acceleration of the slip without friction, m/s^2.
  Vec3<T> pull_on_slip(const GroundState<T>& s) const {
    return gravity_along(normal(s)) - (T(1.0) + T(1.0) / spun()) * drag(s);
  }

  /// Whether a ball without slip grips and rolls: friction is strong enough to hold it. If not, it starts to
  /// slip the other way: on a slope too steep for friction, or at a speed where the turf's drag is more than
  /// its friction can turn into spin.
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
