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
  const T mass = gathered<T>(columns.ball[0], row), radius = gathered<T>(columns.ball[1], row);
  const Terrain<T> terrain = gathered<T, Terrain<T>>(columns.terrain, row);
  const EquationOfMotion<T, Model> motion(
      model, columns.profile,
      flight_conditions(model, mass, radius, gathered<T, Air<T>>(columns.air, row), wind, terrain, launch));
  const Vec3<T> start = gathered_start(columns, radius, terrain, row);
  kernel::SteppedFlight stepped(motion, launch, start, job.tolerance);
  const Flight<T> flight = stepped.fly();
  scatter(flight, columns.flight, row, 1);
  const Vec3<T> none{T(NAN), T(NAN), T(NAN)};
  scatter(flight.status <= Status::not_airborne ? stepped.last().velocity : none, columns.landing_velocity,
          row, 1);
  scatter_number(flight.out_of_range.spin_ratio, columns.out_of_range[0], row, 1);
  scatter_number(flight.out_of_range.reynolds, columns.out_of_range[1], row, 1);
  columns.status[*row] = static_cast<unsigned char>(flight.status);
}

}  // namespace whimbrel
