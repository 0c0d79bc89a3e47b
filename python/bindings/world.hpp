#pragma once
#include <pybind11/functional.h>

#include "rows.hpp"

namespace whimbrel::bindings {

/// Ball and setting of every row. The tables stay alive with it.
struct World {
  Table ball_table;
  AnyAeroModel aero;
  Table air_table, wind_table;
  WindProfile profile;
  Table terrain_table;
  std::function<double(double, double)> surface;

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
};

}  // namespace whimbrel::bindings
