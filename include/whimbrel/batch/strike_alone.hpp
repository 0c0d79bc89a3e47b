#pragma once
#include "whimbrel/batch/kernels.hpp"
#include "whimbrel/impact/impact.hpp"

namespace whimbrel {

/// One impact with its slopes, in the arithmetic of the batch kernels.
inline Impact<Partials> strike_alone(const Swing<Partials>& swing, const Ball<Partials>& ball) {
  Impact<Partials> impact;
  StrikeColumns columns;
  set_columns(columns, swing, ball);
  set_columns(columns.impact, impact);
  columns.friction_changes = column_for(impact.friction_changes);
  set_columns(columns.launch, impact.launch);
  columns.out_of_range[0] = column_for(impact.out_of_range.face_friction);
  columns.out_of_range[1] = column_for(impact.out_of_range.approach_speed);
  OutColumn* head = columns.head;
  for (Vec3<Partials>* v : {&impact.head_velocity_after, &impact.head_rotation_after, &impact.struck_normal})
    for (Partials* x : {&v->x, &v->y, &v->z}) *head++ = column_for(*x);
  const std::size_t row = 0;
  kernels().strike_sloped({columns, &row, 1, contact_steps});
  return impact;
}

}  // namespace whimbrel
