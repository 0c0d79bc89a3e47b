#include <doctest/doctest.h>

#include <whimbrel/setting/air.hpp>

#include "agrees.hpp"
#include "dual.hpp"

using namespace whimbrel;
using test::agrees;

namespace {
double density(double celsius, double humidity, double pressure = 101325.0) {
  return moist_air_density(Weather<>{units::celsius(celsius), pressure, humidity});
}
}  // namespace

TEST_CASE("moist air has the density of CIPM-2007") {
  // Derived from the formula of Picard, Davis, Glaser, Fujii 2008; tolerance: the printed digits.
  CHECK(agrees(density(20, 0.5), 1.19931, 5e-6, 0));
  CHECK(agrees(density(20, 0.0), 1.20456, 5e-6, 0));
  CHECK(agrees(density(15, 0.0), 1.22552, 5e-6, 0));
  CHECK(agrees(density(10, 0.5), 1.24438, 5e-6, 0));
  CHECK(agrees(density(30, 0.8), 1.15001, 5e-6, 0));
}

TEST_CASE("moist air has the density of the handbook") {
  // Published: handbook table, dew point 10 C, 760 mmHg; tolerance as stated there.
  // Saturation pressure by Magnus' formula (World Meteorological Organization, from memory).
  const auto saturation = [](double t) { return std::exp(17.62 * t / (243.12 + t)); };
  const std::array<std::array<double, 2>, 4> table{{{10, 1.241}, {20, 1.199}, {40, 1.122}, {60, 1.055}}};
  for (const auto& [celsius, expected] : table)
    CHECK(
        agrees(density(celsius, saturation(10) / saturation(celsius), 760 * units::mmHg), expected, 1e-3, 0));
}

TEST_CASE("the standard atmosphere thins with altitude as ISO 2533 tabulates") {
  // Published: ISO 2533 at 0, 1000, 2000, 3000 m; tolerance: the printed digits. ISO takes air as an
  // ideal gas; the real gas of CIPM-2007 is 0.04 % denser.
  const std::array<std::array<double, 2>, 4> table{
      {{0, 1.2250}, {1000, 1.1117}, {2000, 1.0066}, {3000, 0.9093}}};
  for (const auto& [altitude, expected] : table) {
    const Weather<> weather = standard_weather(altitude);
    CHECK(agrees(weather.pressure / (287.05287 * weather.temperature), expected, 5e-5, 0));
    CHECK(agrees(air(weather).density, expected, 0, 6e-4));
  }
}

TEST_CASE("air at 15 C has the viscosity of Sutherland's law") {
  // Published constants; derived value, to its printed digits.
  CHECK(agrees(air_viscosity(units::celsius(15)), 1.789e-5, 5e-9, 0));
}

TEST_CASE("the rules' test air is as dense as derived") {
  // Conditions from memory (75 F, 30.00 inHg, 50 %), density derived.
  const Air<> there = air(Weather<>{units::fahrenheit(75), 30 * units::inHg, 0.5});
  CHECK(agrees(there.density, 1.1853, 5e-5, 0));
  CHECK(agrees(there.viscosity, 1.832e-5, 5e-9, 0));
}

TEST_CASE("the default air is the air of the default weather at sea level") {
  CHECK(agrees(Air<>{}.density, air(Weather<>{}).density, 0, 1e-7));
  CHECK(agrees(Air<>{}.viscosity, air(Weather<>{}).viscosity, 0, 1e-5));
  CHECK(agrees(Air<>{}.density, air(standard_weather(0.0)).density, 0, 1e-7));
}

TEST_CASE("warm, moist and high air is thin") {
  CHECK(density(30, 0.5) < density(10, 0.5));
  CHECK(density(30, 0.8) < density(30, 0.0));
  CHECK(air(standard_weather(1000.0)).density < air(standard_weather(0.0)).density);
}

TEST_CASE("air has the derivatives of its differences") {
  const auto both = [](const auto& weather) {
    const auto there = air(weather);
    return std::array{there.density, there.viscosity};
  };
  dual::differentiates([&]<class T>(const T& t) { return both(Weather<T>{t, T(1e5), T(0.6)}); }, 295.0, 10.0);
  dual::differentiates([&]<class T>(const T& p) { return both(Weather<T>{T(290.0), p, T(0.6)}); }, 9e4, 1e4);
  dual::differentiates([&]<class T>(const T& h) { return both(Weather<T>{T(290.0), T(1e5), h}); }, 0.4, 0.1);
  dual::differentiates([&]<class T>(const T& z) { return both(standard_weather(z)); }, 800.0, 1000.0);
}
