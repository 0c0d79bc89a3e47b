#pragma once
// The only file that includes Boost.Odeint and Boost.Math: the reference path of `kernel::fly`.
#include <boost/math/tools/toms748_solve.hpp>
#include <boost/numeric/odeint.hpp>
#include <limits>
#include <optional>

#include "whimbrel/flight/excess.hpp"
#include "whimbrel/flight/fly.hpp"

namespace whimbrel::kernel {

inline constexpr double flight_tolerance = 1e-9;  // of a step, absolute and relative, SI
inline constexpr int most_steps = 20000;
inline constexpr double surface_resolution = 0.5;  // m, between looks at a surface function

/// Where an increasing or decreasing f crosses zero in [a, b], to the last bits.
template <class F>
double crossing(const F& f, double a, double b) {
  const double fa = f(a), fb = f(b);
  if (fa == 0.0) return a;
  if (fb == 0.0) return b;
  std::uintmax_t iterations = 100;
  const boost::math::tools::eps_tolerance<double> to_last_bits(50);
  const auto [low, high] = boost::math::tools::toms748_solve(f, a, b, fa, fb, to_last_bits, iterations);
  return 0.5 * (low + high);
}

/// A ball's state as Odeint keeps it.
using OdeintState = std::array<double, 7>;

inline OdeintState packed(const BallState<double>& s) {
  return {s.position.x, s.position.y, s.position.z, s.velocity.x, s.velocity.y, s.velocity.z, s.spin_rate};
}
inline BallState<double> unpacked(const OdeintState& x) {
  return {{x[0], x[1], x[2]}, {x[3], x[4], x[5]}, x[6]};
}

/// One flight being integrated: Dormand-Prince 5(4) with dense output.
template <AeroModel Model>
class OdeintFlight {
 public:
  using State = OdeintState;

  OdeintFlight(const Model& model, const Launch<double>& launch, const Ball<double>& ball,
               const Setting<double>& setting, const Vec3<double>& from, double tolerance = flight_tolerance)
      : motion(model, ball, setting, launch), launch(launch), from(from), tolerance(tolerance) {}

  Flight<double> fly() {
    const BallState<double> start = starting_state(launch, from);
    note_apex(start);
    note(0.0, start);
    if (stuck(start)) return grounded(start);
    stepper.initialize(packed(start), 0.0, 1e-3);
    for (int step = 0; step < most_steps && stepper.current_time() < longest_flight; ++step) {
      try {
        stepper.do_step(std::ref(*this));
      } catch (const boost::numeric::odeint::odeint_error&) {  // the step size collapsed
        return failed(Status::numerical_failure);
      }
      for (const double x : stepper.current_state())
        if (!std::isfinite(x)) return failed(Status::numerical_failure);
      if (!(stepper.current_time() > stepper.previous_time())) return failed(Status::numerical_failure);
      std::optional<double> landing;
      try {
        landing = landing_in_step();
      } catch (const std::domain_error&) {  // no bracket: ground that is not a number somewhere
        return failed(Status::numerical_failure);
      }
      const double end = landing ? *landing : stepper.current_time();
      if (end > longest_flight) break;
      look_for_apex(stepper.previous_time(), end);
      note(end, at(end));
      if (landing) {
        describe_landing(flight, at(end), end, launch, from);
        return flight;
      }
    }
    return failed(stepper.current_time() < longest_flight ? Status::numerical_failure : Status::no_landing);
  }

  /// The right-hand side, as Odeint calls it.
  void operator()(const State& x, State& dxdt, double) const { dxdt = packed(motion(unpacked(x))); }

 private:
  BallState<double> at(double time) const {
    State x;
    stepper.calc_state(time, x);
    return unpacked(x);
  }
  double above_ground(const BallState<double>& s) const { return clearance(s, motion.in); }
  /// Rate of change of the clearance, by a centred difference along the path.
  double climb(const BallState<double>& s) const {
    constexpr double dt = 1e-4;
    const auto moved = [&](double t) {
      return BallState<double>{s.position + t * s.velocity, s.velocity, s.spin_rate};
    };
    return (above_ground(moved(dt)) - above_ground(moved(-dt))) / (2 * dt);
  }

