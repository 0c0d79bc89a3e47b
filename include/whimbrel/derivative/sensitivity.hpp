#pragma once
#include <algorithm>
#include <numeric>
#include <span>

#include "whimbrel/batch/kernels.hpp"
#include "whimbrel/derivative/shot_inputs.hpp"

namespace whimbrel {

/// Where a shot's numbers are not smooth in its inputs: its derivatives hold on its own side only.
struct Kinks {
  bool contact = false;  ///< ball and face are at the edge of sticking and sliding in another order
  bool ground = false;   ///< level ground in a wind that is read above the lower of tee and ground
};

/// How near an edge counts as on it: a share of an input's size.
inline constexpr double nearly = 3e-4;

/// The results of one shot and their derivatives.
struct Sensitivity {
  std::vector<double> results{};  ///< in the order of `results_of`, SI; NaN where the shot has none
  std::vector<double>
      slopes{};  ///< by result and input: that of result i by the k-th input asked for is i n + k
  Status status = Status::ok, run_status = Status::ok;
  Kinks kinks{};
};

namespace kernel {

/// What an input varies on, SI: a radian, 30 mm of a strike, 50 rad/s, or its own size.
inline double size_of(double x, std::string_view unit) {
  return unit == "rad" ? 1.0 : unit == "m" ? 0.03 : unit == "rad/s" ? 50.0 : std::abs(x);
}

/// How often ball and face of each swing go over from sticking to sliding or back: all swings struck at once.
inline std::vector<double> friction_changes_of(const std::vector<ShotInputs<>>& shots) {
  static_assert(sizeof(ShotInputs<>) % sizeof(double) == 0);
  const std::ptrdiff_t apart = sizeof(ShotInputs<>) / sizeof(double);
  std::vector<double> changes(shots.size());
  std::vector<std::size_t> rows(shots.size());
  std::iota(rows.begin(), rows.end(), std::size_t{0});
  StrikeColumns columns;
  set_columns(columns, shots.front().swing, shots.front().ball, apart);
  columns.friction_changes = {changes.data(), 1};
  kernels().strike({columns, rows.data(), rows.size()});
  return changes;
}

/// Whether ball and face stick and slide in another order once one of the inputs is a little more or less.
inline bool near_a_kink_of_contact(const ShotInputs<>& inputs, std::span<const std::size_t> by) {
  if (inputs.measured) return false;
  const std::vector<NamedNumber> names = inputs_of(inputs);
  const std::size_t deciding =
      Delivery<>::fields().size() + Club<>::fields().size() + Ball<>::fields().size();
  std::vector<ShotInputs<>> around{inputs};
  for (const std::size_t k : by)
    for (const double way : {-nearly, nearly})
      if (k < deciding)
        around.push_back(lifted<double>(inputs, [&](std::size_t i, double x) {
          return i == k && std::isfinite(x) ? x + way * size_of(x, names[k].unit) : x;
        }));
  const std::vector<double> changes = friction_changes_of(around);
  return std::any_of(changes.begin(), changes.end(), [&](double there) { return there != changes.front(); });
}

/// Whether a small tilt, rise or fall of the ground changes the height at which the wind begins. Where the
/// ground is level with the tee along the whole path, it does so to one side only.
inline bool near_a_kink_of_ground(const ShotInputs<>& inputs, std::span<const std::size_t> by) {
  const Wind<>& wind = inputs.setting.wind;
  const Terrain<>& ground = inputs.setting.terrain;
  const auto none = [](double x, std::string_view unit) {
    return std::abs(x) <= nearly * (unit == "m" ? size_of(x, unit) : 1.0);
  };
  if (wind.profile == WindProfile::uniform || wind.speed == 0.0 || !none(ground.height, "m") ||
      !none(ground.slope_right, "1") || !none(ground.slope_downrange, "1"))
    return false;
  const std::vector<NamedNumber> names = inputs_of(inputs);
  return std::any_of(by.begin(), by.end(), [&](std::size_t k) {
    return names[k].name == "height" || names[k].name == "slope_right" || names[k].name == "slope_downrange";
  });
}

/// The exact partial derivatives of a shot's numbers by some inputs, given by their places in `inputs_of`.
/// The row is played in dual numbers, `inputs_a_pass` inputs at once.
inline Sensitivity sensitivity(const ShotInputs<>& inputs, std::span<const std::size_t> by) {
  Sensitivity told;
  for (std::size_t first = 0; first == 0 || first < by.size(); first += inputs_a_pass) {
    const auto now = by.subspan(first, std::min<std::size_t>(inputs_a_pass, by.size() - first));
    const Shot<Partials> shot = play(lifted<Partials>(inputs, [&](std::size_t k, double x) {
      Partials number(x);
      for (std::size_t i = 0; i < now.size(); ++i)
        if (now[i] == k) number = Partials::input(x, static_cast<int>(i));
      return number;
    }));
    const bool once = first == 0;
    std::size_t row = 0;
    each_result(shot, each_field([&](const auto& value, const auto& field) {
                  const Partials& number = value.*field.member;
                  if (once) told.results.push_back(number.number);
                  told.slopes.resize(std::max(told.slopes.size(), (row + 1) * by.size()));
                  for (std::size_t i = 0; i < now.size(); ++i)
                    told.slopes[row * by.size() + first + i] = number.slope(static_cast<int>(i));
                  ++row;
                }));
    told.status = shot.flight.status;
    told.run_status = shot.run.status;
  }
  told.kinks.contact = near_a_kink_of_contact(inputs, by);
  told.kinks.ground = near_a_kink_of_ground(inputs, by);
  return told;
}

}  // namespace kernel

/// The exact partial derivatives of every number of a shot by some of its inputs, by their places in
/// `inputs_of`. A landing's and an apex' come from the condition that defines them (the implicit-function
/// theorem), not from the search that found them.
/// @throws InputError for a number outside its range.
inline Sensitivity sensitivity(const ShotInputs<>& inputs, std::span<const std::size_t> by) {
  check(inputs);
  return kernel::sensitivity(inputs, by);
}

}  // namespace whimbrel
