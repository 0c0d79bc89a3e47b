#pragma once
#include <array>
#include <string>

#include "whimbrel/core/field.hpp"

namespace whimbrel {

/// The side the player swings from. A left-handed club is the mirrored solid: only club-frame
/// quantities (toe, toe up) and words map through it, target-frame ones never do.
enum class Hand : signed char { right = 1, left = -1 };

/// +1 for a right-handed club, whose toe points to +x; -1 for a left-handed one.
constexpr double toe_side(Hand hand) { return static_cast<double>(hand); }

template <Scalar T = double>
struct Club {
  std::string name{};
  Hand hand = Hand::right;
  T loft{};                   ///< rad, of the face against the shaft
  T lie_angle{};              ///< rad, of the shaft against the ground
  T length{};                 ///< m
  T mass{};                   ///< kg, of the head
  T face_restitution{0.773};  ///< normal restitution at an approach of 43.8 m/s

  static constexpr auto fields() {
    return std::array<Field<Club, T>, 5>{
        {{"loft", &Club::loft, "rad", -10 * units::deg, 80 * units::deg},
         {"lie_angle", &Club::lie_angle, "rad", 40 * units::deg, 90 * units::deg},
         {"length", &Club::length, "m", 0.3, 1.5},
         {"mass", &Club::mass, "kg", 0.05, 1.0},
         {"face_restitution", &Club::face_restitution, "1", 0, 1}}};
  }
};

}  // namespace whimbrel
