#pragma once
#include <array>
#include <limits>

#include "whimbrel/ball/aero_model.hpp"
#include "whimbrel/core/field.hpp"

namespace whimbrel {

/// The same drag and lift at every speed and spin: for exact tests and for teaching. Lift needs a
/// spin axis, so a ball without spin has none.
struct ConstantCoefficients {
  double drag = 0.25, lift = 0.15;
  double spin_decay = 0.0;

  static constexpr StatedRange stated_range() {
    constexpr double infinity = std::numeric_limits<double>::infinity();
    return {0.0, infinity, 0.0, infinity};
  }

  template <Scalar T>
  Coefficients<T> coefficients(const T&, const T&) const {
    return {T(drag), T(lift)};
  }

  static constexpr auto fields() {
    using Constant = Field<ConstantCoefficients, double>;
    return std::array<Constant, 3>{
        {{"drag", &ConstantCoefficients::drag, "1", 0, 2},
         {"lift", &ConstantCoefficients::lift, "1", -2, 2},
         {"spin_decay", &ConstantCoefficients::spin_decay, "1", 0, greatest_spin_decay}}};
  }
};

static_assert(AeroModel<ConstantCoefficients>);

}  // namespace whimbrel
