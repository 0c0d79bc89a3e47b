// Any shot's derivatives by any of its inputs: numbers and slopes that are finite, as far as the shot goes.
#include <algorithm>

#include "promises.hpp"

namespace {

using namespace whimbrel;
using namespace whimbrel::fuzz;

ShotInputs<> any_inputs(Bytes& bytes, Reach reach) {
  ShotInputs<> inputs;
  inputs.measured = bytes.coin();
  inputs.in_weather = bytes.coin();
  inputs.to_rest = bytes.coin();
  if (inputs.measured)
    inputs.launch = any_launch(bytes, reach);
  else
    inputs.swing = any_swing(bytes, reach);
  inputs.ball = any_ball(bytes, reach);
  inputs.setting = any_setting(bytes, reach);
  if (inputs.in_weather) scatter(bytes, inputs.weather, reach);
  inputs.turf = any_turf(bytes, reach);
  return inputs;
}

Case case_of(const ShotInputs<>& inputs) {
  Case c{inputs.swing, inputs.ball, inputs.setting, inputs.turf};
  if (inputs.measured) c.start = inputs.launch;
  if (inputs.in_weather)
    c.setting.air = {moist_air_density(inputs.weather), air_viscosity(inputs.weather.temperature)};
  return c;
}

/// Numbers and slopes are finite in every stage that went well.
void keep_slopes(const ShotInputs<>& inputs, const std::vector<std::size_t>& by, const Case& c) {
  const Sensitivity told = kernel::sensitivity(inputs, by);
  const std::size_t results = results_of(inputs).size(), in_run = Run<>::fields().size();
  keep(told.results.size() == results && told.slopes.size() == results * by.size(),
       "every result has every slope", c);
  const std::size_t good = told.run_status == Status::ok && inputs.to_rest ? results
                           : told.status == Status::ok                     ? results - in_run
                                                                           : 0;
  const auto finite = [](double x) { return std::isfinite(x); };
  keep(std::all_of(told.results.begin(), told.results.begin() + static_cast<std::ptrdiff_t>(good), finite),
       "results are finite", c);
  const auto slopes = static_cast<std::ptrdiff_t>(good * by.size());
  keep(std::all_of(told.slopes.begin(), told.slopes.begin() + slopes, finite), "slopes are finite", c);
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  Bytes bytes{data, size};
  const ShotInputs<> inputs = any_inputs(bytes, bytes.reach());
  const std::size_t count = inputs_of(inputs).size();
  std::vector<std::size_t> by(1 + bytes.below(inputs_a_pass));
  for (std::size_t& k : by) k = bytes.below(count);
  const Case c = case_of(inputs);
  tell_if_asked(c);
  if (!mistake(inputs)) keep_slopes(inputs, by, c);
  return 0;
}
