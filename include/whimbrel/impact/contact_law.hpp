#pragma once
#include "whimbrel/impact/face.hpp"

namespace whimbrel {

/// A contact under way, or done. Speeds are in units of the approach speed and lengths in units of the
/// greatest compression there would be without friction.
template <Scalar T>
struct ContactState {
  Vec3<T> impulse{};             ///< on the ball
  Vec3<T> stretch{};             ///< q y^3 while compressing, q y^2 while decompressing
  T root{0.0};                   ///< y, the square root of the compression
  T time{0.0}, slip_time{0.0};   ///< since first touch, and slipping
  T tangential_work{0.0};        ///< done so far on the tangential contact
  T least_tangential_work{0.0};  ///< least at the end of a step: 0, as a contact makes no energy
};

/// `x` where the condition holds, else `y`.
template <Scalar T>
ContactState<T> choose(const Mask<T>& condition, const ContactState<T>& x, const ContactState<T>& y) {
  return {choose(condition, x.impulse, y.impulse),
          choose(condition, x.stretch, y.stretch),
          choose(condition, x.root, y.root),
          choose(condition, x.time, y.time),
          choose(condition, x.slip_time, y.slip_time),
          choose(condition, x.tangential_work, y.tangential_work),
          choose(condition, x.least_tangential_work, y.least_tangential_work)};
}

/// Which of its four laws a contact obeys.
template <Scalar T>
struct ContactPhase {
  Mask<T> decompressing, slipping;
};

// clang-format off
/// A compliant contact of two free bodies. With x the compression, s = 1 until the turn and e^2 ever after:
///
/// - normal force: N = s k x^1.5;
/// - tangential force: dF = K u_t dt while compressing, dF = K u_t dt + F dK/K while decompressing, with
///   K = 1.5 kappa s k x^0.5;
/// - friction: |F| held to mu N.
///
/// With y the root of x, q = F/N and dt = y dtau no roots or powers are left, and all is smooth except the
/// change of friction between sticking and slipping:
///
/// - dy/dtau = u_n / 2, and the impulse grows by s k y^4 (n + q);
/// - sticking: d(q y^3)/dtau = 1.5 y^2 kappa u_t compressing, d(q y^2)/dtau = 1.5 y kappa u_t decompressing;
/// - slipping, |q| = mu: the same less the excess along f = q/mu, kappa f.u_t - c mu u_n, with c = 1
///   compressing and 2/3 decompressing. Slipping lasts until the excess is 0.
///
/// Friction that reverses during contact, and Hertz contact with tangential compliance and Coulomb friction:
/// Maw, Barber, Fawcett, Wear 38 (1976) 101; Cross, Am. J. Phys. 70 (2002) 1093 (both read as abstracts).
/// kappa and mu are calibrated by this project on launches from driver to lob wedge
/// (validation/impact_windows).
// clang-format on
template <Scalar T>
struct ContactLaw {
  Vec3<T> normal, approach;  ///< approach over the approach speed
  Matrix3<T> mobility;       ///< 1/kg
  T restitution, kappa, mu;
  T slowing = dot(normal, mobility* normal);  ///< of the closing by a normal impulse, 1/kg
  T stiffness = T(1.25) / slowing;            ///< k in these units

  /// First touch: a stretch of no size to speak of, which yet says the way friction pulls.
  ContactState<T> start() const {
    const Vec3<T> sliding = approach - dot(approach, normal) * normal;
    return {Vec3<T>{}, T(1e-30) * sliding, T(0.0), T(0.0), T(0.0), T(0.0), T(0.0)};
  }

  /// What the state says of the contact's motion.
  struct Motion {
    T closing;         ///< u_n
    Vec3<T> sliding;   ///< u_t
    Vec3<T> friction;  ///< f, a unit vector, or 0 where nothing slides
    T size;            ///< of the stretch
    T excess;          ///< of the friction's growth over what mu allows
    Vec3<T> traction;  ///< q y^3
    T lever;           ///< y^2 compressing, y decompressing
    T limit;           ///< of the stretch
    T turning;         ///< of the stretch: size over limit while slipping, else 1
    T share;           ///< c

