#pragma once
#include <algorithm>
#include <vector>

#include "whimbrel/flight/span.hpp"

namespace whimbrel {

/// One step of a flight: when, the state, and its rate of change there.
template <Scalar T>
struct Knot {
  T time{};
  BallState<T> state, rate;
};

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
    return path(Span<T>{a.time, h, a.state, a.rate, b.state, b.rate}).at((t - a.time) / h);
  }
};

}  // namespace whimbrel
