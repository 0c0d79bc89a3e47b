#pragma once
#include "whimbrel/ball/ball.hpp"
#include "whimbrel/batch/columns.hpp"
#include "whimbrel/ground/landing.hpp"
#include "whimbrel/setting/setting.hpp"

namespace whimbrel {

/// Where the numbers of many flights are and go. The columns of a value are in the order of its `fields()`.
/// Without a landing, the numbers of landing and flight are NaN. How far out of range the flight went is
/// written all the same, except for bad input.
struct FlightColumns {
  Column launch[columns_of<Launch<>>], ball[columns_of<Ball<>>], air[columns_of<Air<>>],
      wind[columns_of<Wind<>>], terrain[columns_of<Terrain<>>];
  Column start[3];  ///< m, of the ball's centre; null: on the tee
  WindProfile profile = WindProfile::logarithmic;
  OutColumn flight[columns_of<Flight<>>];
  OutColumn landing[columns_of<Landing<>>];  ///< not written with slopes
  OutColumn out_of_range[2];                 ///< spin ratio and Reynolds number
  OutColumn landing_velocity[3];             ///< m/s
  unsigned char* status = nullptr;           ///< `Status` as a number
  /// Of all rows, instead of the plane of `terrain`: `FlyAll` flies them by the reference, on several threads
  /// at once; kernels know planes alone.
  std::function<double(double, double)> surface{};
};

/// Flights with one ball in one setting; `launches` is a launch that serves all rows, or a span of one each.
template <class Launches, Scalar T>
void set_columns(FlightColumns& columns, const Launches& launches, const Ball<T>& ball,
                 const Setting<T>& setting) {
  set_columns(columns.launch, launches);
  set_columns(columns.ball, ball);
  set_columns(columns.air, setting.air);
  set_columns(columns.wind, setting.wind);
  set_columns(columns.terrain, setting.terrain);
  columns.profile = setting.wind.profile;
  columns.surface = setting.terrain.surface;
}

/// Where the balls of some rows start from.
template <class T>
Vec3<T> gathered_start(const FlightColumns& columns, const T& radius, const Terrain<T>& terrain,
                       const std::size_t* rows) {
  return columns.start[0].data ? gathered_vector<T>(columns.start, rows) : on_the_tee(radius, terrain);
}

/// How many flights a kernel takes in hand at once.
inline constexpr std::size_t block_size = 256;

/// Rows for a batch kernel to fly, at most `block_size`, whose numbers have been checked.
struct FlightJob {
  const FlightColumns& columns;
  double tolerance;  ///< m, of a step
  const std::size_t* rows;
  std::size_t count;
};

}  // namespace whimbrel
