#pragma once
#include <whimbrel/compiled.hpp>

namespace whimbrel::test {

using namespace whimbrel::literals;

/// Launches like those of a strong player's clubs (common practice).
inline constexpr Launch<> drive{.ball_speed = 167_mph, .launch_angle = 11_deg, .spin_rate = 2700_rpm};
inline constexpr Launch<> mid_iron{.ball_speed = 120_mph, .launch_angle = 16_deg, .spin_rate = 7000_rpm};
inline constexpr Launch<> wedge{.ball_speed = 95_mph, .launch_angle = 27_deg, .spin_rate = 9500_rpm};
inline constexpr std::array club_launches{drive, mid_iron, wedge};

/// The rules' overall distance launch; in its test air, 75 F, 30.00 inHg, 50 % (from memory), the
/// density and viscosity are as derived.
inline constexpr Launch<> rules_launch{.ball_speed = 176_mph, .launch_angle = 10_deg, .spin_rate = 2520_rpm};
inline const Setting<> rules_setting{.air = {.density = 1.1853, .viscosity = 1.832e-5}};

/// Air of 1.225 kg/m^3, of most of the worked flights.
inline const Setting<> sea_level{.air = {.density = 1.225, .viscosity = 1.7894e-5}};

template <class Model>
Ball<> ball_with(const Model& model) {
  Ball<> ball;
  ball.aero = model;
  return ball;
}

}  // namespace whimbrel::test
