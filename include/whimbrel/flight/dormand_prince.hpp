#pragma once
#include "whimbrel/flight/dynamics.hpp"

namespace whimbrel {

/// A rate of change and the weight it has in a step.
template <Scalar T>
struct Weighted {
  double weight;
  const BallState<T>& rate;
};

/// state + h (w_1 rate_1 + w_2 rate_2 + …).
template <Scalar T, class... Terms>
BallState<T> moved(const BallState<T>& state, const Plain<T>& h, const Terms&... terms) {
  const auto along = [&](const T& start, const auto& part) {
    return start + h * ((terms.weight * part(terms.rate)) + ...);
  };
  return {{along(state.position.x, [](const auto& r) { return r.position.x; }),
           along(state.position.y, [](const auto& r) { return r.position.y; }),
           along(state.position.z, [](const auto& r) { return r.position.z; })},
          {along(state.velocity.x, [](const auto& r) { return r.velocity.x; }),
           along(state.velocity.y, [](const auto& r) { return r.velocity.y; }),
           along(state.velocity.z, [](const auto& r) { return r.velocity.z; })},
          along(state.spin_rate, [](const auto& r) { return r.spin_rate; })};
}

/// What the coefficients of a ball in flight depend on.
template <Scalar T>
struct Regime {
  T spin_ratio, reynolds;
};

template <Scalar T>
Regime<Plain<T>> value(const Regime<T>& regime) {
  return {value(regime.spin_ratio), value(regime.reynolds)};
}

template <Scalar T>
Regime<T> regime(const Airflow<T>& flow) {
  return {flow.spin_ratio, flow.reynolds};
}

/// A ball in flight at some moment: its state, its rate of change, and the regime it flies in.
template <Scalar T>
struct Moment {
  BallState<T> state, rate;
  Regime<T> regime;
};

template <Scalar T>
Moment<T> choose(const Mask<T>& condition, const Moment<T>& a, const Moment<T>& b) {
  return {choose(condition, a.state, b.state),
          choose(condition, a.rate, b.rate),
          {choose(condition, a.regime.spin_ratio, b.regime.spin_ratio),
           choose(condition, a.regime.reynolds, b.regime.reynolds)}};
}

template <Scalar T>
Moment<Plain<T>> value(const Moment<T>& m) {
  return {value(m.state), value(m.rate), value(m.regime)};
}

template <class Motion, Scalar T>
Moment<T> moment(const Motion& motion, const BallState<T>& state) {
  const Airflow<T> flow = motion.airflow(state);
  return {state, motion(state, flow), regime(flow)};
}

/// The end of a step of h seconds, and the square of its estimated error, m^2. An error of the velocity
/// counts as the distance it adds in `error_time`.
template <Scalar T>
struct Step {
  Moment<T> end;
  Plain<T> error_squared;
};

inline constexpr double error_time = 0.3;  // s

/// One step of the embedded 5(4) pair of Dormand & Prince, J. Comput. Appl. Math. 6 (1980) 19, whose last
/// stage is the first of the next step.
template <class Motion, Scalar T>
Step<T> step(const Motion& motion, const Moment<T>& start, const Plain<T>& h) {
  using V = Plain<T>;
  using E = Weighted<V>;
  using W = Weighted<T>;
  const BallState<T>&y = start.state, &k1 = start.rate;
  const BallState<T> k2 = motion(moved(y, h, W{1.0 / 5, k1}));
  const BallState<T> k3 = motion(moved(y, h, W{3.0 / 40, k1}, W{9.0 / 40, k2}));
  const BallState<T> k4 = motion(moved(y, h, W{44.0 / 45, k1}, W{-56.0 / 15, k2}, W{32.0 / 9, k3}));
  const BallState<T> k5 = motion(
      moved(y, h, W{19372.0 / 6561, k1}, W{-25360.0 / 2187, k2}, W{64448.0 / 6561, k3}, W{-212.0 / 729, k4}));
  const BallState<T> k6 = motion(moved(y, h, W{9017.0 / 3168, k1}, W{-355.0 / 33, k2}, W{46732.0 / 5247, k3},
                                       W{49.0 / 176, k4}, W{-5103.0 / 18656, k5}));
  const Moment<T> end = moment(motion, moved(y, h, W{35.0 / 384, k1}, W{500.0 / 1113, k3}, W{125.0 / 192, k4},
                                             W{-2187.0 / 6784, k5}, W{11.0 / 84, k6}));
  const BallState<V> error = moved(BallState<V>{}, h, E{71.0 / 57600, value(k1)}, E{-71.0 / 16695, value(k3)},
                                   E{71.0 / 1920, value(k4)}, E{-17253.0 / 339200, value(k5)},
                                   E{22.0 / 525, value(k6)}, E{-1.0 / 40, value(end.rate)});
  return {end, dot(error.position, error.position) +
                   error_time * error_time * dot(error.velocity, error.velocity)};
}

}  // namespace whimbrel
