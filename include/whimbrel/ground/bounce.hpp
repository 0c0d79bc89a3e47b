#pragma once
#include <numbers>

#include "whimbrel/ball/ball.hpp"
#include "whimbrel/core/vector.hpp"
#include "whimbrel/flight/dynamics.hpp"
#include "whimbrel/ground/turf.hpp"

namespace whimbrel {

/// Where the law of the bounce was measured: speed of the ball, m/s, and angle of its path from the normal.
inline constexpr double bounce_speed_range[] = {10.0, 30.0},
                        bounce_angle_range[] = {30 * units::deg, 60 * units::deg};

/// A ball at a touch of the ground, or after it.
template <Scalar T>
struct Touchdown {
  Vec3<T> velocity;  ///< m/s
  Vec3<T> spin;      ///< rad/s
};

/// Angle between the path of an approaching ball and the ground's normal, rad.
template <Scalar T>
T bounce_angle(const Vec3<T>& velocity, const Vec3<T>& normal) {
  using std::atan2;
  return atan2(norm(cross(velocity, normal)), -dot(velocity, normal));
}

/// Restitution of turf against the normal speed of the ball, m/s, held from 20 m/s on.
template <Scalar T>
T turf_restitution(const Turf<T>& turf, const T& normal_speed) {
  const T v = smaller(normal_speed, T(20.0));
  return turf.restitution_scale * (T(0.510) - T(0.0375) * v + T(0.000903) * square(v));
}

/// Speed of the ball along the normal, m/s, above which the surface leans back as published.
inline constexpr double presses_fully = 8.0;

/// How far the surface leans back at the ball, rad. It follows the published line, with three changes of
/// ours. The lean stays constant beyond the measured speeds. It fades for a ball that hardly presses into the
/// turf: a fast low hop makes no ramp to leap from. It is at most the angle of descent, with a smooth bend
/// from three quarters of that on.
template <Scalar T>
T surface_tilt(const Turf<T>& turf, const T& speed, const T& angle) {
  using std::cos;
  constexpr double degree = units::deg, grazing = 1e-12;
  const T measured = smaller(speed, T(bounce_speed_range[1]));
  const T published = T(15.4 * degree) * (measured / T(18.6)) * (angle / T(44.4 * degree));
  const T press = smaller(speed * cos(angle) / T(presses_fully), T(1.0));
  const T descent = larger(T(std::numbers::pi / 2) - angle, T(grazing));
  const T tilt = turf.tilt_scale * published * press * (T(2.0) - press);
  const T share = smaller(tilt / descent, T(1.25));
  return descent * (share - square(larger(share - T(0.75), T(0.0))));
}

/// A bounce off turf: a rigid surface whose normal leans back at the incoming ball, restitution along it,
/// friction that slides or grips across it. Source: Penner, Can. J. Phys. 80 (2002) 931 (from memory),
/// written in vectors to cover side spin and slopes; limits and fading are ours.
template <Scalar T>
Touchdown<T> bounce(const Touchdown<T>& before, const Vec3<T>& ground_normal, const Ball<T>& ball,
                    const Turf<T>& turf) {
  const auto& [v, spin] = before;
  const T tilt = surface_tilt(turf, norm(v), bounce_angle(v, ground_normal));
  const Vec3<T> n = turned(ground_normal, unit(cross(v, ground_normal)), tilt);
  const T approach = -dot(v, n);
  const T e = turf_restitution(turf, approach);
  const Vec3<T> arm = -ball.radius * n;
  const Vec3<T> along = v + approach * n;
  const Vec3<T> slip = along + cross(spin, arm);
  const T grip =
      T(1.0) / (T(1.0) + ball.mass * square(ball.radius) / ball.inertia);  // 2/7 of a uniform sphere
  const Vec3<T> rubbed = -smaller(grip * norm(slip), turf.friction * (T(1.0) + e) * approach) * unit(slip);
  return {along + rubbed + e * approach * n, spin + (ball.mass / ball.inertia) * cross(arm, rubbed)};
}

/// Speed of a hop, m/s, from the rebound speed along the ground's normal. Turf holds a ball that would rise
/// by less than its radius. Above that it lets go smoothly, and completely at twice that speed. The last hop
/// therefore shrinks to nothing before it disappears, and the run has no jump there. The rule is ours.
template <Scalar T>
T hop_speed(const T& rebound, const Ball<T>& ball) {
  using std::sqrt;
  const T least = sqrt(T(2.0 * standard_gravity) * ball.radius);
  const T free = larger(T(0.0), smaller(rebound / least - T(1.0), T(1.0)));
  return rebound * square(free) * (T(3.0) - T(2.0) * free);
}

}  // namespace whimbrel
