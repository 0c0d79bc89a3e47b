#pragma once
#include "whimbrel/batch/fly_all.hpp"

namespace whimbrel {

/// One flight in the arithmetic of the batch kernels: as a row of a batch, many times faster than the
/// reference. Its trajectory knows only where it began and ended. Ground of any shape and a model without a
/// kernel take the reference path.
inline Flight<> fly_alone(const Launch<>& launch, const Ball<>& ball, const Setting<>& setting,
                          const Vec3<double>& start) {
  return std::visit(
      [&]<class Model>(const Model& model) {
        const FlyKernel<Model> fly = std::get<FlyKernel<Model>>(kernels().fly_alone);
        if (!fly || setting.terrain.surface) return kernel::fly(launch, ball, setting, start);
        Flight<> flight;
        Landing<> landing;
        unsigned char status = 0;
        FlightColumns columns;
        set_columns(columns.launch, launch);
        set_columns(columns.ball, ball);
        set_columns(columns.air, setting.air);
        set_columns(columns.wind, setting.wind);
        set_columns(columns.terrain, setting.terrain);
        columns.profile = setting.wind.profile;
        columns.start[0].data = &start.x;
        columns.start[1].data = &start.y;
        columns.start[2].data = &start.z;
        set_columns(columns.flight, flight);
        set_columns(columns.landing, landing);
        columns.out_of_range[0].data = &flight.out_of_range.spin_ratio;
        columns.out_of_range[1].data = &flight.out_of_range.reynolds;
        columns.status = &status;
        const std::size_t row = 0;
        fly({columns, fast_tolerance, &row, 1}, model);
        flight.status = static_cast<Status>(status);
        if (flight.status > Status::not_airborne) return flight;
        const Touchdown<double> down = touchdown(landing);
        const Vec3<double> ground = on_the_ground(ball, setting.terrain, flight.offline, flight.downrange);
        flight.trajectory.knots = {
            {0.0, starting_state(launch, start), {}},
            {flight.flight_time, {ground, down.velocity, landing.landing_spin_rate}, {}}};
        return flight;
      },
      ball.aero);
}

}  // namespace whimbrel
