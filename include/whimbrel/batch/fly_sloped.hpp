#pragma once
#include "whimbrel/batch/flight_job.hpp"
#include "whimbrel/flight/fly_stepped.hpp"

namespace whimbrel {

/// One flight in numbers that carry their slopes: the first row of a job, whose columns hold such numbers.
template <class T, AeroModel Model>
void fly_sloped(const FlightJob& job, const Model& model) {
  const FlightColumns& columns = job.columns;
  const std::size_t* row = job.rows;
  const Launch<T> launch = gathered<T, Launch<T>>(columns.launch, row);
  Wind<T> wind = gathered<T, Wind<T>>(columns.wind, row);
  wind.profile = columns.profile;
  const EquationOfMotion<T, Model> motion(
      model, columns.profile,
      flight_conditions(gathered<T>(columns.ball[0], row), gathered<T>(columns.ball[1], row),
                        gathered<T, Air<T>>(columns.air, row), wind,
                        gathered<T, Terrain<T>>(columns.terrain, row), launch));
  const Vec3<T> start = gathered_vector<T>(columns.start, row);
  kernel::SteppedFlight stepped(motion, launch, start, job.tolerance);
  const Flight<T> flight = stepped.fly();
  scatter(flight, columns.flight, row, 1);
  scatter(stepped.last().velocity, columns.landing_velocity, row, 1);
  scatter_number(flight.out_of_range.spin_ratio, columns.out_of_range[0], row, 1);
  scatter_number(flight.out_of_range.reynolds, columns.out_of_range[1], row, 1);
  columns.status[*row] = static_cast<unsigned char>(flight.status);
}

}  // namespace whimbrel
