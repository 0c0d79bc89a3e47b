#pragma once
#include <array>
#include <limits>
#include <string>

#include "whimbrel/core/field.hpp"

namespace whimbrel {

/// The side the player swings from. A left-handed club is the mirrored solid: only club-frame
/// quantities (toe, toe up) and words map through it, target-frame ones never do.
enum class Hand : signed char { right = 1, left = -1 };

/// +1 for a right-handed club, whose toe points to +x; -1 for a left-handed one.
constexpr double toe_side(Hand hand) { return static_cast<double>(hand); }

/// Normal restitution of ball and rigid face at an approach of 43.8 m/s: calibrated on the ball speeds of the
/// trade's irons, whose averages hold strikes off the centre. The rules' limit of the ball allows 0.773
/// (derived).
inline constexpr double rigid_face_restitution = 0.745;

template <Scalar T = double>
struct Club {
  [[no_unique_address]] UnlessLanes<T, std::string> name{};
  Hand hand = Hand::right;
  T loft{};                                    ///< rad, of the face against the shaft
  T lie_angle{};                               ///< rad, of the shaft against the ground
  T length{};                                  ///< m
  T mass{};                                    ///< kg, of the head
  T face_restitution{rigid_face_restitution};  ///< normal restitution at an approach of 43.8 m/s
  T inertia_target{0.9e-4};    ///< kg m^2, of the head about the target line through its centre of mass
  T inertia_vertical{2.5e-4};  ///< kg m^2, about the vertical
  T inertia_heel_toe{0.7e-4};  ///< kg m^2, about the heel-toe line
  T cg_depth{0.0115};          ///< m, of the centre of mass behind the face centre, along the face normal
  T cg_toe{0.0};               ///< m, of the centre of mass toward the toe from there
  T cg_crown{0.0};             ///< m, toward the crown
  T bulge_radius{std::numeric_limits<double>::infinity()};  ///< m, heel-toe; infinite: flat
  T roll_radius{std::numeric_limits<double>::infinity()};   ///< m, crown-sole; infinite: flat
  T face_width{0.080};                                      ///< m, of the face's outline, heel to toe
  T face_height{0.040};                                     ///< m, sole to crown
  T shaft_mass{0.020};  ///< kg, what of the shaft moves with the head through the contact
  T face_wetness{0.0};  ///< from 0, dry, to 1, as wet or grassy as it gets; of wedges only

  static constexpr auto fields() {
    constexpr double infinity = std::numeric_limits<double>::infinity();
    return std::array<Field<Club, T>, 17>{
        {{"loft", &Club::loft, "rad", -10 * units::deg, 80 * units::deg},
         {"lie_angle", &Club::lie_angle, "rad", 40 * units::deg, 90 * units::deg},
         {"length", &Club::length, "m", 0.3, 1.5},
         {"mass", &Club::mass, "kg", 0.05, 1.0},
         {"face_restitution", &Club::face_restitution, "1", 0, 1},
         {"inertia_target", &Club::inertia_target, "kg m^2", 1e-5, 1e-2},
         {"inertia_vertical", &Club::inertia_vertical, "kg m^2", 1e-5, 1e-2},
         {"inertia_heel_toe", &Club::inertia_heel_toe, "kg m^2", 1e-5, 1e-2},
         {"cg_depth", &Club::cg_depth, "m", 0, 0.1},
         {"cg_toe", &Club::cg_toe, "m", -0.05, 0.05},
         {"cg_crown", &Club::cg_crown, "m", -0.05, 0.05},
         {"bulge_radius", &Club::bulge_radius, "m", 0.1, infinity},
         {"roll_radius", &Club::roll_radius, "m", 0.1, infinity},
         {"face_width", &Club::face_width, "m", 0.01, 0.2},
         {"face_height", &Club::face_height, "m", 0.01, 0.2},
         {"shaft_mass", &Club::shaft_mass, "kg", 0, 0.2},
         {"face_wetness", &Club::face_wetness, "1", 0, 1}}};
  }
};

/// The least loft at which a wet face is calibrated. At less, the contact would hardly lose spin with its
/// friction, as wet faces do.
inline constexpr double least_wet_loft = 44 * units::deg;

template <Scalar T>
std::optional<InputError> mistake(const Club<T>& club) {
  if (auto error = out_of_bounds(club)) return error;
  const double wetness = value(club.face_wetness), loft = value(club.loft);
  if (wetness == 0.0 || loft >= least_wet_loft) return std::nullopt;
  return InputError("face_wetness", wetness, 0.0, 0.0,
                    "is " + readable(wetness, "1") + " on a loft of " + readable(loft, "rad") +
                        ": wet faces are calibrated from " + readable(least_wet_loft, "rad") +
                        " up, so here it must be 0");
}

/// Mass that meets the ball, kg. The shaft's part acts at the head's centre of mass and adds no moment of
/// inertia.
template <Scalar T>
T moving_mass(const Club<T>& club) {
  return club.mass + club.shaft_mass;
}

}  // namespace whimbrel
