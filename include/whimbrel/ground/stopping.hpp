#pragma once
#include "whimbrel/ground/run.hpp"

namespace whimbrel {

/// The least x between two bounds above which `holds` is true; NaN if it is false at the upper bound. `holds`
/// must stay true from there on, as it does for runs, which more spin or a steeper descent shortens.
template <class Holds>
double least_that_holds(double lower, double upper, const Holds& holds) {
  constexpr int halvings = 36;
  if (!holds(upper)) return NAN;
  if (holds(lower)) return lower;
  for (int i = 0; i < halvings; ++i) {
    const double middle = 0.5 * (lower + upper);
    (holds(middle) ? upper : lower) = middle;
  }
  return upper;
}

/// Room on a green: how far a ball may run past its pitch mark.
template <Scalar T = double>
struct Room {
  T depth{};  ///< m

  static constexpr auto fields() {
    return std::array<Field<Room, T>, 1>{{{"depth", &Room::depth, "m", 0, 200}}};
  }
};

inline constexpr double most_spin_to_hold = 1500.0;  // rad/s, 14,300 rpm

/// Whether the ball of this landing stops, and within the room past its pitch mark.
inline bool stops_within(const Landing<>& landing, const Room<>& room, const Ball<>& ball,
                         const Setting<>& setting, const Turf<>& turf) {
  const Run<> run = kernel::run(landing, ball, setting, turf);
  return run.status == Status::ok && run.distance <= room.depth;
}

/// The least spin rate, rad/s, with which a ball of this speed and descent stops within the room; NaN where
/// 1500 rad/s are not enough. The landing's own spin rate is ignored.
inline double spin_to_hold(Landing<> landing, const Room<>& room, const Ball<>& ball = {},
                           const Setting<>& setting = {}, const Turf<>& turf = {}) {
  check(landing, room, ball, setting, turf);
  return least_that_holds(0.0, most_spin_to_hold, [&](double spin) {
    landing.landing_spin_rate = spin;
    return stops_within(landing, room, ball, setting, turf);
  });
}

/// The least descent angle, rad, at which a ball of this speed and spin stops within the room; 90 degrees
/// come straight down. The landing's own descent angle is ignored.
inline double descent_to_hold(Landing<> landing, const Room<>& room, const Ball<>& ball = {},
                              const Setting<>& setting = {}, const Turf<>& turf = {}) {
  check(landing, room, ball, setting, turf);
  return least_that_holds(0.0, std::numbers::pi / 2, [&](double angle) {
    landing.descent_angle = angle;
    return stops_within(landing, room, ball, setting, turf);
  });
}

}  // namespace whimbrel
