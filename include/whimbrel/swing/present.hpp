#pragma once
#include <array>

#include "whimbrel/swing/club.hpp"
#include "whimbrel/swing/delivery.hpp"

namespace whimbrel {

/// How the hands present the club at impact.
template <Scalar T = double>
struct Presentation {
  T shaft_lean{};  ///< rad, forward positive
  T face_angle{};  ///< rad, azimuth the face is turned to about the shaft, before `lie_tilt`
  T lie_tilt{};    ///< rad, toe up positive

  static constexpr auto fields() {
    return std::array<Field<Presentation, T>, 3>{
        {{"shaft_lean", &Presentation::shaft_lean, "rad", -45 * units::deg, 45 * units::deg},
         {"face_angle", &Presentation::face_angle, "rad", -60 * units::deg, 60 * units::deg},
         {"lie_tilt", &Presentation::lie_tilt, "rad", -30 * units::deg, 30 * units::deg}}};
  }
};

/// The face normal of a club as the hands present it: leaned forward with the shaft, turned about the shaft
/// until its azimuth is the face angle, then tilted toe up about the line it points along.
template <Scalar T>
Vec3<T> presented_face(const Club<T>& club, const Presentation<T>& hands) {
  using std::acos, std::atan2, std::cos, std::sin, std::sqrt;
  const T side = T(toe_side(club.hand));
  const T &lie = club.lie_angle, &lean = hands.shaft_lean;
  const Vec3<T> s{-side * cos(lie), sin(lie) * sin(lean), sin(lie) * cos(lean)};
  const Vec3<T> n0 = direction(T(0.0), T(club.loft - lean));
  // Turned about s by phi, the normal has no part along q, right of the face angle, where
  // a cos(phi) + b sin(phi) + c = 0: of the two roots, the one nearer to no turn.
  const Vec3<T> q = right_of(hands.face_angle);
  const T c = dot(s, n0) * dot(q, s);
  const T a = dot(q, n0) - c, b = dot(q, cross(s, n0));
  const T middle = atan2(b, a), apart = acos(-c / sqrt(a * a + b * b));
  const T phi = choose(middle > T(0.0), middle - apart, middle + apart);
  const Vec3<T> n = turned(n0, s, phi);
  return turned(n, direction(hands.face_angle, T(0.0)), -side * hands.lie_tilt);
}

/// A delivery with the face presented so; its path, attack and speed stay.
/// @throws InputError where a field is out of range, or the club cannot be turned so far.
template <Scalar T>
Delivery<T> present(const Club<T>& club, const Presentation<T>& hands, Delivery<T> delivery = {}) {
  check(club, hands);
  const Vec3<T> n = presented_face(club, hands);
  delivery.face_angle = azimuth(n);
  delivery.dynamic_loft = elevation(n);
  delivery.lie_tilt = hands.lie_tilt;
  const double ahead = value(dot(n, direction(hands.face_angle, T(0.0))));
  if (!std::isfinite(value(delivery.dynamic_loft)) || ahead <= 0.0)
    throw InputError(
        "face_angle", value(hands.face_angle),
        "the club cannot be turned about its shaft as far as " + readable(value(hands.face_angle), "rad"));
  return delivery;
}

}  // namespace whimbrel
