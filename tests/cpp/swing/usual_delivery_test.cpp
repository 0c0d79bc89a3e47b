#include <doctest/doctest.h>

#include "agrees.hpp"
#include "dual.hpp"
#include "random_cases.hpp"

using namespace whimbrel;
using namespace whimbrel::test;

namespace {

std::array<Delivery<>, 13> usual_set(double driver_speed = 95_mph, Hand hand = Hand::right) {
  std::array<Delivery<>, 13> set;
  const auto clubs = club_set(hand);
  for (std::size_t i = 0; i < clubs.size(); ++i) set[i] = usual_delivery(clubs[i], Pace<>{driver_speed});
  return set;
}

}  // namespace

TEST_CASE("from the driver down the set a club is swung slower, steeper and with more loft") {
  const auto set = usual_set();
  for (std::size_t i = 1; i < set.size(); ++i) {
    CAPTURE(i);
    CHECK(set[i].clubhead_speed < set[i - 1].clubhead_speed);
    CHECK(set[i].attack_angle < set[i - 1].attack_angle);
    if (i > 1) CHECK(set[i].dynamic_loft > set[i - 1].dynamic_loft);
  }
  // The driver's shaft leans back 4 degrees, the 3 wood's forward 1: they present one loft but for half a
  // degree.
  CHECK(agrees(set[0].dynamic_loft, 14.5_deg, 1e-12, 0));
  CHECK(agrees(set[1].dynamic_loft, 14.0_deg, 1e-12, 0));
}

TEST_CASE("a usual delivery is that of the rules worked by hand") {
  // mph, degrees: 95 (1 - 0.0245 inches); attack -2 - (loft - 15)/15; loft - min(10, 1 + (loft - 15)/4).
  const auto usual = [](const char* name) { return usual_delivery(shipped_club(name), Pace<>{95_mph}); };
  struct Worked {
    const char* club;
    double speed_mph, attack_deg, loft_deg;
  };
  for (const Worked& worked : {Worked{"driver", 95.0, 0.0, 14.5},
                               {"3 wood", 89.18125, -2.0, 14.0},
                               {"7 iron", 75.21625, -3.2, 27.5},
                               {"pitching wedge", 72.306875, -4.0333333333, 36.875},
                               {"gap wedge", 71.725, -4.3666666667, 40.625},
                               {"lob wedge", 70.56125, -5.0, 50.0}}) {
    CAPTURE(worked.club);
    const Delivery<> hit = usual(worked.club);
    CHECK(agrees(hit.clubhead_speed, worked.speed_mph * units::mph, 1e-9, 0));
    CHECK(agrees(hit.attack_angle, worked.attack_deg * units::deg, 1e-9, 0));
    CHECK(agrees(hit.dynamic_loft, worked.loft_deg * units::deg, 1e-9, 0));
  }
}

TEST_CASE("a usual delivery is square, straight and centred, for either hand alike") {
  const auto right = usual_set(95_mph, Hand::right), left = usual_set(95_mph, Hand::left);
  for (std::size_t i = 0; i < right.size(); ++i) {
    for (const double x : {right[i].club_path, right[i].strike_toe, right[i].strike_high, right[i].lie_tilt,
                           right[i].closure_rate})
      CHECK(x == 0.0);
    CHECK(agrees(right[i].face_angle, 0.0, 1e-12, 0));
    for (const auto& field : Delivery<>::fields())
      CHECK(agrees(left[i].*field.member, right[i].*field.member, 1e-12, 0));
    CHECK(agrees(club_set(Hand::left)[i].loft, club_set()[i].loft, 0, 0));
  }
}

TEST_CASE("every club's speed follows the driver's, its angles do not") {
  const auto slow = usual_set(60_mph), fast = usual_set(120_mph);
  for (std::size_t i = 0; i < slow.size(); ++i) {
    CHECK(agrees(fast[i].clubhead_speed, 2 * slow[i].clubhead_speed, 0, 1e-14));
    CHECK(fast[i].attack_angle == slow[i].attack_angle);
    CHECK(fast[i].dynamic_loft == slow[i].dynamic_loft);
  }
}

TEST_CASE("a usual delivery can be struck with its club, for every pace") {
  in_random_cases([](Random& random) { return std::tuple(any_club(random), Pace<>{random.between(15, 70)}); },
                  [](const Club<>& club, const Pace<>& pace) {
                    CHECK(!mistake(Swing<>{usual_delivery(club, pace), club}));
                  });
}

TEST_CASE("a usual delivery is the same for every scalar, with its derivative by loft") {
  const auto numbers = [](auto loft) {
    using T = decltype(loft);
    const Club<T> club{.loft = loft, .lie_angle = T(62_deg), .length = T(0.94), .mass = T(0.27)};
    const Delivery<T> hit = usual_delivery(club, Pace<T>{T(42.0)});
    return std::array{hit.clubhead_speed, hit.attack_angle, hit.dynamic_loft};
  };
  for (const double loft : {10_deg, 20_deg, 33_deg, 45_deg, 58_deg}) dual::differentiates(numbers, loft, 1.0);
}

TEST_CASE("a pace out of range is refused by field, value and range") {
  const auto refused = [](double driver_speed) {
    const auto error = mistake(Pace<>{driver_speed});
    return std::string(error ? error->what() : "accepted");
  };
  CHECK(refused(14.0) ==
        "driver_speed is 14 m/s (31.32 mph); accepted: 15 m/s (33.55 mph) to 70 m/s (156.6 mph)");
  CHECK(refused(71.0).starts_with("driver_speed is 71 m/s"));
  CHECK(refused(NAN).starts_with("driver_speed is nan"));
  CHECK(refused(15.0) == "accepted");
  CHECK(refused(70.0) == "accepted");
}
