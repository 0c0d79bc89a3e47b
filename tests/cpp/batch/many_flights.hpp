#pragma once
#include <doctest/doctest.h>

#include <cstring>
#include <numeric>
#include <whimbrel/compiled.hpp>

#include "random_cases.hpp"

/// Flights over the whole range of inputs, and all that the batch kernels tell of them.
namespace whimbrel::test {

/// A flight over the whole range of inputs: chips and rockets, topped, straight up, without spin, backwards
/// in a gale, on slopes.
struct Case {
  Launch<> launch;
  Ball<> ball;
  Air<> air;
  Wind<> wind;
  Terrain<> terrain;

  Setting<> setting(WindProfile profile) const {
    Setting<> setting{air, wind, terrain};
    setting.wind.profile = profile;
    return setting;
  }
};

inline Case any_case(Random& random) {
  Case c;
  c.launch = {.ball_speed = random.between(0, 1) < 0.1 ? random.between(0, 5) : random.between(5, 150),
              .launch_angle = random.between(-90, 90) * units::deg,
              .launch_direction = random.between(-180, 180) * units::deg,
              .spin_rate = random.between(0, 1) < 0.1 ? 0.0 : random.between(0, 3000),
              .spin_axis_tilt = random.between(-180, 180) * units::deg};
  c.launch.axial_spin_rate = random.between(-1, 1) * c.launch.spin_rate;
  c.air = {.density = random.between(0.3, 1.6)};
  c.wind = {.speed = random.between(0, 1) < 0.2 ? 0.0 : random.between(0, 40),
            .from_direction = random.between(-180, 180) * units::deg,
            .roughness_length = random.between(0.001, 1)};
  c.terrain = {.tee_height = random.between(0, 1) < 0.5 ? 0.0 : random.between(0, 0.1),
               .height = random.between(0, 1) < 0.5 ? 0.0 : random.between(-30, 10),
               .slope_right = random.between(-0.3, 0.3),
               .slope_downrange = random.between(-0.3, 0.3)};
  return c;
}

inline constexpr std::array profiles{WindProfile::uniform, WindProfile::logarithmic, WindProfile::power_law};

/// The first of the flights in a wind profile: by default a third of 100,000, others in each.
inline std::vector<Case> cases_in(WindProfile profile, std::size_t count = 33334) {
  Random random{std::mt19937_64(static_cast<unsigned>(profile))};
  std::vector<Case> all(count);
  for (Case& c : all) c = any_case(random);
  return all;
}

/// All that is told of some flights.
struct Told {
  static constexpr std::size_t out_of_range = columns_of<Flight<>> + columns_of<Landing<>>,
                               landing_velocity = out_of_range + 2, numbers_a_row = landing_velocity + 3;

  std::vector<std::array<double, numbers_a_row>> numbers;
  std::vector<unsigned char> statuses;

  explicit Told(std::size_t rows) : numbers(rows), statuses(rows) {}
  Status status(std::size_t row) const { return static_cast<Status>(statuses[row]); }
  Flight<> flight(std::size_t row) const {
    Flight<> flight;
    const double* x = numbers[row].data();
    for (const auto& field : Flight<>::fields()) flight.*field.member = *x++;
    flight.status = status(row);
    return flight;
  }
};

/// The columns of flights, and room for what they come to.
struct FlightBatch {
  FlightColumns columns;
  std::size_t rows;
  Told told;

