#pragma once
#include <algorithm>
#include <vector>

#include "whimbrel/core/interpolation.hpp"
#include "whimbrel/flight/dynamics.hpp"

namespace whimbrel {

/// One step of a flight: when, the state, and its rate of change there.
template <Scalar T>
struct Knot {
  T time{};
  BallState<T> state, rate;
};

/// Quintic Hermite on [0, 1] of a step of width h: position, velocity and acceleration at its ends.
template <Scalar T>
Vec3<T> quintic_hermite(const T& s, const T& h, const Knot<T>& a, const Knot<T>& b) {
  const T s3 = s * s * s;
  const T late = s3 * (T(10.0) - T(15.0) * s + T(6.0) * s * s);
  const T v0 = s - s3 * (T(6.0) - T(8.0) * s + T(3.0) * s * s);
  const T v1 = -s3 * (T(4.0) - T(7.0) * s + T(3.0) * s * s);
  const T r = T(1.0) - s;
  const T a0 = T(0.5) * s * s * r * r * r;
  const T a1 = T(0.5) * s3 * r * r;
  return a.state.position + late * (b.state.position - a.state.position) +
         h * (v0 * a.state.velocity + v1 * b.state.velocity) +
         square(h) * (a0 * a.rate.velocity + a1 * b.rate.velocity);
}

/// A flight from launch to landing, to be sampled at any time; before and after it the ball is
/// where the flight began and ended. Without a flight, it is nowhere: NaN.
template <Scalar T = double>
struct Trajectory {
  std::vector<Knot<T>> knots;

  /// Position of the ball's centre, m, at a time after launch, s.
  Vec3<T> position_at(const T& time) const {
    if (knots.empty()) return {T(NAN), T(NAN), T(NAN)};
    if (knots.size() == 1) return knots.front().state.position;
    const T t = held(time, value(knots.front().time), value(knots.back().time));
    const auto after =
        std::upper_bound(knots.begin() + 1, knots.end() - 1, value(t),
                         [](double moment, const Knot<T>& knot) { return moment < value(knot.time); });
    const Knot<T>&a = *(after - 1), &b = *after;
    const T h = b.time - a.time;
    if (!(value(h) > 0.0)) return b.state.position;  // a stage of no length ends the trajectory
    return quintic_hermite((t - a.time) / h, h, a, b);
  }
};

}  // namespace whimbrel
