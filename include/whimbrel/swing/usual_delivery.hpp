#pragma once
#include "whimbrel/swing/present.hpp"

namespace whimbrel {

/// The fastest a player swings: what usual deliveries are scaled by.
template <Scalar T = double>
struct Pace {
  T driver_speed{95 * units::mph};  ///< m/s, clubhead speed with a driver of 45.5 in

  static constexpr auto fields() {
    return std::array<Field<Pace, T>, 1>{{{"driver_speed", &Pace::driver_speed, "m/s", 15, 70}}};
  }
};

/// A usual delivery of a club by a player of this pace: square, straight, centred. All of it is common
/// practice of the trade without a source, put into formulas by this project: clubhead speed falls by
/// 2.45 % of the driver's for each inch off 45.5 in; a driver is hit level, other clubs down, from 2 deg
/// at 15 deg of loft to 5 deg at 60 deg; the shaft leans back 4 deg with a driver, forward with the
/// others, by 1 deg at 15 deg of loft and a quarter of a degree more for each degree above, at most 10.
template <Scalar T>
Delivery<T> usual_delivery(const Club<T>& club, const Pace<T>& pace = {}) {
  constexpr double degree = units::deg;
  const T shorter = (T(45.5 * units::inch) - club.length) / T(units::inch);
  const auto driver = club.loft < T(13 * degree);
  const T above = club.loft - T(15 * degree);
  const T lean = held(T(T(1 * degree) + T(0.25) * above), 0.0, 10 * degree);
  Delivery<T> hit =
      present(club, Presentation<T>{.shaft_lean = choose(driver, T(-4 * degree), lean)}, Delivery<T>{});
  hit.clubhead_speed = pace.driver_speed * (T(1.0) - T(0.0245) * shorter);
  hit.attack_angle = choose(driver, T(0.0), T(T(-2 * degree) - above / T(15.0)));
  return hit;
}

}  // namespace whimbrel
