#pragma once
#include "whimbrel/impact/contact.hpp"

namespace whimbrel {

/// The impact of a compliant contact: one model for every club and every strike. Not modelled: the shaft
/// except its mass, turf on the head, and the edges of the face.
template <Scalar T>
Impact<T> compliant_impact(const Delivery<T>& delivery, const Club<T>& club, const Ball<T>& ball,
                           int steps = contact_steps) {
  const Touch<T> first = touch(delivery, club, ball);
  const T approach_speed = dot(first.approach, first.normal);
  const ContactEnd<T> end = contact(first, contact_mobility(first, club, ball),
                                    contact_constants(club, ball, approach_speed), steps);
  Impact<T> impact = after_impulse(end.impulse, first, delivery, club, ball);
  impact.contact_time = end.time;
  impact.slip_time = end.slip_time;
  impact.friction_changes = end.friction_changes;
  impact.out_of_range.face_friction = smaller(ball.face_friction - T(least_face_friction), T(0.0));
  impact.out_of_range.approach_speed = smaller(approach_speed - T(least_approach_speed), T(0.0));
  return impact;
}

}  // namespace whimbrel
