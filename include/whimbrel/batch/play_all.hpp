#pragma once
#include <span>

#include "whimbrel/core/parallel.hpp"
#include "whimbrel/shot/play.hpp"

namespace whimbrel {

/// One shot of a batch: never throws. A bad row keeps its mistake, has `Status::bad_input` and NaN.
struct Row {
  Shot<> shot{};
  std::optional<InputError> error{};
};

template <class Start>
Row play_row(const Start& start, const Ball<>& ball, const Setting<>& setting, const Turf<>& turf = {}) {
  Row row;
  row.error = first_mistake(start, ball, setting, turf);
  if (!row.error) {
    row.shot = kernel::play(start, ball, setting, turf);
    return row;
  }
  const auto no_number = [](auto& value) {
    for (const auto& field : std::remove_reference_t<decltype(value)>::fields()) value.*field.member = NAN;
  };
  row.shot.flight.status = row.shot.run.status = Status::bad_input;
  no_number(row.shot.launch);
  no_number(row.shot.flight);
  no_number(row.shot.landing);
  no_number(row.shot.run);
  return row;
}

/// Plays many swings, launches or landings on all cores, or on `threads`. Rows do not depend on each other,
/// nor on the number of threads; ground that is a function is asked by several at once. Trajectories are not
/// kept: fly a row again for its own.
template <class Start>
std::vector<Row> play_all(std::span<const Start> starts, const Ball<>& ball = {},
                          const Setting<>& setting = {}, const Turf<>& turf = {}, unsigned threads = 0) {
  std::vector<Row> rows(starts.size());
  parallel_for(starts.size(), threads, [&](std::size_t i) {
    rows[i] = play_row(starts[i], ball, setting, turf);
    rows[i].shot.flight.trajectory = rows[i].shot.run.trajectory = {};
  });
  return rows;
}

}  // namespace whimbrel
