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

/// Solves for speed and aim on the real flight, by Newton's method with differences for slopes.
template <class Start>
LevelDistance<> level_distance(const Start& usual, const Target<>& target, const Ball<>& ball,
                               Setting<> setting) {
  constexpr int most_iterations = 30;
  constexpr double close_enough = 1e-6, difference = 1e-4;  // m; share or rad
  const Terrain<> level{.tee_height = setting.terrain.tee_height};
  setting.terrain = terrain_at(target, level.tee_height);
  const auto flown = [&](double share, double aim, const Setting<>& where) {
    return kernel::fly(launched(swung(usual, share, aim), ball), ball, where);
  };
  double share = 1.0, aim = 0.0;
  for (int i = 0; i < most_iterations; ++i) {
    const Flight<> here = flown(share, aim, setting);
    const double past = here.downrange - target.distance, right = here.offline;
    if (!std::isfinite(past)) break;
    if (std::abs(past) < close_enough && std::abs(right) < close_enough)
      return {flown(share, 0.0, {.terrain = level}).carry, share, aim};
    const Flight<> faster = flown(share + difference, aim, setting),
                   turned = flown(share, aim + difference, setting);
    const double a = (faster.downrange - here.downrange) / difference,
                 b = (turned.downrange - here.downrange) / difference,
                 c = (faster.offline - here.offline) / difference,
                 d = (turned.offline - here.offline) / difference;
    const double determinant = a * d - b * c;
    const double more = (b * right - d * past) / determinant, turn = (c * past - a * right) / determinant;
    const double limited = std::min(1.0, 0.3 * share / std::abs(more));
    share += limited * more;
    aim += limited * turn;
    if (!(share > 0.01 && share < most_share)) break;
  }
  return {NAN, NAN, NAN, Status::out_of_reach};
}

}  // namespace kernel

/// What a shot to a target plays like: how much of the usual speed it takes and where to aim so that the
/// ball comes down on the target in this setting, and how far that very swing carries in standard still air
/// over level ground. `Status::out_of_reach` where no speed up to three times the usual does it. The
/// ground is the target's; of the setting's terrain only the tee counts, at both places.
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
