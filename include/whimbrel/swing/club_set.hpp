#pragma once
#include <array>

#include "whimbrel/swing/club.hpp"

namespace whimbrel {

/// An invented set from driver to lob wedge, every number inside the ranges of the trade (common practice, no
/// source). Irons and wedges have the restitution of a rigid face. The driver has 0.840, which falls with
/// speed to the rules' limit of 0.830 at 48.8 m/s. The other woods are between. Woods have bulge and roll;
/// irons and wedges are flat.
inline std::array<Club<>, 13> club_set(Hand hand = Hand::right) {
  struct Head {  // g cm^2 about target line, vertical, heel-toe line; mm
    double inertia_target, inertia_vertical, inertia_heel_toe, cg_depth, bulge_and_roll, width, height;
  };
  constexpr double flat = std::numeric_limits<double>::infinity(), rigid = rigid_face_restitution;
  constexpr Head driver{2800, 4800, 3000, 36, 305, 115, 58}, fairway{1500, 2700, 1500, 22, 280, 95, 38},
      hybrid{1100, 2600, 1300, 17, 330, 80, 36}, iron{900, 2500, 700, 11.5, flat, 80, 40},
      wedge{1000, 2700, 900, 10, flat, 82, 44};
  struct Row {
    const char* name;
    double loft_deg, lie_deg, length_in, mass_g, face_restitution;
    Head head;
  };
  constexpr std::array<Row, 13> rows{{{"driver", 10.5, 58.0, 45.5, 201, 0.840, driver},
                                      {"3 wood", 15.0, 57.0, 43.0, 212, 0.832, fairway},
                                      {"5 wood", 18.5, 57.5, 42.0, 219, 0.824, fairway},
                                      {"4 hybrid", 22.0, 59.5, 39.75, 238, 0.806, hybrid},
                                      {"5 iron", 26.0, 61.0, 38.25, 256, rigid, iron},
                                      {"6 iron", 29.5, 61.5, 37.5, 263, rigid, iron},
                                      {"7 iron", 33.0, 62.0, 37.0, 271, rigid, iron},
                                      {"8 iron", 37.0, 62.5, 36.5, 278, rigid, iron},
                                      {"9 iron", 41.0, 63.0, 36.0, 285, rigid, iron},
                                      {"pitching wedge", 45.5, 63.5, 35.75, 291, rigid, iron},
                                      {"gap wedge", 50.5, 64.0, 35.5, 295, rigid, wedge},
                                      {"sand wedge", 55.5, 64.0, 35.25, 300, rigid, wedge},
                                      {"lob wedge", 60.0, 64.0, 35.0, 303, rigid, wedge}}};
  constexpr double g_cm2 = 1e-7;
  std::array<Club<>, 13> set;
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const Row& row = rows[i];
    const Head& head = row.head;
    set[i] = {.name = row.name,
              .hand = hand,
              .loft = row.loft_deg * units::deg,
              .lie_angle = row.lie_deg * units::deg,
              .length = row.length_in * units::inch,
              .mass = row.mass_g * units::gram,
              .face_restitution = row.face_restitution,
              .inertia_target = head.inertia_target * g_cm2,
              .inertia_vertical = head.inertia_vertical * g_cm2,
              .inertia_heel_toe = head.inertia_heel_toe * g_cm2,
              .cg_depth = head.cg_depth * units::mm,
              .bulge_radius = head.bulge_and_roll * units::mm,
              .roll_radius = head.bulge_and_roll * units::mm,
              .face_width = head.width * units::mm,
              .face_height = head.height * units::mm};
  }
  return set;
}

/// A club of the set by its name, such as "7 iron".
/// @throws InputError for a name that is not in the set.
inline Club<> shipped_club(std::string_view name, Hand hand = Hand::right) {
  std::string names;
  for (const Club<>& club : club_set(hand)) {
    if (club.name == name) return club;
    names += (names.empty() ? "" : ", ") + club.name;
  }
  throw InputError("club", 0.0, "no club is called \"" + std::string(name) + "\"; there are: " + names);
}

}  // namespace whimbrel
