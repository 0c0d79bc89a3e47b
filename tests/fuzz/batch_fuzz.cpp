// Any rows in a batch, by the batch kernels, as Python plays arrays: each has a defined result, the same in
// any company, makes no energy, and lands beside its neighbours.
#include "neighbours.hpp"

namespace {

using namespace whimbrel;
using namespace whimbrel::fuzz;

std::vector<Case> any_rows(Bytes& bytes) {
  const Reach of_all = bytes.reach();
  const bool struck = bytes.coin();
  const Case shared{{}, any_ball(bytes, of_all), any_setting(bytes, of_all), any_turf(bytes, of_all)};
  const Swing<> swing = any_swing(bytes, of_all);
  std::vector<Case> rows(1 + bytes.below(10), shared);
  for (Case& c : rows) {
    const Reach reach = bytes.reach();
    if (struck) {
      Swing<> other = any_swing(bytes, reach);
      other.club.hand = swing.club.hand;
      other.impact_model = swing.impact_model;
      c.start = other;
    } else {
      c.start = any_launch(bytes, reach);
    }
    if (!bytes.coin()) continue;
    scatter_ball(bytes, c.ball, reach);
    const WindProfile profile = c.setting.wind.profile;
    c.setting = any_setting(bytes, reach);
    c.setting.wind.profile = profile;
  }
  return rows;
}

/// Every number of a flight and its run, or none. A row is refused where, and only where, it has a mistake,
/// or an impact makes a launch outside the accepted range of launches, as a ball of hardly any inertia may
/// spin.
void keep_defined(const FastShot& shot, const Case& c) {
  const Status status = shot.flight_status();
  const bool refused = mistake(c) || (all_finite(shot.launch) && whimbrel::mistake(shot.launch));
  keep((status == Status::bad_input) == refused, "bad input, and nothing else, is refused", c);
  if (status == Status::bad_input) return;
  keep(landed(status) ? all_finite(shot.flight) && all_finite(shot.landing) && all_finite(shot.launch)
                      : none_finite(shot.flight) && none_finite(shot.landing),
       "a flight has all of its numbers or none", c);
  if (!landed(status)) return;
  keep_run(shot.run, c);
  if (const auto* swing = std::get_if<Swing<>>(&c.start)) keep_impact(shot.impact, *swing, c);
}

/// A row alone has the bits it has in company.
void keep_alone(const FastShot& shot, const Case& c) {
  const FastShot alone = play_fast({c})[0];
  const auto same = []<class Value>(const Value& a, const Value& b) {
    for (const auto& field : Value::fields()) {
      const double x = a.*field.member, y = b.*field.member;
      if (!(x == y || (std::isnan(x) && std::isnan(y)))) return false;
    }
    return true;
  };
  keep(alone.status == shot.status, "a row alone has the status it has in company", c);
  if (shot.flight_status() == Status::bad_input) return;
  keep(same(alone.impact, shot.impact) && same(alone.launch, shot.launch), "an impact alone is as in company",
       c);
  keep(same(alone.flight, shot.flight) && same(alone.landing, shot.landing),
       "a flight alone is as in company", c);
  keep(same(alone.run, shot.run), "a run alone is as in company", c);
}

/// In calm air a flight makes no energy: on its way by the steps the kernels take, and from its launch to its
/// landing by the kernels. Each step may err by its tolerance.
void keep_energy(const FastShot& shot, const Case& c) {
  if (!is_calm(c.setting) || has_cliff(c.ball.aero) || shot.flight_status() == Status::bad_input ||
      !all_finite(shot.launch))
    return;
  const Vec3<double> tee = on_the_tee(c.ball, c.setting.terrain);
  const Flight<> stepped = kernel::fly_stepped(shot.launch, c.ball, c.setting, tee, fast_tolerance);
  const auto error = [](const BallState<double>& s) { return energy_error(s, fast_tolerance); };
  keep_trajectory(stepped.trajectory, true, error, c);
  if (shot.flight_status() != Status::ok) return;
  const Vec3<double> down =
      on_the_ground(c.ball, c.setting.terrain, shot.flight.offline, shot.flight.downrange);
  const BallState<double> start = starting_state(shot.launch, tee),
                          end{down, touchdown(shot.landing).velocity, shot.landing.landing_spin_rate};
  const double steps = static_cast<double>(stepped.trajectory.knots.size());
  keep(energy(end, c.ball) - energy(start, c.ball) <= steps * (error(start) + error(end)),
       "no energy comes from still air to a landing", c);
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  Bytes bytes{data, size};
  const std::size_t varied = bytes.below(256);
  const std::vector<Case> rows = any_rows(bytes);
  for (const Case& c : rows) tell_if_asked(c);
  const std::vector<FastShot> shots = play_fast(rows);
  for (std::size_t i = 0; i < rows.size(); ++i) {
    keep_defined(shots[i], rows[i]);
    keep_alone(shots[i], rows[i]);
    keep_energy(shots[i], rows[i]);
  }
  if (std::holds_alternative<Launch<>>(rows[0].start)) keep_neighbours(rows[0], varied);
  return 0;
}
