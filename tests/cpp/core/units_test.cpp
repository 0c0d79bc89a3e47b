#include <doctest/doctest.h>

#include <whimbrel/core/units.hpp>

#include "agrees.hpp"

using namespace whimbrel;
using namespace whimbrel::literals;
using test::agrees;

TEST_CASE("each unit is its own definition") {
  // Exact by definition: international yard and pound agreement of 1959; nautical mile of 1929.
  CHECK(units::inch == 0.0254);
  CHECK(agrees(units::ft, 0.3048, 0, 1e-15));
  CHECK(agrees(units::yd, 0.9144, 0, 1e-15));
  CHECK(agrees(units::mile, 1609.344, 0, 1e-15));
  CHECK(agrees(units::mph, 0.44704, 0, 1e-15));
  CHECK(agrees(units::fps, 0.3048, 0, 1e-15));
  CHECK(agrees(units::kmh * 3.6, 1.0, 0, 1e-15));
  CHECK(agrees(units::knot * 3600.0, 1852.0, 0, 1e-15));
  CHECK(units::lb == 0.45359237);
  CHECK(units::mm == 0.001);
  CHECK(units::cm == 0.01);
  CHECK(units::gram == 0.001);
  CHECK(units::percent == 0.01);
  CHECK(units::hPa == 100.0);
  // Conventional: mercury of 13,595.1 kg/m^3 under standard gravity.
  CHECK(agrees(units::mmHg, 133.322387415, 0, 1e-15));
  CHECK(agrees(units::inHg, 3386.388640341, 0, 1e-15));
  // Derived: half a turn is 180 degrees; a turn a minute.
  CHECK(agrees(180 * units::deg, 3.14159265358979323846, 0, 1e-15));
  CHECK(agrees(60 * units::rpm, 6.28318530717958647692, 0, 1e-15));
}

TEST_CASE("a number taken into SI and back is itself") {
  for (const double unit : {units::mm, units::cm, units::inch, units::ft, units::yd, units::mile, units::mph,
                            units::kmh, units::knot, units::fps, units::deg, units::rpm, units::gram,
                            units::lb, units::hPa, units::mmHg, units::inHg, units::percent})
    for (const double x : {-12.5, 0.0, 0.37, 84.0, 2520.0}) CHECK(agrees(x * unit / unit, x, 0, 1e-15));
  for (const double x : {-40.0, 0.0, 21.5, 75.0}) {
    CHECK(agrees(units::in_celsius(units::celsius(x)), x, 1e-13, 0));
    CHECK(agrees(units::in_fahrenheit(units::fahrenheit(x)), x, 1e-12, 0));
  }
}

TEST_CASE("water freezes at 0 C and 32 F, and the scales cross at -40") {
  CHECK(units::celsius(0) == 273.15);
  CHECK(units::fahrenheit(32) == 273.15);
  CHECK(agrees(units::fahrenheit(212), 373.15, 0, 1e-15));
  CHECK(agrees(units::fahrenheit(-40), units::celsius(-40), 0, 1e-15));
}

TEST_CASE("a literal is its number times its unit") {
  CHECK(84.0_mph == 84.0 * units::mph);
  CHECK(84_mph == 84.0_mph);
  CHECK(24_deg == 24.0_deg);
  CHECK(24_deg == 24 * units::deg);
  CHECK(2520_rpm == 2520.0_rpm);
  CHECK(2520_rpm == 2520 * units::rpm);
  CHECK(150_yd == 150.0_yd);
  CHECK(150_yd == 150 * units::yd);
  CHECK(12_mm == 12.0_mm);
  CHECK(12_mm == 12 * units::mm);
}
