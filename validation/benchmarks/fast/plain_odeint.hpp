#pragma once
#include "whimbrel/flight/fly_odeint.hpp"

namespace whimbrel::benchmarks {

/// A flight by Boost.Odeint alone, as one would write it first: Dormand-Prince 5(4) with dense output, the
/// library's equation of motion, landing and apex by root finding in the dense output, and no trajectory
/// kept.
template <AeroModel Model>
class PlainOdeint {
 public:
  using State = kernel::OdeintState;

  PlainOdeint(const Model& model, const Launch<>& launch, const Ball<>& ball, const Setting<>& setting,
              double tolerance)
      : motion(model, ball, setting, launch),
        launch(launch),
        from(on_the_tee(ball, setting.terrain)),
        stepper(boost::numeric::odeint::make_dense_output(tolerance, tolerance, DormandPrince())) {}

  Flight<> fly() {
    Flight<> flight;
    stepper.initialize(kernel::packed(starting_state(launch, from)), 0.0, 1e-2);
    while (stepper.current_time() < longest_flight) {
      stepper.do_step(std::ref(*this));
      const BallState<double> before = kernel::unpacked(stepper.previous_state()),
                              after = kernel::unpacked(stepper.current_state());
      const double start = stepper.previous_time(), end = stepper.current_time();
      const auto where = [&](const auto& f) {
        return kernel::crossing([&](double time) { return f(at(time)); }, start, end);
      };
      if (before.velocity.z > 0.0 && after.velocity.z <= 0.0) {
        const Vec3<double> top =
            at(where([](const BallState<double>& s) { return s.velocity.z; })).position - from;
        flight.apex = from.z + top.z - motion.in.radius;
        flight.apex_distance = horizontal_distance(top);
      }
      const auto height = [&](const BallState<double>& s) { return clearance(s, motion.in); };
      if (height(after) > 0.0) continue;
      const double time = where(height);
      describe_landing(flight, at(time), time, launch, from);
      return flight;
    }
    flight.status = Status::no_landing;
    return flight;
  }

  void operator()(const State& x, State& dxdt, double) const {
    dxdt = kernel::packed(motion(kernel::unpacked(x)));
  }

 private:
  BallState<double> at(double time) const {
    State x;
    stepper.calc_state(time, x);
    return kernel::unpacked(x);
  }

  EquationOfMotion<double, Model> motion;
  const Launch<>& launch;
  Vec3<double> from;
  using DormandPrince = boost::numeric::odeint::runge_kutta_dopri5<State>;
  boost::numeric::odeint::result_of::make_dense_output<DormandPrince>::type stepper;
};

}  // namespace whimbrel::benchmarks
