#include <doctest/doctest.h>

#include <whimbrel/swing/present.hpp>
#include <whimbrel/swing/swing_arc.hpp>

#include "agrees.hpp"
#include "random_cases.hpp"

using namespace whimbrel;
using namespace whimbrel::test;

TEST_CASE("an uphill stance adds its slope to attack and loft of a straight delivery") {
  for (const double uphill : {-12_deg, -3_deg, 5_deg, 10_deg}) {
    const Delivery<> level{.clubhead_speed = 40.0, .attack_angle = -4_deg, .dynamic_loft = 25_deg};
    const Delivery<> sloped = on_uphill_stance(level, uphill);
    CHECK(agrees(sloped.attack_angle, -4_deg + uphill, 1e-15, 0));
    CHECK(agrees(sloped.dynamic_loft, 25_deg + uphill, 1e-15, 0));
    CHECK(sloped.club_path == 0.0);
    CHECK(sloped.face_angle == 0.0);
    CHECK(sloped.clubhead_speed == level.clubhead_speed);
  }
}

TEST_CASE("a slope turns path and face together: spin loft stays, and the slope taken back undoes it") {
  in_random_cases(
      [](Random& random) {
        return std::tuple{any_swing(random).delivery, random.between(-12, 12) * units::deg};
      },
      [](const Delivery<>& delivery, double uphill) {
        const Delivery<> sloped = on_uphill_stance(delivery, uphill);
        CHECK(agrees(d_plane(sloped).spin_loft, d_plane(delivery).spin_loft, 1e-13, 0));
        const Delivery<> back = on_uphill_stance(sloped, -uphill);
        for (const auto& field : Delivery<>::fields())
          CHECK(agrees(back.*field.member, delivery.*field.member, 1e-13, 0));
      });
}

TEST_CASE("a ball above the feet turns the face of a right-hander left, of a left-hander right") {
  // The slope is toe up: lie tilt. A little loft is lost with it.
  in_random_cases(
      [](Random& random) {
        return std::tuple{any_club(random), random.between(1, 15) * units::deg};
      },
      [](const Club<>& club, double above) {
        const Delivery<> level = present(club, Presentation<>{});
        const Delivery<> sloped = present(club, Presentation<>{.lie_tilt = above});
        const Delivery<> below = present(club, Presentation<>{.lie_tilt = -above});
        CHECK(toe_side(club.hand) * (sloped.face_angle - level.face_angle) < 0.0);
        CHECK(toe_side(club.hand) * (below.face_angle - level.face_angle) > 0.0);
        CHECK(sloped.dynamic_loft < level.dynamic_loft);
        CHECK(agrees(sloped.lie_tilt, above, 1e-15, 0));
      });
}
