#pragma once
#include <limits>

#include "whimbrel/flight/dormand_prince.hpp"
#include "whimbrel/flight/span.hpp"

namespace whimbrel {

/// Share of a step within which an edge does it no harm: calibrated here with the tolerance of the fast path,
/// on full shots by every model.
inline constexpr double near_an_end = 0.01;

/// The share of a step after which a number crosses one of two edges, along its secant. 1 if it crosses none,
/// or crosses `near` an end of the step.
template <Scalar T>
T share_to_edge(const T& before, const T& after, double lower, double upper, double near) {
  const T edge = choose(larger(before, after) > T(upper), T(upper), T(lower));
  const T ahead = edge - before;
  if (!any(ahead * (edge - after) < T(0.0))) return T(1.0);
  const T share = ahead / (after - before);
  return choose(share > T(near) && share < T(1.0 - near), share, T(1.0));
}

/// The share of a step after which the airflow leaves or enters the model's stated range; 1 if it does
/// neither. The coefficients have a kink there, across which the method loses its order, so a step should end
/// there.
template <Scalar T, AeroModel Model>
T share_to_edge(const Regime<T>& before, const Regime<T>& after, const Model& model,
                double near = near_an_end) {
  const StatedRange range = model.stated_range();
  return smaller(
      share_to_edge(before.spin_ratio, after.spin_ratio, lowest_spin_ratio(range), range.spin_ratio_upper,
                    near),
      share_to_edge(before.reynolds, after.reynolds, range.reynolds_lower, range.reynolds_upper, near));
}

/// The share of a step after which the ball is lowest over the ground, if it may have dipped below and come
/// out again; else 1. A step should end there, since landings are looked for at the ends of steps.
template <Scalar T, class State>
T share_to_dip(const Span<T, State>& span, const FlightConditions<T>& in, double near = near_an_end) {
  const T before = off_the_ground(span.from.velocity, in.terrain);
  const T after = off_the_ground(span.to.velocity, in.terrain);
  const auto turns = before < T(0.0) && after > T(0.0);
  if (!any(turns)) return T(1.0);
  const T height = clearance(span.from, in), share = before / (before - after);
  const auto dips = turns && height > T(0.0) && height + share * span.length * before < T(0.0);
  return choose(dips && share > T(near) && share < T(1.0 - near), share, T(1.0));
}

/// Whether a step may have reached an edge of the model's stated range and turned back: true if it begins or
/// ends near one. In 900,000 steps at the tolerance of slopes, over the whole range of inputs, none turned
/// back at an edge farther off.
template <Scalar T, AeroModel Model>
auto may_turn_at_edge(const Regime<T>& before, const Regime<T>& after, const Model& model) {
  constexpr double reach = 0.02;  // a share of the edge
  const auto near = [](const T& a, const T& b, double edge) {
    return smaller(a, b) < T((1.0 + reach) * edge) && larger(a, b) > T((1.0 - reach) * edge);
  };
  const StatedRange range = model.stated_range();
  return near(before.spin_ratio, after.spin_ratio, lowest_spin_ratio(range)) ||
         near(before.spin_ratio, after.spin_ratio, range.spin_ratio_upper) ||
         near(before.reynolds, after.reynolds, range.reynolds_lower) ||
         near(before.reynolds, after.reynolds, range.reynolds_upper);
}

/// The share of a step after which it crosses any edge; for slopes, which jump at edges and need more care
/// than values. Edges are those of the model's range, and the kinks of the wind: where the ground under the
/// ball sinks below the tee, and at the height of no wind, which a step with a landing in it may reach. If
/// the step crosses an edge, or may turn back at one of the model's, both halves are searched. For one
/// flight, not for lanes.
template <Scalar T, class Motion>
T share_to_any_edge(const Span<T>& span, const Regime<T>& before, const Regime<T>& after,
                    const Motion& motion) {
  constexpr double near = 1e-7, infinity = std::numeric_limits<double>::infinity();
  const auto ground = [&](const BallState<T>& ball) {
    return ground_height(motion.in.terrain, ball.position.x, ball.position.y);
  };
  const auto height = [&](const BallState<T>& ball) {
    return height_in_wind(motion.in.terrain, ball.position);
  };
  const auto share = [&](const BallState<T>& a, const Regime<T>& at_a, const BallState<T>& b,
                         const Regime<T>& at_b) {
    const T to_kink = smaller(share_to_edge(ground(a), ground(b), 0.0, infinity, near),
                              share_to_edge(height(a), height(b), 0.0, infinity, near));
    return smaller(share_to_edge(at_a, at_b, motion.model, near), to_kink);
  };
  const T whole = share(span.from, before, span.to, after);
  if (!any(whole < T(1.0) || may_turn_at_edge(before, after, motion.model))) return T(1.0);
  const T half(0.5);
  const BallState<T> middle = state_at(span, half);
  const Regime<T> there = regime(motion.airflow(middle));
  const T first = share(span.from, before, middle, there), second = share(middle, there, span.to, after);
  return choose(first < T(1.0), half * first, half + half * second);
}

}  // namespace whimbrel
