#pragma once
#include <optional>

#include "whimbrel/ground/ground_motion.hpp"

namespace whimbrel {

/// How long a step takes, where it ends, and the rate of change on arrival.
template <Scalar T>
struct GroundStep {
  T time;
  GroundState<T> end, rate;
};

inline constexpr double at_rest = 1e-3;               // m/s, on a surface: has micrometres to go
inline constexpr double creeps = 0.01;                // m/s
inline constexpr double looks_ahead = 0.1;            // m, between looks at a surface function
inline constexpr double longest_step = 0.25;          // s, of the method in steps
inline constexpr double first_step[] = {1e-4, 0.01};  // s, of a slip that grows; of a ball that rolls off
inline constexpr double same_direction = 1e-12;       // rad
inline constexpr double nearly_straight = 1e-6;       // rad: between its ends, a step is then a parabola

/// One step by Ralston's third-order method (Math. Comp. 16 (1962) 431, from memory): it never looks at the
/// end of the step, where a ball that stops has no direction. The rate there is carried on from within.
template <Scalar T>
GroundStep<T> ralston_step(const GroundMotion<T>& motion, const GroundState<T>& s, const T& h) {
  const GroundState<T> a = motion(s);
  const GroundState<T> b = motion(s + T(0.5) * h * a);
  const GroundState<T> c = motion(s + T(0.75) * h * b);
  return {h, s + (h / T(9.0)) * (T(2.0) * a + T(3.0) * b + T(4.0) * c), T(2.0) * c + T(-1.0) * b};
}

/// A step of a ball above 6 m/s, or on a surface: a tenth of the time in which the forces that turn or slow
/// the ball would stop it. Longer steps swerve. The error is then (1/10)^4 / 4! of the rest of the way in
/// each step, 4e-5 of the whole way.
template <Scalar T>
GroundStep<T> short_step(const GroundMotion<T>& motion, const GroundState<T>& s, const T& most) {
  const GroundState<T> rate = motion(s);
  const Vec3<T>&braked = motion.braked(s), &change = motion.braked(rate);
  T h = T(0.1) * norm(braked) / larger(norm(change), motion.pull_and_brake(motion.normal(s)).brake);
  if (value(dot(braked, change)) >= 0.0) h = larger(h, T(first_step[motion.rolling]));
  if (value(norm(s.velocity)) > quick) h = smaller(h, T(0.1) * norm(s.velocity) / norm(rate.velocity));
  h = smaller(h, T(longest_step));
  if (motion.terrain.surface) h = smaller(h, T(looks_ahead) / larger(norm(s.velocity), T(looks_ahead)));
  return ralston_step(motion, s, smaller(h, most));
}

/// The longest stretch on a plane that one quintic can follow: to rest; to the turn, on a plane too steep to
/// hold the ball; or a part of either.
template <Scalar T>
Stretch<T> next_stretch(const PullAndBrake<T>& forces, const Vec3<T>& velocity, const T& most) {
  const double speed = value(norm(velocity)), across = value(norm(cross(velocity, forces.pull)));
  const double pull = value(norm(forces.pull)), brake = value(forces.brake);
  const auto in_time = [&](const Stretch<T>& stretch) { return value(stretch.time) <= value(most); };
  if (pull < brake && (speed < creeps || across <= nearly_straight * speed * brake)) {
    const Stretch<T> to_rest = stretch_to_rest(forces, velocity);
    if (in_time(to_rest)) return to_rest;
  }
  const bool straight = across <= same_direction * speed * pull, up = value(dot(velocity, forces.pull)) < 0.0;
  if (pull >= brake && straight && up) {
    const Stretch<T> to_turn = stretch_to_turn(forces, velocity);
    if (in_time(to_turn)) return to_turn;
  }
  if (straight && !up && speed < creeps && pull > 0.0) {  // until it is quick, if it ever is
    const Vec3<T> change = (T(1.0) - forces.brake / norm(forces.pull)) * forces.pull;
    T time = most;
    if (pull > brake) time = smaller(time, T(quick - creeps) / norm(change));
    return {time, time * velocity + T(0.5) * square(time) * change, velocity + time * change};
  }
  return StretchSeries<T>(forces, velocity).end(most);
}

/// Whether a step can be exact: on a plane, while the turf's resistance is even.
template <Scalar T>
bool is_exact(const GroundMotion<T>& motion, const GroundState<T>& s) {
  return !motion.terrain.surface && value(norm(s.velocity)) <= quick;
}

/// An exact step, in any direction; none for a ball that becomes quick in it.
template <Scalar T>
std::optional<GroundStep<T>> exact_step(const GroundMotion<T>& motion, const GroundState<T>& s,
                                        const T& most) {
  if (!is_exact(motion, s)) return std::nullopt;
  const Vec3<T> n = motion.normal(s);
  const Stretch<T> stretch = next_stretch(motion.pull_and_brake(n), motion.braked(s), most);
  const T& t = stretch.time;
  GroundState<T> end{s.position + stretch.way, stretch.velocity, {}};
  if (!motion.rolling) {  // friction changes the velocity by a share of the change of the slip
    const T share = T(1.0) / (T(1.0) + motion.spun());
    const Vec3<T> gravity = motion.gravity_along(n);
    end = {s.position + t * s.velocity + (T(0.5) * (T(1.0) - share) * square(t)) * gravity +
               share * (stretch.way - t * s.slip),
           s.velocity + ((T(1.0) - share) * t) * gravity + share * (stretch.velocity - s.slip),
           stretch.velocity};
  }
  if (!is_exact(motion, end)) return std::nullopt;
  const bool stops = value(norm(stretch.velocity)) == 0.0;
  return GroundStep<T>{t, end, motion(stops ? s : end)};
}

/// The next step, no longer than `most`.
template <Scalar T>
GroundStep<T> next_step(const GroundMotion<T>& motion, const GroundState<T>& s, const T& most) {
  if (const auto step = exact_step(motion, s, most)) return *step;
  return short_step(motion, s, most);
}

}  // namespace whimbrel
