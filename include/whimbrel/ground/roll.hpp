#pragma once
#include "whimbrel/flight/trajectory.hpp"
#include "whimbrel/ground/ground_step.hpp"

namespace whimbrel {

inline constexpr double longest_run = 30.0;       // s, of skid and roll
inline constexpr double gripped = 1e-6;           // m/s of slip, where a step does not end it exactly
inline constexpr int most_ground_steps = 100000;  // 30 s on a surface at 60 m/s take 18,000

/// Skids and rolls a ball to rest from `time` on, with a knot at each end of every step: where a skid ends,
/// or a ball turns back or stops, its acceleration jumps. A ball that has not come to rest after 30 s,
/// as on a slope steeper than the turf holds, is left where it is then, with `Status::no_rest`. Ground that
/// is not a number, or takes too many steps, is a `Status::numerical_failure`.
template <Scalar T>
Status roll_out(GroundState<T> s, const Ball<T>& ball, const Terrain<T>& terrain, const Turf<T>& turf, T time,
                std::vector<Knot<T>>& knots) {
  GroundMotion<T> motion{ball, terrain, turf};
  const T end = time + T(longest_run);
  const auto note = [&](const GroundState<T>& rate) {
    knots.push_back({time,
                     {s.position, s.velocity, norm(s.slip - s.velocity) / ball.radius},
                     {s.velocity, rate.velocity, T(0.0)}});
  };
  for (int step = 0; step < most_ground_steps; ++step) {
    const bool exact = is_exact(motion, s);
    if (!motion.rolling && value(norm(s.slip)) <= (exact ? 0.0 : gripped)) {
      motion.rolling = motion.grips(s);
      s.velocity = s.velocity - (T(1.0) / (T(1.0) + motion.spun())) * s.slip;
      s.slip = {};
    }
    const GroundState<T> now = motion(s);
    const bool stopped = motion.rolling && value(norm(s.velocity)) <= (exact ? 0.0 : at_rest) &&
                         value(dot(s.velocity, now.velocity)) <= 0.0;  // and not just rolling off
    if (stopped) s.velocity = {};
    const bool rests = stopped && motion.pull_and_brake(motion.normal(s)).holds();
    note(rests ? GroundState<T>{} : motion(s));
    if (rests) return Status::ok;
    if (value(time) >= value(end)) return Status::no_rest;
    const GroundStep<T> next = next_step(motion, s, end - time);
    time = time + next.time;
    s = next.end;
    if (!std::isfinite(value(s.position.x + s.position.y + time))) break;
    s.position = on_the_ground(ball, terrain, s.position.x, s.position.y);
    const Vec3<T> n = motion.normal(s);
    s.velocity = s.velocity - dot(s.velocity, n) * n;
    s.slip = motion.rolling ? Vec3<T>{} : s.slip - dot(s.slip, n) * n;
    note(next.rate);
  }
  return Status::numerical_failure;
}

}  // namespace whimbrel
