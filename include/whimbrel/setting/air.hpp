#pragma once
#include <array>

#include "whimbrel/core/field.hpp"

namespace whimbrel {

/// What a weather station reports. The default is the dry ISO 2533 atmosphere at sea level.
template <Scalar T = double>
struct Weather {
  T temperature{288.15};     ///< K
  T pressure{101325.0};      ///< Pa, at the place itself (not reduced to sea level)
  T relative_humidity{0.0};  ///< 0 to 1

  static constexpr auto fields() {
    return std::array<Field<Weather, T>, 3>{{{"temperature", &Weather::temperature, "K", 213.15, 333.15},
                                             {"pressure", &Weather::pressure, "Pa", 25e3, 115e3},
                                             {"relative_humidity", &Weather::relative_humidity, "1", 0, 1}}};
  }
};

/// The air that a ball flies through. The default is the air of the default `Weather`.
template <Scalar T = double>
struct Air {
  T density{1.2255213};     ///< kg/m^3
  T viscosity{1.78938e-5};  ///< Pa s, dynamic

  static constexpr auto fields() {
    return std::array<Field<Air, T>, 2>{
        {{"density", &Air::density, "kg/m^3", 0, 2}, {"viscosity", &Air::viscosity, "Pa s", 1e-6, 1e-4}}};
  }
};

/// Pressure and temperature of the standard atmosphere at a geometric altitude (m, -500 to 10,000).
/// Source: ISO 2533:1975, troposphere.
template <Scalar T>
Weather<T> standard_weather(const T& altitude) {
  using std::pow;
  constexpr double earth_radius = 6356766.0, lapse = 0.0065, g = 9.80665, R = 287.05287;
  const T geopotential = T(earth_radius) * altitude / (T(earth_radius) + altitude);
  const T temperature = T(288.15) - T(lapse) * geopotential;
  return {temperature, T(101325.0) * pow(temperature * T(1 / 288.15), T(g / (R * lapse))), T(0.0)};
}

/// Density of moist air, kg/m^3, CO2 at 400 ppm.
/// Source: CIPM-2007, Picard, Davis, Glaser, Fujii, Metrologia 45 (2008) 149.
template <Scalar T>
T moist_air_density(const Weather<T>& weather) {
  using std::exp;
  constexpr double M_a = 28.96546e-3, M_v = 18.01528e-3, R = 8.314472;
  const T& p = weather.pressure;
  const T& K = weather.temperature;
  const T t = K - T(273.15);
  const T p_sv = exp(T(1.2378847e-5) * K * K - T(1.9121316e-2) * K + T(33.93711047) - T(6.3431645e3) / K);
  const T f = T(1.00062) + T(3.14e-8) * p + T(5.6e-7) * t * t;
  const T x_v = weather.relative_humidity * f * p_sv / p;
  const T first = T(1.58123e-6) - T(2.9331e-8) * t + T(1.1043e-10) * t * t +
                  (T(5.707e-6) - T(2.051e-8) * t) * x_v + (T(1.9898e-4) - T(2.376e-6) * t) * x_v * x_v;
  const T second = T(1.83e-11) - T(0.765e-8) * x_v * x_v;
  const T Z = T(1.0) - p / K * first + square(p / K) * second;
  return p * T(M_a / R) / (Z * K) * (T(1.0) - x_v * T(1 - M_v / M_a));
}

/// Dynamic viscosity of air, Pa s. Source: Sutherland's law with the constants of ISO 2533:1975.
template <Scalar T>
T air_viscosity(const T& temperature) {
  using std::sqrt;
  return T(1.458e-6) * temperature * sqrt(temperature) / (temperature + T(110.4));
}

/// The air in some weather.
/// @throws InputError for a number outside its range.
template <Scalar T>
Air<T> air(const Weather<T>& weather) {
  check(weather);
  return {moist_air_density(weather), air_viscosity(weather.temperature)};
}

}  // namespace whimbrel
