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

inline std::size_t place_of(std::string_view name, const std::vector<NamedNumber>& among) {
  for (std::size_t k = 0; k < among.size(); ++k)
    if (among[k].name == name) return k;
  FAIL("no number is called ", std::string(name));
  return 0;
}

/// A shot's derivatives by some of its inputs, and its flight as it is.
struct Differentiated {
  ShotInputs<> shot;
  std::vector<std::size_t> by;
  Sensitivity told = sensitivity(shot, by);
  Flight<> here = closely_flown(shot);

  /// At an edge of the model's range the slopes jump: the method, and the differences, lose an order.
  double accuracy() const {
    return here.out_of_range.spin_ratio != 0 || here.out_of_range.reynolds != 0 ? 1e-5 : 1e-6;
  }
};

/// How many derivatives were compared, how many of their differences are uncertain by more than 1e-6, and how
/// many are further apart than that: a kink within both steps hides from their comparison.
struct Compared {
  double all = 0, doubtful = 0, apart = 0;
};

/// The flight's derivatives by the k-th input, which varies on `size`, are its differences over steps of h.
/// Where those over h and 0.3 h disagree by d, they are off by up to d / 0.7: a kink makes their error go
/// with h.
inline void check_slopes(const Differentiated& of, std::size_t k, double size, double h, Compared& compared) {
  const auto flown = [&](double step) { return closely_flown(moved(of.shot, of.by[k], step)); };
  const auto wide = around(flown, h), narrow = around(flown, 0.3 * h);
  const std::size_t carry = place_of("carry", results_of(of.shot));
  for (std::size_t i = 0; i < Flight<>::fields().size(); ++i) {
    const auto field = Flight<>::fields()[i];
    const double ours = of.told.slopes[(carry + i) * of.by.size() + k];
    const double theirs = slope(wide, field.member), doubt = std::abs(theirs - slope(narrow, field.member));
    const double scale = scale_of(field, of.here) / size + std::abs(theirs);
    INFO(std::string(field.name), " by ", std::string(inputs_of(of.shot)[of.by[k]].name));
    const double allowed = of.accuracy() * scale + 1.5 * doubt;
    CHECK(agrees(ours, theirs, 2 * allowed, 0));
    compared.apart += !agrees(ours, theirs, allowed, 0);
    ++compared.all;
    compared.doubtful += doubt > 1e-6 * scale;
  }
}

}  // namespace whimbrel::test
