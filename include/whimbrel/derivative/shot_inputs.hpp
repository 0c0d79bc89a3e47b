#pragma once
#include <vector>

#include "whimbrel/shot/play.hpp"

namespace whimbrel {

/// Everything that decides a shot: its start and its conditions.
template <Scalar T = double>
struct ShotInputs {
  bool measured = false;  ///< it starts from `launch`, else from `swing`
  Swing<T> swing{};
  Launch<T> launch{};
  Ball<T> ball{};
  bool in_weather = true;  ///< the air comes from `weather`, else from `setting`
  Weather<T> weather{};
  Setting<T> setting{};
  Turf<T> turf{};
  bool to_rest = true;  ///< whether the run after the flight is wanted
};

/// The values among inputs that count, in the order of the row.
template <class Inputs, class Visit>
void each_value(Inputs& inputs, const Visit& visit) {
  if (inputs.measured) {
    visit(inputs.launch);
  } else {
    visit(inputs.swing.delivery);
    visit(inputs.swing.club);
  }
  visit(inputs.ball);
  if (inputs.in_weather)
    visit(inputs.weather);
  else
    visit(inputs.setting.air);
  visit(inputs.setting.wind);
  visit(inputs.setting.terrain);
  visit(inputs.turf);
}

/// The values among a shot's results, in the order of the row.
template <class AnyShot, class Visit>
void each_result(AnyShot& shot, const Visit& visit) {
  if (shot.impact) visit(*shot.impact);
  visit(shot.launch);
  visit(shot.flight);
  visit(shot.run);
}

/// A number among inputs or results: its field's name and SI unit.
struct NamedNumber {
  std::string_view name, unit;
};

namespace kernel {

/// `note(value, field)` of every field of a value.
template <class Note>
auto each_field(const Note& note) {
  return [&note]<class Value>(Value& value) {
    for (const auto& field : std::remove_const_t<Value>::fields()) note(value, field);
  };
}

/// Plays the row; without a run its numbers are NaN. Defined in `derivative/sloped_row.hpp`, and compiled
/// into the target of `whimbrel/compiled.hpp`, as it takes compilers minutes.
template <Scalar T>
Shot<T> play(const ShotInputs<T>& inputs);

}  // namespace kernel

/// The numbers a shot can be differentiated by, with a swing or a measured launch, in weather or in given
/// air.
inline std::vector<NamedNumber> inputs_of(const ShotInputs<>& inputs) {
  std::vector<NamedNumber> names;
  each_value(inputs, kernel::each_field([&](const auto&, const auto& field) {
               names.push_back({field.name, field.unit});
             }));
  return names;
}

/// The numbers of a shot that can be differentiated.
inline std::vector<NamedNumber> results_of(const ShotInputs<>& inputs) {
  Shot<> shot;
  if (!inputs.measured) shot.impact.emplace();
  std::vector<NamedNumber> names;
  each_result(shot, kernel::each_field([&](const auto&, const auto& field) {
                names.push_back({field.name, field.unit});
              }));
  return names;
}

/// The same inputs in another scalar; `number(k, x)` is what becomes of the k-th, x.
template <Scalar T, class Number>
ShotInputs<T> lifted(const ShotInputs<>& inputs, const Number& number) {
  std::vector<double> numbers;
  each_value(inputs, kernel::each_field([&](const auto& value, const auto& field) {
               numbers.push_back(value.*field.member);
             }));
  ShotInputs<T> other;
  other.measured = inputs.measured;
  other.swing.club.hand = inputs.swing.club.hand;
  other.swing.impact_model = inputs.swing.impact_model;
  other.in_weather = inputs.in_weather;
  other.to_rest = inputs.to_rest;
  other.ball.aero = inputs.ball.aero;
  other.setting.wind.profile = inputs.setting.wind.profile;
  std::size_t k = 0;
  each_value(other, kernel::each_field([&](auto& value, const auto& field) {
               value.*field.member = number(k, numbers[k]);
               ++k;
             }));
  return other;
}

/// The first mistake among inputs, if there is one. A ground of any shape has no derivatives here.
inline std::optional<InputError> mistake(const ShotInputs<>& inputs) {
  if (inputs.setting.terrain.surface)
    return InputError("terrain.surface", 0.0, "derivatives need plane ground: height and slopes");
  if (inputs.in_weather)
    if (auto error = mistake(inputs.weather)) return error;
  if (auto error = first_mistake(inputs.ball, inputs.setting, inputs.turf)) return error;
  return inputs.measured ? mistake(inputs.launch) : mistake(inputs.swing);
}

}  // namespace whimbrel
