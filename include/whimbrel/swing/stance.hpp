#pragma once
#include "whimbrel/swing/swing_arc.hpp"

namespace whimbrel {

/// What ground and sole do to a swing: the slope stood on along the target line, and how far the toe is up.
template <Scalar T = double>
struct Stance {
  T uphill{0.0};    ///< rad, positive uphill
  T lie_tilt{0.0};  ///< rad, toe up positive; with the ball above the feet, the angle of that slope

  static constexpr auto fields() {
    return std::array<Field<Stance, T>, 2>{
        {{"uphill", &Stance::uphill, "rad", -45 * units::deg, 45 * units::deg},
         {"lie_tilt", &Stance::lie_tilt, "rad", -30 * units::deg, 30 * units::deg}}};
  }
};

/// The delivery on a stance of a swing made for level ground, sole flush. The face turns by -atan(tan(loft)
/// sin(lie_tilt)) (to the other side for left-handers) and loses loft; then path and face turn with the
/// slope. A stance of 0 changes nothing, exactly.
template <Scalar T>
Delivery<T> standing(Delivery<T> level, const Stance<T>& stance, Hand hand) {
  using std::asin, std::atan, std::cos, std::sin, std::tan;
  if (const T& tilt = stance.lie_tilt; value(tilt) != 0.0) {
    level.face_angle = level.face_angle - T(toe_side(hand)) * atan(tan(level.dynamic_loft) * sin(tilt));
    level.dynamic_loft = asin(sin(level.dynamic_loft) * cos(tilt));
    level.lie_tilt = level.lie_tilt + tilt;
  }
  return value(stance.uphill) == 0.0 ? level : on_uphill_stance(level, stance.uphill);
}

/// The swing behind a delivery on a stance: what the same swing delivers on level ground, sole flush. The
/// inverse of `standing`; loft and face are NaN if no such tilt can leave this loft.
template <Scalar T>
Delivery<T> without_stance(Delivery<T> delivery, const Stance<T>& stance, Hand hand) {
  using std::asin, std::atan, std::cos, std::sin, std::tan;
  if (value(stance.uphill) != 0.0) delivery = on_uphill_stance(delivery, T(-stance.uphill));
  if (const T& tilt = stance.lie_tilt; value(tilt) != 0.0) {
    delivery.dynamic_loft = asin(sin(delivery.dynamic_loft) / cos(tilt));
    delivery.face_angle =
        delivery.face_angle + T(toe_side(hand)) * atan(tan(delivery.dynamic_loft) * sin(tilt));
    delivery.lie_tilt = delivery.lie_tilt - tilt;
  }
  return delivery;
}

}  // namespace whimbrel
