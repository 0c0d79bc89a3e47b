#pragma once
#include <whimbrel/compiled.hpp>

/// Heads and deliveries with worked impacts.
namespace whimbrel::test {

using namespace whimbrel::literals;

/// A head alone, of which only the impact asks; loft, lie and length are any.
inline Club<> head(double mass, double cg_depth, const std::array<double, 3>& inertia,
                   double face_restitution) {
  return {.loft = 0.4,
          .lie_angle = 1.1,
          .length = 1.0,
          .mass = mass,
          .face_restitution = face_restitution,
          .inertia_target = inertia[0],
          .inertia_vertical = inertia[1],
          .inertia_heel_toe = inertia[2],
          .cg_depth = cg_depth,
          .shaft_mass = 0.0};
}

/// A club, how it is delivered, and the launch expected of it.
struct WorkedImpact {
  const char* name;
  Club<> club;
  Delivery<> delivery;
  double ball_speed_mph, launch_angle_deg, spin_rpm;
};

/// Derived by independent code of the compliant contact, to half a per cent.
inline const std::array<WorkedImpact, 3> worked_impacts{
    {{"driver",
      head(0.205, 36_mm, {2.8e-4, 4.8e-4, 3.0e-4}, 0.844),
      {.clubhead_speed = 50.5, .attack_angle = -1.3_deg, .dynamic_loft = 12.8_deg},
      163.8,
      10.73,
      2963},
     {"mid-iron",
      head(0.280, 12_mm, {0.9e-4, 2.5e-4, 3.0e-4}, 0.773),
      {.clubhead_speed = 40.2, .attack_angle = -4.3_deg, .dynamic_loft = 22.3_deg},
      124.7,
      16.49,
      6310},
     {"short iron",
      head(0.300, 10_mm, {0.9e-4, 2.5e-4, 3.0e-4}, 0.773),
      {.clubhead_speed = 37.1, .attack_angle = -5_deg, .dynamic_loft = 33_deg},
      104.6,
      22.77,
      9295}}};

/// A measured driver head: 204 g, depth 42.3 mm, inertia 2843, 5679, 4085 g cm^2, bulge 305 mm (published:
/// Proceedings 49 (2020) 47; the order of the axes is inferred); restitution and roll are assumed.
inline Club<> measured_driver(double bulge = 305_mm, double roll = 305_mm) {
  Club<> club = head(0.204, 42.3_mm, {2843e-7, 5679e-7, 4085e-7}, 0.844);
  club.bulge_radius = bulge;
  club.roll_radius = roll;
  club.face_width = 115_mm;
  club.face_height = 58_mm;
  return club;
}

/// The compliant impact with the constants of the independent code, whatever the library makes of a club's
/// and a ball's own: kappa 0.77, mu 0.30, restitution falling by 0.0029 per m/s.
inline Impact<> with_worked_constants(const Delivery<>& delivery, const Club<>& club) {
  const Ball<> ball;
  const Touch<double> first = touch(delivery, club, ball);
  const double e = club.face_restitution - 0.0029 * (dot(first.approach, first.normal) - 43.8);
  const ContactEnd<double> end =
      contact(first, contact_mobility(first, club, ball), {.restitution = e, .kappa = 0.77, .mu = 0.30});
  Impact<> impact = after_impulse(end.impulse, first, delivery, club, ball);
  impact.contact_time = end.time;
  return impact;
}

/// Every number of an impact but the axial spin, which is 0 to rounding.
template <class T>
std::array<T, 16> every_number(const Impact<T>& impact) {
  const auto& [speed, angle, direction, spin, tilt, axial] = impact.launch;
  const Vec3<T>&v = impact.head_velocity_after, &w = impact.head_rotation_after;
  return {speed,
          angle,
          direction,
          spin,
          tilt,
          impact.smash_factor,
          impact.start_fraction,
          impact.energy_lost,
          impact.contact_time,
          impact.slip_time,
          v.x,
          v.y,
          v.z,
          w.x,
          w.y,
          w.z};
}

}  // namespace whimbrel::test
