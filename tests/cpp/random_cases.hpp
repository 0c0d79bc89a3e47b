#pragma once
#include <doctest/doctest.h>

#include <random>
#include <sstream>
#include <tuple>
#include <whimbrel/compiled.hpp>

namespace whimbrel::test {

using namespace whimbrel::literals;

inline constexpr unsigned random_cases = 1000;

/// Numbers that are the same with every standard library, unlike those of its distributions.
struct Random {
  std::mt19937_64 engine;

  double between(double lower, double upper) {
    return lower + (upper - lower) * (static_cast<double>(engine() >> 11) * 0x1p-53);
  }
  std::size_t below(std::size_t count) { return engine() % count; }
};

/// Every field of a value by name, exactly enough to repeat the case.
template <class Value>
std::string described(const Value& v) {
  std::ostringstream out;
  out.precision(17);
  if constexpr (requires { Value::fields(); })
    for (const auto& field : Value::fields()) out << field.name << " = " << v.*field.member << ", ";
  else
    out << v << ", ";
  return out.str();
}
inline std::string described(const Vec3<double>& v) {
  return described(v.x) + described(v.y) + described(v.z);
}
inline std::string described(const Setting<>& s) {
  return described(s.air) + described(s.wind) + "profile " + described(static_cast<int>(s.wind.profile)) +
         described(s.terrain);
}
inline std::string described(Hand hand) { return hand == Hand::right ? "right, " : "left, "; }
inline std::string described(const Swing<>& s) {
  return s.club.name + ", " + described(s.club.hand) + described(s.delivery);
}
template <class... Values>
std::string described(const std::tuple<Values...>& values) {
  return std::apply([](const auto&... v) { return (described(v) + ...); }, values);
}

/// `holds` on 1,000 tuples of values that `make` draws, each from its own seed; a failing one is printed.
template <class Make, class Holds>
void in_random_cases(const Make& make, const Holds& holds) {
  for (unsigned seed = 0; seed < random_cases; ++seed) {
    Random random{std::mt19937_64(seed)};
    const auto values = make(random);
    INFO("random case ", seed, ": ", described(values));
    std::apply(holds, values);
  }
}

inline Launch<> any_launch(Random& random) {
  Launch<> launch{.ball_speed = random.between(5, 90),
                  .launch_angle = random.between(1, 60) * units::deg,
                  .launch_direction = random.between(-40, 40) * units::deg,
                  .spin_rate = random.between(0, 1000),
                  .spin_axis_tilt = random.between(-60, 60) * units::deg};
  launch.axial_spin_rate = random.between(-0.5, 0.5) * launch.spin_rate;
  return launch;
}

inline Delivery<> any_delivery(Random& random) {
  return {.clubhead_speed = random.between(15, 60),
          .club_path = random.between(-12, 12) * units::deg,
          .attack_angle = random.between(-10, 8) * units::deg,
          .face_angle = random.between(-12, 12) * units::deg,
          .dynamic_loft = random.between(3, 60) * units::deg};
}

inline Club<> any_club(Random& random) {
  const auto set = club_set(random.below(2) == 0 ? Hand::right : Hand::left);
  return set[random.below(set.size())];
}

/// A club of either hand, struck anywhere on its face.
inline Swing<> any_swing(Random& random) {
  Swing<> swing{any_delivery(random), any_club(random)};
  swing.delivery.strike_toe = random.between(-0.5, 0.5) * swing.club.face_width;
  swing.delivery.strike_high = random.between(-0.5, 0.5) * swing.club.face_height;
  swing.delivery.lie_tilt = random.between(-8, 8) * units::deg;
  swing.delivery.closure_rate = random.between(0, 45);
  return swing;
}

/// A ball in the range of the contact's constants: elastic theory's for kappa, calibrated mu give or take a
/// fifth.
inline Ball<> any_ball(Random& random) {
  return {.contact_stiffness_ratio = random.between(0.67, 0.82), .face_friction = random.between(0.16, 0.23)};
}

inline Presentation<> any_presentation(Random& random) {
  return {.shaft_lean = random.between(-5, 12) * units::deg,
          .face_angle = random.between(-10, 10) * units::deg,
          .lie_tilt = random.between(-8, 8) * units::deg};
}

inline Wind<> any_wind(Random& random) {
  constexpr std::array profiles{WindProfile::uniform, WindProfile::logarithmic, WindProfile::power_law};
  return {.speed = random.between(0, 15),
          .from_direction = random.between(-180, 180) * units::deg,
          .roughness_length = random.between(0.01, 0.3),
          .profile = profiles[random.below(profiles.size())]};
}

inline Terrain<> any_plane(Random& random) {
  return {.tee_height = random.between(0, 0.05),
          .height = random.between(-10, 0),
          .slope_right = random.between(-0.05, 0.05),
          .slope_downrange = random.between(-0.05, 0.01)};
}

inline Setting<> any_setting(Random& random) {
  return {
      .air = {.density = random.between(0.9, 1.3)}, .wind = any_wind(random), .terrain = any_plane(random)};
}

inline Turf<> any_turf(Random& random) {
  return {.restitution_scale = random.between(0, 1.9),
          .friction = random.between(0.05, 1),
          .tilt_scale = random.between(0, 2),
          .rolling_deceleration = random.between(0.2, 5)};
}

/// Ground that slopes up to 20 % any way.
inline Terrain<> any_slope(Random& random) {
  const double steep = random.between(0, 0.2), way = random.between(-180, 180) * units::deg;
  return {.slope_right = steep * std::sin(way), .slope_downrange = steep * std::cos(way)};
}

/// A ball of any spin about any axis that comes down on it.
inline Landing<> any_landing(Random& random) {
  Landing<> landing{.landing_speed = random.between(0, 60),
                    .descent_angle = random.between(0, 90) * units::deg,
                    .landing_direction = random.between(-90, 90) * units::deg,
                    .landing_spin_rate = random.between(0, 1500),
                    .spin_axis_tilt = random.between(-180, 180) * units::deg};
  landing.axial_spin_rate = random.between(-1, 1) * landing.landing_spin_rate;
  return landing;
}

}  // namespace whimbrel::test
