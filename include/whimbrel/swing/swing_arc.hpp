#pragma once
#include <algorithm>
#include <array>

#include "whimbrel/swing/club.hpp"
#include "whimbrel/swing/d_plane.hpp"

namespace whimbrel {

/// The planar arc the sole's leading edge runs on near impact, and where the ball lies on it.
/// Near impact the clubhead stays in a plane: Morrison, McGrath, Wallace, J. Sports Sci. 2018 (read as
/// abstract: a planar ellipse to 1.2 mm); a circle here.
template <Scalar T = double>
struct SwingArc {
  T radius{1.5};                         ///< m, of the arc near its low point
  T plane_inclination{60 * units::deg};  ///< rad, of the swing plane to the ground
  T base_direction{0.0};    ///< rad, azimuth of the line the plane cuts the ground in: what the eye sees
  T low_point_ahead{0.0};   ///< m, of the ball along that line; negative: behind the ball
  T low_point_height{0.0};  ///< m, above the turf; negative: below it

  static constexpr auto fields() {
    return std::array<Field<SwingArc, T>, 5>{
        {{"radius", &SwingArc::radius, "m", 0.5, 3},
         {"plane_inclination", &SwingArc::plane_inclination, "rad", 20 * units::deg, 90 * units::deg},
         {"base_direction", &SwingArc::base_direction, "rad", -90 * units::deg, 90 * units::deg},
         {"low_point_ahead", &SwingArc::low_point_ahead, "m", -1, 1},
         {"low_point_height", &SwingArc::low_point_height, "m", -0.2, 0.5}}};
  }
};

/// The ball must lie on the arc, short of where it stands upright.
template <Scalar T>
std::optional<InputError> mistake(const SwingArc<T>& arc) {
  if (auto error = out_of_bounds(arc)) return error;
  const double reach = 0.9 * value(arc.radius);
  if (std::abs(value(arc.low_point_ahead)) > reach)
    return InputError("low_point_ahead", value(arc.low_point_ahead), "m", -reach, reach);
  return std::nullopt;
}

/// The arc where the clubhead meets the ball. Beta is the angle along the arc from the low point,
/// negative on the way down.
template <Scalar T = double>
struct ArcAtBall {
  T beta{};          ///< rad
  T attack_angle{};  ///< rad
  T club_path{};     ///< rad
  T edge_height{};   ///< m, of the leading edge above the turf

