#pragma once
#include "whimbrel/batch/fly_all.hpp"
#include "whimbrel/flight/fly_stepped.hpp"

namespace whimbrel {

/// The tolerance of a step, m, of a flight that carries slopes: they need more than the numbers do.
inline constexpr double sloped_tolerance = 1e-11;

/// One flight in the arithmetic of the batch kernels: as a row of a batch, many times faster than the
/// reference; of `Partials`, with its slopes. Its trajectory knows only where it began and ended. Ground of
/// any shape and a model without a kernel take the reference path, or the library's own steps.
template <Scalar T>
Flight<T> fly_alone(const Launch<T>& launch, const Ball<T>& ball, const Setting<T>& setting,
                    const Vec3<T>& start) {
  static_assert(std::same_as<T, double> || std::same_as<T, Partials>);
  constexpr FlyKernels Kernels::*kind = has_slopes<T> ? &Kernels::fly_sloped : &Kernels::fly_alone;
  constexpr double tolerance = has_slopes<T> ? sloped_tolerance : fast_tolerance;
  return std::visit(
      [&]<class Model>(const Model& model) -> Flight<T> {
        const FlyKernel<Model> fly = std::get<FlyKernel<Model>>(kernels().*kind);
        if (!fly || setting.terrain.surface) {
          if constexpr (has_slopes<T>)
            return kernel::fly_stepped(launch, ball, setting, start, tolerance);
          else
            return kernel::fly(launch, ball, setting, start);
        }
        Flight<T> flight;
        Vec3<T> velocity;
        unsigned char status = 0;
        FlightColumns columns;
        set_columns(columns, launch, ball, setting);
        set_columns(columns.start, start);
        set_columns(columns.flight, flight);
        set_columns(columns.landing_velocity, velocity);
        columns.out_of_range[0] = column_for(flight.out_of_range.spin_ratio);
        columns.out_of_range[1] = column_for(flight.out_of_range.reynolds);
        columns.status = &status;
        const std::size_t row = 0;
        fly({columns, tolerance, &row, 1}, model);
        flight.status = static_cast<Status>(status);
        if (flight.status > Status::not_airborne) return flight;
        const Vec3<T> ground = on_the_ground(ball, setting.terrain, flight.offline, flight.downrange);
        flight.trajectory.knots = {{T(0.0), starting_state(launch, start), {}},
                                   {flight.flight_time, {ground, velocity, flight.landing_spin_rate}, {}}};
        return flight;
      },
      ball.aero);
}

}  // namespace whimbrel
