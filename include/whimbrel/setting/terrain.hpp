#pragma once
#include <array>
#include <functional>

#include "whimbrel/core/field.hpp"
#include "whimbrel/core/vector.hpp"

namespace whimbrel {

/// The ground the ball is struck from and comes down on: a plane
/// z = height + slope_right x + slope_downrange y, or any function z(x, y).
template <Scalar T = double>
struct Terrain {
  T tee_height{0.0};       ///< m, of the ball's bottom above the ground at the origin
  T height{0.0};           ///< m, of the landing ground against the tee: positive uphill
  T slope_right{0.0};      ///< rise per metre to the right
  T slope_downrange{0.0};  ///< rise per metre downrange
  /// z(x, y), m: where given, instead of the plane.
  [[no_unique_address]] UnlessLanes<T, std::function<double(double, double)>> surface{};

  static constexpr auto fields() {
    return std::array<Field<Terrain, T>, 4>{{{"tee_height", &Terrain::tee_height, "m", 0, 0.2},
                                             {"height", &Terrain::height, "m", -1000, 1000},
                                             {"slope_right", &Terrain::slope_right, "1", -1, 1},
                                             {"slope_downrange", &Terrain::slope_downrange, "1", -1, 1}}};
  }
};

template <Scalar T>
Terrain<Plain<T>> value(const Terrain<T>& plane) requires has_slopes<T> {
  return {value(plane.tee_height), value(plane.height), value(plane.slope_right),
          value(plane.slope_downrange)};
}
inline const Terrain<>& value(const Terrain<>& terrain) { return terrain; }

/// Height of the ground, m.
template <Scalar T>
T ground_height(const Terrain<T>& terrain, const T& x, const T& y) {
  if constexpr (std::same_as<T, double>)
    if (terrain.surface) return terrain.surface(x, y);
  return terrain.height + terrain.slope_right * x + terrain.slope_downrange * y;
}

/// The unit normal of the ground there, upward. A surface function is looked at 1 cm to each side.
template <Scalar T>
Vec3<T> ground_normal(const Terrain<T>& terrain, const T& x, const T& y) {
  T right = terrain.slope_right, downrange = terrain.slope_downrange;
  if constexpr (std::same_as<T, double>)
    if (const auto& z = terrain.surface) {
      constexpr double d = 0.01;
      right = (z(x + d, y) - z(x - d, y)) / (2 * d);
      downrange = (z(x, y + d) - z(x, y - d)) / (2 * d);
    }
  return unit(Vec3<T>{-right, -downrange, T(1.0)});
}

/// Height above the lower of tee level and ground, m: what the wind profile is read at.
template <Scalar T>
T height_in_wind(const Terrain<T>& terrain, const Vec3<T>& position) {
  return position.z - smaller(T(0.0), ground_height(terrain, position.x, position.y));
}

}  // namespace whimbrel
