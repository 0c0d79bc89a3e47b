#pragma once
#include <limits>

#include "whimbrel/flight/dormand_prince.hpp"
#include "whimbrel/flight/span.hpp"

namespace whimbrel {

/// Share of a step within which an edge does it no harm: slopes, which jump there, bear less than values.
template <Scalar T>
inline constexpr double near_an_end = has_slopes<T> ? 1e-7 : 0.02;

/// The share of a step after which a number crosses one of two edges, found along its secant; 1 if it crosses
/// none, or only near an end of the step.
template <Scalar T>
T share_to_edge(const T& before, const T& after, double lower, double upper) {
  const T edge = choose(larger(before, after) > T(upper), T(upper), T(lower));
  const T ahead = edge - before;
  if (!any(ahead * (edge - after) < T(0.0))) return T(1.0);
  const T share = ahead / (after - before);
  return choose(share > T(near_an_end<T>) && share < T(1.0 - near_an_end<T>), share, T(1.0));
}

/// The share of a step after which the airflow crosses an edge of the model's stated range, where its
/// coefficients have a kink: a step should end there, since across it the method loses its order. 1: nowhere.
template <Scalar T, AeroModel Model>
T share_to_edge(const Regime<T>& before, const Regime<T>& after, const Model& model) {
  const StatedRange range = model.stated_range();
  return smaller(
      share_to_edge(before.spin_ratio, after.spin_ratio, lowest_spin_ratio(range), range.spin_ratio_upper),
      share_to_edge(before.reynolds, after.reynolds, range.reynolds_lower, range.reynolds_upper));
}

/// The same; for slopes also where the ground under the ball sinks below the tee, as the height that the wind
/// is read at has a kink there, and looked for in both halves of the step: a ball may cross an edge and turn
/// back.
template <Scalar T, class Motion>
T share_to_edge(const Span<T>& span, const Moment<T>& before, const Moment<T>& after, const Motion& motion) {
  if constexpr (!has_slopes<T>) {
    return share_to_edge(before.regime, after.regime, motion.model);
  } else {
    const auto ground = [&](const Moment<T>& m) {
      return ground_height(motion.in.terrain, m.state.position.x, m.state.position.y);
    };
    const auto share = [&](const Moment<T>& a, const Moment<T>& b) {
      constexpr double infinity = std::numeric_limits<double>::infinity();
      return smaller(share_to_edge(a.regime, b.regime, motion.model),
                     share_to_edge(ground(a), ground(b), 0.0, infinity));
    };
    const T half(0.5);
    const Moment<T> middle = moment(motion, state_at(span, half));
    const T first = share(before, middle), second = share(middle, after);
    return choose(first < T(1.0), half * first, half + half * second);
  }
}

}  // namespace whimbrel
