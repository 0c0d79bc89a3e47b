#pragma once
#include <optional>

#include "whimbrel/ground/run.hpp"
#include "whimbrel/impact/strike.hpp"

namespace whimbrel {

/// A whole shot, every stage of it. A shot from a measured launch has no swing and no impact; one from a
/// landing begins there, with a flight of no length.
template <Scalar T = double>
struct Shot {
  std::optional<Swing<T>> swing{};
  std::optional<Impact<T>> impact{};
  Launch<T> launch{};
  Flight<T> flight{};
  Landing<T> landing{};
  Run<T> run{};
};

namespace kernel {

/// The run after a flight that has a landing; else NaN and the flight's status.
template <Scalar T>
void run_out(Shot<T>& shot, const Ball<T>& ball, const Setting<T>& setting, const Turf<T>& turf) {
  if (shot.flight.status != Status::ok && shot.flight.status != Status::not_airborne) {
    for (const auto& field : Landing<T>::fields()) shot.landing.*field.member = T(NAN);
    for (const auto& field : Run<T>::fields()) shot.run.*field.member = T(NAN);
    shot.run.status = shot.flight.status;
    return;
  }
  const Touchdown<T> down = touchdown(shot.flight, shot.launch);
  shot.landing = landing_of(down);
  shot.run = run(shot.flight.trajectory.knots.back().state.position, down, ball, setting, turf,
                 shot.flight.trajectory.knots.front().state.position);
}

template <Scalar T>
Shot<T> play(const Launch<T>& launch, const Ball<T>& ball, const Setting<T>& setting, const Turf<T>& turf) {
  Shot<T> shot{.launch = launch, .flight = kernel::fly(launch, ball, setting)};
  run_out(shot, ball, setting, turf);
  return shot;
}

template <Scalar T>
Shot<T> play(const Swing<T>& swing, const Ball<T>& ball, const Setting<T>& setting, const Turf<T>& turf) {
  const Impact<T> impact = strike(swing, ball);
  Shot<T> shot = kernel::play(impact.launch, ball, setting, turf);
  shot.swing = swing;
  shot.impact = impact;
  return shot;
}

/// The landing is at the origin.
template <Scalar T>
Shot<T> play(const Landing<T>& landing, const Ball<T>& ball, const Setting<T>& setting, const Turf<T>& turf) {
  const Vec3<T> here = on_the_ground(ball, setting.terrain, T(0.0), T(0.0));
  const Touchdown<T> down = touchdown(landing);
  Shot<T> shot{.launch = launch_of(down.velocity, down.spin), .landing = landing};
  describe_landing(shot.flight, starting_state(shot.launch, here), T(0.0), shot.launch, here);
  shot.run = kernel::run(landing, ball, setting, turf);
  return shot;
}

}  // namespace kernel

/// A single shot that fails numerically is an exception; a batch keeps its status.
template <Scalar T>
const Shot<T>& or_throw(const Shot<T>& shot) {
  throw_if_failed(shot.flight.status);
  throw_if_failed(shot.run.status);
  return shot;
}

/// Plays a delivery with a club until the ball rests.
/// @throws InputError for a number outside its range, or a face that does not approach the ball;
/// std::runtime_error if the integration fails.
template <Scalar T>
Shot<T> play(const Delivery<T>& delivery, const Club<T>& club, const Ball<T>& ball = {},
             const Setting<T>& setting = {}, const Turf<T>& turf = {},
             ImpactModel model = ImpactModel::compliant) {
  const Swing<T> swing{delivery, club, model};
  check(swing, ball, setting, turf);
  return or_throw(kernel::play(swing, ball, setting, turf));
}

/// Plays a measured launch until the ball rests.
/// @throws as `fly` does.
template <Scalar T>
Shot<T> play(const Launch<T>& launch, const Ball<T>& ball = {}, const Setting<T>& setting = {},
             const Turf<T>& turf = {}) {
  check(launch, ball, setting, turf);
  return or_throw(kernel::play(launch, ball, setting, turf));
}

/// Runs out a ball from this landing, its pitch mark at the origin.
/// @throws as `fly` does.
template <Scalar T>
Shot<T> play(const Landing<T>& landing, const Ball<T>& ball = {}, const Setting<T>& setting = {},
             const Turf<T>& turf = {}) {
  check(landing, ball, setting, turf);
  return or_throw(kernel::play(landing, ball, setting, turf));
}

}  // namespace whimbrel
