#pragma once
#include <concepts>

#include "whimbrel/core/scalar.hpp"

namespace whimbrel {

/// Drag and lift coefficients: force = 1/2 rho A U^2 C.
template <Scalar T>
struct Coefficients {
  T drag{}, lift{};
};

/// Where a model's author states it holds. Reynolds number 2 rho U r / mu; spin ratio W = r w / U,
/// w the part of the spin perpendicular to the airflow.
struct StatedRange {
  double spin_ratio_lower, spin_ratio_upper;
  double reynolds_lower, reynolds_upper;
};

/// An aerodynamic model answers three things: its coefficients inside its stated range, that range,
/// and its spin decay constant c in dw/dt = -c U w / r. Asked for here in `double` alone; a model among
/// `AnyAeroModel` is also compiled for numbers with slopes and for the lanes of the batch kernels.
template <class Model>
concept AeroModel = requires(const Model model, double x) {
  { model.coefficients(x, x) } -> std::same_as<Coefficients<double>>;
  { model.stated_range() } -> std::same_as<StatedRange>;
  { model.spin_decay } -> std::convertible_to<double>;
};

/// The spin decay constants accepted end at five times the published 2.0e-5: a ball that stops spinning
/// within its flight is no golf ball.
inline constexpr double greatest_spin_decay = 1e-4;

/// What the equation of motion needs: C_D, and C_L / W, which stays finite at zero spin.
template <Scalar T>
struct Aerodynamics {
  T drag{}, lift_per_spin_ratio{};
};

/// Below this spin ratio, or below the lower edge of a model's range where that is higher, lift is
/// linear in the spin ratio, down to 0 at zero spin.
inline constexpr double linear_lift_below = 0.01;

constexpr double lowest_spin_ratio(const StatedRange& range) {
  return range.spin_ratio_lower > linear_lift_below ? range.spin_ratio_lower : linear_lift_below;
}

/// A model at any spin ratio and Reynolds number: outside its stated range it holds its edge value.
template <Scalar T, AeroModel Model>
Aerodynamics<T> aerodynamics(const Model& model, const T& spin_ratio, const T& reynolds) {
  const StatedRange range = model.stated_range();
  const double lowest = lowest_spin_ratio(range);
  const T W = held(spin_ratio, lowest, range.spin_ratio_upper);
  const T Re = held(reynolds, range.reynolds_lower, range.reynolds_upper);
  const Coefficients<T> edge = model.coefficients(W, Re);
  return {edge.drag, edge.lift / larger(spin_ratio, T(lowest))};
}

}  // namespace whimbrel
