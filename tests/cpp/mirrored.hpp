#pragma once
#include <whimbrel/compiled.hpp>

/// Everything as seen in a mirror that stands along the target line.
namespace whimbrel::test {

inline Vec3<double> mirrored(const Vec3<double>& v) { return {-v.x, v.y, v.z}; }

/// A spin is turned round by a mirror, so its part along the launch direction changes sign too.
inline Launch<> mirrored(Launch<> launch) {
  launch.launch_direction *= -1;
  launch.spin_axis_tilt *= -1;
  launch.axial_spin_rate *= -1;
  return launch;
}

inline Landing<> mirrored(Landing<> landing) {
  landing.landing_direction *= -1;
  landing.spin_axis_tilt *= -1;
  landing.axial_spin_rate *= -1;
  return landing;
}

/// A spin is turned round by a mirror.
inline Touchdown<double> mirrored(const Touchdown<double>& ball) {
  return {mirrored(ball.velocity), -mirrored(ball.spin)};
}

inline Delivery<> mirrored(Delivery<> delivery) {
  delivery.club_path *= -1;
  delivery.face_angle *= -1;
  return delivery;
}

inline Club<> mirrored(Club<> club) {
  club.hand = club.hand == Hand::right ? Hand::left : Hand::right;
  return club;
}

/// Toe up is toe up for either hand.
inline Presentation<> mirrored(Presentation<> hands) {
  hands.face_angle *= -1;
  return hands;
}

inline Setting<> mirrored(Setting<> setting) {
  setting.wind.from_direction *= -1;
  setting.terrain.slope_right *= -1;
  if (setting.terrain.surface)
    setting.terrain.surface = [surface = setting.terrain.surface](double x, double y) {
      return surface(-x, y);
    };
  return setting;
}

}  // namespace whimbrel::test
