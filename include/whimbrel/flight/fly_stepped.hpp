#pragma once
#include "whimbrel/flight/edges.hpp"
#include "whimbrel/flight/excess.hpp"
#include "whimbrel/flight/fly.hpp"
#include "whimbrel/flight/span.hpp"
#include "whimbrel/flight/step_size.hpp"

namespace whimbrel::kernel {

inline constexpr double shortest_cut = 1e-8;  // s before an edge, that a step may cross

/// One flight over plane ground by the library's own steps, in any scalar: with dual numbers, its
/// derivatives. The lengths of the steps are chosen by values alone; landing and apex take their derivatives
/// from the condition they fulfil.
template <Scalar T, AeroModel Model>
class SteppedFlight {
 public:
  SteppedFlight(const Model& model, const Launch<T>& launch, const Ball<T>& ball, const Setting<T>& setting,
                const Vec3<T>& from, double tolerance)
      : motion(model, ball, setting, launch),
        launch(launch),
        steps(tolerance),
        now(moment(motion, starting_state(launch, from))) {}

  Flight<T> fly() {
    const Vec3<T> from = now.state.position;
    T length = steps.first;
    note_apex(from, from);
    note_knot(now);
    if (stuck_on_the_ground(now.state, motion.in)) {
      describe_landing(flight, now.state, T(0.0), launch, from);
      flight.status = Status::not_airborne;
      return flight;
    }
    keep_excess(now);
    while (value(time) < longest_flight && value(length) > shortest_step) {
      const T h(value(steps.allowed(length, now.state, motion)));
      const Step<T> done = step(motion, now, h);
      const Span<T> span{time, h, now.state, now.rate, done.end.state, done.end.rate};
      const T error = steps.error_share(done), to_edge = h * share_to_edge(span, now, done.end, motion);
      const bool over = value(to_edge) < value(h) && value(to_edge) > shortest_cut;
      length = over ? smaller(steps.next(h, error), to_edge) : steps.next(h, error);
      if (!(value(error) <= 1.0) || over) continue;
      const T descent = descent_in(span, motion.in);
      const bool lands = value(descent) >= 0.0;
      const T s = lands ? falls_through(clearance_in(span, motion.in), descent) : T(1.0);
      if (tops(span)) look_for_apex(span, s, from);
      now = lands ? moment(motion, state_at(span, s)) : done.end;
      time = time + s * h;
      if (value(time) > longest_flight) break;
      note_knot(now);
      keep_excess(now);
      if (lands) {
        note_apex(now.state.position, from);
        describe_landing(flight, now.state, time, launch, from);
        return flight;
      }
    }
    return failed(value(time) < longest_flight ? Status::numerical_failure : Status::no_landing);
  }

 private:
  void look_for_apex(const Span<T>& span, const T& end, const Vec3<T>& from) {
    const T s = top_of(height_in(span));
    if (value(s) <= value(end)) note_apex(path(span).at(s), from);
  }
  void note_apex(const Vec3<T>& position, const Vec3<T>& from) {
    const T height = position.z - motion.in.radius;
    if (value(height) < value(flight.apex) && !flight.trajectory.knots.empty()) return;
    flight.apex = height;
    flight.apex_distance = horizontal_distance(position - from);
  }
  void note_knot(const Moment<T>& m) { flight.trajectory.knots.push_back({time, m.state, m.rate}); }
  void keep_excess(const Moment<T>& m) {
    excess = farther(excess, excess_of(m.regime, motion.model));
    flight.out_of_range.spin_ratio = excess.spin_ratio;
    flight.out_of_range.reynolds = excess.reynolds;
  }
  Flight<T> failed(Status status) {
    for (const auto& field : Flight<T>::fields()) flight.*field.member = T(NAN);
    flight.status = status;
    return flight;
  }

  EquationOfMotion<T, Model> motion;
  const Launch<T>& launch;
  StepControl<T> steps;
  Moment<T> now;
  T time{0.0};
  Excess<T> excess;
  Flight<T> flight;
};

/// Flies from any position of the ball's centre; `tolerance` is that of a step, m.
template <Scalar T>
Flight<T> fly_stepped(const Launch<T>& launch, const Ball<T>& ball, const Setting<T>& setting,
                      const Vec3<T>& start, double tolerance) {
  return std::visit(
      [&](const auto& model) { return SteppedFlight(model, launch, ball, setting, start, tolerance).fly(); },
      ball.aero);
}

}  // namespace whimbrel::kernel
