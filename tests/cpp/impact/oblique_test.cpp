#include <doctest/doctest.h>

#include "agrees.hpp"
#include "heads.hpp"

using namespace whimbrel;
using namespace whimbrel::test;

namespace {

/// A ball on a plate so heavy that it neither slows nor turns, at an angle of incidence from the normal and
/// always the same normal speed, that of the stated friction.
struct Oblique {
  double angle;
  Club<> plate = head(1e9, 0.0, {1e9, 1e9, 1e9}, 0.9);
  Ball<> ball{.face_friction = 0.30};
  Delivery<> delivery{.clubhead_speed = reference_approach_speed / std::cos(angle), .dynamic_loft = angle};
  Touch<double> at = touch(delivery, plate, ball);
  Impact<> impact = compliant_impact(delivery, plate, ball);
  Vec3<double> impulse = ball.mass * launch_velocity(impact.launch);
  double normal_impulse = dot(impulse, at.normal);
  double tangential_impulse = norm(impulse - normal_impulse * at.normal);

  /// Tangential speed of the contact after it over that before, turned round: -1 keeps it, +1 reverses it.
  double tangential_restitution() const {
    const Vec3<double> u = at.approach - contact_mobility(at, plate, ball) * impulse;
    const Vec3<double> before = at.approach - dot(at.approach, at.normal) * at.normal;
    return -dot(u, before) / dot(before, before);
  }
};

}  // namespace

TEST_CASE("sliding throughout, the tangential impulse is mu times the normal one") {
  // On a heavy plate the ball's surface slows by 7/2 of its tangential impulse over its mass: it slides to
  // the end where tan(angle) > 7/2 mu (1 + e). Exact.
  for (const double mu : {0.0, 0.1, 0.25, 0.30, 0.40})
    for (double angle = 5_deg; angle < 88_deg; angle += 3_deg) {
      Oblique it{.angle = angle, .ball = {.face_friction = mu}};
      const double limit = 3.5 * mu * (1 + it.plate.face_restitution);
      if (std::tan(angle) < 1.01 * limit) continue;
      CAPTURE(mu);
      CAPTURE(angle);
      CHECK(agrees(it.tangential_impulse, mu * it.normal_impulse, 1e-14, 1e-12));
      CHECK(agrees(it.tangential_restitution(), limit / std::tan(angle) - 1, 1e-8, 0));
      CHECK(agrees(it.impact.slip_time, it.impact.contact_time, 0, 1e-12));
    }
}

TEST_CASE("tangential restitution is negative at small angles, peaks near the slip limit, then falls") {
  // Theory: Maw, Barber, Fawcett, Wear 38 (1976) 101. The slip limit, from which on the ball slides to the
  // end, is tan(angle) = 7/2 mu (1 + e). Near it: beyond half that tangent.
  const double slip_limit = std::atan(3.5 * 0.30 * 1.9);
  double most = -1.0, where = 0.0;
  for (double angle = 1_deg; angle < 86_deg; angle += 1_deg) {
    const double now = Oblique{angle}.tangential_restitution();
    const double next = Oblique{angle + 1_deg}.tangential_restitution();
    if (angle > slip_limit) CHECK(next < now);
    if (now > most) most = now, where = angle;
  }
  CHECK(Oblique{1_deg}.tangential_restitution() < -0.3);
  CHECK(most > 0.3);
  CHECK(std::tan(where) > 0.5 * std::tan(slip_limit));
  CHECK(where < slip_limit);
  CHECK(Oblique{85_deg}.tangential_restitution() < -0.7);
}

TEST_CASE("without friction, or without tangential stiffness, a ball leaves along the normal without spin") {
  Delivery<> delivery{.clubhead_speed = 45.0,
                      .club_path = 3_deg,
                      .attack_angle = -4_deg,
                      .face_angle = -2_deg,
                      .dynamic_loft = 20_deg,
                      .strike_toe = 10_mm,
                      .strike_high = -8_mm};
  for (const Ball<>& ball : {Ball<>{.face_friction = 0.0}, Ball<>{.contact_stiffness_ratio = 0.0}}) {
    const Launch<> launch = compliant_impact(delivery, measured_driver(), ball).launch;
    const Vec3<double> normal = touch(delivery, measured_driver(), ball).normal;
    CHECK(agrees(launch_velocity(launch), launch.ball_speed * normal, 0, 1e-13));
    CHECK(agrees(launch.spin_rate, 0.0, 1e-10, 0));
  }
}
