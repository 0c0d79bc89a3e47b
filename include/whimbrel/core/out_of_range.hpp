#pragma once
#include <array>

#include "whimbrel/core/field.hpp"

namespace whimbrel {

/// Where the contact model is calibrated from: face friction (dry), and the approach of face and ball, m/s.
inline constexpr double least_face_friction = 0.16, least_approach_speed = 10.0;

/// How far a result went outside the stated range of a model, where the model holds its edge value or is
/// extrapolated: 0 inside, negative below, positive above.
template <Scalar T = double>
struct OutOfRange {
  T face_friction{0.0};   ///< of the contact: from `least_face_friction` up
  T approach_speed{0.0};  ///< m/s, of face and ball along the normal: from `least_approach_speed` up
  T spin_ratio{0.0};      ///< of the aerodynamic model, the furthest seen at any step
  T reynolds{0.0};        ///< likewise
  T bounce_speed{0.0};    ///< m/s, of the first bounce: its range is that of the turf measured
  T bounce_angle{0.0};    ///< rad, of the first bounce's approach from the ground's normal

  static constexpr auto fields() {
    return std::array<Field<OutOfRange, T>, 6>{{{"face_friction", &OutOfRange::face_friction, "1"},
                                                {"approach_speed", &OutOfRange::approach_speed, "m/s"},
                                                {"spin_ratio", &OutOfRange::spin_ratio, "1"},
                                                {"reynolds", &OutOfRange::reynolds, "1"},
                                                {"bounce_speed", &OutOfRange::bounce_speed, "m/s"},
                                                {"bounce_angle", &OutOfRange::bounce_angle, "rad"}}};
  }
};

}  // namespace whimbrel
