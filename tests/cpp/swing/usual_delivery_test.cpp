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

TEST_CASE(
    "from the 3 wood down the set a club is swung slower and with more loft; the driver alone is hit up") {
  for (const double pace : {40_mph, 70_mph, 113_mph, 140_mph}) {
    const auto set = usual_set(pace);
    for (std::size_t i = 1; i < set.size(); ++i) {
      CAPTURE(i);
      CHECK(set[i].clubhead_speed < set[i - 1].clubhead_speed);
      CHECK(set[i].attack_angle < 0.0);
      if (i > 1) CHECK(set[i].dynamic_loft > set[i - 1].dynamic_loft);
    }
  }
  CHECK(usual_set(95_mph)[0].attack_angle > 0.0);
}

TEST_CASE("a usual delivery is that of the formulas worked by hand") {
  // At 113 mph nothing is slower and the pace is 1: speed 113 exp(-i (0.0095 + 0.0021 i)) with i inches
  // off 45.5; attack 0.55 or -3.9; loft - 12 + 8 exp((15 - loft) / 10), of the driver + 2.1.
  struct Worked {
    const char* club;
    double speed_mph, attack_deg, loft_deg;
  };
  for (const Worked& worked : {Worked{"driver", 113.0, 0.55, 12.6},
                               {"3 wood", 108.909016, -3.9, 11.000000},
                               {"7 iron", 89.560361, -3.9, 22.322391},
                               {"pitching wedge", 84.363224, -3.9, 33.878871}}) {
    CAPTURE(worked.club);
    const Delivery<> hit = usual_delivery(shipped_club(worked.club), Pace<>{113_mph});
    CHECK(agrees(hit.clubhead_speed, worked.speed_mph * units::mph, 1e-6, 0));
    CHECK(agrees(hit.attack_angle, worked.attack_deg * units::deg, 1e-12, 0));
    CHECK(agrees(hit.dynamic_loft, worked.loft_deg * units::deg, 1e-8, 0));
  }
}

TEST_CASE("a slower player's usual delivery is that of the formulas worked by hand") {
  // At 95 mph, 18 slower, the pace p is 95/113. Driver: attack 0.55 + 0.027 18, lean -2.1 - 0.11 18. 7 iron,
  // 8.5 inches off: 95 exp(-8.5 (0.0095 + 0.0021 8.5) (0.63 + 0.37 p)), -3.9 p^3, leant 0.152 18 less.
  const Delivery<> drive = usual_delivery(shipped_club("driver"), Pace<>{95_mph});
  CHECK(agrees(drive.clubhead_speed, 95_mph, 1e-12, 0));
  CHECK(agrees(drive.attack_angle, 1.036_deg, 1e-12, 0));
  CHECK(agrees(drive.dynamic_loft, 14.58_deg, 1e-12, 0));
  const Delivery<> iron = usual_delivery(shipped_club("7 iron"), Pace<>{95_mph});
  CHECK(agrees(iron.clubhead_speed, 76.332860_mph, 1e-6, 0));
  CHECK(agrees(iron.attack_angle, -2.317395_deg, 1e-8, 0));
  CHECK(agrees(iron.dynamic_loft, 25.058391_deg, 1e-8, 0));
}

TEST_CASE("drivers short or of much loft are hit off a tee, strong 3 woods are not") {
  const auto share = [](double loft, double length) {
    return tee_share(Club<>{.loft = loft * units::deg, .length = length * units::inch});
  };
  CHECK(share(9.0, 45.5) == 1.0);
  CHECK(share(12.0, 45.5) == 1.0);
  CHECK(share(12.0, 44.0) == 1.0);
  CHECK(agrees(share(13.5, 43.0), 0.0, 0.01, 0));
  CHECK(share(15.0, 43.0) == 0.0);
  CHECK(share(60.0, 35.0) == 0.0);
}

TEST_CASE("more loft on a driver or on any other club is more loft at impact, never less") {
  for (const double pace : {40_mph, 95_mph, 140_mph})
    for (const auto& [lowest, highest, inches] :
         {std::array{7.0, 14.0, 45.5}, std::array{13.5, 64.0, 40.0}}) {
      double before = -1.0;
      for (double loft = lowest; loft <= highest; loft += 0.25) {
        const Club<> club{
            .loft = loft * units::deg, .lie_angle = 60_deg, .length = inches * units::inch, .mass = 0.25};
        const double now = usual_delivery(club, Pace<>{pace}).dynamic_loft;
        CAPTURE(loft);
        CHECK(now > before);
        before = now;
      }
    }
}

TEST_CASE("a usual delivery is square, straight and centred but for a driver's, for either hand alike") {
  const auto right = usual_set(95_mph, Hand::right), left = usual_set(95_mph, Hand::left);
  for (std::size_t i = 0; i < right.size(); ++i) {
    for (const double x : {right[i].club_path, right[i].strike_toe, right[i].lie_tilt, right[i].closure_rate})
      CHECK(x == 0.0);
    CHECK(right[i].strike_high == (i == 0 ? 3 * units::mm : 0.0));
    CHECK(agrees(right[i].face_angle, 0.0, 1e-12, 0));
    for (const auto& field : Delivery<>::fields())
      CHECK(agrees(left[i].*field.member, right[i].*field.member, 1e-12, 0));
    CHECK(agrees(club_set(Hand::left)[i].loft, club_set()[i].loft, 0, 0));
  }
}

TEST_CASE("a faster player swings every club faster, with less loft at impact and more down") {
  auto slower = usual_set(40_mph);
  for (double pace = 45_mph; pace <= 140_mph; pace += 5_mph) {
    const auto faster = usual_set(pace);
    for (std::size_t i = 0; i < slower.size(); ++i) {
      CHECK(faster[i].clubhead_speed > slower[i].clubhead_speed);
      CHECK(faster[i].dynamic_loft < slower[i].dynamic_loft);
      CHECK(faster[i].attack_angle < slower[i].attack_angle);
    }
    slower = faster;
  }
}

TEST_CASE("a usual delivery can be struck with its club, for every pace") {
  in_random_cases(
      [](Random& random) {
        return std::tuple(any_club(random), Pace<>{random.between(40, 140) * units::mph});
      },
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
  CHECK(refused(17.0) ==
        "driver_speed is 17 m/s (38.03 mph); accepted: 17.8816 m/s (40 mph) to 62.5856 m/s (140 mph)");
  CHECK(refused(63.0).starts_with("driver_speed is 63 m/s"));
  CHECK(refused(NAN).starts_with("driver_speed is nan"));
  CHECK(refused(40_mph) == "accepted");
  CHECK(refused(140_mph) == "accepted");
}

TEST_CASE("a putter has no usual delivery, and says why") {
  Club<> putter;
  putter.loft = 3_deg;
  CHECK(std::string(no_usual_delivery(putter)->what()) ==
        "loft is 0.0523599 rad (3 deg): such a club has no usual delivery; accepted: 0.122173 rad (7 deg) to "
        "1.15192 rad (66 deg)");
  for (const Club<>& club : club_set()) CHECK_FALSE(no_usual_delivery(club));
}
