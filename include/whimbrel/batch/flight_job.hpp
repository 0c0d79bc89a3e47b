#pragma once
#include "whimbrel/batch/columns.hpp"
#include "whimbrel/core/error.hpp"
#include "whimbrel/setting/wind.hpp"

namespace whimbrel {

/// How many flights a kernel takes in hand at once.
inline constexpr std::size_t block_size = 256;

/// Flights for a batch kernel: plain numbers and where to find and put them. The columns of a value are in
/// the order of its `fields()`.
struct FlightJob {
  const std::size_t* rows;  ///< to fly, `count` of them, at most `block_size`; checked before
  std::size_t count;
  Column launch[6], ball[5], air[2], wind[5], terrain[4];
  WindProfile profile;
  double tolerance;  ///< m, of a step
  OutColumn flight[10], landing[6], out_of_range[2];
  unsigned char* status;
};

}  // namespace whimbrel
