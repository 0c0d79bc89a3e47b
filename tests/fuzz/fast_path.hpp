#pragma once
// Rows as Python plays arrays of them: impacts and flights by the batch kernels, the runs each for itself.
#include "promises.hpp"

namespace whimbrel::fuzz {

/// What is told of a row.
struct FastShot {
  Impact<> impact{};
  Launch<> launch{};
  Flight<> flight{};
  Landing<> landing{};
  Run<> run{};
  unsigned char status{};  ///< of the flight

  Status flight_status() const { return static_cast<Status>(status); }
};

inline constexpr std::ptrdiff_t case_apart = sizeof(Case) / sizeof(double),
                                shot_apart = sizeof(FastShot) / sizeof(double);
static_assert(sizeof(Case) % sizeof(double) == 0 && sizeof(FastShot) % sizeof(double) == 0);

/// Where one number or the fields of a value go, of the first shot and those behind it.
inline OutColumn of_shots(double& number) { return {&number, shot_apart}; }
template <class Value, std::size_t N>
void set_shot_columns(OutColumn (&columns)[N], Value& value) {
  set_columns(columns, value);
  for (OutColumn& column : columns) column.stride = shot_apart;
}

inline std::optional<InputError> mistake(const Case& c) {
  return std::visit([&](const auto& start) { return first_mistake(start, c.ball, c.setting, c.turf); },
                    c.start);
}

inline void strike_rows(const std::vector<Case>& rows, std::vector<FastShot>& shots) {
  StrikeColumns columns;
  set_columns(columns, std::get<Swing<>>(rows[0].start), rows[0].ball, case_apart);
  Impact<>& impact = shots[0].impact;
  set_shot_columns(columns.impact, impact);
  set_shot_columns(columns.launch, shots[0].launch);
  columns.friction_changes = of_shots(impact.friction_changes);
  columns.out_of_range[0] = of_shots(impact.out_of_range.face_friction);
  columns.out_of_range[1] = of_shots(impact.out_of_range.approach_speed);
  OutColumn* head = columns.head;
  for (Vec3<double>* v : {&impact.head_velocity_after, &impact.head_rotation_after, &impact.struck_normal})
    for (double* x : {&v->x, &v->y, &v->z}) *head++ = of_shots(*x);
  strike_all(rows.size(), columns, 1, [](std::size_t, const InputError&) {});
  for (FastShot& shot : shots) shot.impact.launch = shot.launch;
}

inline void fly_rows(const std::vector<Case>& rows, std::vector<FastShot>& shots) {
  FlightColumns columns;
  set_columns(columns.launch, shots[0].launch, shot_apart);
  set_columns(columns.ball, rows[0].ball, case_apart);
  set_columns(columns.air, rows[0].setting.air, case_apart);
  set_columns(columns.wind, rows[0].setting.wind, case_apart);
  set_columns(columns.terrain, rows[0].setting.terrain, case_apart);
  columns.profile = rows[0].setting.wind.profile;
  set_shot_columns(columns.flight, shots[0].flight);
  set_shot_columns(columns.landing, shots[0].landing);
  std::vector<unsigned char> statuses(rows.size());
  columns.status = statuses.data();
  FlyAll(rows.size(), columns, rows[0].ball.aero, Accuracy::fast).fly(1, [](std::size_t, const InputError&) {
  });
  for (std::size_t i = 0; i < rows.size(); ++i) shots[i].status = statuses[i];
}

inline void run_out(const Case& c, FastShot& shot) {
  const Terrain<>& terrain = c.setting.terrain;
  shot.run = kernel::run(on_the_ground(c.ball, terrain, shot.flight.offline, shot.flight.downrange),
                         touchdown(shot.landing), c.ball, c.setting, c.turf, on_the_tee(c.ball, terrain),
                         fly_alone<double>);
}

/// Plays rows that all begin with a swing, or all with a launch, and share the model of the ball, the profile
/// of the wind, hand and model of the impact.
inline std::vector<FastShot> play_fast(const std::vector<Case>& rows) {
  std::vector<FastShot> shots(rows.size());
  const bool struck = std::holds_alternative<Swing<>>(rows[0].start);
  if (struck)
    strike_rows(rows, shots);
  else
    for (std::size_t i = 0; i < rows.size(); ++i) shots[i].launch = std::get<Launch<>>(rows[i].start);
  fly_rows(rows, shots);
  for (std::size_t i = 0; i < rows.size(); ++i) {
    FastShot& shot = shots[i];
    if (mistake(rows[i]))
      shot.status = static_cast<unsigned char>(Status::bad_input);
    else if (struck && std::isnan(shot.launch.ball_speed))  // an impact that jams
      shot.status = static_cast<unsigned char>(Status::numerical_failure);
    if (landed(shot.flight_status())) run_out(rows[i], shot);
  }
  return shots;
}

}  // namespace whimbrel::fuzz
