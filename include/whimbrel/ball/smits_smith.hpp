#pragma once
#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numbers>

#include "whimbrel/ball/aero_model.hpp"
#include "whimbrel/core/field.hpp"

namespace whimbrel {

/// Smits & Smith, Science and Golf II (1994) 340; the constants and the range of Re from memory.
///
///   C_D = 0.24 + 0.18 W + 0.06 sin(pi (Re - 9e4) / 2e5),   C_L = 0.54 W^0.4
///
/// Spin decay of the same source: 2.0e-5 U w / r.
struct SmitsSmith {
  double drag = 0.24, drag_spin = 0.18, drag_wave = 0.06;
  double lift = 0.54, lift_power = 0.4;
  double spin_decay = 2.0e-5;

  static constexpr StatedRange stated_range() {
    return {0.05, std::numeric_limits<double>::infinity(), 0.7e5, 2.1e5};
  }

  template <Scalar T>
  Coefficients<T> coefficients(const T& W, const T& Re) const {
    using std::pow, std::sin;
    return {T(drag) + T(drag_spin) * W + T(drag_wave) * sin((Re - T(9e4)) * T(std::numbers::pi / 2e5)),
            T(lift) * pow(W, T(lift_power))};
  }

  static constexpr auto fields() {
    using Constant = Field<SmitsSmith, double>;
    return std::array<Constant, 6>{{{"drag", &SmitsSmith::drag, "1", 0, 2},
                                    {"drag_spin", &SmitsSmith::drag_spin, "1", 0, 2},
                                    {"drag_wave", &SmitsSmith::drag_wave, "1", -1, 1},
                                    {"lift", &SmitsSmith::lift, "1", 0, 2},
                                    {"lift_power", &SmitsSmith::lift_power, "1", 0, 1},
                                    {"spin_decay", &SmitsSmith::spin_decay, "1", 0, greatest_spin_decay}}};
  }
};

static_assert(AeroModel<SmitsSmith>);

/// What is wrong with the constants. The wave may not take the drag below 0 in the stated range, where the
/// sine is between its value at the lower edge and 1.
inline std::optional<InputError> mistake(const SmitsSmith& model) {
  if (auto error = out_of_bounds(model)) return error;
  const StatedRange range = SmitsSmith::stated_range();
  const double without = model.drag + model.drag_spin * range.spin_ratio_lower;
  const double trough = std::sin(std::numbers::pi * (range.reynolds_lower - 9e4) / 2e5);
  const double lower = std::max(-1.0, -without), upper = std::min(1.0, -without / trough);
  if (model.drag_wave < lower || model.drag_wave > upper)
    return InputError("drag_wave", model.drag_wave, "1", lower, upper);
  return std::nullopt;
}

}  // namespace whimbrel
