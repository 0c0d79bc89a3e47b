#pragma once
#include "whimbrel/batch/kernels.hpp"
#include "whimbrel/impact/impact.hpp"

namespace whimbrel {

/// One impact in the arithmetic of the batch kernels; of `Partials`, with its slopes.
template <Scalar T>
Impact<T> strike_alone(const Swing<T>& swing, const Ball<T>& ball) {
  static_assert(std::same_as<T, double> || std::same_as<T, Partials>);
  Impact<T> impact;
  StrikeColumns columns;
  set_columns(columns.delivery, swing.delivery);
  set_columns(columns.club, swing.club);
  set_columns(columns.ball, ball);
  columns.hand = swing.club.hand;
  columns.model = swing.impact_model;
  set_columns(columns.impact, impact);
  columns.friction_changes = column_for(impact.friction_changes);
  set_columns(columns.launch, impact.launch);
  columns.out_of_range[0] = column_for(impact.out_of_range.face_friction);
  columns.out_of_range[1] = column_for(impact.out_of_range.approach_speed);
  OutColumn* head = columns.head;
  for (Vec3<T>* v : {&impact.head_velocity_after, &impact.head_rotation_after, &impact.struck_normal})
    for (T* x : {&v->x, &v->y, &v->z}) *head++ = column_for(*x);
  const std::size_t row = 0;
  (has_slopes<T> ? kernels().strike_sloped : kernels().strike_alone)({columns, &row, 1});
  return impact;
}

}  // namespace whimbrel
