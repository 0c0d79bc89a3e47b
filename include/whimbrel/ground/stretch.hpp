#pragma once
#include <algorithm>
#include <array>

#include "whimbrel/core/vector.hpp"

namespace whimbrel {

/// Pull along a plane, and brake: a velocity w there changes as dw/dt = pull - brake w/|w|. It is the
/// velocity of a rolling ball, or the slip of one that skids.
template <Scalar T>
struct PullAndBrake {
  Vec3<T> pull;  ///< m/s^2
  T brake;       ///< m/s^2

  /// Whether it stays at rest once it has stopped.
  bool holds() const { return value(norm(pull)) <= value(brake); }
};

/// How long a stretch takes, how far it leads, and the velocity at its end.
template <Scalar T>
struct Stretch {
  T time;
  Vec3<T> way, velocity;
};

/// From a velocity to rest, where the brake is stronger than the pull; derived. Let d be the direction of the
/// pull p, and b the brake. The rates of |w|, w.d and w, and of their products with |w| and w.d, are linear
/// in one another. Their integrals, time and distance, therefore follow from the start.
template <Scalar T>
Stretch<T> stretch_to_rest(const PullAndBrake<T>& forces, const Vec3<T>& velocity) {
  const auto& [pull, b] = forces;
  const T p_squared = dot(pull, pull), speed = norm(velocity), pulled = dot(pull, velocity);
  const T over = square(b) - p_squared, wide = T(4.0) * square(b) - p_squared;
  const T sum = T(2.0) * b * speed + pulled;
  const T down = (T(3.0) * pulled * sum + square(speed) * wide) / (T(4.0) * over * wide);
  return {(b * speed + pulled) / over, (sum / wide) * velocity + down * pull, {}};
}

/// From a velocity straight against the pull to the turn. Its derivatives are also right sideways.
template <Scalar T>
Stretch<T> stretch_to_turn(const PullAndBrake<T>& forces, const Vec3<T>& velocity) {
  const T p = norm(forces.pull), b = forces.brake;
  const Vec3<T> d = unit(forces.pull);
  const T along = dot(velocity, d), up = T(0.5) * (norm(velocity) - along);
  const Vec3<T> side = velocity - along * d;
  return {up / (b + p), (up / (T(2.0) * b + p)) * side - (T(0.5) * square(up) / (b + p)) * d, {}};
}

/// A part of the way in any direction; derived. Over theta, the integral of dt/|w|, the rates of w and |w|
/// are linear: dw = pull |w| - brake w, d|w| = pull.w - brake |w|. Each term of their power series therefore
/// gives the next, as it does for time and distance.
template <Scalar T>
class StretchSeries {
 public:
  StretchSeries(const PullAndBrake<T>& forces, const Vec3<T>& velocity)
      : reach(0.25 / std::max(value(norm(forces.pull) + forces.brake), 1e-6)) {
    const auto& [pull, brake] = forces;
    w[0] = velocity;
    size[0] = norm(velocity);
    for (std::size_t n = 0; n + 1 < terms; ++n) {
      const T share(1.0 / static_cast<double>(n + 1));
      w[n + 1] = share * (size[n] * pull - brake * w[n]);
      size[n + 1] = share * (dot(pull, w[n]) - brake * size[n]);
      Vec3<T> product{};
      for (std::size_t k = 0; k <= n; ++k) product = product + size[n - k] * w[k];
      time[n + 1] = share * size[n];
      way[n + 1] = share * product;
    }
  }

  /// As far as the series is exact to rounding, a change of speed by up to a quarter; or until `most`.
  Stretch<T> end(const T& most) const {
    T theta(reach);
    const T whole = sum(time, theta);
    if (value(whole) <= value(most)) return {whole, sum(way, theta), sum(w, theta)};
    theta = smaller(theta, most / size[0]);
    for (int i = 0; i < newton_steps; ++i) theta = theta - (sum(time, theta) - most) / sum(size, theta);
    return {most, sum(way, theta), sum(w, theta)};
  }

 private:
  static constexpr std::size_t terms = 15;  // the first left out is 1e-17 of the way
  static constexpr int newton_steps = 6;

  template <class Term>
  static Term sum(const std::array<Term, terms>& series, const T& theta) {
    Term total = series[terms - 1];
    for (std::size_t n = terms - 1; n-- > 0;) total = series[n] + theta * total;
    return total;
  }

  double reach;
  std::array<Vec3<T>, terms> w{}, way{};
  std::array<T, terms> size{}, time{};
};

}  // namespace whimbrel
