#pragma once
#include "whimbrel/shot/play.hpp"

namespace whimbrel {

/// Where a shot is wanted to come down: on the target line, on ground that may be higher and sloped.
template <Scalar T = double>
struct Target {
  T distance{};            ///< m, horizontal, along the target line
  T rise{0.0};             ///< m, of the ground there above the ground at the ball
  T slope_right{0.0};      ///< of the ground there: rise per metre to the right
  T slope_downrange{0.0};  ///< rise per metre downrange

  static constexpr auto fields() {
    return std::array<Field<Target, T>, 4>{{{"distance", &Target::distance, "m", 1, 500},
                                            {"rise", &Target::rise, "m", -300, 300},
                                            {"slope_right", &Target::slope_right, "1", -1, 1},
                                            {"slope_downrange", &Target::slope_downrange, "1", -1, 1}}};
  }
};

/// The ground around a target as the ground the ball comes down on.
template <Scalar T>
Terrain<T> terrain_at(const Target<T>& target, const T& tee_height) {
  return {.tee_height = tee_height,
          .height = target.rise - target.slope_downrange * target.distance,
          .slope_right = target.slope_right,
          .slope_downrange = target.slope_downrange};
}

/// What it takes to come down on a target, and what distance that amounts to.
template <Scalar T = double>
struct LevelDistance {
  T level_distance{};  ///< m, carry of the same swing in standard still air over level ground
  T speed_share{};     ///< of the usual speed, that the target takes
  T aim{};             ///< rad, where to aim: positive right of the target
  Status status = Status::ok;

  static constexpr auto fields() {
    return std::array<Field<LevelDistance, T>, 3>{{{"level_distance", &LevelDistance::level_distance, "m"},
                                                   {"speed_share", &LevelDistance::speed_share, "1"},
                                                   {"aim", &LevelDistance::aim, "rad"}}};
  }
};

inline constexpr double most_share = 3.0;  // of the usual speed

/// The same swing, faster or slower by a share and aimed elsewhere.
template <Scalar T>
Swing<T> swung(Swing<T> swing, const T& share, const T& aim) {
  swing.delivery.clubhead_speed = share * swing.delivery.clubhead_speed;
  swing.delivery.club_path = swing.delivery.club_path + aim;
  swing.delivery.face_angle = swing.delivery.face_angle + aim;
  return swing;
}

/// A launch as a faster or slower swing makes it: its spin follows its speed.
template <Scalar T>
Launch<T> swung(Launch<T> launch, const T& share, const T& aim) {
  launch.ball_speed = share * launch.ball_speed;
  launch.spin_rate = share * launch.spin_rate;
  launch.axial_spin_rate = share * launch.axial_spin_rate;
  launch.launch_direction = launch.launch_direction + aim;
  return launch;
}

namespace kernel {

template <Scalar T>
Launch<T> launched(const Launch<T>& launch, const Ball<T>&) {
  return launch;
}
template <Scalar T>
Launch<T> launched(const Swing<T>& swing, const Ball<T>& ball) {
  return strike(swing, ball).launch;
}

/// How far from a target a ball came down, m: not finite where it did not come down.
struct Miss {
  double past = NAN, right = NAN;

  double size() const { return std::hypot(past, right); }
};

/// A share of the usual speed and an aim, rad.
struct Effort {
  double share, aim;
};

/// The effort that hits the target, by Newton's method with differences for slopes. A step is halved until it
/// comes closer; it fails if none does, as at the farthest carry.
template <class Missed>
std::optional<Effort> effort_to_reach(const Missed& missed, Effort now) {
  constexpr int most_steps = 40;
  constexpr double close_enough = 1e-5, difference = 1e-4;  // m, accuracy of a flight; share or rad
  Miss here = missed(now);
  for (int i = 0; i < most_steps && std::isfinite(here.size()); ++i) {
    if (here.size() < close_enough) return now;
    const Miss faster = missed({now.share + difference, now.aim}),
               turned = missed({now.share, now.aim + difference});
    const double a = (faster.past - here.past) / difference, b = (turned.past - here.past) / difference,
                 c = (faster.right - here.right) / difference, d = (turned.right - here.right) / difference;
    const double determinant = a * d - b * c;
    const double more = (b * here.right - d * here.past) / determinant,
                 turn = (c * here.past - a * here.right) / determinant;
    Miss there;
    Effort next = now;
    double part = std::min(1.0, 0.3 * now.share / std::abs(more));
    for (; !(there.size() < here.size()) && part > 1e-3; part /= 2) {
      next = {now.share + part * more, now.aim + part * turn};
      there = missed(next);
    }
    if (!(there.size() < here.size())) break;
    here = there;
    now = next;
  }
  return std::nullopt;
}

/// Solves for speed and aim on the real flight, from the usual speed or the nearest speed whose ball lands.
template <class Start>
LevelDistance<> level_distance(const Start& usual, const Target<>& target, const Ball<>& ball,
                               Setting<> setting) {
  const Terrain<> level{.tee_height = setting.terrain.tee_height};
  setting.terrain = terrain_at(target, level.tee_height);
  const auto missed = [&](const Effort& effort) {
    const Start hit = swung(usual, effort.share, effort.aim);
    if (!(effort.share < most_share) || mistake(hit)) return Miss{};
    const Flight<> flight = kernel::fly(launched(hit, ball), ball, setting);
    return Miss{flight.downrange - target.distance, flight.offline};
  };
  for (const double share : {1.0, 0.7, 1.4, 0.5, 2.0, 0.3, 2.8})
    if (std::isfinite(missed({share, 0.0}).size())) {
      const auto effort = effort_to_reach(missed, {share, 0.0});
      if (!effort) break;
      const Launch<> straight = launched(swung(usual, effort->share, 0.0), ball);
      return {kernel::fly(straight, ball, {.terrain = level}).carry, effort->share, effort->aim};
    }
  return {NAN, NAN, NAN, Status::out_of_reach};
}

}  // namespace kernel

/// What a shot to a target plays like: the share of the usual speed and the aim that land the ball on the
/// target in this setting, and how far that swing carries in standard still air over level ground.
/// `Status::out_of_reach` if no accepted speed, up to three times the usual, reaches it. The ground is the
/// target's; of the setting's terrain only the tee counts, here and on level ground.
/// @throws InputError for a number outside its range.
inline LevelDistance<> level_distance(const Delivery<>& usual, const Club<>& club, const Target<>& target,
                                      const Ball<>& ball = {}, const Setting<>& setting = {}) {
  const Swing<> swing{usual, club};
  check(swing, target, ball, setting);
  return kernel::level_distance(swing, target, ball, setting);
}

/// The same of a measured launch: its spin follows its speed.
inline LevelDistance<> level_distance(const Launch<>& usual, const Target<>& target, const Ball<>& ball = {},
                                      const Setting<>& setting = {}) {
  check(usual, target, ball, setting);
  return kernel::level_distance(usual, target, ball, setting);
}

}  // namespace whimbrel
