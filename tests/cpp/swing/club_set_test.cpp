#include <doctest/doctest.h>

#include <whimbrel/swing/club_set.hpp>

#include "agrees.hpp"
#include "random_cases.hpp"

using namespace whimbrel;
using namespace whimbrel::test;

TEST_CASE("the clubs of a set are sound, and get shorter, heavier and more lofted down the set") {
  const auto set = club_set();
  for (std::size_t i = 0; i < set.size(); ++i) {
    CAPTURE(set[i].name);
    CHECK(!mistake(set[i]));
    if (i == 0) continue;
    CHECK(set[i].loft > set[i - 1].loft);
    CHECK(set[i].length < set[i - 1].length);
    CHECK(set[i].mass > set[i - 1].mass);
    CHECK(set[i].face_restitution <= set[i - 1].face_restitution);
  }
}

TEST_CASE("no club is longer than the rules allow") {
  // Published: 48 in.
  for (const Club<>& club : club_set()) CHECK(club.length <= 48 * units::inch);
}

TEST_CASE("a left-handed set is the same solids mirrored") {
  const auto right = club_set(Hand::right), left = club_set(Hand::left);
  for (std::size_t i = 0; i < right.size(); ++i) {
    CHECK(toe_side(right[i].hand) == 1.0);
    CHECK(toe_side(left[i].hand) == -1.0);
    CHECK(left[i].loft == right[i].loft);
    CHECK(left[i].name == right[i].name);
  }
}
