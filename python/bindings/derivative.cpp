#include "whimbrel/derivative/sensitivity.hpp"
#include "world.hpp"

namespace whimbrel::bindings {

namespace {

/// What every row is played from and in. Without `deliveries` the launches are measured; without `weather`
/// the air is the world's.
struct InputRows {
  const World& world;
  std::optional<SwingRows> swings;
  std::optional<Rows<Launch<>>> launches;
  std::optional<Rows<Weather<>>> weather;
  bool to_rest = true;

  ShotInputs<> operator[](std::size_t row) const {
    ShotInputs<> inputs;
    inputs.measured = !swings;
    inputs.in_weather = weather.has_value();
    if (swings) inputs.swing = (*swings)[row];
    if (launches) inputs.launch = (*launches)[row];
    if (weather) inputs.weather = (*weather)[row];
    inputs.ball = world.ball(row);
    inputs.setting = world.setting(row);
    if (weather) inputs.setting.air = {};
    inputs.turf = world.turf(row);
    inputs.to_rest = to_rest;
    return inputs;
  }
};

py::dict sensitivities(const InputRows& starts, std::size_t rows, const std::vector<std::size_t>& by,
                       unsigned threads) {
  const std::size_t results = results_of(starts[0]).size();
  const auto size = [](auto... n) { return std::vector<py::ssize_t>{static_cast<py::ssize_t>(n)...}; };
  py::array_t<double> numbers(size(rows, results)), slopes(size(rows, results, by.size()));
  py::array_t<std::uint8_t> statuses(size(rows)), run_statuses(size(rows));
  py::array_t<bool> contact(size(rows)), ground(size(rows));
  double *number = numbers.mutable_data(), *slope = slopes.mutable_data();
  std::uint8_t *status = statuses.mutable_data(), *run_status = run_statuses.mutable_data();
  bool *at_contact = contact.mutable_data(), *at_ground = ground.mutable_data();
  std::fill_n(number, rows * results, NAN);
  std::fill_n(slope, rows * results * by.size(), NAN);
  const Mistakes mistakes = for_rows(rows, threads, [&](std::size_t i) {
    const ShotInputs<> inputs = starts[i];
    const auto error = mistake(inputs);
    const Sensitivity told = error ? Sensitivity{.status = Status::bad_input, .run_status = Status::bad_input}
                                   : kernel::sensitivity(inputs, by);
    std::copy(told.results.begin(), told.results.end(), number + i * results);
    std::copy(told.slopes.begin(), told.slopes.end(), slope + i * results * by.size());
    status[i] = static_cast<std::uint8_t>(told.status);
    run_status[i] = static_cast<std::uint8_t>(told.run_status);
    at_contact[i] = told.kinks.contact;
    at_ground[i] = told.kinks.ground;
    return error;
  });
  using namespace py::literals;
  return py::dict("results"_a = numbers, "slopes"_a = slopes, "status"_a = statuses,
                  "run_status"_a = run_statuses, "contact"_a = contact, "ground"_a = ground,
                  "mistakes"_a = mistakes);
}

/// Numbers by name, a field's spaces as underscores, with their units.
std::vector<std::pair<std::string, std::string>> named(const std::vector<NamedNumber>& numbers) {
  std::vector<std::pair<std::string, std::string>> names;
  for (const NamedNumber& number : numbers) {
    std::string name(number.name);
    std::replace(name.begin(), name.end(), ' ', '_');
    names.emplace_back(name, number.unit);
  }
  return names;
}

}  // namespace

void bind_derivative(py::module_& m) {
  m.def("sensitivity_inputs", [](bool measured, bool in_weather) {
    ShotInputs<> like;
    like.measured = measured;
    like.in_weather = in_weather;
    return named(inputs_of(like));
  });
  m.def("sensitivity_results", [](bool measured) {
    ShotInputs<> like;
    like.measured = measured;
    return named(results_of(like));
  });
  m.def("sensitivity_of_swings", [](const Table& deliveries, const Table& clubs, bool left_handed, bool rigid,
                                    const World& world, const std::optional<Table>& weather, bool to_rest,
                                    std::size_t rows, const std::vector<std::size_t>& by, unsigned threads) {
    InputRows starts{world, SwingRows(deliveries, clubs, left_handed, rigid), {}, {}, to_rest};
    if (weather) starts.weather.emplace(*weather);
    return sensitivities(starts, rows, by, threads);
  });
  m.def("sensitivity_of_launches",
        [](const Table& launches, const World& world, const std::optional<Table>& weather, bool to_rest,
           std::size_t rows, const std::vector<std::size_t>& by, unsigned threads) {
          InputRows starts{world, {}, Rows<Launch<>>(launches), {}, to_rest};
          if (weather) starts.weather.emplace(*weather);
          return sensitivities(starts, rows, by, threads);
        });
  m.def("standard_weather_slopes", [](const std::vector<double>& altitudes) {
    Results<Weather<>> slopes(altitudes.size());
    for (std::size_t i = 0; i < altitudes.size(); ++i) {
      const auto weather = standard_weather(Dual<1>::input(altitudes[i], 0));
      slopes.set(i, {weather.temperature.slope(0), weather.pressure.slope(0), 0.0});
    }
    return slopes.table;
  });
}

}  // namespace whimbrel::bindings
