#pragma once
#include <array>
#include <string>

#include "whimbrel/core/field.hpp"

namespace whimbrel {

/// What a ball lands and rolls on, as departures from the turf that Penner's law of the bounce was fitted
/// to. The default is that turf, a firm fairway.
template <Scalar T = double>
struct Turf {
  std::string name = "firm fairway";
  T restitution_scale{1.0};     ///< of the measured turf's restitution
  T friction{0.40};             ///< coefficient between ball and turf, in a bounce and in a skid
  T tilt_scale{1.0};            ///< of how far the surface leans back at the ball; more on softer ground
  T rolling_deceleration{1.0};  ///< m/s^2, of a ball rolling on the level

  static constexpr auto fields() {
    return std::array<Field<Turf, T>, 4>{
        {{"restitution_scale", &Turf::restitution_scale, "1", 0, 1.9},
         {"turf friction", &Turf::friction, "1", 0, 2},
         {"tilt_scale", &Turf::tilt_scale, "1", 0, 3},
         {"rolling_deceleration", &Turf::rolling_deceleration, "m/s^2", 0, 20}}};
  }
};

/// Speed at which a ball leaves the Stimpmeter, m/s (published, from memory: 6.00 ft/s).
inline constexpr double stimpmeter_release = 1.83;

/// A green as its keeper describes it.
template <Scalar T = double>
struct Green {
  T stimp{10 * units::ft};  ///< m, how far a ball rolls that a Stimpmeter released
  T firmness{0.5};          ///< from 0, soft, to 1, firm

  static constexpr auto fields() {
    return std::array<Field<Green, T>, 2>{
        {{"stimp", &Green::stimp, "m", 1, 6}, {"firmness", &Green::firmness, "1", 0, 1}}};
  }
};

/// The turf of a green. Friction and scales are calibrated by this project on common practice: a mid-iron
/// runs 2 to 8 yd on a medium green, a full wedge hops on, checks and stops within 3 yd of its pitch mark,
/// and can spin back where soft (for the launches in `validation/turf_run`; slower swings run more).
template <Scalar T>
Turf<T> turf_of(const Green<T>& green) {
  return {.name = "green",
          .restitution_scale = T(0.55) + T(0.45) * green.firmness,
          .friction = T(0.25),
          .tilt_scale = T(1.3) - T(0.3) * green.firmness,
          .rolling_deceleration = T(square(stimpmeter_release) / 2.0) / green.stimp};
}

/// Turfs by name. The firm fairway bounces as the turf of Penner's measurements; how it slows a rolling ball,
/// and the others, are calibrated by this project so that a drive runs 10 to 30 yd on the firm fairway, under
/// 10 yd on the soft one and under 8 yd in rough (common practice).
inline std::array<Turf<>, 6> turf_set() {
  const auto green = [](const char* name, double firmness) {
    Turf<> turf = turf_of(Green<>{.firmness = firmness});
    turf.name = name;
    return turf;
  };
  return {{{},
           {"soft fairway", 0.6, 0.45, 1.3, 2.4},
           {"rough", 0.3, 0.60, 1.3, 4.5},
           green("soft green", 0.0),
           green("medium green", 0.5),
           green("firm green", 1.0)}};
}

/// A turf of the set by name.
/// @throws InputError for a name the set does not have.
inline Turf<> shipped_turf(std::string_view name) {
  std::string names;
  for (const Turf<>& turf : turf_set()) {
    if (turf.name == name) return turf;
    names += (names.empty() ? "" : ", ") + turf.name;
  }
  throw InputError("turf", 0.0, "no turf is called \"" + std::string(name) + "\"; there are: " + names);
}

}  // namespace whimbrel
