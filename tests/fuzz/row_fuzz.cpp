// Any bytes at all, read as a swing, a launch or a landing, a ball, a setting and a turf, give a row by the
// reference with a defined result: what Python plays of single shots.
#include "promises.hpp"

namespace {

using namespace whimbrel;
using namespace whimbrel::fuzz;

/// Of a roll, steps are an eighth of the time in which the ball would turn: by a method of third order they
/// err by less than this share of its energy.
constexpr double roll_error = 1e-4;

void keep_flight(const Row& row, const Case& c) {
  const Flight<>& flight = row.shot.flight;
  keep(landed(flight.status) ? all_finite(flight) : none_finite(flight),
       "a flight has all of its numbers or none", c);
  keep_trajectory(
      flight.trajectory, is_calm(c.setting),
      [&](const BallState<double>& s) { return reference_energy_error(s, c.ball); }, c);
  if (!landed(flight.status)) return;
  keep(all_finite(row.shot.launch), "a launch is made of finite numbers", c);
  if (std::holds_alternative<Landing<>>(c.start)) return;  // it has not flown
  keep(std::isfinite(norm(flight.trajectory.position_at(0.5 * flight.flight_time))),
       "a ball is somewhere halfway", c);
}

void keep_row(const Row& row, const Case& c) {
  const Shot<>& shot = row.shot;
  keep(row.error.has_value() == (shot.flight.status == Status::bad_input), "bad input is refused in words",
       c);
  keep_flight(row, c);
  keep_run(shot.run, c);
  keep_trajectory(
      shot.run.trajectory, is_calm(c.setting) && shot.run.status == Status::ok,
      [&](const BallState<double>& s) {
        return reference_energy_error(s, c.ball) + roll_error * dot(s.velocity, s.velocity);
      },
      c);
  if (!landed(shot.flight.status)) return;
  keep(all_finite(shot.landing), "a landing is made of finite numbers", c);
  if (shot.impact) keep_impact(*shot.impact, *shot.swing, c);
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  Bytes bytes{data, size};
  const Reach reach = bytes.reach();
  Case c;
  switch (bytes.below(3)) {
    case 0:
      c.start = any_launch(bytes, reach);
      break;
    case 1:
      c.start = any_landing(bytes, reach);
      break;
    default:
      c.start = any_swing(bytes, reach);
  }
  c.ball = any_ball(bytes, reach);
  c.setting = any_setting(bytes, reach);
  may_undulate(bytes, c.setting.terrain);
  c.turf = any_turf(bytes, reach);
  tell_if_asked(c);
  std::visit([&](const auto& start) { keep_row(play_row(start, c.ball, c.setting, c.turf), c); }, c.start);
  return 0;
}
