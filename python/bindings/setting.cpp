#include "rows.hpp"

namespace whimbrel::bindings {

void bind_setting(py::module_& m) {
  m.def("standard_weather", [](const std::vector<double>& altitudes) {
    Results<Weather<>> results(altitudes.size());
    for (std::size_t i = 0; i < altitudes.size(); ++i) results.set(i, standard_weather(altitudes[i]));
    return results.table;
  });
  m.def("weather_mistakes", [](const Table& weather) { return mistakes_of(Rows<Weather<>>(weather)); });
  m.def("air", [](const Table& weather) {
    return each<Air<>>(Rows<Weather<>>(weather), [](const Weather<>& w) {
      return mistake(w) ? Air<>{NAN, NAN} : air(w);
    });
  });
  m.def("wind_mistake", [](const Table& wind) -> std::optional<std::string> {
    if (const auto error = mistake(Rows<Wind<>>(wind)[0])) return error->what();
    return std::nullopt;
  });
  m.def("wind_share", [](const Table& wind, int profile, const std::vector<double>& heights) {
    Wind<> w = Rows<Wind<>>(wind)[0];
    w.profile = static_cast<WindProfile>(profile);
    std::vector<double> shares;
    for (const double z : heights) shares.push_back(wind_share(w, z));
    return shares;
  });
}

}  // namespace whimbrel::bindings
