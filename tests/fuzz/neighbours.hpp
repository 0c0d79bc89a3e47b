#pragma once
// Two rows that hardly differ land side by side.
#include "fast_path.hpp"

namespace whimbrel::fuzz {

/// How far apart two neighbours may land, m. Each flight of the fast path may be two decimetres from where
/// the exact one lands (`Accuracy`), after many seconds of skimming the ground in a gale.
inline constexpr double side_by_side = 0.5;

/// Neighbours come to rest side by side too; two flights' errors may grow in up to 20 hops.
inline constexpr double rest_side_by_side = 2.0;

/// Sine of the angle with which a ball comes down on the plane of the ground.
inline double steepness(const FastShot& shot, const Terrain<>& terrain) {
  const Vec3<double> way = direction(shot.landing.landing_direction, -shot.landing.descent_angle);
  return -dot(way, ground_normal(terrain, 0.0, 0.0));
}

/// A landing at less than this grazes the ground: a neighbour may pass above it and land far on, as any path
/// does that only just touches the ground.
inline constexpr double grazing = 0.03;

inline bool land_apart(const FastShot& a, const FastShot& b) {
  return std::hypot(a.flight.offline - b.flight.offline, a.flight.downrange - b.flight.downrange) >
         side_by_side;
}
inline bool rest_apart(const FastShot& a, const FastShot& b) {
  return std::hypot(a.run.total_offline - b.run.total_offline,
                    a.run.total_downrange - b.run.total_downrange) > rest_side_by_side;
}

/// Two rows with the same status land side by side but where one grazes the ground.
inline bool jump_in_landing(const Case& c, const FastShot& a, const FastShot& b) {
  return a.status == b.status && landed(a.flight_status()) && land_apart(a, b) &&
         steepness(a, c.setting.terrain) > grazing && steepness(b, c.setting.terrain) > grazing;
}

/// Two rows that land side by side, bounce as often and come to rest do so side by side: one hop more or less
/// is an event, as is a slope that only just holds a ball.
inline bool jump_in_rest(const FastShot& a, const FastShot& b) {
  return a.status == b.status && landed(a.flight_status()) && !land_apart(a, b) &&
         a.run.status == Status::ok && b.run.status == Status::ok && a.run.bounces == b.run.bounces &&
         rest_apart(a, b);
}

/// The numbers of a row that its flight depends on.
inline std::vector<double*> numbers_in_flight(Case& c) {
  std::vector<double*> numbers;
  const auto note = [&]<class Value>(Value& value) {
    for (const auto& field : Value::fields()) numbers.push_back(&(value.*field.member));
  };
  note(std::get<Launch<>>(c.start));
  note(c.setting.air);
  note(c.setting.wind);
  note(c.setting.terrain);
  return numbers;
}

/// Whether rows whose k-th number is x and y come out apart, `apart(shot, shot)`, however close x and y are
/// brought: steep is not a jump, so the half that is farther apart is halved again.
template <class Apart>
bool jumps(Case c, std::size_t k, double x, double y, const Apart& apart) {
  const auto shot_at = [&](double number) {
    *numbers_in_flight(c)[k] = number;
    return play_fast({c})[0];
  };
  FastShot at_x = shot_at(x), at_y = shot_at(y);
  while (apart(at_x, at_y)) {
    const double middle = 0.5 * (x + y);
    if (middle == x || middle == y) return true;  // next to each other
    const FastShot at_middle = shot_at(middle);
    const bool first_half = apart(at_x, at_middle);
    (first_half ? y : x) = middle;
    (first_half ? at_y : at_x) = at_middle;
  }
  return false;
}

/// A row by launch lands and rests near the row that differs by a millionth in its k-th number.
inline void keep_neighbours(const Case& c, std::size_t k) {
  Case neighbour = c;
  const std::vector<double*> numbers = numbers_in_flight(neighbour);
  double& number = *numbers[k % numbers.size()];
  const double x = number, y = x == 0.0 ? 1e-6 : x * (1 + 1e-6);
  number = y;
  if (mistake(c) || mistake(neighbour)) return;
  k %= numbers.size();
  keep(!jumps(c, k, x, y, [&](const FastShot& a, const FastShot& b) { return jump_in_landing(c, a, b); }),
       "neighbours land side by side", c);
  keep(!jumps(c, k, x, y, jump_in_rest), "neighbours that bounce as often rest side by side", c);
}

}  // namespace whimbrel::fuzz
