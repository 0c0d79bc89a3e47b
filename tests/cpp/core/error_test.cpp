#include <doctest/doctest.h>

#include <limits>

#include "random_cases.hpp"
#include "shots.hpp"

using namespace whimbrel;
using namespace whimbrel::test;

namespace {

constexpr double nan_ = std::numeric_limits<double>::quiet_NaN();
constexpr double infinity = std::numeric_limits<double>::infinity();

/// What the mistake of some values is called.
template <class... Values>
std::string message(const Values&... values) {
  const auto error = first_mistake(values...);
  return error ? error->what() : "no mistake";
}

/// With each number of a value NaN, infinite or just outside its range, the message names that
/// field, and the value, field and range are kept.
template <class Value>
void names_each_field(const Value& good) {
  for (const auto& field : Value::fields()) {
    const std::string name(field.name);
    CAPTURE(name);
    for (const double bad : {nan_, infinity, -infinity, field.upper + 1.0, field.lower - 1.0}) {
      if (bad >= field.lower && bad <= field.upper) continue;  // the radius of a flat face
      Value v = good;
      v.*field.member = bad;
      CHECK_THROWS_AS(check(v), InputError);
      const auto error = mistake(v);
      REQUIRE(error);
      CHECK(error->field == name);
      CHECK((error->value == bad || bad != bad));
      CHECK(error->lower == field.lower);
      CHECK(error->upper == field.upper);
      CHECK(std::string(error->what()).starts_with(name + " is "));
    }
  }
}

}  // namespace

TEST_CASE("a number outside its range is refused by the name of its field") {
  names_each_field(drive);
  names_each_field(Delivery<>{.clubhead_speed = 40.0, .dynamic_loft = 20_deg});
  names_each_field(club_set()[0]);
  names_each_field(Presentation<>{});
  names_each_field(SwingArc<>{});
  names_each_field(Weather<>{});
  names_each_field(Air<>{});
  names_each_field(Wind<>{});
  names_each_field(Terrain<>{});
  names_each_field(Ball<>{});
  names_each_field(MultiLayer{});
  names_each_field(SmitsSmith{});
  names_each_field(SquareRootLift{});
  names_each_field(ConstantCoefficients{});
}

TEST_CASE("a message gives the field, the value and the accepted range in SI and trade units") {
  Launch<> launch = drive;
  launch.ball_speed = -10.0;
  CHECK(message(launch) == "ball_speed is -10 m/s (-22.37 mph); accepted: 0 m/s to 150 m/s (335.5 mph)");
  launch.ball_speed = nan_;
  CHECK(message(launch) == "ball_speed is nan m/s; accepted: 0 m/s to 150 m/s (335.5 mph)");
  Club<> club = club_set()[0];
  club.loft = 200_deg;
  CHECK(message(club) ==
        "loft is 3.49066 rad (200 deg); accepted: -0.174533 rad (-10 deg) to 1.39626 rad (80 deg)");
  club.loft = 10_deg;
  club.mass = 0.0;
  CHECK(message(club) == "mass is 0 kg; accepted: 0.05 kg to 1 kg");
  Ball<> ball;
  ball.mass = 0.0;
  CHECK(message(ball) == "ball mass is 0 kg; accepted: 0.005 kg to 0.2 kg");
  CHECK(message(Weather<>{.relative_humidity = 50.0}) == "relative_humidity is 50; accepted: 0 to 1");
}

TEST_CASE("no more of the spin can be axial than there is") {
  Launch<> launch{.ball_speed = 50.0, .spin_rate = 100.0, .axial_spin_rate = -100.0};
  CHECK(message(launch) == "no mistake");
  launch.axial_spin_rate = 101.0;
  CHECK(
      message(launch) ==
      "axial_spin_rate is 101 rad/s (964.5 rpm); accepted: -100 rad/s (-954.9 rpm) to 100 rad/s (954.9 rpm)");
}

TEST_CASE("a face that moves away from the ball cannot strike it") {
  const Delivery<> away{.clubhead_speed = 40.0, .attack_angle = -50_deg, .dynamic_loft = 45_deg};
  CHECK(message(away) ==
        "spin loft: the face is not approaching the ball: 1.65806 rad (95 deg) between club path and face "
        "normal; accepted: below 1.56905 rad (89.9 deg)");
  CHECK_THROWS_AS(strike(away, club_set()[0]), InputError);
}

TEST_CASE("every stage of the row checks what it is given") {
  const Delivery<> delivery{.clubhead_speed = 40.0, .dynamic_loft = 20_deg};
  const Club<> club = club_set()[6];
  const Setting<> bad_air{.air = {.density = nan_}};
  const Ball<> bad_ball = ball_with(MultiLayer{.lift = nan_});
  CHECK_THROWS_AS(fly(Launch<>{.ball_speed = infinity}), InputError);
  CHECK_THROWS_AS(fly(drive, bad_ball), InputError);
  CHECK_THROWS_AS(fly(drive, Ball<>{}, bad_air), InputError);
  CHECK_THROWS_AS(strike(delivery, club, bad_ball), InputError);
  CHECK_THROWS_AS(strike(Delivery<>{}, club), InputError);
  CHECK_THROWS_AS(play(delivery, club, Ball<>{}, bad_air), InputError);
  CHECK_THROWS_AS(play(drive, bad_ball), InputError);
  CHECK_THROWS_AS(present(club, Presentation<>{.shaft_lean = nan_}), InputError);
}

TEST_CASE("each status has words of its own") {
  for (std::size_t i = 0; i < status_count; ++i) CHECK(!describe(static_cast<Status>(i)).empty());
  CHECK(describe(Status::not_airborne) == "the ball never left the ground");
}
