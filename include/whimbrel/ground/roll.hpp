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
    const T g(standard_gravity);
    const Vec3<T> along = g * n.z * n - Vec3<T>{T(0.0), T(0.0), g};
    if (rolling) {
      const Vec3<T> pull = (spun() / (T(1.0) + spun())) * along;
      const Vec3<T> heading = value(norm(s.velocity)) > 0.0 ? unit(s.velocity) : unit(pull);
      return {s.velocity, pull - brake(n) * heading, {}};
    }
    const Vec3<T> rub = -brake(n) * unit(s.slip);
    return {s.velocity, along + (T(1.0) / (T(1.0) + spun())) * rub, along + rub};
  }

  /// m r^2 / I: 5/2 of a uniform sphere.
  T spun() const { return ball.mass * square(ball.radius) / ball.inertia; }

  /// How fast the turf by itself brings to rest what must come to rest, m/s^2.
  T brake(const Vec3<T>& normal) const {
    return rolling ? turf.rolling_deceleration * normal.z
                   : (T(1.0) + spun()) * turf.friction * T(standard_gravity) * normal.z;
  }

  /// What must come to rest: the slip of a skid, the velocity of a roll.
  const Vec3<T>& braked(const GroundState<T>& s) const { return rolling ? s.velocity : s.slip; }
};

/// How long a step takes, where it ends, and the rate of change on arrival.
template <Scalar T>
struct GroundStep {
  T time;
  GroundState<T> end, rate;
};

/// One step by Ralston's third-order method (Math. Comp. 16 (1962) 431, from memory): it never looks at the
/// end of the step, where a ball that stops has no direction. The rate there is carried on from within.
template <Scalar T>
GroundStep<T> ground_step(const GroundMotion<T>& motion, const GroundState<T>& s, const T& h) {
  const GroundState<T> a = motion(s);
  const GroundState<T> b = motion(s + T(0.5) * h * a);
  const GroundState<T> c = motion(s + T(0.75) * h * b);
  return {h, s + (h / T(9.0)) * (T(2.0) * a + T(3.0) * b + T(4.0) * c), T(2.0) * c + T(-1.0) * b};
}

inline constexpr double longest_run = 60.0;      // s
inline constexpr double at_rest = 1e-4;          // m/s: a ball this slow has micrometres to go
inline constexpr double gripped = 1e-6;          // m/s of slip
inline constexpr double looks_ahead = 0.1;       // m, between looks at a surface function
inline constexpr double longest_step = 0.25;     // s
inline constexpr double first_step = 1e-4;       // s, of a ball that starts to roll off
inline constexpr double same_direction = 1e-12;  // rad

/// The next step. On a plane, what is braked along its own direction keeps its rate of change: exact to the
/// end. Else an eighth of the time in which the brake, which turns it, would stop it: longer steps swerve.
template <Scalar T>
GroundStep<T> next_step(const GroundMotion<T>& motion, const GroundState<T>& s) {
  const GroundState<T> rate = motion(s);
  const Vec3<T>&braked = motion.braked(s), &change = motion.braked(rate);
  const T brake = motion.brake(ground_normal(motion.terrain, s.position.x, s.position.y));
  const T pace = larger(norm(change), brake);
  const double along = value(dot(braked, change)), across = value(norm(cross(braked, change)));
  const bool surface = static_cast<bool>(motion.terrain.surface);
  if (!surface && across <= same_direction * value(norm(braked) * pace)) {
    const T h = along < 0.0 ? smaller(norm(braked) / norm(change), T(longest_run)) : T(longest_step);
    return {h, s + h * rate + T(0.5) * square(h) * GroundState<T>{rate.velocity, {}, {}}, rate};
  }
  T h = T(0.125) * norm(braked) / pace;
  if (along >= 0.0) h = larger(h, T(first_step));
  h = smaller(h, T(longest_step));
  if (surface) h = smaller(h, T(looks_ahead) / larger(norm(s.velocity), T(looks_ahead)));
  return ground_step(motion, s, h);
}

/// Whether a ball at rest stays there.
template <Scalar T>
bool stays(const GroundMotion<T>& motion, const GroundState<T>& s) {
  const GroundState<T> still{s.position, {}, {}};
  const Vec3<T> start = motion(still).velocity;  // downhill where the turf does not hold the ball
  const Vec3<T> n = ground_normal(motion.terrain, s.position.x, s.position.y);
  return value(dot(start, Vec3<T>{n.x, n.y, T(0.0)})) <= 0.0;
}

/// Skids and rolls a ball to rest from `time` on, with a knot at each end of every step: where a skid ends,
/// or a ball turns back or stops, its acceleration jumps. False if it does not come to rest in time.
template <Scalar T>
bool roll_out(GroundState<T> s, const Ball<T>& ball, const Terrain<T>& terrain, const Turf<T>& turf, T time,
              std::vector<Knot<T>>& knots) {
  GroundMotion<T> motion{ball, terrain, turf};
  const double end = value(time) + longest_run;
  const auto note = [&](const GroundState<T>& rate) {
    knots.push_back({time,
                     {s.position, s.velocity, norm(s.slip - s.velocity) / ball.radius},
                     {s.velocity, rate.velocity, T(0.0)}});
  };
  while (true) {
    if (!motion.rolling && value(norm(s.slip)) < gripped) motion.rolling = true;
    const bool resting = motion.rolling && value(norm(s.velocity)) < at_rest && stays(motion, s);
    if (resting) s.velocity = s.slip = {};
    note(resting ? GroundState<T>{} : motion(s));
    if (resting) return value(time) <= end;
    if (value(time) > end || !std::isfinite(value(s.position.x + s.position.y))) return false;
    const GroundStep<T> step = next_step(motion, s);
    time = time + step.time;
    s = step.end;
    s.position = on_the_ground(ball, terrain, s.position.x, s.position.y);
    const Vec3<T> n = ground_normal(terrain, s.position.x, s.position.y);
    s.velocity = s.velocity - dot(s.velocity, n) * n;
    s.slip = motion.rolling ? Vec3<T>{} : s.slip - dot(s.slip, n) * n;
    note(step.rate);
  }
}

}  // namespace whimbrel
