#include <doctest/doctest.h>

#include "agrees.hpp"
#include "mirrored.hpp"
#include "random_cases.hpp"
#include "shots.hpp"

using namespace whimbrel;
using namespace whimbrel::test;

namespace {

/// Rounding of the start may change which steps the adaptive integrator takes, and so the result by as
/// much as its own error: 1e-9 of the position a step, some 50 steps, 250 m, for each of two flights.
constexpr double integration_error = 2.4e-5;  // m

/// Two flights are each other's mirror image, to `allowed` metres.
void are_mirrored(const Flight<>& a, const Flight<>& b, double allowed = 1e-9) {
  CHECK(a.status == b.status);
  if (std::isnan(a.carry)) return;
  CHECK(agrees(a.carry, b.carry, allowed, 0));
  CHECK(agrees(a.downrange, b.downrange, allowed, 0));
  CHECK(agrees(a.offline, -b.offline, allowed, 0));
  CHECK(agrees(a.curve, -b.curve, allowed, 0));
  CHECK(agrees(a.apex, b.apex, allowed, 0));
}

}  // namespace

TEST_CASE("a mirrored launch in a mirrored wind over mirrored ground is the mirrored flight") {
  in_random_cases([](Random& random) { return std::tuple(any_launch(random), any_setting(random)); },
                  [](const Launch<>& launch, const Setting<>& setting) {
                    are_mirrored(fly(launch, {}, setting), fly(mirrored(launch), {}, mirrored(setting)));
                  });
}

TEST_CASE("a bump on the other side of the line mirrors the flight") {
  const Setting<> bumpy{.terrain = {.surface = [](double x, double y) {
                          return 2.0 * std::exp(-square((x - 3.0) / 4.0) - square((y - 150.0) / 8.0));
                        }}};
  Launch<> launch = mid_iron;
  launch.launch_direction = 1_deg;
  are_mirrored(fly(launch, {}, bumpy), fly(mirrored(launch), {}, mirrored(bumpy)));
}

TEST_CASE("a left-hander's mirrored swing is the mirrored shot") {
  in_random_cases(
      [](Random& random) {
        return std::tuple(any_club(random), any_presentation(random), any_delivery(random));
      },
      [](const Club<>& club, const Presentation<>& hands, const Delivery<>& swing) {
        const Delivery<> one = present(club, hands, swing);
        const Delivery<> other = present(mirrored(club), mirrored(hands), mirrored(swing));
        CHECK(agrees(one.face_angle, -other.face_angle, 1e-14, 0));
        CHECK(agrees(one.dynamic_loft, other.dynamic_loft, 1e-14, 0));
        if (mistake(one)) return;
        const Shot<> shot = play(one, club), image = play(other, mirrored(club));
        CHECK(agrees(shot.launch.spin_axis_tilt, -image.launch.spin_axis_tilt, 1e-12, 0));
        CHECK(agrees(shot.launch.launch_direction, -image.launch.launch_direction, 1e-14, 0));
        are_mirrored(shot.flight, image.flight, integration_error);
        are_mirrored(shot.flight, fly(mirrored(shot.launch)));
      });
}

TEST_CASE("a straight launch without tilt stays on its line in still air") {
  in_random_cases(
      [](Random& random) {
        Launch<> launch = any_launch(random);
        launch.launch_direction = launch.spin_axis_tilt = launch.axial_spin_rate = 0.0;
        return std::tuple(launch);
      },
      [](const Launch<>& launch) {
        CHECK(agrees(fly(launch).offline, 0.0, 1e-9, 0));
        Launch<> turned = launch;
        turned.launch_direction = 20_deg;
        CHECK(agrees(fly(turned).curve, 0.0, 1e-9, 0));
        CHECK(agrees(fly(turned).carry, fly(launch).carry, integration_error, 0));
      });
}

TEST_CASE("a positive tilt curves right, a negative one left") {
  for (Launch<> launch : club_launches) {
    launch.spin_axis_tilt = 10_deg;
    CHECK(fly(launch).curve > 1.0);
    launch.spin_axis_tilt = -10_deg;
    CHECK(fly(launch).curve < -1.0);
  }
}
