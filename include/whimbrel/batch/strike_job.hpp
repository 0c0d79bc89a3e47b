#pragma once
#include "whimbrel/batch/columns.hpp"
#include "whimbrel/swing/swing.hpp"

namespace whimbrel {

/// Where the numbers of many swings and their impacts are and go. The columns of a value are in the order of
/// its `fields()`.
struct StrikeColumns {
  Column delivery[9], club[15], ball[5];
  Hand hand = Hand::right;
  ImpactModel model = ImpactModel::compliant;
  OutColumn impact[5], friction_changes, launch[6];
  OutColumn out_of_range[2];  ///< face friction and approach speed
  OutColumn
      head[9];  ///< velocity and rotation of the head after, and the normal where struck: x, y, z of each
};

/// Rows for a batch kernel to strike, at most `block_size`, whose numbers have been checked.
struct StrikeJob {
  const StrikeColumns& columns;
  const std::size_t* rows;
  std::size_t count;
};

}  // namespace whimbrel
