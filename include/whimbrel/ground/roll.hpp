#pragma once
#include "whimbrel/flight/trajectory.hpp"
#include "whimbrel/ground/bounce.hpp"

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

/// The motion of a ball on turf. It skids until its lowest point has come to rest, then rolls:
///
///   skid: dv/dt = g_t - mu g_n s/|s|,   ds/dt = g_t - (1 + m r^2 / I) mu g_n s/|s|
///   roll: dv/dt = g_t / (1 + I / m r^2) - a g_n / g v/|v|
///
/// with g_t and g_n gravity along and into the ground and a the rolling deceleration on the level. On the
/// level a skid ends at v - 2s/7 and a roll after v^2 / 2a. Left out: air, the ground's curvature, and
/// resistance of the turf to a ball that still skids. It reads `ball`, `terrain` and `turf` where they are.
template <Scalar T>
struct GroundMotion {
  const Ball<T>& ball;
  const Terrain<T>& terrain;
  const Turf<T>& turf;
  bool rolling = false;

  GroundState<T> operator()(const GroundState<T>& s) const {
    const Vec3<T> n = ground_normal(terrain, s.position.x, s.position.y);
    const T g(standard_gravity), into = g * n.z;
    const Vec3<T> along = into * n - Vec3<T>{T(0.0), T(0.0), g};
    const T spun = ball.mass * square(ball.radius) / ball.inertia;  // 5/2 of a uniform sphere
    if (rolling) {
      const Vec3<T> pull = (spun / (T(1.0) + spun)) * along;
      const Vec3<T> heading = value(norm(s.velocity)) > 0.0 ? unit(s.velocity) : unit(pull);
      return {s.velocity, pull - turf.rolling_deceleration * n.z * heading, {}};
    }
    const Vec3<T> rub = -turf.friction * into * unit(s.slip);
    return {s.velocity, along + rub, along + (T(1.0) + spun) * rub};
  }

  /// What must come to rest: the slip of a skid, the velocity of a roll.
  const Vec3<T>& braked(const GroundState<T>& s) const { return rolling ? s.velocity : s.slip; }
};

/// One step by Ralston's third-order method (Math. Comp. 16 (1962) 431, from memory): it never looks at the
/// end of the step, where a ball that stops has no direction.
template <Scalar T>
GroundState<T> ground_step(const GroundMotion<T>& motion, const GroundState<T>& s, const T& h) {
  const GroundState<T> a = motion(s);
  const GroundState<T> b = motion(s + T(0.5) * h * a);
  const GroundState<T> c = motion(s + T(0.75) * h * b);
  return s + (h / T(9.0)) * (T(2.0) * a + T(3.0) * b + T(4.0) * c);
}

inline constexpr double longest_run = 60.0;   // s
inline constexpr double at_rest = 1e-4;       // m/s: a ball this slow has micrometres to go
inline constexpr double gripped = 1e-6;       // m/s of slip
inline constexpr double looks_ahead = 0.1;    // m, between looks at a surface function
inline constexpr double longest_step = 0.25;  // s

/// The next step: to the end where the braked velocity keeps its direction, else an eighth of that.
template <Scalar T>
T step_time(const GroundMotion<T>& motion, const GroundState<T>& s) {
  const GroundState<T> rate = motion(s);
  const Vec3<T>&braked = motion.braked(s), &change = motion.braked(rate);
  const double along = value(dot(braked, change)), across = value(norm(cross(braked, change)));
  if (along >= 0.0 && across == 0.0) return T(longest_step);
  const T to_rest = norm(braked) / norm(change);
  const bool surface = static_cast<bool>(motion.terrain.surface);
  if (!surface && across < -1e-12 * along) return to_rest;
  const T h = along < 0.0 ? to_rest * T(0.125) : larger(to_rest * T(0.125), T(1e-3));
  const T limited = smaller(h, T(longest_step));
  if (!surface) return limited;
  return smaller(limited, T(looks_ahead) / larger(norm(s.velocity), T(looks_ahead)));
}

/// Whether a ball at rest stays there.
template <Scalar T>
bool stays(const GroundMotion<T>& motion, const GroundState<T>& s) {
  const GroundState<T> at_rest{s.position, {}, {}};
  const Vec3<T> start = motion(at_rest).velocity;  // downhill where the turf does not hold the ball
  const Vec3<T> n = ground_normal(motion.terrain, s.position.x, s.position.y);
  return value(dot(start, Vec3<T>{n.x, n.y, T(0.0)})) <= 0.0;
}

/// Skids and rolls a ball to rest, with a knot a step from `time` on; false if it does not come to rest.
template <Scalar T>
bool roll_out(GroundState<T> s, const Ball<T>& ball, const Terrain<T>& terrain, const Turf<T>& turf, T time,
              std::vector<Knot<T>>& knots) {
  GroundMotion<T> motion{ball, terrain, turf};
  const double end = value(time) + longest_run;
  while (true) {
    if (!motion.rolling && value(norm(s.slip)) < gripped) motion.rolling = true;
    const GroundState<T> rate = motion(s);
    const bool resting = motion.rolling && value(norm(s.velocity)) < at_rest && stays(motion, s);
    const Vec3<T> still{};
    knots.push_back({time,
                     {s.position, resting ? still : s.velocity, norm(s.slip - s.velocity) / ball.radius},
                     {s.velocity, resting ? still : rate.velocity, T(0.0)}});
    if (resting) return true;
    if (value(time) > end || !std::isfinite(value(s.position.x + s.position.y))) return false;
    const T h = step_time(motion, s);
    s = ground_step(motion, s, h);
    time = time + h;
    s.position = on_the_ground(ball, terrain, s.position.x, s.position.y);
    const Vec3<T> n = ground_normal(terrain, s.position.x, s.position.y);
    s.velocity = s.velocity - dot(s.velocity, n) * n;
    s.slip = motion.rolling ? Vec3<T>{} : s.slip - dot(s.slip, n) * n;
  }
}

}  // namespace whimbrel
