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
Row play_row(const Start& start, const Ball<>& ball, const Setting<>& setting) {
  Row row;
  row.error = first_mistake(start, ball, setting);
  if (!row.error) {
    row.shot = kernel::play(start, ball, setting);
    return row;
  }
  row.shot.flight.status = Status::bad_input;
  for (const auto& field : Flight<>::fields()) row.shot.flight.*field.member = NAN;
  for (const auto& field : Launch<>::fields()) row.shot.launch.*field.member = NAN;
  return row;
}

/// Plays many swings or launches on all cores, or on `threads`. Rows do not depend on each other,
/// nor on the number of threads. Trajectories are not kept: fly a row again for its own.
template <class Start>
std::vector<Row> play_all(std::span<const Start> starts, const Ball<>& ball = {},
                          const Setting<>& setting = {}, unsigned threads = 0) {
  std::vector<Row> rows(starts.size());
  parallel_for(starts.size(), threads, [&](std::size_t i) {
    rows[i] = play_row(starts[i], ball, setting);
    rows[i].shot.flight.trajectory = {};
  });
  return rows;
}

}  // namespace whimbrel
