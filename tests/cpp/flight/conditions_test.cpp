#include <doctest/doctest.h>

#include "agrees.hpp"
#include "shots.hpp"

using namespace whimbrel;
using namespace whimbrel::test;

namespace {
double carry_in(const Launch<>& launch, const Setting<>& setting) { return fly(launch, {}, setting).carry; }
Setting<> with_wind(const Wind<>& wind) { return {.wind = wind}; }
}  // namespace

TEST_CASE("a thousand feet of altitude add 1.1 to 2.0 % to a drive") {
  // Published: 1.7 to 2 %; this model 1.2 to 1.3 % (derived).
  // The gain falls with altitude: from 4,000 to 5,000 ft this model gives 0.9 %.
  for (const Launch<>& launch : {drive, mid_iron}) {
    const auto carry = [&](double altitude) {
      return carry_in(launch, {.air = air(standard_weather(altitude * units::ft))});
    };
    const double gain = carry(1000) / carry(0) - 1;
    CHECK(gain > 0.011);
    CHECK(gain < 0.020);
  }
}

TEST_CASE("warmer air carries every club farther") {
  const auto at = [](double celsius) {
    return Setting<>{.air = air(Weather<>{.temperature = units::celsius(celsius)})};
  };
  for (const Launch<>& launch : club_launches)
    for (const double celsius : {0.0, 10.0, 20.0, 30.0})
      CHECK(carry_in(launch, at(celsius + 10)) > carry_in(launch, at(celsius)));
}

TEST_CASE("a headwind costs more than the same tailwind gives") {
  for (const Launch<>& launch : club_launches)
    for (const double speed : {2.0, 5.0, 8.0}) {
      const double calm = carry_in(launch, {});
      const double lost = calm - carry_in(launch, with_wind(head_wind(speed)));
      const double won = carry_in(launch, with_wind(tail_wind(speed))) - calm;
      CHECK(lost > won);
      CHECK(won > 0.0);
    }
}

TEST_CASE("a wind from the left drifts the ball right, and from the right as far left") {
  for (const Launch<>& launch : club_launches) {
    const double right = fly(launch, {}, with_wind(wind_from_left(5.0))).offline;
    const double left = fly(launch, {}, with_wind(wind_from_right(5.0))).offline;
    CHECK(right > 1.0);
    CHECK(agrees(left, -right, 1e-9, 0));
  }
}

TEST_CASE("ten metres uphill shorten the carry by about their height over the slope of the descent") {
  // Tolerance as stated with the rule: 15 %.
  for (const Launch<>& launch : club_launches) {
    const Flight<> level = fly(launch), up = fly(launch, {}, Setting<>{.terrain = {.height = 10.0}});
    CHECK(agrees(level.carry - up.carry, 10.0 / std::tan(level.descent_angle), 0, 0.15));
  }
}

TEST_CASE("150 yards with a clear climb play like 160") {
  // Common practice; "a clear climb" is taken as 10 m. Found: the launch that carries 150 yd up there.
  double low = 80_mph, high = 140_mph;
  const auto uphill = [](double speed) {
    const Launch<> launch{.ball_speed = speed, .launch_angle = 17_deg, .spin_rate = 7000_rpm};
    return std::array{carry_in(launch, {.terrain = {.height = 10.0}}), carry_in(launch, {})};
  };
  for (int i = 0; i < 40; ++i) (uphill(0.5 * (low + high))[0] < 150_yd ? low : high) = 0.5 * (low + high);
  CHECK(agrees(uphill(low)[1], 160_yd, 2_yd, 0));
}

TEST_CASE("a strong mid-iron carries 163 to 178 yards and lands at 46 to 53 degrees") {
  // Common practice.
  const Flight<> flight = fly(mid_iron);
  CHECK(flight.carry > 163_yd);
  CHECK(flight.carry < 178_yd);
  CHECK(flight.descent_angle > 46_deg);
  CHECK(flight.descent_angle < 53_deg);
}

TEST_CASE("a strong drive carries 266 to 282 yards and lands at 36 to 42 degrees") {
  // Common practice.
  const Flight<> flight = fly(drive);
  CHECK(flight.carry > 266_yd);
  CHECK(flight.carry < 282_yd);
  CHECK(flight.descent_angle > 36_deg);
  CHECK(flight.descent_angle < 42_deg);
}

TEST_CASE("standard conditions are those of the default setting") {
  CHECK(at_standard_conditions(drive).carry == fly(drive).carry);
  CHECK(agrees(at_standard_conditions(drive).carry, carry_in(drive, {.air = air(standard_weather(0.0))}),
               1e-3, 0));
}

TEST_CASE("a flight outside its model's stated range says how far") {
  CHECK(fly(mid_iron).out_of_range.spin_ratio == 0.0);
  CHECK(fly(mid_iron).out_of_range.reynolds == 0.0);
  Launch<> putt_like{.ball_speed = 5.0, .launch_angle = 45_deg, .spin_rate = 0.0};
  CHECK(agrees(fly(putt_like).out_of_range.spin_ratio, -0.02, 1e-12, 0));
  CHECK(fly(putt_like).out_of_range.reynolds < -1e4);
  putt_like.spin_rate = 1000.0;
  CHECK(fly(putt_like).out_of_range.spin_ratio > 1.0);
}
