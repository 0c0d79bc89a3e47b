#pragma once
#include "whimbrel/swing/swing_arc.hpp"

namespace whimbrel {

/// What the club meets first, and where on the face the ball is: `fat`, the ground before the ball; `thin`,
/// the ball low on the face, within a third of the way from the leading edge to the face centre (a choice of
/// this project).
enum class GroundContact : unsigned char { clean, fat, thin };

/// How far before the ball the sole may touch the turf and still be called clean, m (a choice of this
/// project).
inline constexpr double clean_turf_margin = 0.005;

template <Scalar T = double>
struct GroundStrike {
  T strike_high{};  ///< m, of the strike above the face centre
  T turf_entry{};   ///< m, where the sole enters the turf, ahead of the ball along the base line; NaN: it
                    ///< never does
  T divot_depth{};  ///< m, of the sole's lowest point below the turf
  GroundContact contact = GroundContact::clean;

  static constexpr auto fields() {
    return std::array<Field<GroundStrike, T>, 3>{{{"strike_high", &GroundStrike::strike_high, "m"},
                                                  {"turf_entry", &GroundStrike::turf_entry, "m"},
                                                  {"divot_depth", &GroundStrike::divot_depth, "m"}}};
  }
};

/// Where ball and ground are met by a club whose leading edge runs on an arc. The ball's bottom is at tee
/// height; the face touches it r sin(loft) below its centre; the face centre is half the face's height up the
/// face. The sole reaches `sole_depth` below the leading edge (bounce, or a digging edge: 0). What the turf
/// does to the head is not modelled: a fat strike's lost speed is the user's to say.
template <Scalar T>
GroundStrike<T> ground_strike(const SwingArc<T>& arc, const Club<T>& club, const T& dynamic_loft,
                              const T& tee_height, const T& ball_radius, const T& sole_depth = T(0.0)) {
  using std::cos, std::sin;
  const T edge = at_ball(arc, club.hand).edge_height;
  const T touch_height = tee_height + ball_radius * (T(1.0) - sin(dynamic_loft));
  const T up_the_face = (touch_height - edge) / cos(dynamic_loft);
  const T half = T(0.5) * club.face_height;
  SwingArc<T> sole = arc;
  sole.low_point_height = arc.low_point_height - sole_depth;
  const T depth = larger(-sole.low_point_height, T(0.0));
  const T behind = turf_entry_behind_low_point(sole);
  const bool enters = value(depth) > 0.0;
  GroundStrike<T> strike{up_the_face - half, enters ? arc.low_point_ahead - behind : T(NAN), depth};
  if (enters && value(strike.turf_entry) < -clean_turf_margin && value(tee_height) < value(ball_radius))
    strike.contact = GroundContact::fat;
  else if (value(up_the_face) < value(half) / 3.0)
    strike.contact = GroundContact::thin;
  return strike;
}

}  // namespace whimbrel
