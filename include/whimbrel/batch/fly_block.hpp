#pragma once
#include "whimbrel/batch/airborne.hpp"
#include "whimbrel/batch/flight_job.hpp"
#include "whimbrel/ground/landing.hpp"

namespace whimbrel {

/// The flights of one job: sets up, integrates and writes out W at a time.
template <class T, AeroModel Model>
class FlightBlock {
 public:
  static constexpr int W = T::width;
  static constexpr std::size_t groups = block_size / W;

  FlightBlock(const FlightJob& job, const Model& model) : job(job), columns(job.columns), model(model) {}

  void fly() {
    const int used = (static_cast<int>(job.count) + W - 1) / W;
    for (int group = 0; group < used; ++group) make_ready(group);
    Airborne<T, Model>(model, columns.profile, job.tolerance, waiting(), ended(), order, airborne).fly();
    for (int group = 0; group < used; ++group) tell(group);
  }

 private:
  /// The rows of a group; the last row fills the missing places.
  int rows_of(int group, std::size_t (&rows)[W]) const {
    const std::size_t first = static_cast<std::size_t>(group) * W;
    for (std::size_t i = 0; i < W; ++i) rows[i] = job.rows[first + i < job.count ? first + i : job.count - 1];
    return static_cast<int>(job.count - first < W ? job.count - first : W);
  }

  [[gnu::flatten]] void make_ready(int group) {
    std::size_t rows[W];
    const int count = rows_of(group, rows);
    const Launch<T> launch = gathered<T, Launch<T>>(columns.launch, rows);
    Wind<T> wind = gathered<T, Wind<T>>(columns.wind, rows);
    wind.profile = columns.profile;
    const Terrain<T> terrain = gathered<T, Terrain<T>>(columns.terrain, rows);
    const T radius = gathered<T>(columns.ball[1], rows);
    const FlightConditions<T> in =
        flight_conditions(model, gathered<T>(columns.ball[0], rows), radius,
                          gathered<T, Air<T>>(columns.air, rows), wind, terrain, launch);
    const BallState<T> start = starting_state(launch, gathered_start(columns, radius, terrain, rows));
    const EquationOfMotion<T, Model> motion(model, columns.profile, in);
    const Moment<T> first = moment(motion, start);
    const auto stuck = stuck_on_the_ground(start, in);
    const auto zero = T(0.0);
    waiting()[group] = {first, in};
    Ended<T>& end = ended()[group];
    end.landing = {zero, zero, start, first.rate, start, first.rate};
    end.apex = end.landing;
    end.descent = end.has_apex = zero;
    end.status = choose(stuck, T(static_cast<double>(Status::not_airborne)), zero);
    end.excess = {zero, zero};
    const unsigned staying = lanes_where(stuck);
    for (int i = 0; i < count; ++i)
      if (!(staying >> i & 1u)) order[airborne++] = group * W + i;
  }

  [[gnu::flatten]] void tell(int group) {
    std::size_t rows[W];
    const int count = rows_of(group, rows);
    const Ended<T>& end = ended()[group];
    const Waiting<T>& began = waiting()[group];
    const Launch<T> launch = gathered<T, Launch<T>>(columns.launch, rows);
    const T s = falls_through(clearance_in(end.landing, began.in), end.descent);
    const T when = end.landing.start + s * end.landing.length;
    const BallState<T> down = state_at(end.landing, s);
    const T status =
        choose(when > T(longest_flight) && end.status < T(1.0), number(Status::no_landing), end.status);
    const auto flew = status < number(Status::not_airborne), landed = status <= number(Status::not_airborne);
    Flight<T> flight;
    describe_landing(flight, down, when, launch, began.start.state.position);
    describe_apex(flight, end, began, when, down);
    Landing<T> landing = landing_of(Touchdown<T>{down.velocity, down.spin_rate * began.in.spin_axis});
    void_unless(landed, flight);
    void_unless(landed, landing);
    const Vec3<T> velocity = choose(landed, down.velocity, Vec3<T>{no_number(), no_number(), no_number()});
    scatter(flight, columns.flight, rows, count);
    scatter(landing, columns.landing, rows, count);
    scatter(velocity, columns.landing_velocity, rows, count);
    const EquationOfMotion<T, Model> motion(model, columns.profile, began.in);
    const Excess<T> at_ends =
        farther(excess_of(began.start.regime, model), excess_of(moment(motion, down).regime, model));
    const Excess<T> excess = choose(flew, farther(end.excess, at_ends), end.excess);
    scatter_number(excess.spin_ratio, columns.out_of_range[0], rows, count);
    scatter_number(excess.reynolds, columns.out_of_range[1], rows, count);
    for (int i = 0; i < count; ++i) columns.status[rows[i]] = static_cast<unsigned char>(lane(status, i));
  }

  static T no_number() { return T(__builtin_nan("")); }
  static T number(Status status) { return T(static_cast<double>(status)); }

  /// The apex: the highest of the path's start, its landing, and its top if the ball reached it before
  /// landing. (A ball that dives off a hill and lifts again has a top below its start.)
  static void describe_apex(Flight<T>& flight, const Ended<T>& end, const Waiting<T>& began, const T& when,
                            const BallState<T>& down) {
    const T s = top_of(height_in(end.apex));
    const auto reached = end.has_apex > T(0.0) && end.apex.start + s * end.apex.length <= when;
    const Vec3<T> start = began.start.state.position, top = path(end.apex).at(s);
    const auto lands_higher = down.position.z > start.z;
    const Vec3<T> otherwise = choose(lands_higher, down.position, start);
    const Vec3<T> apex = choose(reached && top.z > otherwise.z, top, otherwise);
    flight.apex = apex.z - began.in.radius;
    flight.apex_distance = horizontal_distance(apex - start);
  }

  template <class Value>
  static void void_unless(const typename T::Condition& condition, Value& v) {
    for (const auto& field : Value::fields())
      v.*field.member = choose(condition, v.*field.member, no_number());
  }

  Waiting<T>* waiting() { return reinterpret_cast<Waiting<T>*>(waiting_bytes); }
  Ended<T>* ended() { return reinterpret_cast<Ended<T>*>(ended_bytes); }

  const FlightJob& job;
  const FlightColumns& columns;
  const Model& model;
  int order[block_size];
  int airborne = 0;
  alignas(T) unsigned char waiting_bytes[groups * sizeof(Waiting<T>)];
  alignas(T) unsigned char ended_bytes[groups * sizeof(Ended<T>)];
};

}  // namespace whimbrel
