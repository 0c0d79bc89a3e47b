#pragma once
#include <doctest/doctest.h>

#include <cstring>
#include <numeric>
#include <whimbrel/compiled.hpp>

#include "random_cases.hpp"

/// Impacts over the range of inputs, and all that the batch kernels tell of them.
namespace whimbrel::test {

/// Many swings of one hand, each with any club of its set and struck anywhere on the face: where their
/// numbers are, and room for what comes of them.
struct Strikes {
  static constexpr std::size_t numbers_a_row = 23;  // launch, impact, friction changes, out of range, head

  std::vector<Swing<>> swings;
  std::vector<Ball<>> balls;
  std::vector<std::array<double, numbers_a_row>> told;
  StrikeColumns columns;

  explicit Strikes(std::size_t count, Hand hand = Hand::right, ImpactModel model = ImpactModel::compliant)
      : told(count) {
    Random random{std::mt19937_64(1)};
    while (swings.size() < count) {
      swings.push_back(any_swing(random));
      swings.back().impact_model = model;
      swings.back().club.hand = hand;
      balls.push_back(any_ball(random));
    }
    static_assert(sizeof(Swing<>) % sizeof(double) == 0);
    constexpr std::ptrdiff_t apart = sizeof(Swing<>) / sizeof(double);
    set_columns(columns, swings[0], balls[0], apart);
    set_columns(columns.ball, std::span<const Ball<>>(balls));
    double* number = told[0].data();
    for (const std::span<OutColumn> part :
         {std::span<OutColumn>(columns.launch), std::span<OutColumn>(columns.impact),
          std::span<OutColumn>(&columns.friction_changes, 1), std::span<OutColumn>(columns.out_of_range),
          std::span<OutColumn>(columns.head)})
      for (OutColumn& column : part) column = {number++, numbers_a_row};
  }
  Strikes(const Strikes&) = delete;

  std::size_t count() const { return swings.size(); }
  Launch<> launch(std::size_t row) const {
    Launch<> launch;
    const double* x = told[row].data();
    for (const auto& field : Launch<>::fields()) launch.*field.member = *x++;
    return launch;
  }
  bool is_bad(std::size_t row) const { return first_mistake(swings[row], balls[row]).has_value(); }
};

/// Strikes them as callers do.
inline void strike(
    Strikes& strikes, unsigned threads = 0, const MistakeSink& note = [](std::size_t, const InputError&) {}) {
  strike_all(strikes.count(), strikes.columns, threads, note);
}

/// Strikes them with a kernel, in blocks of some size.
inline void strike(Strikes& strikes, StrikeKernel kernel, std::size_t block = block_size) {
  std::vector<std::size_t> rows(strikes.count());
  std::iota(rows.begin(), rows.end(), std::size_t{0});
  for (std::size_t i = 0; i < rows.size(); i += block)
    kernel({strikes.columns, rows.data() + i, std::min(block, rows.size() - i)});
}

/// Whether two launches agree: angles to so many radians, speeds and spins to that share.
inline bool close(const Launch<>& a, const Launch<>& b, double relative) {
  for (const auto& field : Launch<>::fields()) {
    const double x = a.*field.member, y = b.*field.member;
    const double scale = field.unit == "rad"
                             ? 1.0
                             : std::max(std::abs(x), field.name == "axial_spin_rate" ? a.spin_rate : 0.0);
    if (!(std::abs(x - y) <= relative * scale) && !(std::isnan(x) && std::isnan(y))) return false;
  }
  return true;
}

/// Whether two tellings are the same, to the last bit.
inline bool identical(const Strikes& a, const Strikes& b) {
  return std::memcmp(a.told.data(), b.told.data(), a.told.size() * sizeof(a.told[0])) == 0;
}

/// The rows in which two tellings differ by more than a share of each number, or of 1 where it is small.
inline std::size_t apart(const Strikes& a, const Strikes& b, double relative) {
  std::size_t found = 0;
  for (std::size_t row = 0; row < a.told.size(); ++row)
    found +=
        !std::equal(a.told[row].begin(), a.told[row].end(), b.told[row].begin(), [&](double x, double y) {
          return std::abs(x - y) <= relative * std::max(1.0, std::abs(x)) || (std::isnan(x) && std::isnan(y));
        });
  return found;
}

}  // namespace whimbrel::test
