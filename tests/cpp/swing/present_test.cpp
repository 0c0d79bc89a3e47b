#include <doctest/doctest.h>

#include <whimbrel/swing/present.hpp>

#include "agrees.hpp"
#include "dual.hpp"
#include "mirrored.hpp"
#include "random_cases.hpp"

using namespace whimbrel;
using namespace whimbrel::test;

namespace {
Club<> club_of(double loft, double lie) {
  return {.loft = loft, .lie_angle = lie, .length = 1.0, .mass = 0.25};
}
}  // namespace

TEST_CASE("a leaned and turned face has the loft of its geometry") {
  // Derived: loft, lie, lean, face -> dynamic loft, all in degrees; tolerance: the printed digits.
  const std::array<std::array<double, 5>, 5> table{{{33, 62, 6, 0, 27.000},
                                                    {33, 62, 6, 2, 28.129},
                                                    {33, 62, 6, -2, 25.870},
                                                    {10.5, 58, 0, 3, 12.367},
                                                    {56, 64, 8, 5, 50.891}}};
  for (const auto& [loft, lie, lean, face, expected] : table) {
    const Presentation<> hands{.shaft_lean = lean * units::deg, .face_angle = face * units::deg};
    const Delivery<> delivery = present(club_of(loft * units::deg, lie * units::deg), hands);
    CHECK(agrees(delivery.dynamic_loft / units::deg, expected, 5e-4, 0));
    CHECK(agrees(delivery.face_angle, face * units::deg, 1e-12, 0));
  }
}

TEST_CASE("a degree of toe up turns the face left, the more the more loft") {
  // Derived: loft -> face, in degrees, of a right-hander; tolerance: the printed digits.
  const std::array<std::array<double, 2>, 5> table{
      {{10.5, -0.185}, {24, -0.445}, {33, -0.649}, {46, -1.035}, {58, -1.600}}};
  for (const auto& [loft, face] : table) {
    const Club<> club = club_of(loft * units::deg, 62_deg);
    const Presentation<> toe_up{.lie_tilt = 1_deg};
    CHECK(agrees(present(club, toe_up).face_angle / units::deg, face, 5e-4, 0));
    CHECK(agrees(present(mirrored(club), toe_up).face_angle / units::deg, -face, 5e-4, 0));
  }
}

TEST_CASE("toe up turns the presented face by its closed form") {
  in_random_cases(
      [](Random& random) { return std::tuple(any_club(random), any_presentation(random)); },
      [](const Club<>& club, Presentation<> hands) {
        const double tilt = hands.lie_tilt, side = toe_side(club.hand);
        const Delivery<> tilted = present(club, hands);
        hands.lie_tilt = 0.0;
        const Delivery<> flat = present(club, hands);
        CHECK(agrees(flat.face_angle, hands.face_angle, 1e-12, 0));
        const double L = flat.dynamic_loft;
        CHECK(agrees(tilted.face_angle, hands.face_angle - side * std::atan(std::tan(L) * std::sin(tilt)),
                     1e-12, 0));
        CHECK(agrees(tilted.dynamic_loft, std::asin(std::sin(L) * std::cos(tilt)), 1e-12, 0));
      });
}

TEST_CASE("to first order dynamic loft is loft less lean plus face times the lie's cotangent") {
  for (const double face : {-1_deg, 1_deg}) {
    const Presentation<> hands{.shaft_lean = 6_deg, .face_angle = face};
    CHECK(agrees(present(club_of(33_deg, 62_deg), hands).dynamic_loft, 27_deg + face / std::tan(62_deg),
                 0.04_deg, 0));
  }
}

TEST_CASE("opening a face adds loft for either hand") {
  const Club<> right = club_of(33_deg, 62_deg), left = mirrored(right);
  const auto loft = [](const Club<>& club, double face) {
    return present(club, {.face_angle = face}).dynamic_loft;
  };
  CHECK(loft(right, 3_deg) > 33_deg);
  CHECK(loft(left, -3_deg) > 33_deg);
  CHECK(agrees(loft(right, 3_deg), loft(left, -3_deg), 1e-14, 0));
}

TEST_CASE("presenting a face leaves speed, path and attack") {
  const Delivery<> before{.clubhead_speed = 40.0, .club_path = 2_deg, .attack_angle = -4_deg};
  const Delivery<> after = present(club_of(33_deg, 62_deg), Presentation<>{}, before);
  CHECK(after.clubhead_speed == before.clubhead_speed);
  CHECK(after.club_path == before.club_path);
  CHECK(after.attack_angle == before.attack_angle);
}

TEST_CASE("a face is presented where it is asked for, or the club cannot be turned so far") {
  in_random_cases(
      [](Random& random) {
        Club<> club = club_of(random.between(-10, 80) * units::deg, random.between(40, 90) * units::deg);
        const Presentation<> hands{.shaft_lean = random.between(-45, 45) * units::deg,
                                   .face_angle = random.between(-60, 60) * units::deg};
        return std::tuple(club, hands);
      },
      [](const Club<>& club, const Presentation<>& hands) {
        try {
          const Delivery<> delivery = present(club, hands);
          CHECK(agrees(delivery.face_angle, hands.face_angle, 1e-9, 0));
        } catch (const InputError& error) {
          CHECK(error.field == "face_angle");
        }
      });
}

TEST_CASE("the presented face has the derivatives of its differences") {
  const auto presented = []<class T>(const T& loft, const T& lean, const T& face, const T& tilt) {
    const Club<T> club{.loft = loft, .lie_angle = T(62_deg), .length = T(1.0), .mass = T(0.25)};
    const Delivery<T> delivery = present(club, Presentation<T>{lean, face, tilt});
    return std::array{delivery.face_angle, delivery.dynamic_loft};
  };
  dual::differentiates([&]<class T>(const T& x) { return presented(x, T(0.1), T(0.03), T(0.02)); }, 0.5, 0.5);
  dual::differentiates([&]<class T>(const T& x) { return presented(T(0.5), x, T(0.03), T(0.02)); }, 0.1, 0.5);
  dual::differentiates([&]<class T>(const T& x) { return presented(T(0.5), T(0.1), x, T(0.02)); }, 0.03, 0.5);
  dual::differentiates([&]<class T>(const T& x) { return presented(T(0.5), T(0.1), T(0.03), x); }, 0.02, 0.5);
}
