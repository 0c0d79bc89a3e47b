#pragma once
#include <optional>

#include "whimbrel/flight/fly.hpp"
#include "whimbrel/impact/strike.hpp"

namespace whimbrel {

/// A whole shot, every stage of it. A shot from a measured launch has no swing and no impact.
template <Scalar T = double>
struct Shot {
  std::optional<Swing<T>> swing{};
  std::optional<Impact<T>> impact{};
  Launch<T> launch{};
  Flight<T> flight{};
};

namespace kernel {

template <Scalar T>
Shot<T> play(const Swing<T>& swing, const Ball<T>& ball, const Setting<T>& setting) {
  Shot<T> shot{.swing = swing, .impact = kernel::strike(swing, ball)};
  shot.launch = shot.impact->launch;
  shot.flight = kernel::fly(shot.launch, ball, setting);
  return shot;
}

template <Scalar T>
Shot<T> play(const Launch<T>& launch, const Ball<T>& ball, const Setting<T>& setting) {
  return {.launch = launch, .flight = kernel::fly(launch, ball, setting)};
}

}  // namespace kernel

/// Plays a delivery with a club, to the landing.
/// @throws InputError for a number outside its range, or a face that does not approach the ball;
/// std::runtime_error if the integration fails.
template <Scalar T>
Shot<T> play(const Delivery<T>& delivery, const Club<T>& club, const Ball<T>& ball = {},
             const Setting<T>& setting = {}, ImpactModel model = ImpactModel::compliant) {
  const Swing<T> swing{delivery, club, model};
  check(swing, ball, setting);
  Shot<T> shot = kernel::play(swing, ball, setting);
  throw_if_failed(shot.flight);
  return shot;
}

/// Plays a measured launch to the landing.
/// @throws as `fly` does.
template <Scalar T>
Shot<T> play(const Launch<T>& launch, const Ball<T>& ball = {}, const Setting<T>& setting = {}) {
  return {.launch = launch, .flight = fly(launch, ball, setting)};
}

}  // namespace whimbrel
