#pragma once
// What every row keeps, whatever its numbers are; where one does not, the run ends with the row in words.
#include <cstdio>
#include <cstdlib>
#include <variant>

#include "bytes.hpp"

namespace whimbrel::fuzz {

/// All that decides a shot.
struct Case {
  std::variant<Swing<>, Launch<>, Landing<>> start;
  Ball<> ball;
  Setting<> setting;
  Turf<> turf;
};

template <class Value>
void tell(const Value& value) {
  for (const auto& field : Value::fields())
    std::fprintf(stderr, "  %s = %.17g\n", std::string(field.name).c_str(), value.*field.member);
}
inline void tell(const Swing<>& swing) {
  std::fprintf(stderr, "  %s, %s-handed, %s\n", swing.club.name.c_str(),
               swing.club.hand == Hand::left ? "left" : "right",
               swing.impact_model == ImpactModel::rigid ? "rigid" : "compliant");
  tell(swing.delivery);
  tell(swing.club);
}
inline void tell(const AeroTable& table) {
  const auto list = [](const char* name, const std::vector<double>& numbers) {
    std::fprintf(stderr, "  %s =", name);
    for (const double x : numbers) std::fprintf(stderr, " %.17g", x);
    std::fprintf(stderr, "\n");
  };
  list("spin_ratio", table.spin_ratio);
  list("reynolds", table.reynolds);
  list("drag", table.drag);
  list("lift", table.lift);
  std::fprintf(stderr, "  spin_decay = %.17g\n", table.spin_decay);
}
inline void tell(const Case& c) {
  std::visit([](const auto& start) { tell(start); }, c.start);
  tell(c.ball);
  std::fprintf(stderr, "  aerodynamic model %zu of the variant\n", c.ball.aero.index());
  std::visit([](const auto& model) { tell(model); }, c.ball.aero);
  tell(c.setting.air);
  tell(c.setting.wind);
  std::fprintf(stderr, "  wind profile %d\n", static_cast<int>(c.setting.wind.profile));
  tell(c.setting.terrain);
  if (c.setting.terrain.surface) std::fprintf(stderr, "  ground of waves\n");
  tell(c.turf);
}

/// Says what is about to be played, where the environment asks for it: of an input that ends otherwise than
/// by a broken promise.
inline void tell_if_asked(const Case& c) {
  static const bool asked = std::getenv("TELL_ROWS") != nullptr;
  if (asked) tell(c);
}

/// Ends the run unless a promise holds.
inline void keep(bool holds, const char* promise, const Case& c) {
  if (holds) return;
  std::fprintf(stderr, "BROKEN: %s\n", promise);
  tell(c);
  std::abort();
}

template <class Value>
bool all_finite(const Value& value) {
  for (const auto& field : Value::fields())
    if (!std::isfinite(value.*field.member)) return false;
  return true;
}
template <class Value>
bool none_finite(const Value& value) {
  for (const auto& field : Value::fields())
    if (std::isfinite(value.*field.member)) return false;
  return true;
}

inline bool landed(Status status) { return status == Status::ok || status == Status::not_airborne; }

/// An impact is made of finite numbers, and makes neither energy nor spin about the ball's path; 1e-9 is for
/// rounding.
inline void keep_impact(const Impact<>& impact, const Swing<>& swing, const Case& c) {
  keep(all_finite(impact) && all_finite(impact.launch), "an impact is made of finite numbers", c);
  keep(std::isfinite(norm(impact.head_velocity_after)) && std::isfinite(norm(impact.head_rotation_after)),
       "a head moves on at a finite speed", c);
  const double energy = swing.club.mass * square(swing.delivery.clubhead_speed);
  keep(impact.energy_lost >= -1e-9 * energy, "an impact makes no energy", c);
  keep(impact.launch.ball_speed > 0.0, "a ball that is struck moves", c);
  keep(std::abs(impact.launch.axial_spin_rate) <= 1e-9 * (1 + impact.launch.spin_rate),
       "an impact makes no spin about the ball's path", c);
}

/// Energy of a ball for each kilogram of it, J/kg.
inline double energy(const BallState<double>& s, const Ball<>& ball) {
  return 0.5 * dot(s.velocity, s.velocity) + standard_gravity * s.position.z +
         0.5 * ball.inertia / ball.mass * square(s.spin_rate);
}

/// How much of it a step of a flight to a tolerance (m, as `Step` counts it) may err by.
inline double energy_error(const BallState<double>& s, double tolerance) {
  return tolerance * (norm(s.velocity) / error_time + standard_gravity);
}

/// What of its parts a step of the reference may err by: each number is certain to `1e-9 (1 + its size)`,
/// and a part of the energy is at most of its second power; the rest is for the dense output at a landing.
inline double reference_energy_error(const BallState<double>& s, const Ball<>& ball) {
  const double parts = energy(s, ball) + 2 * standard_gravity * std::abs(s.position.z);
  return 1e-8 * (1 + norm(s.velocity) + parts);
}

/// How many knots a trajectory may have: a roll of 60 s is looked at every 10 cm on ground of any shape, and
/// a flight takes no more steps.
inline constexpr std::size_t most_knots = 100000;

/// A trajectory is in proportion, in order of time, and in calm air over a plane gains no energy from one
/// knot to the next beyond `error(state)`.
template <class Error>
void keep_trajectory(const Trajectory<>& trajectory, bool calm, const Error& error, const Case& c) {
  const auto& knots = trajectory.knots;
  keep(knots.size() <= most_knots, "a trajectory is in proportion", c);
  for (std::size_t i = 1; i < knots.size(); ++i) {
    keep(knots[i].time >= knots[i - 1].time, "knots are in order of time", c);
    if (!calm) continue;
    const double gained = energy(knots[i].state, c.ball) - energy(knots[i - 1].state, c.ball);
    keep(gained <= error(knots[i - 1].state), "no energy comes from still air or from the ground", c);
  }
}

/// A run to rest is made of finite numbers; one whose time was up, of them or of none; any other of none.
inline void keep_run(const Run<>& run, const Case& c) {
  const bool all = all_finite(run), none = none_finite(run);
  keep(run.status == Status::ok ? all : none || (all && run.status == Status::no_rest),
       "a run has all of its numbers or none", c);
}

/// A table with two points of an axis nearly in one place, between which its coefficients jump: a step across
/// the jump errs by more than it can tell.
inline bool has_cliff(const AnyAeroModel& model) {
  const auto* table = std::get_if<AeroTable>(&model);
  if (table == nullptr) return false;
  const auto close = [](const std::vector<double>& axis) {
    for (std::size_t i = 1; i < axis.size(); ++i)
      if (axis[i] - axis[i - 1] < 0.02 * (axis.back() - axis.front())) return true;
    return false;
  };
  return close(table->spin_ratio) || close(table->reynolds);
}

/// No wind, and no ground but a plane (how a roll follows the curves of ground is left out of its energy).
inline bool is_calm(const Setting<>& setting) {
  return setting.wind.speed == 0.0 && !setting.terrain.surface;
}

}  // namespace whimbrel::fuzz
