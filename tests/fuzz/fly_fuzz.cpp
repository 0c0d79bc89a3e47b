// Any bytes at all, read as a launch or a swing, a ball and a setting, give a row with a defined result.
#include <cstdlib>
#include <cstring>
#include <whimbrel/whimbrel.hpp>

namespace {

using namespace whimbrel;

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
};

/// Each field of a value left alone, put inside its range, or any bit pattern.
template <class Value>
void scatter(Bytes& bytes, Value& value, bool in_range) {
  for (const auto& field : Value::fields()) {
    if (bytes.coin()) continue;
    value.*field.member = in_range ? bytes.between(field.lower, field.upper) : bytes.next<double>();
  }
}

AeroTable any_table(Bytes& bytes, bool in_range) {
  AeroTable table{.spin_ratio = {}, .reynolds = {}, .drag = {}, .lift = {}};
  const auto number = [&](double lower, double upper) {
    return in_range ? bytes.between(lower, upper) : bytes.next<double>();
  };
  const auto axis = [&](std::vector<double>& knots, double step) {
    const std::size_t count = 1 + bytes.below(4);
    for (double x = 0.0; knots.size() < count; x += number(1e-6, step)) knots.push_back(x);
  };
  axis(table.spin_ratio, 1.0);
  axis(table.reynolds, 2e5);
  for (std::size_t i = 0; i < table.spin_ratio.size() * table.reynolds.size(); ++i) {
    table.drag.push_back(number(0, 2));
    table.lift.push_back(number(-2, 2));
  }
  if (bytes.coin()) table.spin_decay = number(0, greatest_spin_decay);
  return table;
}

Ball<> any_ball(Bytes& bytes, bool in_range) {
  Ball<> ball;
  switch (bytes.below(5)) {
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
      ball.aero = any_table(bytes, in_range);
      break;
    default:
      break;
  }
  std::visit(
      [&](auto& model) {
        if constexpr (requires { model.fields(); }) scatter(bytes, model, in_range);
      },
      ball.aero);
  scatter(bytes, ball, in_range);
  return ball;
}

Setting<> any_setting(Bytes& bytes, bool in_range) {
  Setting<> setting;
  setting.wind.profile = static_cast<WindProfile>(bytes.below(3));
  scatter(bytes, setting.air, in_range);
  scatter(bytes, setting.wind, in_range);
  scatter(bytes, setting.terrain, in_range);
  if (bytes.below(8) == 1) {
    const double height = bytes.between(-30, 30), wave = bytes.between(0, 1);
    setting.terrain.surface = [=](double x, double y) { return height * std::sin(wave * (x + y)); };
  }
  return setting;
}

/// Any club of either hand, delivered and struck anyhow, by either model of impact.
Swing<> any_swing(Bytes& bytes, bool in_range) {
  const Hand hand = bytes.coin() ? Hand::left : Hand::right;
  Swing<> swing{{.clubhead_speed = 40.0, .dynamic_loft = 0.4}, club_set(hand)[bytes.below(13)]};
  if (bytes.coin()) swing.impact_model = ImpactModel::rigid;
  scatter(bytes, swing.delivery, in_range);
  scatter(bytes, swing.club, in_range);
  if (!in_range) return swing;
  // Most of the accepted strikes would miss the face.
  const bool centred = swing.impact_model == ImpactModel::rigid;
  swing.delivery.strike_toe = centred ? 0.0 : bytes.between(-0.5, 0.5) * swing.club.face_width;
  swing.delivery.strike_high = centred ? 0.0 : bytes.between(-0.5, 0.5) * swing.club.face_height;
  return swing;
}

/// An impact is made of finite numbers, and makes neither energy nor spin about the ball's path; 1e-9 is for
/// rounding.
void is_defined(const Impact<>& impact, const Swing<>& swing) {
  for (const auto& field : Impact<>::fields())
    if (!std::isfinite(impact.*field.member)) std::abort();
  if (!std::isfinite(norm(impact.head_velocity_after))) std::abort();
  if (!std::isfinite(norm(impact.head_rotation_after))) std::abort();
  if (!(impact.energy_lost >= 0.0)) std::abort();
  if (!(impact.launch.ball_speed > 0.0)) std::abort();
  if (std::abs(impact.launch.axial_spin_rate) > 1e-9 * (1 + impact.launch.spin_rate)) std::abort();
}

/// A landing is made of finite numbers; a row without one is not.
template <class Start>
void has_a_defined_result(const Start& start, const Ball<>& ball, const Setting<>& setting) {
  const Row row = play_row(start, ball, setting);
  const Flight<>& flight = row.shot.flight;
  const bool landed = flight.status == Status::ok || flight.status == Status::not_airborne;
  for (const auto& field : Flight<>::fields())
    if (std::isfinite(flight.*field.member) != landed) std::abort();
  if (row.error.has_value() != (flight.status == Status::bad_input)) std::abort();
  if (!landed) return;
  if (row.shot.impact) is_defined(*row.shot.impact, *row.shot.swing);
  for (const auto& field : Launch<>::fields())
    if (!std::isfinite(row.shot.launch.*field.member)) std::abort();
  const Vec3<double> halfway = flight.trajectory.position_at(0.5 * flight.flight_time);
  if (!std::isfinite(norm(halfway))) std::abort();
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  Bytes bytes{data, size};
  const bool in_range = bytes.below(4) != 0;
  if (bytes.coin()) {
    Launch<> launch{.ball_speed = 60.0, .launch_angle = 0.2, .spin_rate = 300.0};
    scatter(bytes, launch, in_range);
    const Ball<> ball = any_ball(bytes, in_range);
    has_a_defined_result(launch, ball, any_setting(bytes, in_range));
  } else {
    const Swing<> swing = any_swing(bytes, in_range);
    const Ball<> ball = any_ball(bytes, in_range);
    has_a_defined_result(swing, ball, any_setting(bytes, in_range));
  }
  return 0;
}
