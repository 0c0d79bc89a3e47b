#include <doctest/doctest.h>

#include "agrees.hpp"
#include "random_cases.hpp"
#include "shots.hpp"

using namespace whimbrel;
using namespace whimbrel::test;

TEST_CASE("a shot is a strike, then a flight") {
  in_random_cases(
      [](Random& random) { return std::tuple(any_delivery(random), any_club(random), any_setting(random)); },
      [](const Delivery<>& delivery, const Club<>& club, const Setting<>& setting) {
        const Ball<> ball;
        if (mistake(delivery)) return;
        const Shot<> shot = play(delivery, club, ball, setting);
        const Impact<> impact = strike(delivery, club, ball);
        const Flight<> flight = fly(impact.launch, ball, setting);
        REQUIRE(shot.swing);
        REQUIRE(shot.impact);
        CHECK(shot.swing->club.name == club.name);
        CHECK(shot.impact->smash_factor == impact.smash_factor);
        CHECK(shot.launch.spin_rate == impact.launch.spin_rate);
        CHECK(shot.flight.status == flight.status);
        if (flight.status != Status::ok) return;
        CHECK(shot.flight.carry == flight.carry);
        CHECK(shot.flight.offline == flight.offline);
      });
}

TEST_CASE("a shot from a measured launch has no swing and no impact") {
  const Shot<> shot = play(drive);
  CHECK(!shot.swing);
  CHECK(!shot.impact);
  CHECK(shot.launch.ball_speed == drive.ball_speed);
  CHECK(shot.flight.carry == fly(drive).carry);
}

TEST_CASE("a face open to the path slices, a face closed to it hooks") {
  const Club<> iron = club_set()[6];
  const auto curve = [&](double path, double face) {
    return play(Delivery<>{.clubhead_speed = 38.0,
                           .club_path = path,
                           .attack_angle = -4_deg,
                           .face_angle = face,
                           .dynamic_loft = 25_deg},
                iron)
        .flight.curve;
  };
  CHECK(curve(0.0, 3_deg) > 2.0);
  CHECK(curve(0.0, -3_deg) < -2.0);
  CHECK(curve(4_deg, -1_deg) < -2.0);  // in to out, and still it hooks
  CHECK(agrees(curve(0.0, 0.0), 0.0, 1e-9, 0));
}
