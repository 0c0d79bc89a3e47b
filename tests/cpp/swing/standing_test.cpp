#include <doctest/doctest.h>

#include "agrees.hpp"
#include "random_cases.hpp"

using namespace whimbrel;
using namespace whimbrel::test;

TEST_CASE("standing on a slope and stepping off it leaves the swing as it was") {
  in_random_cases(
      [](Random& random) {
        Delivery<> level = any_delivery(random);
        return std::tuple(level, random.between(-15, 15) * units::deg, random.between(-10, 10) * units::deg,
                          random.below(2) == 0 ? Hand::right : Hand::left);
      },
      [](const Delivery<>& level, double uphill, double tilt, Hand hand) {
        const Stance<> stance{uphill, tilt};
        const Delivery<> there = standing(level, stance, hand), back = without_stance(there, stance, hand);
        CHECK(there.lie_tilt == tilt);
        for (const auto& field : Delivery<>::fields())
          CHECK(agrees(back.*field.member, level.*field.member, 1e-13, 0));
      });
}

TEST_CASE("a toe up by the lie turns the face as a club presented so") {
  in_random_cases([](Random& random) { return std::tuple(any_club(random), any_presentation(random)); },
                  [](const Club<>& club, Presentation<> hands) {
                    const Delivery<> tilted = present(club, hands);
                    const Stance<> stance{0.0, hands.lie_tilt};
                    hands.lie_tilt = 0.0;
                    const Delivery<> stood = standing(present(club, hands), stance, club.hand);
                    CHECK(agrees(stood.face_angle, tilted.face_angle, 1e-13, 0));
                    CHECK(agrees(stood.dynamic_loft, tilted.dynamic_loft, 1e-13, 0));
                  });
}

TEST_CASE("a level stance changes nothing, exactly") {
  const Delivery<> level{.clubhead_speed = 40,
                         .club_path = 0.03,
                         .attack_angle = -0.07,
                         .face_angle = 0.01,
                         .dynamic_loft = 0.43};
  for (const auto& field : Delivery<>::fields()) {
    CHECK(standing(level, Stance<>{}, Hand::right).*field.member == level.*field.member);
    CHECK(without_stance(level, Stance<>{}, Hand::left).*field.member == level.*field.member);
  }
}
