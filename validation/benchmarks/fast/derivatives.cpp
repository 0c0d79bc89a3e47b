// A shot with its derivatives by seven inputs, beside the same shot without them, at the same tolerance and
// in as many steps of the contact: by the library's own steps in `double`, compiled for any x86-64 as
// programs are, and in one lane of the kernels that the derivatives run in.
#include <memory>

#include "timed.hpp"
#include "whimbrel/derivative/sensitivity.hpp"

namespace whimbrel::benchmarks {

namespace {

constexpr std::size_t most_shots = 256;  // they are slow

/// The places among a shot's inputs of those with these names.
std::vector<std::size_t> places(const ShotInputs<>& inputs, std::initializer_list<std::string_view> names) {
  std::vector<std::size_t> found;
  const std::vector<NamedNumber> all = inputs_of(inputs);
  for (const std::string_view name : names)
    for (std::size_t k = 0; k < all.size(); ++k)
      if (all[k].name == name) found.push_back(k);
  return found;
}

ShotInputs<> inputs(const OrdinaryShots& shots, std::size_t i, bool measured) {
  ShotInputs<> inputs{.measured = measured,
                      .swing = shots.swing(i),
                      .launch = shots.launches[i],
                      .ball = shots.ball,
                      .in_weather = false,
                      .setting = shots.setting(i)};
  inputs.to_rest = false;
  return inputs;
}

/// In `double`, by the mathematics of the standard library.
double fly_in_double(const OrdinaryShots& shots, std::size_t i, const Launch<>& launch) {
  const Setting<> setting = shots.setting(i);
  return kernel::fly_stepped(launch, shots.ball, setting, on_the_tee(shots.ball, setting.terrain),
                             sloped_tolerance)
      .carry;
}

}  // namespace

void register_derivatives(const Timed& timed) {
  const OrdinaryShots& shots = timed.shots;
  const std::size_t count = std::min(shots.count(), most_shots);
  const auto by_launch =
      places(inputs(shots, 0, true), {"ball_speed", "launch_angle", "launch_direction", "spin_rate",
                                      "spin_axis_tilt", "density", "wind speed"});
  const auto by_delivery =
      places(inputs(shots, 0, false), {"clubhead_speed", "club_path", "attack_angle", "face_angle",
                                       "dynamic_loft", "strike_toe", "strike_high"});
  const auto row = std::make_shared<RowBatch>(shots, count);
  const auto flights = std::make_shared<FlightBatch>(shots, std::span(shots.launches).first(count));
  add("flight/as derivatives, one lane", count,
      [flights] { flights->fly(std::get<FlyKernel<MultiLayer>>(kernels().fly_alone), sloped_tolerance); });
  add("delivery to landing/as derivatives, one lane", count,
      [row] { row->play(kernels().strike_alone, kernels().fly_alone, contact_steps, sloped_tolerance); });
  add_one_by_one("flight/as derivatives, double", count,
                 [&](std::size_t i) { return fly_in_double(shots, i, shots.launches[i]); });
  add_one_by_one("flight/7 derivatives", count, [&, by_launch](std::size_t i) {
    return kernel::sensitivity(inputs(shots, i, true), by_launch).slopes[0];
  });
  add_one_by_one("delivery to landing/as derivatives, double", count, [&](std::size_t i) {
    return fly_in_double(shots, i, kernel::strike(shots.swing(i), shots.ball).launch);
  });
  add_one_by_one("delivery to landing/7 derivatives", count, [&, by_delivery](std::size_t i) {
    return kernel::sensitivity(inputs(shots, i, false), by_delivery).slopes[0];
  });
}

}  // namespace whimbrel::benchmarks
