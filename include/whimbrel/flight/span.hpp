#pragma once
#include "whimbrel/core/interpolation.hpp"
#include "whimbrel/flight/dynamics.hpp"
#include "whimbrel/flight/quintic.hpp"

namespace whimbrel {

/// One step of a flight: where it begins and ends, with the rates of change there. `State` is a ball's state,
/// or a reference to one stored elsewhere.
template <Scalar T, class State = BallState<T>>
struct Span {
  T start, length;  ///< s
  State from, from_rate, to, to_rate;
};

template <Scalar T>
Quintic<Vec3<T>> path(const Span<T>& span) {
  return Quintic<Vec3<T>>::through(span.length, span.from.position, span.from.velocity,
                                   span.from_rate.velocity, span.to.position, span.to.velocity,
                                   span.to_rate.velocity);
}

/// The state a share s of the step after its beginning.
template <Scalar T>
BallState<T> state_at(const Span<T>& span, const T& s) {
  const Quintic<Vec3<T>> path = whimbrel::path(span);
  const auto some = span.length > T(0.0);
  const T per_second = choose(some, T(1.0) / choose(some, span.length, T(1.0)), T(0.0));
  const Vec3<T> velocity = per_second * path.slope(s);
  return {path.at(s), choose(some, velocity, span.from.velocity),
          cubic_hermite(s, span.length, span.from.spin_rate, span.from_rate.spin_rate, span.to.spin_rate,
                        span.to_rate.spin_rate)};
}

/// How far a motion leads away from the plane of the ground.
template <Scalar T>
T off_the_ground(const Vec3<T>& motion, const Terrain<T>& terrain) {
  return motion.z - terrain.slope_right * motion.x - terrain.slope_downrange * motion.y;
}

/// The clearance of plane ground during a step.
template <Scalar T, class State>
Quintic<T> clearance_in(const Span<T, State>& span, const FlightConditions<T>& in) {
  const auto away = [&](const Vec3<T>& motion) { return off_the_ground(motion, in.terrain); };
  return Quintic<T>::through(span.length, clearance(span.from, in), away(span.from.velocity),
                             away(span.from_rate.velocity), clearance(span.to, in), away(span.to.velocity),
                             away(span.to_rate.velocity));
}

/// The height of the ball's centre during a step.
template <Scalar T, class State>
Quintic<T> height_in(const Span<T, State>& span) {
  return Quintic<T>::through(span.length, span.from.position.z, span.from.velocity.z,
                             span.from_rate.velocity.z, span.to.position.z, span.to.velocity.z,
                             span.to_rate.velocity.z);
}

/// A root found in plain numbers, with its derivatives: those of the condition f(s) = 0 itself.
template <Scalar T, class V>
T with_derivatives(const V& root, const T& f, const T& slope) {
  if constexpr (std::same_as<T, V>)
    return root;
  else
    return T(root) - f / slope;
}

/// Where in [low, 1] of a step a quintic falls through zero.
template <Scalar T>
T falls_through(const Quintic<T>& q, const T& low) {
  const auto plain = value(q);
  const auto s = falling_root(
      [&](const auto& s) {
        return WithSlope{plain.at(s), plain.slope(s)};
      },
      value(low));
  return with_derivatives(s, q.at(T(s)), q.slope(T(s)));
}

/// Where in a step a quintic that rises at its beginning and falls at its end is highest.
template <Scalar T>
T top_of(const Quintic<T>& q) {
  const auto plain = value(q);
  const auto s = falling_root(
      [&](const auto& s) {
        return WithSlope{plain.slope(s), plain.curvature(s)};
      },
      value(T(0.0)));
  return with_derivatives(s, q.slope(T(s)), q.curvature(T(s)));
}

/// Whether the ball passes the top of its path in a step.
template <Scalar T, class State>
auto tops(const Span<T, State>& span) {
  return span.from.velocity.z > T(0.0) && span.to.velocity.z <= T(0.0);
}

/// Whether a step may hold a landing: it ends on or below the ground, and began above or was rising.
template <Scalar T, class State>
auto may_come_down(const Span<T, State>& span, const FlightConditions<T>& in) {
  return clearance(span.to, in) <= T(0.0) &&
         (clearance(span.from, in) > T(0.0) || off_the_ground(span.from.velocity, in.terrain) > T(0.0));
}

/// Heights that count as touching the ground, m.
inline constexpr double touching = 1e-12;

/// On the ground and not climbing away from it.
template <Scalar T>
auto stuck_on_the_ground(const BallState<T>& start, const FlightConditions<T>& in) {
  const T c = clearance(start, in);
  return c < T(touching) && c > T(-touching) && off_the_ground(start.velocity, in.terrain) <= T(0.0);
}

/// Where to start looking for a landing, as a share of the step; -1 if the ball does not come down in it. 0
/// if the step began above the ground. If it began on or below, its top if that is above the ground, or its
/// start if the hop is too low for the arithmetic to resolve.
template <Scalar T, class State>
T descent_in(const Span<T, State>& span, const FlightConditions<T>& in) {
  const T at_first = clearance(span.from, in);
  const auto from_above = at_first > T(0.0), lands = may_come_down(span, in);
  const auto up_and_down = lands && !from_above && off_the_ground(span.to.velocity, in.terrain) < T(0.0);
  T after = choose(lands && from_above, T(0.0), T(-1.0));
  if (any(up_and_down)) {
    const Quintic<T> q = clearance_in(span, in);
    const T top = top_of(q);
    after = choose(up_and_down && (q.at(top) > T(0.0) || at_first > T(-touching)), top, after);
  }
  return after;
}

}  // namespace whimbrel
