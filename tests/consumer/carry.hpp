#pragma once
#include <cstdio>

/// The rules' overall distance launch in their test air, after the program includes whimbrel.
inline void print_carry(const char* target) {
  using namespace whimbrel::literals;
  const whimbrel::Launch<> launch{.ball_speed = 176_mph, .launch_angle = 10_deg, .spin_rate = 2520_rpm};
  const whimbrel::Setting<> setting{.air = {.density = 1.1853, .viscosity = 1.832e-5}};
  const whimbrel::Flight<> flight = whimbrel::fly(launch, {}, setting);
  std::printf("%s carry %.2f yd\n", target, flight.carry / whimbrel::units::yd);
}
