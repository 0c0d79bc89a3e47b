#pragma once
// Bytes of a fuzzer read as numbers, and numbers as values of the row: inside their accepted ranges or not.
#include <cmath>
#include <cstdint>
#include <cstring>
#include <whimbrel/compiled.hpp>

namespace whimbrel::fuzz {

/// How far the numbers of a value may go: an eighth of their range from what is usual, all over their range,
/// or to any bit pattern.
enum class Reach : unsigned char { usual, accepted, anything };

/// The fuzzer's bytes as numbers; zeros when they run out.
struct Bytes {
  const std::uint8_t* data;
  std::size_t size;

  template <class Number>
  Number next() {
    Number x{};
    const std::size_t n = size < sizeof x ? size : sizeof x;
    std::memcpy(&x, data, n);
    data += n;
    size -= n;
    return x;
  }
  bool coin() { return next<std::uint8_t>() % 2 == 1; }
  std::size_t below(std::size_t count) { return next<std::uint8_t>() % count; }

  /// A whole number of steps from one edge of a range to the other, both included; of the inverse where the
  /// range has no end.
  double between(double lower, double upper) {
    if (upper > 1e300) return lower / (1 - next<std::uint16_t>() / 65535.0);
    return lower + (upper - lower) * (next<std::uint16_t>() / 65535.0);
  }
  double number(double lower, double upper, Reach reach) {
    return reach == Reach::anything ? next<double>() : between(lower, upper);
  }
  double near(double usual, double lower, double upper) {
    if (!(upper - lower < 1e300) || !std::isfinite(usual)) return usual;
    return held(usual + between(-0.125, 0.125) * (upper - lower), lower, upper);
  }
  Reach reach() {
    const std::size_t k = below(8);
    return k < 3 ? Reach::usual : k < 7 ? Reach::accepted : Reach::anything;
  }
};

/// Each field of a value left alone or changed.
template <class Value>
void scatter(Bytes& bytes, Value& value, Reach reach) {
  for (const auto& field : Value::fields()) {
    if (!bytes.coin()) continue;
    double& x = value.*field.member;
    x = reach == Reach::usual ? bytes.near(x, field.lower, field.upper)
                              : bytes.number(field.lower, field.upper, reach);
  }
}

inline AeroTable any_table(Bytes& bytes, Reach reach) {
  AeroTable table{.spin_ratio = {}, .reynolds = {}, .drag = {}, .lift = {}};
  const auto axis = [&](std::vector<double>& knots, double step) {
    const std::size_t count = 1 + bytes.below(4);
    for (double x = 0.0; knots.size() < count; x += bytes.number(1e-6, step, reach)) knots.push_back(x);
  };
  axis(table.spin_ratio, 1.0);
  axis(table.reynolds, 2e5);
  const bool extreme = bytes.below(16) == 1;
  const double most_drag = extreme ? 10 : 2, least_drag = extreme ? -10 : 0, most_lift = extreme ? 10 : 2;
  for (std::size_t i = 0; i < table.spin_ratio.size() * table.reynolds.size(); ++i) {
    table.drag.push_back(bytes.number(least_drag, most_drag, reach));
    table.lift.push_back(bytes.number(-most_lift, most_lift, reach));
  }
  if (bytes.coin()) table.spin_decay = bytes.number(0, extreme ? 1e-3 : 1e-4, reach);
  return table;
}

/// Any numbers of a ball, but for inertias that no ball of that mass and size has.
inline void scatter_ball(Bytes& bytes, Ball<>& ball, Reach reach) {
  scatter(bytes, ball, reach);
  const double most = ball.mass * ball.radius * ball.radius;
  if (ball.inertia > most) ball.inertia = 0.4 * most;
}

/// A ball by any model of its aerodynamics.
inline Ball<> any_ball(Bytes& bytes, Reach reach) {
  Ball<> ball;
  switch (bytes.below(8)) {
    case 1:
      ball.aero = SmitsSmith{};
      break;
    case 2:
      ball.aero = SquareRootLift{};
      break;
    case 3:
      ball.aero = ConstantCoefficients{};
      break;
    case 4:
      ball.aero = any_table(bytes, reach);
      break;
    default:
      break;
  }
  std::visit(
      [&](auto& model) {
        if constexpr (requires { model.fields(); }) scatter(bytes, model, reach);
      },
      ball.aero);
  scatter_ball(bytes, ball, reach);
  return ball;
}

/// Air, wind and a plane of ground.
inline Setting<> any_setting(Bytes& bytes, Reach reach) {
  Setting<> setting;
  setting.wind.profile = static_cast<WindProfile>(bytes.below(3));
  scatter(bytes, setting.air, reach);
  if (bytes.coin()) scatter(bytes, setting.wind, reach);  // else calm
  if (bytes.coin()) setting.wind.speed = 0.0;
  if (bytes.coin()) return setting;  // level
  scatter(bytes, setting.terrain, reach);
  if (bytes.coin()) setting.terrain.height = 0.0;
  return setting;
}

/// Waves of ground instead of a plane, now and then.
inline void may_undulate(Bytes& bytes, Terrain<>& terrain) {
  if (bytes.below(8) != 1) return;
  const double height = bytes.between(-30, 30), wave = bytes.between(0, 1);
  terrain.surface = [=](double x, double y) { return height * std::sin(wave * (x + y)); };
}

inline Launch<> any_launch(Bytes& bytes, Reach reach) {
  Launch<> launch{.ball_speed = 60.0, .launch_angle = 0.2, .spin_rate = 300.0};
  scatter(bytes, launch, reach);
  if (reach != Reach::anything)
    launch.axial_spin_rate = bytes.coin() ? bytes.between(-1, 1) * launch.spin_rate : 0.0;
  return launch;
}

inline Landing<> any_landing(Bytes& bytes, Reach reach) {
  Landing<> landing{.landing_speed = 25.0, .descent_angle = 0.7, .landing_spin_rate = 400.0};
  scatter(bytes, landing, reach);
  if (reach != Reach::anything)
    landing.axial_spin_rate = bytes.coin() ? bytes.between(-1, 1) * landing.landing_spin_rate : 0.0;
  return landing;
}

/// Any club of either hand, delivered and struck anyhow, by either model of impact.
inline Swing<> any_swing(Bytes& bytes, Reach reach) {
  const Hand hand = bytes.coin() ? Hand::left : Hand::right;
  Swing<> swing{{.clubhead_speed = 40.0, .dynamic_loft = 0.4}, club_set(hand)[bytes.below(13)]};
  if (bytes.below(4) == 1) swing.impact_model = ImpactModel::rigid;
  scatter(bytes, swing.delivery, reach);
  scatter(bytes, swing.club, reach);
  if (swing.club.loft < least_wet_loft) swing.club.face_wetness = 0.0;  // refused of less
  if (reach == Reach::anything) return swing;
  // Most of the accepted strikes would miss the face.
  const bool centred = swing.impact_model == ImpactModel::rigid;
  swing.delivery.strike_toe = centred ? 0.0 : bytes.between(-0.5, 0.5) * swing.club.face_width;
  swing.delivery.strike_high = centred ? 0.0 : bytes.between(-0.5, 0.5) * swing.club.face_height;
  return swing;
}

/// A turf of the set, changed or as it is.
inline Turf<> any_turf(Bytes& bytes, Reach reach) {
  const auto turfs = turf_set();
  Turf<> turf = turfs[bytes.below(turfs.size())];
  if (bytes.coin()) scatter(bytes, turf, reach);
  return turf;
}

}  // namespace whimbrel::fuzz
