#pragma once
#include "whimbrel/impact/face.hpp"
#include "whimbrel/impact/restitution.hpp"

namespace whimbrel {

/// Steps of each half of the contact: halving the step moves the launch by less than 0.02 %.
inline constexpr int contact_steps = 300;

/// Stiffness k of the normal spring, N/m^1.5: it cancels out of the launch and sets only the time scale, so
/// that a driver is in contact for about 450 us (derived; 400 to 500 published: Smits & Ogg 2004).
inline constexpr double contact_stiffness = 3.0e7;

/// A contact under way, or done.
template <Scalar T>
struct ContactState {
  Vec3<T> impulse{};             ///< N s, on the ball
  T energy{0.0};                 ///< J, in the normal spring
  Vec3<T> friction{};            ///< q, the tangential force over the normal one
  T time{0.0}, slip_time{0.0};   ///< s
  T tangential_work{0.0};        ///< J, done so far on the tangential contact
  T least_tangential_work{0.0};  ///< J, the least of it so far: 0, as the contact makes no energy
};

// clang-format off
/// A compliant contact of two free bodies. With x the compression, s = 1 until the turn and e^2 ever after:
///
/// - normal force: N = s k x^1.5;
/// - tangential force: dF = K u_t dt while compressing, dF = K u_t dt + F dK/K while decompressing, with
///   K = 1.5 kappa s k x^0.5;
/// - friction: |F| held to mu N.
///
/// Written over the normal impulse P instead of time, k cancels. With E = 2/5 s k x^2.5 the energy of the
/// normal spring and q = F/N, dE = u_n dP and
///
/// - compressing: d(q E^0.6) = 0.6 kappa u_t E^-0.4 dP;
/// - decompressing: d(q E^0.4) = 0.6 kappa u_t E^-0.6 dP,
///
/// stepped by the midpoint rule: in compression to given closing speeds, the last of them 0, the turn; in
/// decompression to given energies, the last of them 0, the end. So turn and end are met exactly.
///
/// Friction that turns round during contact, and Hertz contact with tangential compliance and Coulomb
/// friction: Maw, Barber, Fawcett, Wear 38 (1976) 101; Cross, Am. J. Phys. 70 (2002) 1093 (both read as
/// abstracts). kappa and mu are calibrated by this project on a driver, a mid-iron and a short iron together.
// clang-format on
template <Scalar T>
class Contact {
 public:
  Contact(const Touch<T>& touch, const Matrix3<T>& mobility, const T& restitution, const Ball<T>& ball)
      : normal(touch.normal),
        approach(touch.approach),
        mobility(mobility),
        slowing_row(mobility * touch.normal),
        restitution(restitution),
        kappa(ball.contact_stiffness_ratio),
        mu(ball.face_friction) {}

  ContactState<T> run(int steps = contact_steps) {
    compress(steps);
    state.energy = state.energy * square(restitution);
    if (value(state.energy) > 0.0) decompress(steps);
    return state;
  }

 private:
  /// What one step does to the normal spring.
  struct Push {
    T impulse;  // N s, normal
    T energy;   // J, at the end of the step
  };

  /// Velocity of the face against the ball's surface, m/s, once the impulse on the ball is J.
  Vec3<T> sliding(const Vec3<T>& J) const {
    const Vec3<T> u = approach - mobility * J;
    return u - dot(u, normal) * normal;
  }
  T closing_speed() const { return dot(approach - mobility * state.impulse, normal); }

  /// Share of the greatest energy that is stored w of the way from the turn to first or last touch: steps are
  /// fine at the touches, where friction changes fast, and even in the closing speed at the turn.
  static double share(double w) { return std::pow(1.0 - w * w, 2.5); }

  void compress(int steps) {
    const T start = closing_speed();
    state.friction = held_to_mu(kappa / start * sliding(state.impulse), T(1.0));
    for (int i = 1; i <= steps; ++i) {
      const T u = closing_speed(),
              end = start * T(std::sqrt(1.0 - share(1.0 - static_cast<double>(i) / steps)));
      step(0.6, kappa, T(1.0), [&](const T& slowing) {
        const T dP = (u - end) / slowing;
        return Push{dP, state.energy + T(0.5) * (u + end) * dP};
      });
    }
  }

  void decompress(int steps) {
    using std::sqrt;
    const T start = state.energy;
    for (int i = 1; i <= steps; ++i) {
      const T u = closing_speed(), end = start * T(share(static_cast<double>(i) / steps));
      const T released = state.energy - end;
      step(0.4, T(1.5) * kappa, restitution, [&](const T& slowing) {
        return Push{(u + sqrt(u * u + T(2.0) * slowing * released)) / slowing, end};
      });
    }
  }

