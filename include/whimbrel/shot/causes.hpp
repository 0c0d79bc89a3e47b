#pragma once
#include <array>
#include <string>
#include <string_view>

#include "whimbrel/setting/setting.hpp"
#include "whimbrel/swing/stance.hpp"

namespace whimbrel {

/// What can make a shot differ from a reference shot with the same club and ball. Closure counts with the
/// strike point: it only adds to the speed of a strike away from the face's centre.
enum class Cause : unsigned char {
  face_angle,
  path,
  attack_and_loft,
  clubhead_speed,
  strike_point,
  stance_and_lie,
  wind,
  air_and_terrain
};

inline constexpr std::size_t cause_count = 8;

constexpr std::string_view describe(Cause cause) {
  constexpr std::array<std::string_view, cause_count> words{
      "face angle",     "path", "attack and dynamic loft", "clubhead speed", "strike point",
      "stance and lie", "wind", "air and terrain"};
  return words[static_cast<std::size_t>(cause)];
}

/// A set of causes, a bit each.
using Causes = unsigned;
inline constexpr Causes every_cause = (1u << cause_count) - 1;
constexpr Causes set_of(Cause cause) { return 1u << static_cast<unsigned>(cause); }
constexpr bool holds(Causes causes, Cause cause) { return (causes & set_of(cause)) != 0; }

/// Everything that decides a shot except club and ball: the swing on level ground, sole flush; the stance;
/// the delivery that they make together; and where the ball flies.
template <Scalar T = double>
struct Stroke {
  Delivery<T> level{};
  Stance<T> stance{};
  Delivery<T> delivery{};
  Setting<T> setting{};
};

/// The stroke behind a delivery whose `lie_tilt` came from lie and stance, on a slope of `uphill`.
/// @throws InputError for numbers outside their range, or a loft that no such lie can leave.
template <Scalar T>
Stroke<T> stroke_of(const Delivery<T>& delivery, const T& uphill, Hand hand, const Setting<T>& setting) {
  const Stance<T> stance{uphill, delivery.lie_tilt};
  check(delivery, stance, setting);
  const Delivery<T> level = without_stance(delivery, stance, hand);
  if (!std::isfinite(value(level.dynamic_loft)))
    throw InputError("dynamic_loft", value(delivery.dynamic_loft),
                     "no lie tilt of " + readable(value(stance.lie_tilt), "rad") + " can leave a loft of " +
                         readable(value(delivery.dynamic_loft), "rad"));
  return {level, stance, delivery, setting};
}

/// The causes that differ between two strokes. Swings closer than 1e-12 (SI) are the same: removing a stance
/// leaves that much rounding. Without speed, a wind's direction does not count.
template <Scalar T>
Causes differing(const Stroke<T>& a, const Stroke<T>& b) {
  Causes causes = 0;
  const auto near = [](const T& x, const T& y) { return std::abs(value(x) - value(y)) <= 1e-12; };
  const auto note = [&](Cause cause, bool same) { causes |= same ? 0u : set_of(cause); };
  const auto same_fields = []<class Value>(const Value& x, const Value& y) {
    for (const auto& field : Value::fields())
      if (value(x.*field.member) != value(y.*field.member)) return false;
    return true;
  };
  const auto &p = a.level, &q = b.level;
  const auto &v = a.setting, &w = b.setting;
  note(Cause::face_angle, near(p.face_angle, q.face_angle));
  note(Cause::path, near(p.club_path, q.club_path));
  note(Cause::attack_and_loft, near(p.attack_angle, q.attack_angle) && near(p.dynamic_loft, q.dynamic_loft));
  note(Cause::clubhead_speed, near(p.clubhead_speed, q.clubhead_speed));
  note(Cause::strike_point, near(p.strike_toe, q.strike_toe) && near(p.strike_high, q.strike_high) &&
                                near(p.closure_rate, q.closure_rate));
  note(Cause::stance_and_lie, same_fields(a.stance, b.stance) && near(p.lie_tilt, q.lie_tilt));
  const bool calm = value(v.wind.speed) == 0.0 && value(w.wind.speed) == 0.0;
  note(Cause::wind, calm || (same_fields(v.wind, w.wind) && v.wind.profile == w.wind.profile));
  note(Cause::air_and_terrain, same_fields(v.air, w.air) && same_fields(v.terrain, w.terrain) &&
                                   !v.terrain.surface && !w.terrain.surface);
  return causes;
}

/// The reference with these causes taken from the shot; with all of them, the very shot.
template <Scalar T>
Stroke<T> with_causes(const Stroke<T>& reference, const Stroke<T>& shot, Causes causes, Hand hand) {
  if (causes == every_cause) return shot;
  Stroke<T> mixed = reference;
  Delivery<T>& swing = mixed.level;
  if (holds(causes, Cause::face_angle)) swing.face_angle = shot.level.face_angle;
  if (holds(causes, Cause::path)) swing.club_path = shot.level.club_path;
  if (holds(causes, Cause::attack_and_loft)) {
    swing.attack_angle = shot.level.attack_angle;
    swing.dynamic_loft = shot.level.dynamic_loft;
  }
  if (holds(causes, Cause::clubhead_speed)) swing.clubhead_speed = shot.level.clubhead_speed;
  if (holds(causes, Cause::strike_point)) {
    swing.strike_toe = shot.level.strike_toe;
    swing.strike_high = shot.level.strike_high;
    swing.closure_rate = shot.level.closure_rate;
  }
  if (holds(causes, Cause::stance_and_lie)) {
    mixed.stance = shot.stance;
    swing.lie_tilt = shot.level.lie_tilt;
  }
  if (holds(causes, Cause::wind)) mixed.setting.wind = shot.setting.wind;
  if (holds(causes, Cause::air_and_terrain)) {
    mixed.setting.air = shot.setting.air;
    mixed.setting.terrain = shot.setting.terrain;
  }
  mixed.delivery = standing(swing, mixed.stance, hand);
  return mixed;
}

/// A set of causes in words: "face angle, wind".
inline std::string listed(Causes causes) {
  std::string words;
  for (unsigned i = 0; i < cause_count; ++i)
    if (const auto cause = static_cast<Cause>(i); holds(causes, cause))
      (words += words.empty() ? "" : ", ") += describe(cause);
  return words.empty() ? "no cause" : words;
}

}  // namespace whimbrel
