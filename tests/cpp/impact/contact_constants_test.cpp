#include <doctest/doctest.h>

#include "agrees.hpp"
#include "dual.hpp"
#include "random_cases.hpp"

using namespace whimbrel;
using namespace whimbrel::test;

TEST_CASE("friction is stated for the reference approach, falls with the approach and is held below 10 m/s") {
  CHECK(friction_at(0.2, reference_approach_speed) == 0.2);
  CHECK(agrees(friction_at(0.2, 2 * reference_approach_speed), 0.2 * std::pow(2.0, -0.4), 0, 1e-14));
  CHECK(friction_at(0.2, 0.0) == friction_at(0.2, least_approach_speed));
  dual::differentiates([]<class T>(const T& v) { return std::array{friction_at(T(0.2), v)}; }, 30.0, 20.0);
}

TEST_CASE("at a strong player's pace a sand wedge spins 10,000 to 11,000 rpm and a lob wedge less") {
  // Common practice. Speed, attack and loft of a full shot.
  const auto set = club_set();
  const auto spin = [](const Club<>& club, double loft_deg) {
    const Delivery<> hit{
        .clubhead_speed = 84_mph, .attack_angle = -5_deg, .dynamic_loft = loft_deg * units::deg};
    return strike(hit, club).launch.spin_rate / units::rpm;
  };
  CHECK(spin(set[11], 45.5) > 10000);
  CHECK(spin(set[11], 45.5) < 11000);
  CHECK(spin(set[12], 50.0) < spin(set[11], 45.5));
}

TEST_CASE("the launch tells the normal of the face where the ball was struck") {
  // Derived: any impulse at one point of a uniform ball gives n x v = -2/5 r w, whatever the contact does.
  in_random_cases(
      [](Random& random) {
        return std::tuple{any_swing(random), any_ball(random)};
      },
      [](const Swing<>& swing, const Ball<>& ball) {
        const Impact<> impact = strike(swing.delivery, swing.club, ball);
        const Vec3<double> v = launch_velocity(impact.launch), w = launch_spin(impact.launch);
        CHECK(agrees(cross(impact.struck_normal, v), -0.4 * ball.radius * w, 1e-12 * norm(v), 1e-12));
      });
}

TEST_CASE("the shaft's share adds to the head's mass alone") {
  Club<> shafted = club_set()[6], heavier = shafted;
  heavier.mass += shafted.shaft_mass;
  heavier.shaft_mass = 0.0;
  const Delivery<> hit{.clubhead_speed = 40.0, .dynamic_loft = 22_deg, .strike_toe = 8_mm};
  for (const ImpactModel model : {ImpactModel::compliant, ImpactModel::rigid}) {
    const Delivery<> centred{.clubhead_speed = 40.0, .dynamic_loft = 22_deg};
    const Delivery<>& delivery = model == ImpactModel::rigid ? centred : hit;
    const Launch<> one = strike(delivery, shafted, {}, model).launch,
                   other = strike(delivery, heavier, {}, model).launch;
    for (const auto& field : Launch<>::fields())
      CHECK(agrees(one.*field.member, other.*field.member, 1e-14, 1e-14));
  }
}

TEST_CASE("a wet wedge spins a fifth to two fifths less and launches 2 to 6.5 degrees higher") {
  for (const Club<>& dry : club_set()) {
    if (dry.loft < least_wet_loft) continue;
    Club<> wet = dry;
    wet.face_wetness = 1.0;
    for (const double pace : {80_mph, 113_mph}) {
      const Delivery<> hit = usual_delivery(dry, Pace<>{pace});
      const Launch<> as_dry = strike(hit, dry).launch, as_wet = strike(hit, wet).launch;
      CAPTURE(dry.name);
      const double spin = as_wet.spin_rate / as_dry.spin_rate;
      CHECK(spin > 0.58);
      CHECK(spin < 0.80);
      const double higher = as_wet.launch_angle - as_dry.launch_angle;
      CHECK(higher > 2_deg);
      CHECK(higher < 6.5_deg);
      wet.face_wetness = 0.5;
      const double half = strike(hit, wet).launch.spin_rate;
      CHECK(half < as_dry.spin_rate);
      CHECK(half > as_wet.spin_rate);
      wet.face_wetness = 1.0;
    }
  }
}

TEST_CASE("a wet driver is refused: the contact is not calibrated for it") {
  Club<> driver = club_set()[0];
  driver.face_wetness = 0.5;
  CHECK(std::string(mistake(driver)->what()) ==
        "face_wetness is 0.5 on a loft of 0.18326 rad (10.5 deg): wet faces are calibrated from 0.767945 rad "
        "(44 "
        "deg) up, so here it must be 0");
}
