#pragma once
#include "whimbrel/ball/ball.hpp"
#include "whimbrel/impact/impact.hpp"
#include "whimbrel/impact/restitution.hpp"
#include "whimbrel/swing/club.hpp"
#include "whimbrel/swing/d_plane.hpp"

namespace whimbrel {

/// The closed-form impact of two rigid bodies, for teaching: a free head that does not turn, struck
/// at its centre, the ball rolling on the face as it leaves. With e the normal restitution, M the
/// head's mass, beta the spin loft, and 1 + m r^2/I = 7/2 for a uniform ball,
///
///   v_n = (1+e) V cos(beta) / (1 + m/M),   v_t = V sin(beta) / (1 + m r^2/I + m/M),
///   r w = (m r^2/I) v_t.
///
/// Known bias against the compliant contact, in which ball and face stick and slide: spin is about 5 % too
/// high with a driver and about a quarter too low with a mid-iron or short iron. Centred strikes only. Ball
/// speed is within 1 %.
template <Scalar T>
Impact<T> rigid_impact(const Delivery<T>& delivery, const T& head_mass, const T& e, const Ball<T>& ball) {
  const T V = delivery.clubhead_speed;
  const Vec3<T> p = path_direction(delivery), n = face_normal(delivery);
  const T cos_beta = dot(p, n);
  const Vec3<T> t = p - cos_beta * n;  // along the face, as long as sin(beta)
  const T mass_ratio = ball.mass / head_mass;
  const T sphere = ball.mass * square(ball.radius) / ball.inertia;
  const T v_n = (T(1.0) + e) * V * cos_beta / (T(1.0) + mass_ratio);
  const T v_t_over_sin = V / (T(1.0) + sphere + mass_ratio);
  const Vec3<T> velocity = v_n * n + v_t_over_sin * t;
  const Vec3<T> spin = sphere * v_t_over_sin / ball.radius * cross(t, n);
  Impact<T> impact;
  describe_launch(impact, launch_of(velocity, spin), delivery, n);
  impact.head_velocity_after = V * p - mass_ratio * velocity;
  const auto energy = [](const T& mass, const Vec3<T>& v) { return T(0.5) * mass * dot(v, v); };
  impact.energy_lost = energy_loss<T>(
      energy(head_mass, V * p), energy(head_mass, impact.head_velocity_after) + energy(ball.mass, velocity) +
                                    T(0.5) * ball.inertia * dot(spin, spin));
  return impact;
}

}  // namespace whimbrel
