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
  using V = Plain<T>;

 public:
  SteppedFlight(const EquationOfMotion<T, Model>& motion, const Launch<T>& launch, const Vec3<T>& from,
                double tolerance)
      : motion(motion),
        plain(value(motion)),
        launch(launch),
        steps(tolerance),
        now(moment(motion, starting_state(launch, from))) {}

  Flight<T> fly() {
    const Vec3<T> from = now.state.position;
    V length = steps.first;
    note_apex(from, from);
    note_knot(now);
    if (stuck_on_the_ground(value(now.state), plain.in)) {
      describe_landing(flight, now.state, T(0.0), launch, from);
      flight.status = Status::not_airborne;
      return flight;
    }
    keep_excess(now);
    for (V tries(0.0); value(time) < V(longest_flight) && length > V(shortest_step) && tries < steps.most;
         tries = tries + V(1.0)) {
      const V h = steps.allowed(length, value(now.state), plain);
      const Step<T> done = stepped(h);
      const Span<V> path{value(time),         h, value(now.state), value(now.rate), value(done.end.state),
                         value(done.end.rate)};
      const V error = steps.error_share(done), to_edge = h * share_to_edge(path, done);
      const auto over = to_edge < h && to_edge > V(shortest_cut);
      length = steps.next(h, error);
      if (over) length = smaller(length, to_edge);
      if (!(error <= V(1.0)) || over) continue;
      const V descent = descent_in(path, plain.in);
      const auto lands = descent >= V(0.0), passes_top = tops(path);
      T s(1.0);
      if (lands || passes_top) {
        const Span<T> span{time, T(h), now.state, now.rate, done.end.state, done.end.rate};
        if (lands) s = falls_through(clearance_in(span, motion.in), T(descent));
        if (passes_top) look_for_apex(span, s, from);
        if (lands) now = moment(motion, state_at(span, s));
      }
      if (!lands) now = done.end;
      time = time + h * s;
      if (value(time) > V(longest_flight)) break;
      note_knot(now);
      keep_excess(now);
      if (lands) {
        note_apex(now.state.position, from);
        describe_landing(flight, now.state, time, launch, from);
        return flight;
      }
    }
    return failed(value(time) < V(longest_flight) ? Status::numerical_failure : Status::no_landing);
  }

  /// The ball at the last step.
  const BallState<T>& last() const { return now.state; }

 private:
  Step<T> stepped(const V& h) const {
    if constexpr (is_lanes<T>)
      return flattened(h);
    else
      return step(motion, now, h);
  }
  /// In the kernels every call is worth inlining; of slopes outside them compilers take minutes to do so.
  [[gnu::flatten, gnu::noinline]] Step<T> flattened(const V& h) const { return step(motion, now, h); }

  V share_to_edge(const Span<V>& path, const Step<T>& done) const {
    const V dip = share_to_dip(path, plain.in);
    if constexpr (has_slopes<T>)
      return smaller(dip, share_to_any_edge(path, value(now.regime), value(done.end.regime), plain));
    else
      return smaller(dip, whimbrel::share_to_edge(now.regime, done.end.regime, plain.model));
  }
  void look_for_apex(const Span<T>& span, const T& end, const Vec3<T>& from) {
    const T s = top_of(height_in(span));
    if (value(s) <= value(end)) note_apex(path(span).at(s), from);
  }
  void note_apex(const Vec3<T>& position, const Vec3<T>& from) {
    const T height = position.z - motion.in.radius;
    if (begun && value(height) < value(flight.apex)) return;
    begun = true;
    flight.apex = height;
    flight.apex_distance = horizontal_distance(position - from);
  }
  void note_knot(const Moment<T>& m) {
    if constexpr (!is_lanes<T>) flight.trajectory.knots.push_back({time, m.state, m.rate});
  }
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

  const EquationOfMotion<T, Model>& motion;
  const EquationOfMotion<V, Model> plain;
  const Launch<T>& launch;
  StepControl<V> steps;
  Moment<T> now;
  T time{0.0};
  bool begun = false;
  Excess<T> excess;
  Flight<T> flight;
};

/// Flies from any position of the ball's centre; `tolerance` is that of a step, m.
template <Scalar T>
Flight<T> fly_stepped(const Launch<T>& launch, const Ball<T>& ball, const Setting<T>& setting,
                      const Vec3<T>& start, double tolerance) {
  return std::visit(
      [&](const auto& model) {
        const EquationOfMotion motion(model, ball, setting, launch);
        return SteppedFlight(motion, launch, start, tolerance).fly();
      },
      ball.aero);
}

}  // namespace whimbrel::kernel
