#pragma once
#include <array>

#include "whimbrel/ball/aero_model.hpp"
#include "whimbrel/core/field.hpp"

namespace whimbrel {

/// A present-day multi-layer ball, the library's default.
///
///   C_L = lift (1 - exp(-W / lift_scale))
///   C_D = drag + drag_spin (1 - exp(-(W / drag_spin_scale)^1.5)) + drag_laminar / (1 + (Re / Re_c)^6)
///
/// Calibrated by this project: an exponential lift law as in Davies, J. Appl. Phys. 20 (1949) 821,
/// and a drag crisis near Re 5e4 (published: Sports Engineering 2020, s12283-020-0318-1), with
/// constants fitted to common-practice carries, heights and descent angles from drives to wedges, to
/// the rules' overall distance standard and to published altitude and temperature effects.
/// Not modelled: the reversed lift published for 5e4 < Re < 7e4 at 750 to 2,250 rpm (same source).
/// Balls differ: 13 present-day balls spread up to 0.05 in C_D and 18 m in carry
/// (Lyu, Kensrud, Smith, Tosaya, Proceedings 2 (2018) 238).
struct MultiLayer {
  double lift = 0.404, lift_scale = 0.184;
  double drag = 0.170, drag_spin = 0.186, drag_spin_scale = 0.189;
  double drag_laminar = 0.263, crisis_reynolds = 0.541e5;
  double spin_decay = 2.0e-5;

  static constexpr StatedRange stated_range() { return {0.02, 0.8, 3e4, 2.4e5}; }

  template <Scalar T>
  Coefficients<T> coefficients(const T& W, const T& Re) const {
    using std::exp, std::sqrt;
    const T w = 1 / drag_spin_scale * W;
    const T crisis = square(1 / crisis_reynolds * Re);
    return {T(drag) + drag_spin * (T(1.0) - exp(-w * sqrt(w))) +
                T(drag_laminar) / (T(1.0) + crisis * crisis * crisis),
            lift * (T(1.0) - exp(-1 / lift_scale * W))};
  }

  static constexpr auto fields() {
    using Constant = Field<MultiLayer, double>;
    return std::array<Constant, 8>{{{"lift", &MultiLayer::lift, "1", 0, 2},
                                    {"lift_scale", &MultiLayer::lift_scale, "1", 0.01, 10},
                                    {"drag", &MultiLayer::drag, "1", 0, 2},
                                    {"drag_spin", &MultiLayer::drag_spin, "1", 0, 2},
                                    {"drag_spin_scale", &MultiLayer::drag_spin_scale, "1", 0.01, 10},
                                    {"drag_laminar", &MultiLayer::drag_laminar, "1", 0, 2},
                                    {"crisis_reynolds", &MultiLayer::crisis_reynolds, "1", 1e4, 1e6},
                                    {"spin_decay", &MultiLayer::spin_decay, "1", 0, greatest_spin_decay}}};
  }
};

static_assert(AeroModel<MultiLayer>);

}  // namespace whimbrel
