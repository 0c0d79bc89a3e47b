#pragma once
#include <limits>
#include <vector>

#include "whimbrel/ball/aero_model.hpp"
#include "whimbrel/core/field.hpp"
#include "whimbrel/core/interpolation.hpp"

namespace whimbrel {

/// The user's own grid of C_D and C_L over spin ratio and Reynolds number, with monotone cubic
/// interpolation in each. Its stated range is the grid.
struct AeroTable {
  std::vector<double> spin_ratio{0.0, 1.0};  ///< increasing
  std::vector<double> reynolds{1e5};         ///< increasing; one value: the same at every Re
  std::vector<double> drag{0.25, 0.25};      ///< C_D, a row a spin ratio, a column a Reynolds number
  std::vector<double> lift{0.0, 0.15};       ///< C_L, likewise
  double spin_decay = 2.0e-5;

  StatedRange stated_range() const {
    constexpr double infinity = std::numeric_limits<double>::infinity();
    if (reynolds.size() == 1) return {spin_ratio.front(), spin_ratio.back(), 0.0, infinity};
    return {spin_ratio.front(), spin_ratio.back(), reynolds.front(), reynolds.back()};
  }

  template <Scalar T>
  Coefficients<T> coefficients(const T& W, const T& Re) const {
    return {interpolated(drag, W, Re), interpolated(lift, W, Re)};
  }

 private:
  template <Scalar T>
  T interpolated(const std::vector<double>& grid, const T& W, const T& Re) const {
    const auto along_spin_ratio = [&](std::size_t column) {
      return monotone_cubic(
          std::span(spin_ratio), [&](std::size_t row) { return T(grid[row * reynolds.size() + column]); }, W);
    };
    return monotone_cubic(std::span(reynolds), along_spin_ratio, Re);
  }
};

static_assert(AeroModel<AeroTable>);

/// What is wrong with a table: its axes must increase, its grids must be full and finite, and drag
/// may not drive the ball on.
inline std::optional<InputError> mistake(const AeroTable& table) {
  const auto increasing = [](const std::vector<double>& axis) {
    for (std::size_t i = 0; i < axis.size(); ++i)
      if (!std::isfinite(axis[i]) || axis[i] < 0 || (i > 0 && axis[i] <= axis[i - 1])) return false;
    return !axis.empty();
  };
  const std::size_t cells = table.spin_ratio.size() * table.reynolds.size();
  const auto count = static_cast<double>(cells);
  if (!increasing(table.spin_ratio) || table.spin_ratio.size() < 2)
    return InputError("spin_ratio of the table", count, "needs two or more increasing values from 0 up");
  if (!increasing(table.reynolds))
    return InputError("reynolds of the table", count, "needs increasing values from 0 up");
  if (table.drag.size() != cells || table.lift.size() != cells)
    return InputError(
        "drag and lift of the table", count,
        "need one value for each spin ratio and Reynolds number (" + std::to_string(cells) + ")");
  for (const double x : table.drag)
    if (!(x >= 0 && x <= 2)) return InputError("drag of the table", x, "1", 0, 2);
  for (const double x : table.lift)
    if (!(x >= -2 && x <= 2)) return InputError("lift of the table", x, "1", -2, 2);
  if (!(table.spin_decay >= 0 && table.spin_decay <= greatest_spin_decay))
    return InputError("spin_decay", table.spin_decay, "1", 0, greatest_spin_decay);
  return std::nullopt;
}

}  // namespace whimbrel
