#include <doctest/doctest.h>

#include <whimbrel/impact/strike.hpp>

#include "agrees.hpp"
#include "dual.hpp"
#include "shots.hpp"

using namespace whimbrel;
using namespace whimbrel::test;

namespace {

const Club<> driver_of_205_g{
    .loft = 10.5_deg, .lie_angle = 58_deg, .length = 1.15, .mass = 0.205, .face_restitution = 0.844};
const Club<> iron_of_280_g{.loft = 33_deg, .lie_angle = 62_deg, .length = 0.94, .mass = 0.28};

template <class T>
Club<T> some_club(const T& mass, const T& restitution) {
  return {
      .loft = T(0.4), .lie_angle = T(1.1), .length = T(0.95), .mass = mass, .face_restitution = restitution};
}

template <class T>
std::array<T, 9> every_number(const Impact<T>& impact) {
  const Launch<T>& launch = impact.launch;
  return {launch.ball_speed,     launch.launch_angle,   launch.launch_direction,
          launch.spin_rate,      launch.spin_axis_tilt, impact.smash_factor,
          impact.start_fraction, impact.energy_lost,    impact.head_velocity_after.y};
}

}  // namespace

TEST_CASE("smash factors lie in the windows of the trade") {
  // Common practice: driver 1.44 to 1.50, mid-iron 1.30 to 1.42, wedge 1.10 to 1.28.
  const auto smash = [](double speed, double attack, double loft, const Club<>& club) {
    return strike(Delivery<>{.clubhead_speed = speed, .attack_angle = attack, .dynamic_loft = loft}, club)
        .smash_factor;
  };
  const double driver = smash(50.5, -1.3_deg, 12.8_deg, driver_of_205_g);
  CHECK(driver > 1.44);
  CHECK(driver < 1.50);
  const double mid = smash(40.2, -4.3_deg, 22.3_deg, iron_of_280_g);
  CHECK(mid > 1.30);
  CHECK(mid < 1.42);
  const double high = smash(36.0, -5_deg, 41_deg, club_set()[10]);
  CHECK(high > 1.10);
  CHECK(high < 1.28);
}

TEST_CASE("the rigid model's ball speed is within 1 % of contact calculations") {
  // Derived by independent code of a compliant contact: driver 163.8 mph, mid-iron 124.7 mph.
  const auto speed = [](const Delivery<>& delivery, const Club<>& club) {
    return strike(delivery, club).launch.ball_speed / units::mph;
  };
  CHECK(agrees(
      speed({.clubhead_speed = 50.5, .attack_angle = -1.3_deg, .dynamic_loft = 12.8_deg}, driver_of_205_g),
      163.8, 0, 0.01));
  CHECK(agrees(
      speed({.clubhead_speed = 40.2, .attack_angle = -4.3_deg, .dynamic_loft = 22.3_deg}, iron_of_280_g),
      124.7, 0, 0.01));
}

TEST_CASE("a strike takes the restitution of its own approach speed") {
  const Delivery<> delivery{.clubhead_speed = 50.0, .dynamic_loft = 20_deg};
  const double e = restitution(iron_of_280_g.face_restitution, 50.0 * std::cos(20_deg));
  const Impact<> rigid = rigid_impact(delivery, iron_of_280_g.mass, e, Ball<>{});
  CHECK(agrees(strike(delivery, iron_of_280_g).launch.ball_speed, rigid.launch.ball_speed, 0, 1e-14));
}

TEST_CASE("a face open to its path curves the ball right, a closed one left") {
  const auto tilt = [](double face) {
    return strike(Delivery<>{.clubhead_speed = 40.0, .face_angle = face, .dynamic_loft = 20_deg},
                  iron_of_280_g)
        .launch.spin_axis_tilt;
  };
  CHECK(tilt(3_deg) > 0);
  CHECK(tilt(-3_deg) < 0);
}

TEST_CASE("a strike has the derivatives of its differences") {
  for (std::size_t i = 0; i < Delivery<>::fields().size(); ++i)
    dual::differentiates(
        [&]<class T>(const T& x) {
          Delivery<T> delivery{T(40.0), T(0.05), T(-0.06), T(-0.03), T(0.4)};
          delivery.*Delivery<T>::fields()[i].member = delivery.*Delivery<T>::fields()[i].member + x;
          return every_number(strike(delivery, some_club(T(0.27), T(0.78))));
        },
        0.0, 0.5);
  const auto with_club = []<class T>(const T& mass, const T& restitution) {
    return every_number(
        strike(Delivery<T>{T(40.0), T(0.05), T(-0.06), T(-0.03), T(0.4)}, some_club(mass, restitution)));
  };
  dual::differentiates([&]<class T>(const T& x) { return with_club(x, T(0.78)); }, 0.27, 0.2);
  dual::differentiates([&]<class T>(const T& x) { return with_club(T(0.27), x); }, 0.78, 0.2);
}
