#pragma once
#include <whimbrel/flight/dynamics.hpp>

/// An integrator beside the library's: the classic fourth-order method with fixed steps.
namespace whimbrel::test {

inline BallState<double> moved(const BallState<double>& s, double dt, const BallState<double>& rate) {
  return {s.position + dt * rate.position, s.velocity + dt * rate.velocity,
          s.spin_rate + dt * rate.spin_rate};
}

template <class Motion>
BallState<double> stepped(const Motion& motion, const BallState<double>& s, double dt) {
  const auto k1 = motion(s), k2 = motion(moved(s, dt / 2, k1)), k3 = motion(moved(s, dt / 2, k2)),
             k4 = motion(moved(s, dt, k3));
  return moved(moved(moved(moved(s, dt / 6, k1), dt / 3, k2), dt / 3, k3), dt / 6, k4);
}

struct Moment {
  double time = 0.0;
  BallState<double> state;
};

/// On from a moment until `height` of the state is 0, coming from above; the last step by bisection.
template <class Motion, class Height>
Moment until(const Motion& motion, Moment now, const Height& height, double dt = 1e-3) {
  while (now.time < 60.0) {
    const BallState<double> next = stepped(motion, now.state, dt);
    if (height(next) < 0.0 && height(now.state) >= 0.0) break;
    now = {now.time + dt, next};
  }
  double low = 0.0, high = dt;
  for (int i = 0; i < 60; ++i) {
    const double middle = 0.5 * (low + high);
    (height(stepped(motion, now.state, middle)) >= 0.0 ? low : high) = middle;
  }
  return {now.time + high, stepped(motion, now.state, high)};
}

/// Where a flight from a state comes back to its own height, and its highest point.
template <class Motion>
Moment back_at_start_height(const Motion& motion, const BallState<double>& start, double dt = 1e-3) {
  return until(
      motion, {0.0, start}, [&](const auto& s) { return s.position.z - start.position.z; }, dt);
}
template <class Motion>
Moment highest(const Motion& motion, const BallState<double>& start, double dt = 1e-3) {
  return until(
      motion, {0.0, start}, [](const auto& s) { return s.velocity.z; }, dt);
}

}  // namespace whimbrel::test
