#pragma once
#include "whimbrel/batch/columns.hpp"
#include "whimbrel/impact/contact.hpp"
#include "whimbrel/impact/impact.hpp"
#include "whimbrel/swing/swing.hpp"

namespace whimbrel {

/// Where the numbers of many swings and their impacts are and go. The columns of a value are in the order of
/// its `fields()`.
struct StrikeColumns {
  Column delivery[columns_of<Delivery<>>], club[columns_of<Club<>>], ball[columns_of<Ball<>>];
  Hand hand = Hand::right;
  ImpactModel model = ImpactModel::compliant;
  OutColumn impact[columns_of<Impact<>>], friction_changes, launch[columns_of<Launch<>>];
  OutColumn out_of_range[2];  ///< face friction and approach speed
  /// Velocity and rotation of the head after, and the normal where struck: x, y, z of each.
  OutColumn head[9];
};

/// Swings with their balls: one for all rows, or the first of many, given with their distance in doubles.
template <Scalar T>
void set_columns(StrikeColumns& columns, const Swing<T>& swing, const Ball<T>& ball,
                 std::ptrdiff_t apart = 0) {
  set_columns(columns.delivery, swing.delivery, apart);
  set_columns(columns.club, swing.club, apart);
  set_columns(columns.ball, ball, apart);
  columns.hand = swing.club.hand;
  columns.model = swing.impact_model;
}

/// Rows for a batch kernel to strike, at most `block_size`, whose numbers have been checked.
struct StrikeJob {
  const StrikeColumns& columns;
  const std::size_t* rows;
  std::size_t count;
  int steps = fewer_contact_steps;  ///< of a compliant contact
};

}  // namespace whimbrel
