#pragma once
#include "whimbrel/batch/strike_job.hpp"
#include "whimbrel/impact/strike.hpp"

namespace whimbrel {

/// Strikes `rows_in<T>` rows, of which `count` are wanted.
template <class T>
[[gnu::flatten]] void strike_group(const StrikeColumns& columns, int steps, const std::size_t* rows,
                                   int count) {
  const Delivery<T> delivery = gathered<T, Delivery<T>>(columns.delivery, rows);
  Club<T> club = gathered<T, Club<T>>(columns.club, rows);
  club.hand = columns.hand;
  const Ball<T> ball = gathered<T, Ball<T>>(columns.ball, rows);
  const Impact<T> impact = kernel::strike(Swing<T>{delivery, club, columns.model}, ball, steps);
  scatter(impact, columns.impact, rows, count);
  scatter_number(impact.friction_changes, columns.friction_changes, rows, count);
  scatter(impact.launch, columns.launch, rows, count);
  scatter_number(impact.out_of_range.face_friction, columns.out_of_range[0], rows, count);
  scatter_number(impact.out_of_range.approach_speed, columns.out_of_range[1], rows, count);
  scatter(impact.head_velocity_after, columns.head, rows, count);
  scatter(impact.head_rotation_after, columns.head + 3, rows, count);
  scatter(impact.struck_normal, columns.head + 6, rows, count);
}

/// The impacts of one job.
template <class T>
void strike_block(const StrikeJob& job) {
  constexpr std::size_t W = rows_in<T>;
  for (std::size_t first = 0; first < job.count; first += W) {
    std::size_t rows[W];  // the last row stands in for those that are missing
    for (std::size_t i = 0; i < W; ++i) rows[i] = job.rows[std::min(first + i, job.count - 1)];
    strike_group<T>(job.columns, job.steps, rows, static_cast<int>(std::min(W, job.count - first)));
  }
}

}  // namespace whimbrel
