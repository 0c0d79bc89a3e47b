#pragma once
#include <array>
#include <string>

#include "whimbrel/core/field.hpp"

namespace whimbrel {

/// What a ball lands and rolls on, relative to the turf that Penner's law of the bounce was fitted to. The
/// default is a firm fairway that bounces as that turf; how it slows a rolling ball is calibrated by this
/// project.
template <Scalar T = double>
struct Turf {
  std::string name = "firm fairway";
  T restitution_scale{1.0};     ///< factor on the restitution of the fitted turf
  T friction{0.40};             ///< coefficient between ball and turf, in a bounce and in a skid
  T tilt_scale{1.0};            ///< factor on how far the surface leans back; more on softer ground
  T rolling_deceleration{1.0};  ///< m/s^2, on the level, up to 6 m/s

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
  T stimp{10 * units::ft};  ///< m, how far a ball released by a Stimpmeter rolls
  T firmness{0.5};          ///< from 0, soft, to 1, firm

  static constexpr auto fields() {
    return std::array<Field<Green, T>, 2>{
        {{"stimp", &Green::stimp, "m", 1, 6}, {"firmness", &Green::firmness, "1", 0, 1}}};
  }
};

/// The turf of a green. Friction and scales are calibrated by this project on common practice, for the
/// launches in `validation/turf_run`; slower swings run more. A mid-iron runs 2 to 8 yd on a medium green. A
/// full wedge hops, checks and stops within 3 yd of its pitch mark, and can spin back on a soft green.
template <Scalar T>
Turf<T> turf_of(const Green<T>& green) {
  return {.name = "green",
          .restitution_scale = T(0.55) + T(0.45) * green.firmness,
          .friction = T(0.25),
          .tilt_scale = T(1.3) - T(0.3) * green.firmness,
          .rolling_deceleration = T(square(stimpmeter_release) / 2.0) / green.stimp};
}

/// Turfs by name. The firm fairway bounces by Penner's fit. All the rest is calibrated by this project on
/// common practice: a drive runs 10 to 30 yd on the firm fairway, under 10 yd on the soft one and under 8 yd
/// in rough.
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