  /// One midpoint step, q carried as q E^power. `push` tells the step's normal impulse, given how fast an
  /// impulse slows the closing.
  template <class PushOf>
  void step(double power, const T& gain, const T& softness, const PushOf& push_of) {
    const T before = raised(state.energy, power);
    Vec3<T> q = state.friction, end_q = q, slide{};
    Push push{};
    T rise{}, pressed{};
    for (int pass = 0; pass < 2; ++pass) {
      push = push_of(dot(slowing_row, normal + q));
      pressed = raised(push.energy, power);
      rise = (pressed - before) / (push.energy - state.energy);
      slide = sliding(state.impulse + T(0.5) * push.impulse * (normal + q));
      end_q = held_to_mu(before * state.friction + gain * push.impulse * rise * slide, pressed);
      q = T(0.5) * (state.friction + end_q);
    }
    note_time(push, softness);
    note_work(push.impulse * dot(q, slide));
    state.impulse = state.impulse + push.impulse * (normal + q);
    state.energy = push.energy;
    state.friction = end_q;
  }

  /// a / b, its size held to mu.
  Vec3<T> held_to_mu(const Vec3<T>& a, const T& b) {
    const T size = norm(a);
    slipping = size > mu * b;
    return choose(slipping, mu / choose(slipping, size, T(1.0)), T(1.0) / larger(b, T(1e-300))) * a;
  }

  /// An energy to a power; at no energy 0, with the derivative 0 of a value that stays there.
  static T raised(const T& energy, double power) {
    using std::pow;
    const auto some = energy > T(0.0);
    return choose(some, pow(choose(some, energy, T(1.0)), T(power)), T(0.0));
  }

  /// dt = dP / N, with N = (s k)^0.4 (5/2 E)^0.6.
  void note_time(const Push& push, const T& softness) {
    const T rise =
        (raised(push.energy, 0.4) - raised(state.energy, 0.4)) / (T(0.4) * (push.energy - state.energy));
    const T scale = raised(softness, 0.8) * T(std::pow(contact_stiffness, 0.4) * std::pow(2.5, 0.6));
    const T dt = push.impulse * rise / scale;
    state.time = state.time + dt;
    state.slip_time = state.slip_time + choose(slipping, dt, T(0.0));
  }

  void note_work(const T& work) {
    state.tangential_work = state.tangential_work + work;
    state.least_tangential_work = smaller(state.least_tangential_work, state.tangential_work);
  }

  Vec3<T> normal, approach;
  Matrix3<T> mobility;
  Vec3<T> slowing_row;  // how an impulse changes the closing speed, 1/kg
  T restitution, kappa, mu;
  decltype(T() < T()) slipping{};
  ContactState<T> state{};
};

/// Whether friction could push the face on as fast as the normal force slows it, on a head that turns so
/// easily that the contact would jam; no real head does. Of such an impact all numbers are NaN.
template <Scalar T>
auto can_jam(const Vec3<T>& normal, const Matrix3<T>& mobility, const T& mu) {
  const Vec3<T> slowing = mobility * normal;
  const T along = dot(slowing, normal);
  return mu * norm(slowing - along * normal) >= along;
}

/// The impact of a compliant contact: one model for every club and every strike.
/// Not modelled: the shaft, turf on the head, wet faces at small lofts, the edges of the face.
template <Scalar T>
Impact<T> compliant_impact(const Delivery<T>& delivery, const Club<T>& club, const Ball<T>& ball,
                           int steps = contact_steps) {
  const Touch<T> first = touch(delivery, club, ball);
  const T approach_speed = dot(first.approach, first.normal);
  const T e = restitution(club.face_restitution, approach_speed);
  const Matrix3<T> mobility = contact_mobility(first, club, ball);
  const ContactState<T> done = Contact(first, mobility, e, ball).run(steps);
  const T certain = choose(can_jam(first.normal, mobility, ball.face_friction), T(NAN), T(1.0));
  Impact<T> impact = after_impulse(certain * done.impulse, first, delivery, club, ball);
  impact.contact_time = done.time;
  impact.slip_time = done.slip_time;
  impact.out_of_range.face_friction = smaller(ball.face_friction - T(least_face_friction), T(0.0));
  impact.out_of_range.approach_speed = smaller(approach_speed - T(least_approach_speed), T(0.0));
  return impact;
}

}  // namespace whimbrel
