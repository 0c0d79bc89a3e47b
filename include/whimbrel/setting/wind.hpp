#pragma once
#include <array>

#include "whimbrel/core/field.hpp"
#include "whimbrel/core/vector.hpp"

namespace whimbrel {

/// How the wind grows with height z above the ground, as a share of its speed at the reference
/// height h:
/// - uniform: 1;
/// - logarithmic: ln(1 + z/z0) / ln(1 + h/z0), the smooth form, zero at the ground, without a kink;
/// - power_law: ((z + z0) / (h + z0))^exponent, shifted by z0 to keep its slope finite.
enum class WindProfile : unsigned char { uniform, logarithmic, power_law };

/// The wind, by the direction it comes from. Calm is speed 0.
template <Scalar T = double>
struct Wind {
  T speed{0.0};              ///< m/s, at the reference height
  T from_direction{0.0};     ///< rad, clockwise from the target line: 0 a headwind, pi/2 from the right
  T reference_height{10.0};  ///< m; 10 m is what weather services report
  T roughness_length{0.03};  ///< m, z0: 0.03 open short grass (WMO), 0.05 Eurocode EN 1991-1-4 terrain II
  T exponent{1.0 / 7.0};     ///< of the power law; 1/7 is common practice
  WindProfile profile = WindProfile::logarithmic;

  static constexpr auto fields() {
    return std::array<Field<Wind, T>, 5>{{{"wind speed", &Wind::speed, "m/s", 0, 100},
                                          {"from_direction", &Wind::from_direction, "rad", -6.2832, 6.2832},
                                          {"reference_height", &Wind::reference_height, "m", 1, 500},
                                          {"roughness_length", &Wind::roughness_length, "m", 1e-4, 2},
                                          {"exponent", &Wind::exponent, "1", 0, 0.6}}};
  }
};

/// Velocity of the air at the reference height, m/s, in the frame.
template <Scalar T>
Vec3<T> reference_velocity(const Wind<T>& wind) {
  return -wind.speed * direction(wind.from_direction, T(0.0));
}

/// A wind made ready to be read at many heights: what does not depend on the height is worked out once. Its
/// profile is the same for many winds at once, and is said when it is read.
template <Scalar T>
struct WindAloft {
  Vec3<T> reference;          ///< m/s, of the air at the reference height
  T roughness;                ///< m, the length over which the profile bends near the ground
  T offset{1.0}, slope{0.0};  ///< the profile is a function of offset + slope z; slope in 1/m
  T power{0.0};               ///< of the power law; of the logarithmic one, the factor before the logarithm

  /// Share of the reference speed at a height above the ground (m; below 0 counts as 0).
  T share(WindProfile profile, const T& height) const {
    using std::log, std::pow;
    const T x = offset + slope * larger(height, T(0.0));
    switch (profile) {
      case WindProfile::logarithmic:
        return log(x) * power;
      case WindProfile::power_law:
        return pow(x, power);
      default:
        return T(1.0);
    }
  }
};

template <Scalar T>
WindAloft<T> aloft(const Wind<T>& wind) {
  using std::log;
  const T& z0 = wind.roughness_length;
  WindAloft<T> aloft{reference_velocity(wind), z0};
  if (wind.profile == WindProfile::logarithmic) {
    aloft.slope = T(1.0) / z0;
    aloft.power = T(1.0) / log(T(1.0) + wind.reference_height * aloft.slope);
  } else if (wind.profile == WindProfile::power_law) {
    aloft.slope = T(1.0) / (wind.reference_height + z0);
    aloft.offset = z0 * aloft.slope;
    aloft.power = wind.exponent;
  }
  return aloft;
}

template <Scalar T>
WindAloft<Plain<T>> value(const WindAloft<T>& wind) {
  return {value(wind.reference), value(wind.roughness), value(wind.offset), value(wind.slope),
          value(wind.power)};
}

/// Share of the reference speed at a height above the ground (m; below 0 counts as 0).
template <Scalar T>
T wind_share(const Wind<T>& wind, const T& height) {
  return aloft(wind).share(wind.profile, height);
}

/// Velocity of the air at a height above the ground, m/s, in the frame.
template <Scalar T>
Vec3<T> wind_velocity(const Wind<T>& wind, const T& height) {
  return wind_share(wind, height) * reference_velocity(wind);
}

/// The air where drives are highest may be as fast as this, m/s: faster than any wind measured near the
/// ground.
inline constexpr double height_of_drives = 50.0, fastest_air = 150.0;

/// What is wrong with a wind: a number out of range, or a profile that grows to an impossible speed above its
/// reference height.
template <Scalar T>
std::optional<InputError> mistake(const Wind<T>& wind) {
  if (auto error = out_of_bounds(wind)) return error;
  const double share = value(wind_share(wind, T(height_of_drives))), speed = value(wind.speed);
  if (speed * share > fastest_air) return InputError("wind speed", speed, "m/s", 0, fastest_air / share);
  return std::nullopt;
}

template <Scalar T>
Wind<T> head_wind(const T& speed) {
  return {.speed = speed};
}

template <Scalar T>
Wind<T> tail_wind(const T& speed) {
  return {.speed = speed, .from_direction = T(180 * units::deg)};
}

template <Scalar T>
Wind<T> wind_from_right(const T& speed) {
  return {.speed = speed, .from_direction = T(90 * units::deg)};
}

template <Scalar T>
Wind<T> wind_from_left(const T& speed) {
  return {.speed = speed, .from_direction = T(-90 * units::deg)};
}

}  // namespace whimbrel
