#pragma once
#include <algorithm>
#include <span>

#include "ordinary_shots.hpp"
#include "whimbrel/batch/fly_all.hpp"

namespace whimbrel::benchmarks {

/// Hands rows to a kernel, a block at a time, all of them good.
template <class Kernel>
void in_blocks(std::size_t rows, const Kernel& kernel) {
  std::size_t block[block_size];
  for (std::size_t first = 0; first < rows; first += block_size) {
    const std::size_t count = std::min(block_size, rows - first);
    for (std::size_t i = 0; i < count; ++i) block[i] = first + i;
    kernel(block, count);
  }
}

/// Flights to be flown again and again: where they start from, and room for all they come to.
class FlightBatch {
 public:
  FlightBatch(const OrdinaryShots& shots, std::span<const Launch<>> launches)
      : shots(shots), rows(launches.size()), results(rows * results_a_flight), statuses(rows) {
    set_columns(columns, launches, shots.ball, setting);
    set_columns(columns.wind, std::span<const Wind<>>(shots.winds));
    double* column = results.data();
    const auto take = [&](OutColumn& out) {
      out = {column, 1};
      column += rows;
    };
    std::for_each(std::begin(columns.flight), std::end(columns.flight), take);
    std::for_each(std::begin(columns.landing), std::end(columns.landing), take);
    std::for_each(std::begin(columns.out_of_range), std::end(columns.out_of_range), take);
    columns.status = statuses.data();
  }
  FlightBatch(const FlightBatch&) = delete;

  /// By one kernel, on this thread, unchecked.
  void fly(FlyKernel<MultiLayer> kernel, double tolerance = fast_tolerance) {
    in_blocks(rows, [&](const std::size_t* block, std::size_t count) {
      kernel({columns, tolerance, block, count}, shots.model);
    });
  }

  /// As callers do, with the kernel of this machine.
  void fly(unsigned threads) {
    FlyAll(rows, columns, shots.ball.aero, Accuracy::fast).fly(threads, [](std::size_t, const InputError&) {
    });
  }

  std::span<const double> carries() const { return {results.data(), rows}; }

 private:
  static constexpr std::size_t results_a_flight = columns_of<Flight<>> + columns_of<Landing<>> + 2;

  const OrdinaryShots& shots;
  Setting<> setting{};
  std::size_t rows;
  FlightColumns columns;
  std::vector<double> results;
  std::vector<unsigned char> statuses;
};

/// Impacts to be struck again and again.
class StrikeBatch {
 public:
  StrikeBatch(const OrdinaryShots& shots, std::size_t count) : launches(count) {
    set_columns(columns.delivery, std::span<const Delivery<>>(shots.deliveries));
    set_columns(columns.club, shots.club);
    set_columns(columns.ball, shots.ball);
    columns.hand = shots.club.hand;
    OutColumn* column = columns.launch;
    for (const auto& field : Launch<>::fields())
      *column++ = {&(launches[0].*field.member), sizeof(Launch<>) / sizeof(double)};
  }
  StrikeBatch(const StrikeBatch&) = delete;

  void strike(StrikeKernel kernel, int steps = fewer_contact_steps) {
    in_blocks(launches.size(), [&](const std::size_t* block, std::size_t count) {
      kernel({columns, block, count, steps});
    });
  }

  std::vector<Launch<>> launches;

 private:
  StrikeColumns columns;
};

/// Impacts, and the flights of their launches.
struct RowBatch {
  StrikeBatch strikes;
  FlightBatch flights;

  RowBatch(const OrdinaryShots& shots, std::size_t count)
      : strikes(shots, count), flights(shots, strikes.launches) {}
  explicit RowBatch(const OrdinaryShots& shots) : RowBatch(shots, shots.count()) {}

  void play(StrikeKernel strike, const FlyKernels& fly, int steps = fewer_contact_steps,
            double tolerance = fast_tolerance) {
    strikes.strike(strike, steps);
    flights.fly(std::get<FlyKernel<MultiLayer>>(fly), tolerance);
  }
};

}  // namespace whimbrel::benchmarks
