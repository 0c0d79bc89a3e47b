#pragma once
#include "rows.hpp"

namespace whimbrel::bindings {

/// Ball, setting and turf of every row. The tables stay alive with it.
struct World {
  Table ball_table;
  AnyAeroModel aero;
  Table air_table, wind_table;
  WindProfile profile;
  Table terrain_table;
  std::function<double(double, double)> surface;
  Table turf_table;

  Ball<> ball(std::size_t row) const {
    Ball<> b = Rows<Ball<>>(ball_table)[row];
    b.aero = aero;
    return b;
  }
  Setting<> setting(std::size_t row) const {
    Setting<> s{Rows<Air<>>(air_table)[row], Rows<Wind<>>(wind_table)[row],
                Rows<Terrain<>>(terrain_table)[row]};
    s.wind.profile = profile;
    s.terrain.surface = surface;
    return s;
  }
  Turf<> turf(std::size_t row) const { return Rows<Turf<>>(turf_table)[row]; }
};

/// f(i) for every row that is right, in parallel: mistakes come back in words, in row order.
template <class F>
Mistakes for_rows(std::size_t rows, unsigned threads, const F& f) {
  Mistakes mistakes;
  std::mutex writing;
  py::gil_scoped_release release;
  parallel_for(rows, threads, [&](std::size_t i) {
    if (const std::optional<InputError> error = f(i)) {
      const std::scoped_lock lock(writing);
      mistakes.emplace_back(i, error->what());
    }
  });
  std::sort(mistakes.begin(), mistakes.end());
  return mistakes;
}

}  // namespace whimbrel::bindings