  FlightBatch(std::span<const Case> all, WindProfile profile) : rows(all.size()), told(all.size()) {
    static_assert(sizeof(Case) % sizeof(double) == 0);
    constexpr std::ptrdiff_t apart = sizeof(Case) / sizeof(double);
    set_columns(columns.launch, all[0].launch, apart);
    set_columns(columns.ball, all[0].ball, apart);
    set_columns(columns.air, all[0].air, apart);
    set_columns(columns.wind, all[0].wind, apart);
    set_columns(columns.terrain, all[0].terrain, apart);
    columns.profile = profile;
    double* number = told.numbers[0].data();
    for (const std::span<OutColumn> part :
         {std::span<OutColumn>(columns.flight), std::span<OutColumn>(columns.landing),
          std::span<OutColumn>(columns.out_of_range), std::span<OutColumn>(columns.landing_velocity)})
      for (OutColumn& column : part) column = {number++, Told::numbers_a_row};
    columns.status = told.statuses.data();
  }
  FlightBatch(const FlightBatch&) = delete;
};

/// Flies cases as callers do.
inline Told flown_by_all(
    std::span<const Case> all, WindProfile profile, Accuracy accuracy = Accuracy::fast, unsigned threads = 0,
    const MistakeSink& note = [](std::size_t, const InputError&) {}) {
  FlightBatch batch(all, profile);
  const AnyAeroModel aero = MultiLayer{};
  FlyAll(batch.rows, batch.columns, aero, accuracy).fly(threads, note);
  return batch.told;
}

/// Flies cases with a kernel, in blocks of some size.
inline Told flown(FlyKernel<MultiLayer> kernel, std::span<const Case> all, WindProfile profile,
                  std::size_t block = block_size, double tolerance = fast_tolerance) {
  FlightBatch batch(all, profile);
  std::vector<std::size_t> rows(all.size());
  std::iota(rows.begin(), rows.end(), std::size_t{0});
  for (std::size_t i = 0; i < rows.size(); i += block)
    kernel({batch.columns, tolerance, rows.data() + i, std::min(block, rows.size() - i)}, MultiLayer{});
  return batch.told;
}

inline bool same_number(double a, double b) { return a == b || (std::isnan(a) && std::isnan(b)); }

/// What a number's differences are measured by: its size, or that of what it is a small part of. The
/// landing's velocity, the slope of the dense output, is ten times less certain than its place; how far a
/// model left its range is looked up at the steps, whose times are thousands of times less certain.
inline double scale_of(const std::array<double, Told::numbers_a_row>& numbers, std::size_t i) {
  constexpr std::size_t landing_speed = 8, landing_spin = 13, axial_spin = 15,
                        spin_ratio_excess = Told::out_of_range, reynolds_excess = spin_ratio_excess + 1;
  if (i == axial_spin) return 10 * std::max(1.0, numbers[landing_spin]);
  if (i == spin_ratio_excess) return 1e4 * std::max(1.0, std::abs(numbers[i]));
  if (i == reynolds_excess) return 1e3 * 3e4;
  if (i >= Told::landing_velocity) return 10 * std::max(1.0, numbers[landing_speed]);
  const bool of_velocity = i == 7 || i == 8 || (i >= 10 && i <= 14);
  return (of_velocity ? 10 : 1) * std::max(1.0, std::abs(numbers[i]));
}

/// Whether two tellings are the same, to the last bit.
inline bool identical(const Told& a, const Told& b) {
  return a.statuses == b.statuses &&
         std::memcmp(a.numbers.data(), b.numbers.data(), a.numbers.size() * sizeof(a.numbers[0])) == 0;
}

/// Whether two tellings of a row differ by no more than a share of each number's scale.
inline bool agree(const Told& a, const Told& b, std::size_t row, double relative) {
  if (a.statuses[row] != b.statuses[row]) return false;
  for (std::size_t i = 0; i < Told::numbers_a_row; ++i) {
    const double x = a.numbers[row][i], y = b.numbers[row][i];
    if (!same_number(x, y) && !(std::abs(x - y) <= relative * scale_of(a.numbers[row], i))) return false;
  }
  return true;
}

/// The rows in which two tellings do not agree.
inline std::size_t apart(const Told& a, const Told& b, double relative) {
  std::size_t found = 0;
  for (std::size_t row = 0; row < a.statuses.size(); ++row) found += !agree(a, b, row, relative);
  return found;
}

}  // namespace whimbrel::test
