#pragma once
// Interim: flights of scalars with derivatives, until the library's own stepper is there.
#include <algorithm>
#include <limits>

#include "whimbrel/flight/fly.hpp"

namespace whimbrel::kernel {

template <Scalar T>
BallState<T> moved(const BallState<T>& s, double h, const BallState<T>& k) {
  return {s.position + T(h) * k.position, s.velocity + T(h) * k.velocity, s.spin_rate + T(h) * k.spin_rate};
}
template <Scalar T>
BallState<T> summed(std::initializer_list<std::pair<double, const BallState<T>*>> parts) {
  BallState<T> sum{};
  for (const auto& [w, k] : parts) sum = moved(sum, w, *k);
  return sum;
}

template <Scalar T, AeroModel Model>
Flight<T> fly_stepped_by(const Model& model, const Launch<T>& launch, const Ball<T>& ball,
                         const Setting<T>& setting, const Vec3<T>& from, double tolerance) {
  const EquationOfMotion<T, Model> motion(model, ball, setting, launch);
  const auto plain = [](const T& x) { return static_cast<double>(value(x)); };
  const auto high = [&](const BallState<T>& s) { return clearance(s, ball, setting.terrain); };
  Flight<T> flight;
  BallState<T> s = starting_state(launch, from);
  BallState<T> k1 = motion(s);
  flight.apex = s.position.z - ball.radius;
  flight.apex_distance = T(0.0);
  auto& knots = flight.trajectory.knots;
  knots.push_back({T(0.0), s, k1});
  const Terrain<T>& ground = setting.terrain;
  const auto away = [&](const Vec3<T>& v) {
    return v.z - ground.slope_right * v.x - ground.slope_downrange * v.y;
  };
  if (std::abs(plain(high(s))) < 1e-12 && plain(away(s.velocity)) <= 0.0) {
    describe_landing(flight, s, T(0.0), launch, from);
    flight.status = Status::not_airborne;
    return flight;
  }
  const StatedRange range = model.stated_range();
  const auto sides = [&](const BallState<T>& q) {
    const Airflow<T> flow = motion.airflow(q);
    const double W = plain(flow.spin_ratio), Re = plain(flow.reynolds);
    const double lowest = std::max(range.spin_ratio_lower, linear_lift_below);
    return (W < lowest) + 2 * (W > range.spin_ratio_upper) + 4 * (Re < range.reynolds_lower) +
           8 * (Re > range.reynolds_upper) +
           16 * (plain(ground_height(ground, q.position.x, q.position.y)) < 0.0);
  };
  double t = 0.0, h = 1e-3;
  const auto failed = [&](Status status) {
    for (const auto& field : Flight<T>::fields()) flight.*field.member = T(NAN);
    flight.status = status;
    return flight;
  };
  for (int step = 0; step < 100000 && t < 60.0; ++step) {
    const auto k2 = motion(moved(s, h / 5, k1));
    const auto k3 = motion(moved(s, h, summed<T>({{3.0 / 40, &k1}, {9.0 / 40, &k2}})));
    const auto k4 = motion(moved(s, h, summed<T>({{44.0 / 45, &k1}, {-56.0 / 15, &k2}, {32.0 / 9, &k3}})));
    const auto k5 = motion(moved(
        s, h,
        summed<T>(
            {{19372.0 / 6561, &k1}, {-25360.0 / 2187, &k2}, {64448.0 / 6561, &k3}, {-212.0 / 729, &k4}})));
    const auto k6 = motion(moved(s, h,
                                 summed<T>({{9017.0 / 3168, &k1},
                                            {-355.0 / 33, &k2},
                                            {46732.0 / 5247, &k3},
                                            {49.0 / 176, &k4},
                                            {-5103.0 / 18656, &k5}})));
    const BallState<T> end = moved(s, h,
                                   summed<T>({{35.0 / 384, &k1},
                                              {500.0 / 1113, &k3},
                                              {125.0 / 192, &k4},
                                              {-2187.0 / 6784, &k5},
                                              {11.0 / 84, &k6}}));
    const BallState<T> k7 = motion(end);
    const BallState<T> e = summed<T>({{71.0 / 57600, &k1},
                                      {-71.0 / 16695, &k3},
                                      {71.0 / 1920, &k4},
                                      {-17253.0 / 339200, &k5},
                                      {22.0 / 525, &k6},
                                      {-1.0 / 40, &k7}});
    const double error = h * (plain(norm(e.position)) + plain(norm(e.velocity))) / tolerance;
    if (!std::isfinite(error)) return failed(Status::numerical_failure);
    const double factor = std::clamp(0.9 * std::pow(std::max(error, 1e-12), -0.2), 0.2, 5.0);
    if (error > 1.0) {
      h *= factor;
      continue;
    }
    const Knot<T> a{T(t), s, k1}, b{T(t + h), end, k7};
    // dense output by differences of the quintic: position, and velocity from its slope
    const auto state_at = [&](const T& x) {
      const T d(1e-5), width(h);
      (void)d;
      const T s2 = x * x;
      const Vec3<T> p0 = a.state.position, p1 = b.state.position, v0 = width * a.state.velocity,
                    v1 = width * b.state.velocity, w0 = square(width) * a.rate.velocity,
                    w1 = square(width) * b.rate.velocity;
      const Vec3<T> D = p1 - p0 - v0 - T(0.5) * w0, V = v1 - v0 - w0, W = w1 - w0;
      const Vec3<T> c3 = T(10.0) * D - T(4.0) * V + T(0.5) * W, c4 = T(-15.0) * D + T(7.0) * V - W,
                    c5 = T(6.0) * D - T(3.0) * V + T(0.5) * W;
      const Vec3<T> p = p0 + x * v0 + (T(0.5) * s2) * w0 + (s2 * x) * (c3 + x * c4 + s2 * c5);
      const Vec3<T> v = v0 + x * w0 + s2 * (T(3.0) * c3 + (T(4.0) * x) * c4 + (T(5.0) * s2) * c5);
      return BallState<T>{
          p, (T(1.0) / width) * v,
          cubic_hermite(x, width, a.state.spin_rate, a.rate.spin_rate, b.state.spin_rate, b.rate.spin_rate)};
    };
    if (const int before = sides(s); before != sides(end)) {
      double low = 0.0, up = 1.0;
      for (int i = 0; i < 40; ++i) {
        const double mid = 0.5 * (low + up);
        (sides(state_at(T(mid))) == before ? low : up) = mid;
      }
      if (low * h > 1e-7 && (1.0 - low) * h > 1e-7) {
        h *= low;
        continue;
      }
    }
    const auto event = [&](const auto& f, const auto& rate) {
      double low = 0.0, up = 1.0;
      for (int i = 0; i < 60; ++i) {
        const double mid = 0.5 * (low + up);
        (plain(f(state_at(T(mid)))) > 0.0 ? low : up) = mid;
      }
      const T x(0.5 * (low + up));
      const BallState<T> there = state_at(x);
      return x - f(there) / (T(h) * rate(there));
    };
    const bool lands = plain(high(end)) <= 0.0 && (plain(high(s)) > 0.0 || plain(away(s.velocity)) > 0.0) &&
                       !(step == 0 && plain(high(s)) <= 0.0 && plain(away(end.velocity)) > 0.0);
    if (plain(s.velocity.z) > 0.0 && plain(end.velocity.z) <= 0.0) {
      const T x = event([](const auto& q) { return q.velocity.z; },
                        [&](const auto& q) { return motion(q).velocity.z; });
      const BallState<T> top = state_at(x);
      flight.apex = top.position.z - ball.radius;
      flight.apex_distance = horizontal_distance(top.position - from);
    }
    if (lands) {
      const T x = event(high, [&](const auto& q) { return away(q.velocity); });
      const BallState<T> down = state_at(x);
      const T time = T(t) + x * T(h);
      knots.push_back({time, down, motion(down)});
      describe_landing(flight, down, time, launch, from);
      return flight;
    }
    knots.push_back(b);
    t += h;
    s = end;
    k1 = k7;
    h *= factor;
  }
  return failed(Status::no_landing);
}

template <Scalar T>
Flight<T> fly_stepped(const Launch<T>& launch, const Ball<T>& ball, const Setting<T>& setting,
                      const Vec3<T>& start, double tolerance) {
  return std::visit(
      [&](const auto& model) { return fly_stepped_by(model, launch, ball, setting, start, tolerance); },
      ball.aero);
}

}  // namespace whimbrel::kernel
