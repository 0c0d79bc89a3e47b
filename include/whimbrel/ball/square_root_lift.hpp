#pragma once
#include <array>
#include <limits>

#include "whimbrel/ball/aero_model.hpp"
#include "whimbrel/core/field.hpp"

namespace whimbrel {

/// A square-root lift fit with drag linear in the spin ratio.
///
///   C_L = -a + sqrt(a^2 + 0.36 W), a = 0.05      (printed in Palmer, Physics for Game Programmers, 2005)
///   C_D = 0.24 + 0.18 W      (a line, from memory, through Bearman & Harvey, Aeronaut. Q. 27 (1976) 112)
struct SquareRootLift {
  double lift_offset = 0.05, lift_slope = 0.36;
  double drag = 0.24, drag_spin = 0.18;
  double spin_decay = 2.0e-5;

  static constexpr StatedRange stated_range() {
    constexpr double infinity = std::numeric_limits<double>::infinity();
    return {0.0, infinity, 0.0, infinity};
  }

  template <Scalar T>
  Coefficients<T> coefficients(const T& W, const T&) const {
    using std::sqrt;
    return {T(drag) + T(drag_spin) * W,
            sqrt(T(lift_offset * lift_offset) + T(lift_slope) * W) - T(lift_offset)};
  }

  static constexpr auto fields() {
    using Constant = Field<SquareRootLift, double>;
    return std::array<Constant, 5>{
        {{"lift_offset", &SquareRootLift::lift_offset, "1", 0, 1},
         {"lift_slope", &SquareRootLift::lift_slope, "1", 0, 2},
         {"drag", &SquareRootLift::drag, "1", 0, 2},
         {"drag_spin", &SquareRootLift::drag_spin, "1", 0, 2},
         {"spin_decay", &SquareRootLift::spin_decay, "1", 0, greatest_spin_decay}}};
  }
};

static_assert(AeroModel<SquareRootLift>);

}  // namespace whimbrel
