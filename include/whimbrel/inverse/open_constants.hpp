#pragma once
#include <array>

#include "whimbrel/ball/ball.hpp"

namespace whimbrel {

/// One way in which the constants could differ. The flight's are logarithms of factors, in the order of
/// `MultiLayer::fields()`.
struct ConstantDraw {
  std::array<double, 8> flight;
  double contact_stiffness, friction;  ///< logarithms of factors on kappa and mu
  double restitution;                  ///< added to that of the face
};

/// What twelve launches of common practice leave open of the constants, by `validation/doubt`: half of the
/// draws, each of which has another opposite. All together have mean 0 and the covariance of the constants.
/// Of the flight: a posterior by Laplace, within 20 % beforehand. Of the contact: how far each of the twelve
/// clubs is from the shipped constants.
inline constexpr std::array<ConstantDraw, 12> constant_draws{{
    {{-0.0193, 0.0121, 0.0257, -0.0064, 0.0534, 0.2282, -0.1162, 0.0395}, 0.0180, -0.0253, -0.0246},
    {{-0.0305, -0.0963, 0.0057, 0.0664, -0.0045, 0.2677, -0.1968, -0.2958}, -0.0327, 0.0403, -0.0031},
    {{-0.0722, -0.0720, -0.1853, 0.0753, -0.1278, 0.0344, 0.0919, 0.0167}, 0.0137, -0.0195, -0.0140},
    {{-0.1140, -0.1671, 0.0892, -0.2036, 0.0625, 0.0208, 0.0853, -0.1818}, 0.0242, -0.0170, 0.0065},
    {{0.0055, 0.0152, -0.0002, 0.0392, 0.0183, -0.1934, 0.0241, -0.2598}, 0.2850, -0.0067, 0.0055},
    {{0.0598, 0.1588, -0.0324, 0.1080, 0.1312, -0.1590, -0.0091, -0.3601}, -0.1238, 0.0014, 0.0070},
    {{-0.0131, 0.0196, -0.1259, -0.0372, -0.2268, 0.0657, 0.1295, -0.1646}, -0.0809, -0.0089, 0.0145},
    {{0.0827, 0.1416, -0.0650, 0.0824, -0.0397, 0.3287, -0.1461, -0.1241}, 0.0802, -0.0258, 0.0094},
    {{-0.0249, -0.0179, 0.0721, -0.1329, 0.0205, 0.2460, 0.1150, -0.2141}, 0.0045, 0.0035, -0.0115},
    {{-0.0186, -0.0702, 0.0779, 0.0047, 0.0488, -0.1078, -0.0569, -0.1440}, -0.1219, -0.0485, 0.0034},
    {{0.0384, 0.0769, -0.0307, -0.0193, -0.0583, -0.2452, 0.0814, -0.2151}, -0.0156, 0.0074, -0.0335},
    {{0.0851, 0.0122, 0.0340, 0.1022, 0.0142, 0.0142, -0.1000, 0.0186}, -0.0035, -0.0203, -0.0095},
}};

/// A law of the flight of another form than the default, fitted to the same launches.
struct OtherLaw {
  double weight;  ///< its likelihood among all of them
  MultiLayer constants;
  double lift_reynolds_power, drag_reynolds_power;  ///< powers of Re / 1.3e5 that lift and drag grow by
  bool induced_drag;                                ///< spin's drag grows with the square of the lift
};

/// The default form first, as fitted to those launches alone: the shipped constants are also of the rules'
/// test and of published effects of air. The powers are those that the wind tunnel of
/// 1976 asks for (`validation/tunnel_1976`); drag with the square of lift is that of a wing (textbooks).
/// Forms that fit much worse, such as drag linear in the spin, have no weight to speak of.
inline constexpr std::array<OtherLaw, 4> flight_laws{{
    {0.371, {0.3668, 0.1736, 0.1633, 0.1428, 0.1648, 0.2961, 6.711e4, 1.985e-5}, 0.0, 0.0, false},
    {0.215, {0.3513, 0.1552, 0.1664, 0.1464, 0.1656, 0.3066, 6.706e4, 1.973e-5}, -0.22, 0.0, false},
    {0.380, {0.3662, 0.1716, 0.1602, 0.1486, 0.1746, 0.3207, 6.949e4, 1.982e-5}, 0.0, 0.15, false},
    {0.034, {0.3389, 0.1464, 0.201, 0.1654, 0.189, 0.2907, 6.614e4, 1.952e-5}, 0.0, 0.0, true},
}};

/// One standard deviation of the logarithm of a ball's drag. A drive's carry then has a standard deviation of
/// 5.4 m, as have 13 present-day balls whose carries span 18 m (Lyu, Kensrud, Smith, Tosaya, Proceedings 2
/// (2018) 238).
inline constexpr double ball_drag_spread = 0.0296;

/// One standard deviation of the logarithm of each constant of a turf. A drive's run on the firm fairway then
/// has a standard deviation of 5 yd, a quarter of the trade's window (10 to 30 yd, common practice).
inline constexpr double turf_spread = 0.092;

/// A law of another form as a table of coefficients.
inline AeroTable table_of(const OtherLaw& law) {
  using std::exp, std::pow;
  constexpr double middle = 1.3e5;  // Re, between a drive's landing and its start
  AeroTable table{{}, {}, {}, {}, law.constants.spin_decay};
  for (double W = 0.0; W < 0.0999; W += 0.01) table.spin_ratio.push_back(W);
  for (double W = 0.1; W < 1.2; W *= 1.12) table.spin_ratio.push_back(W);
  for (double Re = 2.5e4; Re < 3e5; Re *= 1.1) table.reynolds.push_back(Re);
  const MultiLayer& c = law.constants;
  const MultiLayer base;
  for (const double W : table.spin_ratio)
    for (const double Re : table.reynolds) {
      const double lift = c.lift * (1 - exp(-W / c.lift_scale)) * pow(Re / middle, law.lift_reynolds_power);
      const double of_spin = law.induced_drag ? c.drag_spin * square(lift / base.lift)
                                              : c.drag_spin * (1 - exp(-pow(W / c.drag_spin_scale, 1.5)));
      const double crisis = c.drag_laminar / (1 + pow(Re / c.crisis_reynolds, 6));
      table.lift.push_back(lift);
      table.drag.push_back((c.drag + of_spin) * pow(Re / middle, law.drag_reynolds_power) + crisis);
    }
  return table;
}

}  // namespace whimbrel
