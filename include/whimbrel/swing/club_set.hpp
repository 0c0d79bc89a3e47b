#pragma once
#include <array>

#include "whimbrel/swing/club.hpp"

namespace whimbrel {

/// An invented set from driver to lob wedge, every number inside the ranges of the trade (common
/// practice, no source). Irons and wedges have the restitution of a rigid face, 0.773, derived from
/// the rules' initial-velocity limit; the driver that of a head at the rules' limit, 0.844; the other
/// woods lie between.
inline std::array<Club<>, 13> club_set(Hand hand = Hand::right) {
  struct Row {
    const char* name;
    double loft_deg, lie_deg, length_in, mass_g, face_restitution;
  };
  constexpr std::array<Row, 13> rows{{{"driver", 10.5, 58.0, 45.5, 201, 0.844},
                                      {"3 wood", 15.0, 57.0, 43.0, 212, 0.832},
                                      {"5 wood", 18.5, 57.5, 42.0, 219, 0.824},
                                      {"4 hybrid", 22.0, 59.5, 39.75, 238, 0.806},
                                      {"5 iron", 26.0, 61.0, 38.25, 256, 0.773},
                                      {"6 iron", 29.5, 61.5, 37.5, 263, 0.773},
                                      {"7 iron", 33.0, 62.0, 37.0, 271, 0.773},
                                      {"8 iron", 37.0, 62.5, 36.5, 278, 0.773},
                                      {"9 iron", 41.0, 63.0, 36.0, 285, 0.773},
                                      {"pitching wedge", 45.5, 63.5, 35.75, 291, 0.773},
                                      {"gap wedge", 50.5, 64.0, 35.5, 295, 0.773},
                                      {"sand wedge", 55.5, 64.0, 35.25, 300, 0.773},
                                      {"lob wedge", 60.0, 64.0, 35.0, 303, 0.773}}};
  std::array<Club<>, 13> set;
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const Row& row = rows[i];
    set[i] = {row.name,
              hand,
              row.loft_deg * units::deg,
              row.lie_deg * units::deg,
              row.length_in * units::inch,
              row.mass_g * units::gram,
              row.face_restitution};
  }
  return set;
}

}  // namespace whimbrel
