#pragma once
#include "whimbrel/core/out_of_range.hpp"
#include "whimbrel/ground/landing.hpp"
#include "whimbrel/ground/roll.hpp"

namespace whimbrel {

/// From the landing to rest: bounces, the hops between them, skid and roll. Distances from the start are from
/// where the shot started. A ball still moving after 30 s of skid and roll, as on a slope too steep for the
/// turf, has `Status::no_rest`; its numbers are those at that time.
template <Scalar T = double>
struct Run {
  T total{};            ///< m, horizontal distance from the start to rest
  T total_downrange{};  ///< m, y at rest
  T total_offline{};    ///< m, x at rest: positive right of the target line
  T distance{};         ///< m, from the landing to rest along the direction of the landing: negative backward
  T bounces{};          ///< how often the ball bounced, the landing included
  T run_time{};         ///< s, from the landing to rest
  Status status = Status::ok;
  OutOfRange<T> out_of_range{};
  Trajectory<T> trajectory{};  ///< times from the landing on

  static constexpr auto fields() {
    return std::array<Field<Run, T>, 6>{{{"total", &Run::total, "m"},
                                         {"total_downrange", &Run::total_downrange, "m"},
                                         {"total_offline", &Run::total_offline, "m"},
                                         {"distance", &Run::distance, "m"},
                                         {"bounces", &Run::bounces, "1"},
                                         {"run_time", &Run::run_time, "s"}}};
  }
};

inline constexpr int most_hops = 20;

/// How far a touchdown is outside the measured range of the bounce law.
template <Scalar T>
OutOfRange<T> outside_bounce_range(const Touchdown<T>& ball, const Vec3<T>& normal) {
  OutOfRange<T> out;
  out.bounce_speed = excess(norm(ball.velocity), bounce_speed_range[0], bounce_speed_range[1]);
  out.bounce_angle =
      excess(bounce_angle(ball.velocity, normal), bounce_angle_range[0], bounce_angle_range[1]);
  return out;
}

namespace kernel {

/// Runs a ball to rest that touches the ground with its centre at `landing`; `start` is where the shot began.
/// A hop is a whole flight, by `fly`; hops end where the turf keeps the ball (see `hop_speed`).
template <Scalar T, class Fly>
Run<T> run(const Vec3<T>& landing, Touchdown<T> ball_now, const Ball<T>& ball, const Setting<T>& setting,
           const Turf<T>& turf, const Vec3<T>& start, const Fly& fly) {
  const Terrain<T>& terrain = setting.terrain;
  const T heading = azimuth(ball_now.velocity);
  Run<T> run;
  auto& knots = run.trajectory.knots;
  T time(0.0);
  Vec3<T> position = on_the_ground(ball, terrain, landing.x, landing.y);
  Vec3<T> n = ground_normal(terrain, position.x, position.y);
  run.out_of_range = outside_bounce_range(ball_now, n);
  for (int hop = 0; hop < most_hops && value(dot(ball_now.velocity, n)) < 0.0; ++hop) {
    ball_now = bounce(ball_now, n, ball, turf);
    run.bounces = run.bounces + T(1.0);
    const T rebound = dot(ball_now.velocity, n), up = hop_speed(rebound, ball);
    ball_now.velocity = ball_now.velocity + (up - rebound) * n;
    if (value(up) <= 0.0) break;
    const Launch<T> launch = launch_of(ball_now.velocity, ball_now.spin);
    const Flight<T> flight = fly(launch, ball, setting, position);
    if (flight.status != Status::ok) {
      if (flight.status != Status::not_airborne) run.status = flight.status;
      break;
    }
    for (Knot<T> knot : flight.trajectory.knots) {
      knot.time = knot.time + time;
      knots.push_back(knot);
    }
    time = time + flight.flight_time;
    const Vec3<T>& down = knots.back().state.position;
    position = on_the_ground(ball, terrain, down.x, down.y);
    n = ground_normal(terrain, position.x, position.y);
    ball_now = touchdown(flight, launch);
  }
  if (run.status == Status::ok) {
    const Vec3<T> along = ball_now.velocity - dot(ball_now.velocity, n) * n;
    const Vec3<T> slip = along + cross(ball_now.spin, -ball.radius * n);
    run.status = roll_out({position, along, slip}, ball, terrain, turf, time, knots);
  }
  if (run.status != Status::ok && run.status != Status::no_rest) {
    for (const auto& field : Run<T>::fields()) run.*field.member = T(NAN);
    return run;
  }
  const Vec3<T>& rest = knots.back().state.position;
  run.total = horizontal_distance(rest - start);
  run.total_downrange = rest.y;
  run.total_offline = rest.x;
  run.distance = dot(rest - landing, direction(heading, T(0.0)));
  run.run_time = knots.back().time;
  return run;
}

template <Scalar T>
Run<T> run(const Vec3<T>& landing, const Touchdown<T>& down, const Ball<T>& ball, const Setting<T>& setting,
           const Turf<T>& turf, const Vec3<T>& start) {
  return run(landing, down, ball, setting, turf, start,
             [](const auto&... hop) -> Flight<T> { return kernel::fly(hop...); });
}

/// The run after this landing at the origin.
template <Scalar T>
Run<T> run(const Landing<T>& landing, const Ball<T>& ball, const Setting<T>& setting, const Turf<T>& turf) {
  const Vec3<T> here = on_the_ground(ball, setting.terrain, T(0.0), T(0.0));
  return run(here, touchdown(landing), ball, setting, turf, here);
}

}  // namespace kernel
}  // namespace whimbrel
