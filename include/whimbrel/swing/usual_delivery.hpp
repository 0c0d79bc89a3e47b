#pragma once
#include "whimbrel/swing/present.hpp"

namespace whimbrel {

/// The fastest a player swings: what usual deliveries depend on.
template <Scalar T = double>
struct Pace {
  T driver_speed{95 * units::mph};  ///< m/s, clubhead speed with a driver of 45.5 in

  static constexpr auto fields() {
    return std::array<Field<Pace, T>, 1>{
        {{"driver_speed", &Pace::driver_speed, "m/s", 40 * units::mph, 140 * units::mph}}};
  }
};

/// How far a club is played as a driver off a tee: 1 for a driver, 0 from a 3 wood on, smooth between. Length
/// and loft decide together: a driver of 44 in and 12 deg counts as one, a 3 wood of 13.5 deg does not.
template <Scalar T>
T tee_share(const Club<T>& club) {
  constexpr double inch = units::inch, degree = units::deg;
  const T from_driver =  // 0 of a driver of 45.5 in and 10.5 deg, 2 of a 3 wood of 43 in and 15 deg
      (T(45.5 * inch) - club.length) / T(2.5 * inch) + (club.loft - T(10.5 * degree)) / T(4.5 * degree);
  const T share = held(T((T(1.6) - from_driver) / T(0.6)), 0.0, 1.0);
  return square(share) * (T(3.0) - T(2.0) * share);
}

/// Lofts of clubs that have a usual full swing: no putter, nothing beyond a lob wedge.
inline constexpr double least_usual_loft = 7 * units::deg, greatest_usual_loft = 66 * units::deg;

/// What is wrong with a club that has no usual delivery.
template <Scalar T>
std::optional<InputError> no_usual_delivery(const Club<T>& club) {
  const double loft = value(club.loft);
  if (loft >= least_usual_loft && loft <= greatest_usual_loft) return std::nullopt;
  return InputError("loft", loft, least_usual_loft, greatest_usual_loft,
                    "is " + readable(loft, "rad") + ": such a club has no usual delivery; accepted: " +
                        readable(least_usual_loft, "rad") + " to " + readable(greatest_usual_loft, "rad"));
}

/// A usual delivery of a club by a player of this pace: square, straight and, except with a driver, centred.
/// Its formulas are calibrated by this project on common practice (`validation/usual_deliveries`): launches
/// of strong men at 113 mph, carries of strong women at 94 mph and of players at 70 mph.
///
/// - Speed falls with each inch below 45.5 in. Each further inch costs more, and a faster player loses more.
/// - A driver is struck 3 mm above the centre and about level, more upward by slower players. Other clubs are
///   hit down, by the cube of the pace.
/// - A driver's shaft leans back; other shafts lean forward, more with more loft. A slower player's shafts
///   all lean further back.
template <Scalar T>
Delivery<T> usual_delivery(const Club<T>& club, const Pace<T>& pace = {}) {
  using std::exp;
  constexpr double degree = units::deg, inch = units::inch, fast = 113 * units::mph;
  const T tee = tee_share(club), ground = T(1.0) - tee;
  const T share = pace.driver_speed / T(fast), slower = (T(fast) - pace.driver_speed) / T(units::mph);
  // Never longer than the rules allow, 48 in; the curve would turn there.
  const T shorter = larger(T((T(45.5 * inch) - club.length) / T(inch)), T(-2.5));
  const T loft = larger(T(club.loft / T(degree)), T(15.0));  // below it, more loft is all presented
  const T driver_lean = T(-2.1) - T(0.11) * slower;
  const T other_lean = T(12.0) - T(8.0) * exp((T(15.0) - loft) / T(10.0)) - T(0.152) * slower;
  const T lean = T(degree) * (tee * driver_lean + ground * other_lean);
  Delivery<T> hit = present(club, Presentation<T>{.shaft_lean = lean}, Delivery<T>{});
  hit.clubhead_speed =
      pace.driver_speed * exp(-shorter * (T(0.0095) + T(0.0021) * shorter) * (T(0.63) + T(0.37) * share));
  hit.attack_angle =
      T(degree) * (tee * (T(0.55) + T(0.027) * slower) - ground * T(3.9) * share * share * share);
  hit.strike_high = tee * T(3 * units::mm);
  return hit;
}

}  // namespace whimbrel