  static constexpr auto fields() {
    return std::array<Field<ArcAtBall, T>, 4>{{{"beta", &ArcAtBall::beta, "rad"},
                                               {"attack_angle", &ArcAtBall::attack_angle, "rad"},
                                               {"club_path", &ArcAtBall::club_path, "rad"},
                                               {"edge_height", &ArcAtBall::edge_height, "m"}}};
  }
};

/// How far the path lies to the right of the base direction, for a right-hander; for a left-hander to the
/// left: -atan(tan(beta) cos(inclination)). Hitting down moves the path away from the player's side.
template <Scalar T>
T path_from_base(const T& beta, const T& plane_inclination) {
  using std::atan, std::cos, std::tan;
  return -atan(tan(beta) * cos(plane_inclination));
}

/// Attack angle, path and height at the ball.
template <Scalar T>
ArcAtBall<T> at_ball(const SwingArc<T>& arc, Hand hand) {
  using std::asin, std::cos, std::sin;
  const T beta = asin(-arc.low_point_ahead / arc.radius);
  const T alpha = arc.plane_inclination;
  return {beta, asin(sin(alpha) * sin(beta)),
          arc.base_direction + T(toe_side(hand)) * path_from_base(beta, alpha),
          arc.low_point_height + arc.radius * (T(1.0) - cos(beta)) * sin(alpha)};
}

/// The arc behind a measured path and attack angle, for a plane and a radius, with the leading edge at a
/// height above the turf as it meets the ball.
/// @throws InputError where the attack is as steep as the plane, or so steep that the ball lies off the arc's
/// foot.
template <Scalar T>
SwingArc<T> arc_of(const T& club_path, const T& attack_angle, const T& plane_inclination, const T& radius,
                   const T& height, Hand hand) {
  using std::asin, std::cos, std::sin;
  check(SwingArc<T>{.radius = radius, .plane_inclination = plane_inclination});
  // The ball may lie as far from the low point as `mistake` of an arc allows: 0.9 radii and 1 m.
  const double reach = std::min(0.9, 1.0 / value(radius));
  const double steepest = std::asin(std::sin(value(plane_inclination)) * reach);
  if (!(std::abs(value(attack_angle)) <= steepest)) {
    const bool over = std::abs(value(attack_angle)) > value(plane_inclination);
    throw InputError("attack_angle", value(attack_angle), -steepest, steepest,
                     "is " + readable(value(attack_angle), "rad") +
                         (over ? ", steeper than the plane of " : ", too steep for a plane of ") +
                         readable(value(plane_inclination), "rad") +
                         "; accepted: " + readable(-steepest, "rad") + " to " + readable(steepest, "rad"));
  }
  const T beta = asin(sin(attack_angle) / sin(plane_inclination));
  const SwingArc<T> arc{radius, plane_inclination,
                        club_path - T(toe_side(hand)) * path_from_base(beta, plane_inclination),
                        -radius * sin(beta), height - radius * (T(1.0) - cos(beta)) * sin(plane_inclination)};
  check(arc);
  return arc;
}

/// How far behind the low point, along the base line, the leading edge enters the turf, m; 0 for an arc that
/// stays above the turf. (For shallow arcs about sqrt(2 R D / sin(inclination)), D the depth.)
template <Scalar T>
T turf_entry_behind_low_point(const SwingArc<T>& arc) {
  using std::sin, std::sqrt;
  const T sagitta = larger(-arc.low_point_height, T(0.0)) / sin(arc.plane_inclination);
  return sqrt(sagitta * (T(2.0) * arc.radius - sagitta));
}

/// The same swing with the ball moved along the base line, forward positive.
template <Scalar T>
SwingArc<T> with_ball_moved(SwingArc<T> arc, const T& forward) {
  arc.low_point_ahead = arc.low_point_ahead - forward;
  return arc;
}

/// What face and shaft do when the ball is moved on the same arc: `turning` keeps them square to the
/// arc, as a club that is not re-aimed; `held` keeps face angle and dynamic loft.
enum class FaceOnArc : unsigned char { turning, held };

/// A delivery carried to another place of its arc. Path and attack are those of the new place; the face turns
/// with the arc about the plane's normal, or the hands hold it.
template <Scalar T>
Delivery<T> carried_along(const Delivery<T>& delivery, const SwingArc<T>& from, const SwingArc<T>& to,
                          Hand hand, FaceOnArc face) {
  using std::cos, std::sin;
  const ArcAtBall<T> before = at_ball(from, hand), after = at_ball(to, hand);
  Delivery<T> carried = delivery;
  carried.attack_angle = after.attack_angle;
  carried.club_path = after.club_path;
  if (face == FaceOnArc::held) return carried;
  const Vec3<T> base = direction(from.base_direction, T(0.0));
  const Vec3<T> upward = T(-toe_side(hand)) * cos(from.plane_inclination) * right_of(from.base_direction) +
                         Vec3<T>{T(0.0), T(0.0), sin(from.plane_inclination)};
  const Vec3<T> n = turned(face_normal(delivery), cross(base, upward), T(after.beta - before.beta));
  carried.face_angle = azimuth(n);
  carried.dynamic_loft = elevation(n);
  return carried;
}

/// A delivery made standing on a slope along the target line, body set to it: path and face turn with
/// the slope, uphill positive.
template <Scalar T>
Delivery<T> on_uphill_stance(Delivery<T> delivery, const T& uphill) {
  const Vec3<T> right{T(1.0), T(0.0), T(0.0)};
  const Vec3<T> p = turned(path_direction(delivery), right, uphill);
  const Vec3<T> n = turned(face_normal(delivery), right, uphill);
  delivery.club_path = azimuth(p);
  delivery.attack_angle = elevation(p);
  delivery.face_angle = azimuth(n);
  delivery.dynamic_loft = elevation(n);
  return delivery;
}

}  // namespace whimbrel
