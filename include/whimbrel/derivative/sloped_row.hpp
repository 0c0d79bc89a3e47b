#pragma once
// The row in numbers with slopes: the longest part of the library to compile.
#include "whimbrel/batch/fly_alone.hpp"
#include "whimbrel/batch/strike_alone.hpp"
#include "whimbrel/derivative/shot_inputs.hpp"

namespace whimbrel {

template <>
inline Flight<Partials> kernel::fly(const Launch<Partials>& launch, const Ball<Partials>& ball,
                                    const Setting<Partials>& setting, const Vec3<Partials>& start) {
  return fly_alone(launch, ball, setting, start);
}

namespace kernel {

template <Scalar T>
Shot<T> play(const ShotInputs<T>& inputs) {
  Setting<T> setting = inputs.setting;
  if (inputs.in_weather)
    setting.air = {moist_air_density(inputs.weather), air_viscosity(inputs.weather.temperature)};
  Shot<T> shot{.launch = inputs.launch};
  if (!inputs.measured) {
    if constexpr (std::same_as<T, Partials>)
      shot.impact = strike_alone(inputs.swing, inputs.ball);
    else
      shot.impact = strike(inputs.swing, inputs.ball);
    shot.launch = shot.impact->launch;
  }
  shot.flight = kernel::fly(shot.launch, inputs.ball, setting);
  if (inputs.to_rest) {
    run_out(shot, inputs.ball, setting, inputs.turf);
  } else {
    each_field([](auto& value, const auto& field) { value.*field.member = T(NAN); })(shot.run);
    shot.run.status = shot.flight.status;
  }
  return shot;
}

}  // namespace kernel

}  // namespace whimbrel
