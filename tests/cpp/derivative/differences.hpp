#pragma once
#include <doctest/doctest.h>

#include <whimbrel/derivative/sensitivity.hpp>
#include <whimbrel/flight/fly_odeint.hpp>

#include "agrees.hpp"
#include "random_cases.hpp"

/// Derivatives by central differences of flights to a tolerance of 1e-12.
namespace whimbrel::test {

inline constexpr double close_tolerance = 1e-12;

/// The flight of some inputs by the reference integrator, ten thousand times as closely as usual.
inline Flight<> closely_flown(const ShotInputs<>& inputs) {
  Setting<> setting = inputs.setting;
  if (inputs.in_weather) setting.air = air(inputs.weather);
  const Launch<> launch = inputs.measured ? inputs.launch : kernel::strike(inputs.swing, inputs.ball).launch;
  const Vec3<double> start = on_the_tee(inputs.ball, setting.terrain);
  return std::visit(
      [&](const auto& model) {
        return kernel::OdeintFlight(model, launch, inputs.ball, setting, start, close_tolerance).fly();
      },
      inputs.ball.aero);
}

/// A measured launch in standard weather, or in the air of the setting.
inline ShotInputs<> measured(const Launch<>& launch, bool in_weather = true) {
  ShotInputs<> inputs;
  inputs.measured = true;
  inputs.launch = launch;
  inputs.in_weather = in_weather;
  return inputs;
}

/// The same inputs, the k-th more by `step`.
inline ShotInputs<> moved(const ShotInputs<>& inputs, std::size_t k, double step) {
  return lifted<double>(inputs, [&](std::size_t i, double x) { return i == k ? x + step : x; });
}

/// What a number of a flight varies on: lengths on that of the flight, angles on a radian.
inline double scale_of(const Field<Flight<>, double>& field, const Flight<>& flight) {
  if (field.unit == "m") return flight.carry + flight.apex;
  return field.unit == "rad" ? 1.0 : flight.*field.member;
}

/// Values of f around 0, and how far apart.
template <class Value>
struct Around {
  double h;
  std::array<Value, 4> at;
};

template <class F>
auto around(const F& f, double h) {
  return Around<decltype(f(h))>{h, {f(-2 * h), f(-h), f(h), f(2 * h)}};
}

/// The derivative of one of their numbers, to the fourth order in h.
template <class Value>
double slope(const Around<Value>& f, double Value::*member) {
  return (8 * (f.at[2].*member - f.at[1].*member) - (f.at[3].*member - f.at[0].*member)) / (12 * f.h);
}

}  // namespace whimbrel::test
