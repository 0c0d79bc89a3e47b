#pragma once
#include "whimbrel/flight/dormand_prince.hpp"

namespace whimbrel {

inline constexpr double near_an_end = 0.02;  // share of a step within which an edge does it no harm

/// The share of a step after which a number crosses one of two edges, found along its secant; 1 if it crosses
/// none, or only near an end of the step.
template <Scalar T>
T share_to_edge(const T& before, const T& after, double lower, double upper) {
  const T edge = choose(larger(before, after) > T(upper), T(upper), T(lower));
  const T ahead = edge - before;
  if (!any(ahead * (edge - after) < T(0.0))) return T(1.0);
  const T share = ahead / (after - before);
  return choose(share > T(near_an_end) && share < T(1.0 - near_an_end), share, T(1.0));
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

}  // namespace whimbrel
