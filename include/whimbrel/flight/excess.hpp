#pragma once
#include "whimbrel/flight/dormand_prince.hpp"

namespace whimbrel {

/// How far a flight went outside the stated range of its aerodynamic model: 0 inside, negative below,
/// positive above.
template <Scalar T>
struct Excess {
  T spin_ratio{0.0}, reynolds{0.0};
};

template <Scalar T, AeroModel Model>
Excess<T> excess_of(const Regime<T>& regime, const Model& model) {
  const StatedRange range = model.stated_range();
  return {excess(regime.spin_ratio, range.spin_ratio_lower, range.spin_ratio_upper),
          excess(regime.reynolds, range.reynolds_lower, range.reynolds_upper)};
}

template <Scalar T>
Excess<T> choose(const Mask<T>& condition, const Excess<T>& a, const Excess<T>& b) {
  return {choose(condition, a.spin_ratio, b.spin_ratio), choose(condition, a.reynolds, b.reynolds)};
}

/// Of each number, the one farther out.
template <Scalar T>
Excess<T> farther(const Excess<T>& a, const Excess<T>& b) {
  return {choose(square(b.spin_ratio) > square(a.spin_ratio), b.spin_ratio, a.spin_ratio),
          choose(square(b.reynolds) > square(a.reynolds), b.reynolds, a.reynolds)};
}

}  // namespace whimbrel
