#pragma once
#include "whimbrel/batch/columns.hpp"
#include "whimbrel/core/error.hpp"
#include "whimbrel/flight/dormand_prince.hpp"
#include "whimbrel/flight/edges.hpp"
#include "whimbrel/flight/excess.hpp"
#include "whimbrel/flight/fly.hpp"
#include "whimbrel/flight/span.hpp"
#include "whimbrel/flight/step_size.hpp"

namespace whimbrel {

/// Flights waiting to be flown, one a lane.
template <Scalar T>
struct Waiting {
  Moment<T> start;
  FlightConditions<T> in;
};

/// How flights ended, one a lane.
template <Scalar T>
struct Ended {
  Span<T> landing, apex;  ///< the steps in which they came down and were highest
  T descent;              ///< share of its step after which the landing lies
  T has_apex;             ///< 1, or 0 if `apex` is not set
  T status;               ///< `Status` as a number
  Excess<T> excess;
};

/// Flies launches, W at a time: a step, error control and tests of its own for every lane, and the next
/// launch for a lane whose ball is down.
template <class T, AeroModel Model>
class Airborne {
 public:
  static constexpr int W = T::width;

  Airborne(const Model& model, WindProfile profile, double tolerance, const Waiting<T>* waiting,
           Ended<T>* ended, const int* order, int count)
      : motion(model, profile, waiting->in),
        steps(tolerance),
        now(waiting->start),
        waiting(waiting),
        ended(ended),
        order(order),
        count(count) {}

  void fly() {
    for (int i = 0; i < W; ++i) take_next(i);
    while (flying) advance();
  }

 private:
  /// A step before `now` goes on: copied for the lanes alone that keep it.
  using SpanSeen = Span<T, const BallState<T>&>;

  [[gnu::flatten]] void advance() {
    const T h = steps.allowed(next_length, now.state, motion);
    const Step<T> done = step(motion, now, h);
    const SpanSeen span{time, h, now.state, now.rate, done.end.state, done.end.rate};
    tries = tries + T(1.0);
    const T error = steps.error_share(done),
            to_edge = smaller(share_to_edge(now.regime, done.end.regime, motion.model),
                              share_to_dip(span, motion.in));
    const auto good = error <= T(1.0) && to_edge >= T(1.0);
    const auto eventful =
        (good && (may_come_down(span, motion.in) || tops(span) || time + h > T(longest_flight))) ||
        !(h > T(shortest_step)) || tries >= steps.most;
    unsigned over = 0;
    if (const unsigned lanes = lanes_where(eventful) & flying) over = note(span, lanes_where(good), lanes);
    const T by_error = steps.next(h, error);
    const auto cut = to_edge < T(1.0);
    next_length =
        choose(cut, smaller(by_error, h * to_edge), choose(good, larger(by_error, beyond), by_error));
    beyond = choose(cut, larger(by_error, beyond), T(0.0));
    time = choose(good, time + h, time);
    now = choose(good, done.end, now);
    excess = farther(excess, excess_of(now.regime, motion.model));
    for (; over; over &= over - 1) take_next(__builtin_ctz(over));
  }

  /// Notes the events of these lanes' steps; returns the lanes whose flights are over.
  [[gnu::noinline]] unsigned note(const SpanSeen& span, unsigned good, unsigned lanes) {
    const T descent = descent_in(span, motion.in);
    const unsigned descending = lanes_where(descent >= T(0.0)), topping = lanes_where(tops(span));
    unsigned over = 0;
    for (; lanes; lanes &= lanes - 1) {
      const int i = __builtin_ctz(lanes);
      const unsigned bit = 1u << i;
      Ended<T>& group = ended[slots[i] / W];
      const int k = slots[i] % W;
      Status status = Status::ok;
      if (!(good & bit)) {
        status = Status::numerical_failure;
      } else {
        if (topping & bit) note_apex(span, i, group, k);
        if (descending & bit) {
          keep(span, i, group.landing, k);
          lane(group.descent, k) = lane(descent, i);
        } else if (lane(time, i) + lane(span.length, i) > longest_flight) {
          status = Status::no_landing;
        } else if (lane(tries, i) >= lane(steps.most, i)) {
          status = Status::numerical_failure;
        } else {
          continue;
        }
      }
      lane(group.status, k) = static_cast<double>(status);
      copy_lane<T>(excess, i, group.excess, k);
      over |= bit;
    }
    return over;
  }

  /// Copies a lane of a step.
  static void keep(const SpanSeen& span, int i, Span<T>& kept, int k) {
    static_assert(sizeof(Span<T>) == 2 * sizeof(T) + 4 * sizeof(BallState<T>));
    lane(kept.start, k) = lane(span.start, i);
    lane(kept.length, k) = lane(span.length, i);
    copy_lane<T>(span.from, i, kept.from, k);
    copy_lane<T>(span.from_rate, i, kept.from_rate, k);
    copy_lane<T>(span.to, i, kept.to, k);
    copy_lane<T>(span.to_rate, i, kept.to_rate, k);
  }

  /// Keeps the step of the highest apex: of two, rare as they are, the tops are compared.
  void note_apex(const SpanSeen& span, int i, Ended<T>& group, int k) {
    if (lane(group.has_apex, k) != 0.0) {
      const Quintic<T> now = height_in(span), before = height_in(group.apex);
      if (lane(now.at(top_of(now)), i) <= lane(before.at(top_of(before)), k)) return;
    }
    keep(span, i, group.apex, k);
    lane(group.has_apex, k) = 1.0;
  }

  /// The next flight for a lane. If none is left the lane stands still, in steps of no length. If its ball
  /// flew on with the others, its spin would decay to denormal numbers, which are slow.
  [[gnu::noinline]] void take_next(int i) {
    lane(beyond, i) = 0.0;
    if (next == count) {
      flying &= ~(1u << i);
      lane(next_length, i) = 0.0;
      return;
    }
    const int slot = order[next++];
    const Waiting<T>& group = waiting[slot / W];
    const int k = slot % W;
    copy_lane<T>(group.start, k, now, i);
    copy_lane<T>(group.in, k, motion.in, i);
    lane(excess.spin_ratio, i) = lane(excess.reynolds, i) = 0.0;
    lane(time, i) = lane(tries, i) = 0.0;
    lane(next_length, i) = lane(steps.first, i);
    lane(ended[slot / W].has_apex, k) = 0.0;
    slots[i] = slot;
    flying |= 1u << i;
  }

  EquationOfMotion<T, Model> motion;
  StepControl<T> steps;
  Moment<T> now;
  Excess<T> excess;
  T time, next_length;
  T tries{0.0};   // steps of each flight so far, good or too long
  T beyond{0.0};  // how long a step may be after one that was cut to end at an edge or dip; else 0
  int slots[W] = {};
  unsigned flying = 0;
  const Waiting<T>* waiting;
  Ended<T>* ended;
  const int* order;  // the slots to fly, `count` of them
  int count, next = 0;
};

}  // namespace whimbrel
