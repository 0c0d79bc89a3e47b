#pragma once
#include <array>
#include <numbers>
#include <string_view>
#include <variant>

#include "whimbrel/ball/aero_table.hpp"
#include "whimbrel/ball/constant_coefficients.hpp"
#include "whimbrel/ball/multi_layer.hpp"
#include "whimbrel/ball/smits_smith.hpp"
#include "whimbrel/ball/square_root_lift.hpp"
#include "whimbrel/ball/tunnel_1976.hpp"

namespace whimbrel {

/// The shipped models. One is chosen for a call and visited outside the integrator.
using AnyAeroModel = std::variant<MultiLayer, SmitsSmith, SquareRootLift, ConstantCoefficients, AeroTable>;

/// A golf ball. Defaults: the heaviest and smallest the Rules of Golf allow (45.93 g, 42.67 mm) and
/// a uniform sphere's inertia, 0.4 m r^2 (agrees with a measured ball).
template <Scalar T = double>
struct Ball {
  T mass{0.04593};                                 ///< kg
  T radius{0.021335};                              ///< m
  T inertia{0.4 * 0.04593 * 0.021335 * 0.021335};  ///< kg m^2, about any axis through the centre
  T contact_stiffness_ratio{0.77};  ///< kappa, tangential over normal stiffness of the contact; calibrated
  T face_friction{
      0.192};  ///< mu, of ball and dry face at an approach of 43.8 m/s; calibrated, not below 0.16
  [[no_unique_address]] UnlessLanes<T, AnyAeroModel> aero{};

  static constexpr auto fields() {
    return std::array<Field<Ball, T>, 5>{
        {{"ball mass", &Ball::mass, "kg", 0.005, 0.2},
         {"ball radius", &Ball::radius, "m", 0.01, 0.05},
         {"ball inertia", &Ball::inertia, "kg m^2", 1e-7, 1e-3},
         {"contact_stiffness_ratio", &Ball::contact_stiffness_ratio, "1", 0, 2},
         {"face_friction", &Ball::face_friction, "1", 0, 2}}};
  }
};

/// kg/m^3; foam practice balls have about twice that. The air stops anything lighter within a few metres.
inline constexpr double least_ball_density = 50.0;

template <Scalar T>
std::optional<InputError> mistake(const Ball<T>& ball) {
  if (auto error = out_of_bounds(ball)) return error;
  const double radius = value(ball.radius), mass = value(ball.mass);
  const double least = least_ball_density * 4 / 3 * std::numbers::pi * radius * radius * radius;
  if (mass < least) return InputError("ball mass", mass, "kg", least, Ball<T>::fields()[0].upper);
  return std::visit([](const auto& model) { return mistake(model); }, ball.aero);
}

struct NamedBall {
  std::string_view name;
  Ball<> ball;
};

/// The shipped balls. Five are invented: the default with lift or drag 4 % lower or higher, calibrated by
/// this project to span part of the difference between present-day balls. "tunnel 1976" is today's ball in
/// mass and size, with the coefficients of that tunnel.
inline std::array<NamedBall, 6> ball_presets() {
  const auto scaled = [](double lift, double drag) {
    const MultiLayer base;
    MultiLayer model = base;
    model.lift *= lift;
    model.drag *= drag;
    model.drag_spin *= drag;
    model.drag_laminar *= drag;
    Ball<> ball;
    ball.aero = model;
    return ball;
  };
  Ball<> tunnel;
  tunnel.aero = tunnel_1976();
  return {{{"standard", scaled(1.0, 1.0)},
           {"low lift", scaled(0.96, 1.0)},
           {"high lift", scaled(1.04, 1.0)},
           {"low drag", scaled(1.0, 0.96)},
           {"high drag", scaled(1.0, 1.04)},
           {"tunnel 1976", tunnel}}};
}

}  // namespace whimbrel
