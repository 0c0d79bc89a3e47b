#pragma once
#include "whimbrel/setting/air.hpp"
#include "whimbrel/setting/terrain.hpp"
#include "whimbrel/setting/wind.hpp"

namespace whimbrel {

/// Where a ball is struck and flies. The default: standard still air over level ground.
template <Scalar T = double>
struct Setting {
  Air<T> air{};
  Wind<T> wind{};
  Terrain<T> terrain{};
};

template <Scalar T>
std::optional<InputError> mistake(const Setting<T>& setting) {
  return first_mistake(setting.air, setting.wind, setting.terrain);
}

}  // namespace whimbrel
