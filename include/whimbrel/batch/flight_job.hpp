#pragma once
#include "whimbrel/batch/columns.hpp"
#include "whimbrel/core/error.hpp"
#include "whimbrel/setting/wind.hpp"

namespace whimbrel {

/// Where the numbers of many flights are and go. The columns of a value are in the order of its `fields()`.
struct FlightColumns {
  Column launch[6], ball[5], air[2], wind[5], terrain[4];
  Column start[3];  ///< m, of the ball's centre; null: on the tee
  WindProfile profile = WindProfile::logarithmic;
  OutColumn flight[10], landing[6], out_of_range[2];  ///< spin ratio and Reynolds number
  OutColumn landing_velocity[3];                      ///< m/s
  unsigned char* status = nullptr;                    ///< `Status` as a number
};

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
