#pragma once
#include <utility>

#include "whimbrel/swing/club.hpp"
#include "whimbrel/swing/d_plane.hpp"
#include "whimbrel/swing/struck_face.hpp"

namespace whimbrel {

/// How club and ball are taken to meet: by the compliant contact, or by the closed-form rigid model, for
/// teaching.
enum class ImpactModel : unsigned char { compliant, rigid };

/// A club and how it is delivered.
template <Scalar T = double>
struct Swing {
  Delivery<T> delivery{};
  Club<T> club{};
  ImpactModel impact_model = ImpactModel::compliant;
};

/// A strike must lie on the face; the rigid model knows no strike but the centred one.
template <Scalar T>
std::optional<InputError> mistake(const Swing<T>& swing) {
  if (auto error = first_mistake(swing.delivery, swing.club)) return error;
  const double toe = value(swing.delivery.strike_toe), high = value(swing.delivery.strike_high);
  const double across = 0.5 * value(swing.club.face_width), up = 0.5 * value(swing.club.face_height);
  if (std::abs(toe) > across)
    return InputError("strike_toe", toe,
                      "the ball missed the face: " + readable(toe, "m") + " toward the toe; accepted: " +
                          readable(-across, "m") + " to " + readable(across, "m"));
  if (std::abs(high) > up)
    return InputError("strike_high", high,
                      "the ball missed the face: " + readable(high, "m") +
                          " high; accepted: " + readable(-up, "m") + " to " + readable(up, "m"));
  for (const auto& [field, offset] : {std::pair{"strike_toe", toe}, std::pair{"strike_high", high}})
    if (swing.impact_model == ImpactModel::rigid && offset != 0)
      return InputError(
          field, offset,
          "the rigid model knows centred strikes only; accepted: 0 m, not " + readable(offset, "m"));
  const StruckFace<T> face = struck_face(swing.delivery, swing.club);
  const double approach = value(dot(face.velocity, face.normal));
  if (!(approach > 0.0))
    return InputError("strike", approach,
                      "the face is not approaching the ball where they meet: " + readable(approach, "m/s") +
                          " along its normal there; accepted: above 0");
  return std::nullopt;
}

}  // namespace whimbrel
