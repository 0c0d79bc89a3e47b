#pragma once
#include "whimbrel/swing/ground_strike.hpp"
#include "whimbrel/swing/present.hpp"

namespace whimbrel {

/// Where a ball lies for a swing: moved forward along the base line from where the arc has it, and teed.
template <Scalar T = double>
struct BallPlace {
  T forward{};     ///< m, toward the target
  T tee_height{};  ///< m, of the ball's bottom

  static constexpr auto fields() {
    return std::array<Field<BallPlace, T>, 2>{{{"ball_forward", &BallPlace::forward, "m", -1, 1},
                                               {"tee_height", &BallPlace::tee_height, "m", 0, 0.2}}};
  }
};

/// What one arc delivers with a club to a ball in a given place. Path and attack come from the arc, the face
/// from how the hands present it, the height of the strike from the heights of arc and ball. The same arc
/// with an iron and with a driver gives two deliveries: down on a ball on the ground, up on a teed ball
/// farther forward.
/// @throws InputError for a number outside its range.
template <Scalar T>
Delivery<T> delivered_on(const SwingArc<T>& arc, const Club<T>& club, const Presentation<T>& hands,
                         const T& clubhead_speed, const BallPlace<T>& place, const T& ball_radius) {
  const SwingArc<T> moved = with_ball_moved(arc, place.forward);
  check(place, moved);
  const ArcAtBall<T> met = at_ball(moved, club.hand);
  Delivery<T> delivery = present(
      club, hands,
      Delivery<T>{
          .clubhead_speed = clubhead_speed, .club_path = met.club_path, .attack_angle = met.attack_angle});
  delivery.strike_high =
      ground_strike(moved, club, delivery.dynamic_loft, place.tee_height, ball_radius).strike_high;
  return delivery;
}

}  // namespace whimbrel
