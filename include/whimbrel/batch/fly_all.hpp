#pragma once
#include <algorithm>
#include <span>
#include <vector>

#include "whimbrel/batch/checked_blocks.hpp"
#include "whimbrel/batch/kernels.hpp"
#include "whimbrel/ground/landing.hpp"

namespace whimbrel {

/// How exactly a batch is flown. `reference` is Boost.Odeint at 1e-9, which single flights take. `fast` uses
/// the batch kernels. Carries of full shots are then within 1 mm of the reference: 40 to 80 m/s, 8 to 30 deg,
/// 2,000 to 10,000 rpm, tilts to 15 deg, winds to 12 m/s (`validation/benchmarks` measures 200,000). So are
/// those of balls topped off a tee in still air. From chips to rockets, 5 to 90 m/s at 1 to 60 deg in a wind
/// of 8 m/s, 99 in 100 are within 4 mm and all within 3 cm. Over the whole range of inputs, with gales, steep
/// slopes and topped balls, 99 in 100 are within 4 mm and 999 in 1,000 within 2 cm (400,000 random flights,
/// of which the tests fly 100,000). Balls that skim the ground in a gale for many seconds may be two
/// decimetres apart. A ball that grazes the ground may land there by one path and fly on by the other; one
/// did. All statuses agreed, and all other apexes were within 2 cm, except one within 4 cm.
enum class Accuracy : unsigned char { fast, reference };

/// The tolerance of a step, m, that keeps that promise: calibrated here.
inline constexpr double fast_tolerance = 8e-5;

/// Many flights on all cores, or on `threads`. The result of a row depends only on its own numbers. A bad row
/// gets `Status::bad_input` and NaN, and is reported to `note`.
class FlyAll {
 public:
  FlyAll(std::size_t rows, const FlightColumns& columns, const AnyAeroModel& aero, Accuracy accuracy)
      : rows(rows),
        columns(columns),
        aero(aero),
        accuracy(accuracy),
        shared_world(is_shared(columns.ball) && is_shared(columns.air) && is_shared(columns.wind) &&
                     is_shared(columns.terrain)) {
    if (rows > 0) first_world_mistake = mistake_in_world(0);
  }

  void fly(unsigned threads, const MistakeSink& note) const {
    in_checked_blocks(
        rows, threads, note, [&](std::size_t row) { return mistake_in(row); },
        [&](std::size_t row) { write_failure(row, Status::bad_input); },
        [&](const std::size_t* good, std::size_t count) {
          std::visit(
              [&](const auto& model) {
                fly_rows(model, {columns, fast_tolerance, good, count});
              },
              aero);
        });
  }

 private:
  template <class Model>
  void fly_rows(const Model& model, const FlightJob& job) const {
    const FlyKernel<Model> fast =
        accuracy == Accuracy::fast && !columns.surface ? std::get<FlyKernel<Model>>(kernels().fly) : nullptr;
    if (fast) return fast(job, model);
    for (std::size_t i = 0; i < job.count; ++i) fly_by_reference(job.rows[i]);
  }

  void fly_by_reference(std::size_t row) const {
    const Launch<> launch = read_row<Launch<>>(columns.launch, row);
    const Ball<> ball = ball_of(row);
    const Setting<> setting = setting_of(row);
    const Vec3<double> start =
        columns.start[0].data
            ? Vec3<double>{columns.start[0][row], columns.start[1][row], columns.start[2][row]}
            : on_the_tee(ball, setting.terrain);
    const Flight<> flight = kernel::fly(launch, ball, setting, start);
    if (flight.status > Status::not_airborne) {
      write_failure(row, flight.status);
    } else {
      const Touchdown<double> down = touchdown(flight, launch);
      write_row(flight, columns.flight, row);
      write_row(landing_of(down), columns.landing, row);
      write_numbers(columns.landing_velocity, row, {down.velocity.x, down.velocity.y, down.velocity.z});
      columns.status[row] = static_cast<unsigned char>(flight.status);
    }
    write_numbers(columns.out_of_range, row, {flight.out_of_range.spin_ratio, flight.out_of_range.reynolds});
  }

  void write_failure(std::size_t row, Status status) const {
    write_nothing(columns.flight, row);
    write_nothing(columns.landing, row);
    write_nothing(columns.landing_velocity, row);
    write_nothing(columns.out_of_range, row);
    columns.status[row] = static_cast<unsigned char>(status);
  }

  Ball<> ball_of(std::size_t row) const {
    Ball<> ball = read_row<Ball<>>(columns.ball, row);
    ball.aero = aero;
    return ball;
  }
  Setting<> setting_of(std::size_t row) const {
    Setting<> setting{read_row<Air<>>(columns.air, row), read_row<Wind<>>(columns.wind, row),
                      read_row<Terrain<>>(columns.terrain, row)};
    setting.wind.profile = columns.profile;
    setting.terrain.surface = columns.surface;
    return setting;
  }
  std::optional<InputError> mistake_in_world(std::size_t row) const {
    return first_mistake(ball_of(row), setting_of(row));
  }
  std::optional<InputError> mistake_in(std::size_t row) const {
    if (auto error = mistake(read_row<Launch<>>(columns.launch, row))) return error;
    return shared_world ? first_world_mistake : mistake_in_world(row);
  }

  std::size_t rows;
  const FlightColumns& columns;
  const AnyAeroModel& aero;
  Accuracy accuracy;
  bool shared_world;
  std::optional<InputError> first_world_mistake;
};

/// What many flights come to, a column a number.
struct Flights {
  std::size_t rows;
  std::vector<double> numbers;  ///< the fields of `Flight`, column after column
  std::vector<unsigned char> statuses;

  Status status(std::size_t row) const { return static_cast<Status>(statuses[row]); }
  Flight<> operator[](std::size_t row) const {
    Flight<> flight;
    flight.status = status(row);
    const double* x = numbers.data() + row;
    for (const auto& field : Flight<>::fields()) {
      flight.*field.member = *x;
      x += rows;
    }
    return flight;
  }
};

/// Flies many launches with one ball in one setting. Ground that is a function takes the reference path at
/// either accuracy, and is asked by several threads at once; so do models without a kernel.
inline Flights fly_all(std::span<const Launch<>> launches, const Ball<>& ball = {},
                       const Setting<>& setting = {}, Accuracy accuracy = Accuracy::fast,
                       unsigned threads = 0) {
  const std::size_t rows = launches.size();
  Flights flights{rows, std::vector<double>(rows * Flight<>::fields().size()),
                  std::vector<unsigned char>(rows)};
  if (rows == 0) return flights;
  FlightColumns columns;
  set_columns(columns, launches, ball, setting);
  double* column = flights.numbers.data();
  for (OutColumn& out : columns.flight) {
    out = {column, 1};
    column += rows;
  }
  columns.status = flights.statuses.data();
  FlyAll(rows, columns, ball.aero, accuracy).fly(threads, [](std::size_t, const InputError&) {});
  return flights;
}

}  // namespace whimbrel
