#pragma once
#include "whimbrel/flight/dormand_prince.hpp"

namespace whimbrel {

inline constexpr double shortest_step = 1e-9;       // s; a tolerance that asks for less is not met
inline constexpr double longest_flight_step = 0.9;  // s

/// The most steps a flight may take at a tolerance of 1 m, rejected steps included. A smaller tolerance
/// allows more, as steps shrink with its fifth root. An ordinary flight takes 17 to 20 at the tolerance of
/// the fast path; this lets it take 4,000 there (a few milliseconds) and 96,000 at that of slopes. One that
/// asks for more is stiff: its air spins or slows the ball within less than a thousandth of a second.
inline constexpr double most_steps_at_a_metre = 607.0;

/// How long the steps of a flight are, to a tolerance in m of each. Its constants are
/// calibrated here, for few steps at a small worst error of the carry over 200,000 launches.
template <Scalar T>
struct StepControl {
  T first;  ///< s, the first step to try
  T per_tolerance_squared;
  T most;  ///< steps a flight may take

  explicit StepControl(double tolerance)
      : first(0.01 * __builtin_pow(tolerance * 1e3, 0.2)),
        per_tolerance_squared(1.0 / (tolerance * tolerance)),
        most(most_steps_at_a_metre * __builtin_pow(tolerance, -0.2)) {}

  /// The square of a step's error, as a share of the tolerance's: 1 is still good.
  T error_share(const auto& step) const { return step.error_squared * per_tolerance_squared; }

  /// The step to try next, after one of h seconds with such an error: errors go with its fifth power.
  T next(const T& h, const T& error_share) const {
    const T factor = 0.9 * rough_power(larger(error_share, T(1e-12)), -0.1);
    return choose(error_share >= T(0.0), smaller(T(longest_flight_step), h * held(factor, 0.2, 5.0)),
                  T(0.1) * h);
  }

  /// A step, shortened where the wind changes with height. There the ball may cover only a multiple of its
  /// height and the profile's roughness, and less on its way down to where the profile bends. Below the
  /// ground, where only a ball that started there falls, the wind is constant.
  template <class Motion>
  T allowed(const T& h, const BallState<T>& state, const Motion& motion) const {
    if (motion.profile == WindProfile::uniform) return h;
    constexpr double going_up = 1.9, coming_down = 0.65, roughness_lengths = 15.0;
    const WindAloft<T>& wind = motion.in.wind;
    const T height = height_in_wind(motion.in.terrain, state.position), z = larger(height, T(0.0));
    const T& v = state.velocity.z;
    const T multiple = choose(v > T(0.0), T(going_up), T(coming_down));
    const T in_shear =
        multiple * (z + T(roughness_lengths) * wind.roughness) / larger(larger(v, -v), T(1e-3));
    const auto sheared = dot(wind.reference, wind.reference) > T(0.0) && (height > T(0.0) || v > T(0.0));
    return choose(sheared, smaller(h, in_shear), h);
  }
};

}  // namespace whimbrel