  /// On the ground and not climbing away from it.
  bool stuck(const BallState<double>& start) const { return on_ground(start) && climb(start) <= 0.0; }
  bool on_ground(const BallState<double>& s) const { return std::abs(above_ground(s)) < 1e-12; }

  /// The time, in the step just made, at which the ball comes down on the ground.
  std::optional<double> landing_in_step() const {
    const double a = stepper.previous_time(), b = stepper.current_time();
    int pieces = 1;
    if (motion.in.terrain.surface) {
      const Vec3<double> way = at(b).position - at(a).position;
      pieces += static_cast<int>(std::hypot(way.x, way.y) / surface_resolution);
    }
    for (int i = 0; i < pieces; ++i) {
      const double from = a + (b - a) * i / pieces, to = a + (b - a) * (i + 1) / pieces;
      if (const auto landing = landing_between(from, to)) return landing;
    }
    return std::nullopt;
  }

  std::optional<double> landing_between(double a, double b) const {
    const auto height = [this](double t) { return above_ground(at(t)); };
    const auto climbing = [this](double t) { return climb(at(t)); };
    if (height(b) > 0.0) {  // into the ground and out again within [a, b]?
      if (height(a) <= 0.0 || climbing(a) >= 0.0 || climbing(b) <= 0.0) return std::nullopt;
      const double lowest = crossing(climbing, a, b);
      return height(lowest) <= 0.0 ? std::optional(crossing(height, a, lowest)) : std::nullopt;
    }
    if (height(a) > 0.0) return crossing(height, a, b);
    if (climbing(a) <= 0.0 || climbing(b) >= 0.0) return std::nullopt;
    const double top = crossing(climbing, a, b);  // up and down within [a, b]
    if (height(top) <= 0.0)  // a hop lower than the arithmetic sees, or ground above the ball
      return on_ground(at(a)) ? std::optional(top) : std::nullopt;
    return crossing(height, top, b);
  }

  void look_for_apex(double a, double b) {
    const auto rising = [this](double t) { return at(t).velocity.z; };
    if (rising(a) > 0.0 && rising(b) < 0.0) note_apex(at(crossing(rising, a, b)));
    note_apex(at(b));
  }
  void note_apex(const BallState<double>& s) {
    const double height = s.position.z - motion.in.radius;
    if (height < flight.apex && !flight.trajectory.knots.empty()) return;
    flight.apex = height;
    flight.apex_distance = horizontal_distance(s.position - from);
  }

  void note(double time, const BallState<double>& s) {
    flight.trajectory.knots.push_back({time, s, motion(s)});
    const Airflow<double> flow = motion.airflow(s);
    const Excess<double> now = excess_of(Regime<double>{flow.spin_ratio, flow.reynolds}, motion.model);
    OutOfRange<double>& kept = flight.out_of_range;
    const Excess<double> far = farther({kept.spin_ratio, kept.reynolds}, now);
    kept.spin_ratio = far.spin_ratio;
    kept.reynolds = far.reynolds;
  }

  Flight<double> grounded(const BallState<double>& start) {
    describe_landing(flight, start, 0.0, launch, from);
    flight.out_of_range = {};
    flight.status = Status::not_airborne;
    return flight;
  }
  Flight<double> failed(Status status) {
    for (const auto& field : Flight<double>::fields())
      flight.*field.member = std::numeric_limits<double>::quiet_NaN();
    flight.status = status;
    return flight;
  }

  EquationOfMotion<double, Model> motion;
  const Launch<double>& launch;
  const Vec3<double> from;
  const double tolerance;
  Flight<double> flight;
  using DormandPrince = boost::numeric::odeint::runge_kutta_dopri5<State>;
  boost::numeric::odeint::result_of::make_dense_output<DormandPrince>::type stepper =
      boost::numeric::odeint::make_dense_output(tolerance, tolerance, DormandPrince());
};

template <Scalar T>
Flight<T> fly(const Launch<T>& launch, const Ball<T>& ball, const Setting<T>& setting, const Vec3<T>& start) {
  static_assert(std::same_as<T, double>, "Odeint's step control takes double only");
  return std::visit(
      [&](const auto& model) { return OdeintFlight(model, launch, ball, setting, start).fly(); }, ball.aero);
}

}  // namespace whimbrel::kernel