    friend Motion choose(const Mask<T>& condition, const Motion& a, const Motion& b) {
      return {choose(condition, a.closing, b.closing),   choose(condition, a.sliding, b.sliding),
              choose(condition, a.friction, b.friction), choose(condition, a.size, b.size),
              choose(condition, a.excess, b.excess),     choose(condition, a.traction, b.traction),
              choose(condition, a.lever, b.lever),       choose(condition, a.limit, b.limit),
              choose(condition, a.turning, b.turning),   choose(condition, a.share, b.share)};
    }
  };

  Motion motion(const ContactState<T>& at, const ContactPhase<T>& phase) const {
    const Vec3<T> u = approach - mobility * at.impulse;
    const T closing = dot(u, normal), y = at.root;
    const Vec3<T> sliding = u - closing * normal;
    const T lever = choose(phase.decompressing, y, y * y), limit = mu * y * lever;
    const T size = norm(at.stretch);
    const auto loaded = limit > T(0.0);
    const auto [per_size, per_limit] =
        reciprocals(choose(size > T(0.0), size, T(1.0)), choose(loaded, limit, T(1.0)));
    const Vec3<T> f = per_size * at.stretch;
    const T turning = choose(phase.slipping && loaded, per_limit * size, T(1.0));
    const Vec3<T> traction =
        choose(phase.decompressing, y, T(1.0)) * choose(phase.slipping, limit * f, at.stretch);
    const T share = choose(phase.decompressing, T(2.0 / 3.0), T(1.0));
    return {closing,  sliding, f,     size,    kappa * dot(f, sliding) - share * mu * closing,
            traction, lever,   limit, turning, share};
  }

  /// How a state changes with tau.
  ContactState<T> rates(const Motion& m, const ContactState<T>& at, const ContactPhase<T>& phase) const {
    const T y = at.root, soft = choose(phase.decompressing, square(restitution), T(1.0));
    const T press = stiffness * soft * y;
    return {press * (y * y * y * normal + m.traction),
            T(1.5) * kappa * m.lever * m.turning * m.sliding,
            T(0.5) * m.closing,
            y,
            choose(phase.slipping, y, T(0.0)),
            press * dot(m.traction, m.sliding),
            T(0.0)};
  }

  /// What is left of something until 0, and how it changes with tau.
  struct Gap {
    T gap, rate;

    friend Gap choose(const Mask<T>& condition, const Gap& a, const Gap& b) {
      return {choose(condition, a.gap, b.gap), choose(condition, a.rate, b.rate)};
    }
  };
  /// How far a contact is from the end of its phase: of the compression or decompression, and of the sticking
  /// or slipping.
  struct Gaps {
    Gap spring, friction;
  };
  Gaps gaps(const Motion& m, const ContactState<T>& at, const ContactPhase<T>& phase) const {
    const ContactState<T> rate = rates(m, at, phase);
    const Vec3<T> pull = -(mobility * rate.impulse);  // on the contact's velocity
    const T slowed = dot(pull, normal);
    // As f turns toward the sliding:
    const auto loaded = m.limit > T(0.0);
    const Vec3<T> across = m.sliding - dot(m.sliding, m.friction) * m.friction;
    const T turning = T(1.5) * kappa * m.lever * dot(across, across) / choose(loaded, m.limit, T(1.0));
    const T excess_rate = kappa * (turning + dot(m.friction, pull)) - m.share * mu * slowed;
    // Room is over the limit while compressing, as both rise with y^3 from first touch.
    const auto over_limit = !phase.decompressing && loaded;
    const T scale = choose(over_limit, m.limit, T(1.0));
    const T grown = choose(over_limit, T(1.0) - m.size / scale, T(0.0));  // of the limit
    const T room = choose(phase.decompressing, m.limit - m.size,
                          choose(loaded, grown, -m.excess / choose(mu > T(0.0), mu * m.closing, T(1.0))));
    const T room_rate = T(-1.5) * m.lever / scale * (m.excess + grown * mu * m.closing);
    return {{choose(phase.decompressing, at.root, m.closing), choose(phase.decompressing, rate.root, slowed)},
            {choose(phase.slipping, m.excess, room), choose(phase.slipping, excess_rate, room_rate)}};
  }
};

}  // namespace whimbrel
