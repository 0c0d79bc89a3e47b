#pragma once
#include "whimbrel/impact/contact_law.hpp"

namespace whimbrel {

/// A state moved on at given rates.
template <Scalar T>
ContactState<T> moved(const ContactState<T>& from, const T& by, const ContactState<T>& rate) {
  return {from.impulse + by * rate.impulse,     from.stretch + by * rate.stretch,
          from.root + by * rate.root,           from.time + by * rate.time,
          from.slip_time + by * rate.slip_time, from.tangential_work + by * rate.tangential_work};
}

/// One step of the classical fourth-order Runge-Kutta method within a phase, from a state whose motion is
/// known.
template <Scalar T>
ContactState<T> contact_step(const ContactLaw<T>& law, const ContactPhase<T>& phase,
                             const ContactState<T>& from, const typename ContactLaw<T>::Motion& motion,
                             const T& by) {
  const auto rate = [&](const ContactState<T>& at) { return law.rates(law.motion(at, phase), at, phase); };
  const T half = T(0.5) * by, third = T(1.0 / 3.0) * by, sixth = T(1.0 / 6.0) * by;
  const ContactState<T> a = law.rates(motion, from, phase), b = rate(moved(from, half, a)),
                        c = rate(moved(from, half, b)), d = rate(moved(from, by, c));
  return moved(moved(moved(moved(from, sixth, a), third, b), third, c), sixth, d);
}

/// Where in [0, 1] the cubic with these ends and end slopes passes from above 0 to below, to a millionth; 1
/// if it ends above 0. By bisection, two halvings a round, whose trials do not wait for each other.
template <Scalar T>
T falls_through_zero(const T& start, const T& start_slope, const T& end, const T& end_slope) {
  const T rise = end - start, bend = T(3.0) * rise - T(2.0) * start_slope - end_slope,
          twist = start_slope + end_slope - T(2.0) * rise;
  const auto above = [&](const T& at) {
    return start + at * (start_slope + at * (bend + at * twist)) > T(0.0);
  };
  T at(0.0);
  for (double part = 0.25; part > 0.5e-6; part *= 0.25) {
    const T one(part), two(2.0 * part), three(3.0 * part);
    at = at +
         choose(above(at + two), choose(above(at + three), three, two), choose(above(at + one), one, T(0.0)));
  }
  return choose(end < T(0.0), at, T(1.0));
}

/// Carries a contact from first touch to last, each step within one phase: a step that would leave its phase
/// is cut where a gap closes. A cubic through the gap finds where, to the order of the step. Newton's rule
/// corrects the rest: it meets turn and end exactly and keeps derivatives right.
template <Scalar T>
class ContactSteps {
  using Motion = typename ContactLaw<T>::Motion;

 public:
  ContactSteps(const ContactLaw<T>& law, int steps)
      : law(law),
        most_rounds(4 * steps + 20),
        compressing(half_contact / steps),
        decompressing(choose(law.restitution > T(0.0),
                             compressing / choose(law.restitution > T(0.0), law.restitution, T(1.0)),
                             compressing)) {
    now.slipping = law.motion(state, now).excess > T(0.0);
    motion = law.motion(state, now);
  }

  /// The contact at its end, or after as many rounds as no contact needs.
  ContactState<T> run() {
    for (int round = 0; round < most_rounds && any(!done); ++round) advance();
    return state;
  }

  /// How often sticking went over to slipping or back.
  T changes() const { return changed; }

  /// Whether the contact came to its end.
  Mask<T> ended() const { return done; }

 private:
  /// tau of the compression of a contact without friction: 2/5 B(1/5, 1/2).
  static constexpr double half_contact = 2.5071;

  void advance() {
    const Mask<T> was_done = done;
    Mask<T> held = now.slipping;
    const T by = choose(now.decompressing, decompressing, compressing);
    ContactState<T> next = contact_step(law, now, state, motion, by);
    Motion reached = law.motion(next, now);
    Mask<T> halts = choose(now.decompressing, next.root, reached.closing) <= T(0.0);
    Mask<T> switches =
        choose(now.slipping, reached.excess, reached.limit - reached.size) < T(0.0) && reached.limit > T(0.0);
    if (any(!done && (halts || switches))) {
      const auto before = law.gaps(motion, state, now), after = law.gaps(reached, next, now);
      // The share of the step after which a gap closes. Where only one of them does, that one's serves as
      // both.
      const auto until_closed = [&](const Mask<T>& of_spring) {
        const auto from = choose(of_spring, before.spring, before.friction);
        const auto to = choose(of_spring, after.spring, after.friction);
        return falls_through_zero(from.gap, by * from.rate, to.gap, by * to.rate);
      };
      const Mask<T> none = T(1.0) < T(0.0);
      const T spring = until_closed(halts), friction = any(halts && switches) ? until_closed(none) : spring;
      halts = halts && (!switches || spring <= friction || friction <= T(0.0));
      switches = switches && !halts;
      // A gap closed from the start cannot be stepped to: the whole step is kept, held to mu at its end.
      const auto cut = halts || (switches && friction > T(0.0));
      const T until = choose(halts, spring, friction) * by;
      next = choose(cut, closed(contact_step(law, now, state, motion, until), halts, by), next);
      held = held || switches;
      enter(next, halts, switches);
      reached = choose(halts || switches, law.motion(next, now), reached);
    }
    // Held to mu; what that makes of its motion is known.
    next.stretch = choose(held, reached.limit * reached.friction, next.stretch);
    reached.size = choose(held, reached.limit, reached.size);
    reached.turning = T(1.0);
    reached.traction = choose(now.decompressing, next.root, T(1.0)) * next.stretch;
    next.least_tangential_work = smaller(state.least_tangential_work, next.tangential_work);
    state = choose(was_done, state, next);
    motion = reached;
  }

  /// A state near the end of the phase brought to it.
  ContactState<T> closed(const ContactState<T>& near, const Mask<T>& by_spring, const T& step) const {
    const Motion there = law.motion(near, now);
    const auto gaps = law.gaps(there, near, now);
    const T gap = choose(by_spring, gaps.spring.gap, gaps.friction.gap),
            rate = choose(by_spring, gaps.spring.rate, gaps.friction.rate);
    const auto closing = T(0.1) * step * -rate > larger(gap, -gap);
    const T left = choose(closing, -gap / choose(closing, rate, T(1.0)), T(0.0));
    return moved(near, left, law.rates(there, near, now));
  }

  /// Takes a state to the next phase where this one halts or switches, and counts the switches, except of
  /// lanes that are done.
  void enter(ContactState<T>& next, const Mask<T>& halts, const Mask<T>& switches) {
    const auto turns = halts && !now.decompressing;
    changed = changed + choose(switches && !done, T(1.0), T(0.0));
    done = done || (halts && now.decompressing) || (turns && law.restitution <= T(0.0));
    now.slipping = (now.slipping && !switches) || (!now.slipping && switches);
    now.decompressing = now.decompressing || turns;
    next.stretch = choose(turns, T(1.0) / choose(turns, next.root, T(1.0)) * next.stretch, next.stretch);
  }

  ContactLaw<T> law;
  int most_rounds;
  T compressing, decompressing;  // steps of tau
  T changed{0.0};
  ContactState<T> state = law.start();
  Motion motion;  // of this state
  Mask<T> done = T(1.0) < T(0.0);
  ContactPhase<T> now{done, done};
};

}  // namespace whimbrel
