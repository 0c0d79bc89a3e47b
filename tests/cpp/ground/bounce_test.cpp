#include <doctest/doctest.h>

#include "agrees.hpp"
#include "dual.hpp"
#include "mirrored.hpp"
#include "random_cases.hpp"

using namespace whimbrel;
using namespace whimbrel::test;

namespace {

constexpr Vec3<double> up{0.0, 0.0, 1.0};
const Ball<> uniform;

/// A ball that comes down toward the target at a speed and an angle from upright, with backspin.
Touchdown<double> coming_down(double speed, double from_upright, double backspin = 0.0) {
  return {{0.0, speed * std::sin(from_upright), -speed * std::cos(from_upright)}, {backspin, 0.0, 0.0}};
}

/// Penner's bounce as published, in its plane, off a surface that leans back as it does here: forward and
/// upward speed and backspin afterwards.
struct InPlane {
  double forward, upward, backspin;
};
InPlane penner(double speed, double from_upright, double backspin, const Turf<>& turf, double r) {
  const double lean = surface_tilt(turf, speed, from_upright);
  const double vx = speed * std::sin(from_upright), vy = speed * std::cos(from_upright);
  const double along = vx * std::cos(lean) - vy * std::sin(lean);
  const double into = vx * std::sin(lean) + vy * std::cos(lean);
  const double held = std::min(into, 20.0);
  const double e = turf.restitution_scale * (0.510 - 0.0375 * held + 0.000903 * held * held);
  const double needed = 2.0 * std::abs(along + r * backspin) / (7.0 * into * (1.0 + e));
  const double way = along + r * backspin > 0.0 ? 1.0 : -1.0;
  double leaving = along - way * turf.friction * into * (1.0 + e);
  double spin = backspin - way * 2.5 * turf.friction * into * (1.0 + e) / r;
  if (turf.friction > needed) {
    leaving = 5.0 / 7.0 * along - 2.0 / 7.0 * r * backspin;
    spin = -leaving / r;
  }
  const double rebound = e * into;
  return {leaving * std::cos(lean) - rebound * std::sin(lean),
          leaving * std::sin(lean) + rebound * std::cos(lean), spin};
}

/// The normal of the surface that leans back at the ball.
Vec3<double> leaned(const Touchdown<double>& ball, const Vec3<double>& normal, const Turf<>& turf) {
  const double lean = surface_tilt(turf, norm(ball.velocity), bounce_angle(ball.velocity, normal));
  const Vec3<double> forward = unit(ball.velocity - dot(ball.velocity, normal) * normal);
  return std::cos(lean) * normal - std::sin(lean) * forward;
}

Vec3<double> slip(const Touchdown<double>& ball, const Vec3<double>& n, double r) {
  return ball.velocity - dot(ball.velocity, n) * n + cross(ball.spin, -r * n);
}

double energy(const Touchdown<double>& ball, const Ball<>& body) {
  return 0.5 * body.mass * dot(ball.velocity, ball.velocity) + 0.5 * body.inertia * dot(ball.spin, ball.spin);
}

/// Any ball of any inertia that touches any slope from above.
struct AnyTouch {
  Touchdown<double> ball;
  Vec3<double> normal;
  Ball<> body;
  Turf<> turf;

  friend std::ostream& operator<<(std::ostream& out, const AnyTouch& t) {
    return out << described(std::tuple(t.ball.velocity, t.ball.spin, t.normal, t.body, t.turf));
  }
};
AnyTouch any_touch(Random& random) {
  const Terrain<> slope = any_slope(random);
  AnyTouch touch{touchdown(any_landing(random)), ground_normal(slope, 0.0, 0.0), {}, any_turf(random)};
  touch.body.inertia = random.between(0.1, 0.6) * touch.body.mass * square(touch.body.radius);
  const double into = dot(touch.ball.velocity, touch.normal);
  if (into > 0.0) touch.ball.velocity = touch.ball.velocity - 2.0 * into * touch.normal;
  return touch;
}
Touchdown<double> bounced(const AnyTouch& t) { return bounce(t.ball, t.normal, t.body, t.turf); }

void in_random_touches(const auto& holds) {
  in_random_cases([](Random& random) { return std::tuple(any_touch(random)); }, holds);
}

}  // namespace

TEST_CASE("a spinless ball at 18.6 m/s and 44.4 degrees leaves at 5.61 m/s forward and 3.89 up") {
  const Touchdown<double> after = bounce(coming_down(18.6, 44.4_deg), up, uniform, Turf<>{});
  CHECK(agrees(after.velocity.y, 5.61, 5e-3, 0));
  CHECK(agrees(after.velocity.z, 3.89, 5e-3, 0));
  CHECK(agrees(after.velocity.x, 0.0, 1e-15, 0));
}

TEST_CASE("in its plane the bounce in vectors is the published one") {
  in_random_cases(
      [](Random& random) {
        return std::tuple(random.between(1, 60), random.between(0.1, 89) * units::deg,
                          random.between(-1500, 1500), any_turf(random));
      },
      [](double speed, double from_upright, double backspin, const Turf<>& turf) {
        const InPlane theirs = penner(speed, from_upright, backspin, turf, uniform.radius);
        const Touchdown<double> ours = bounce(coming_down(speed, from_upright, backspin), up, uniform, turf);
        CHECK(agrees(ours.velocity, {0.0, theirs.forward, theirs.upward}, 1e-12, 1e-13));
        CHECK(agrees(ours.spin, {theirs.backspin, 0.0, 0.0}, 1e-9, 1e-12));
      });
}

TEST_CASE("turf without friction changes neither the speed along it nor the spin") {
  in_random_touches([](AnyTouch touch) {
    touch.turf.friction = 0.0;
    const Touchdown<double> after = bounced(touch);
    const Vec3<double> n = leaned(touch.ball, touch.normal, touch.turf);
    CHECK(after.spin.x == touch.ball.spin.x);
    CHECK(after.spin.y == touch.ball.spin.y);
    CHECK(after.spin.z == touch.ball.spin.z);
    CHECK(agrees(cross(after.velocity, n), cross(touch.ball.velocity, n), 1e-12, 0));
  });
}

TEST_CASE("along the leaned normal a ball leaves with the restitution's share of its approach") {
  in_random_touches([](const AnyTouch& touch) {
    const Vec3<double> n = leaned(touch.ball, touch.normal, touch.turf);
    const double approach = -dot(touch.ball.velocity, n);
    CHECK(approach > 0.0);
    CHECK(
        agrees(dot(bounced(touch).velocity, n), turf_restitution(touch.turf, approach) * approach, 1e-12, 0));
  });
}

TEST_CASE("turf without restitution keeps the ball on the surface that leans") {
  in_random_touches([](AnyTouch touch) {
    touch.turf.restitution_scale = 0.0;
    CHECK(agrees(dot(bounced(touch).velocity, leaned(touch.ball, touch.normal, touch.turf)), 0.0, 1e-12, 0));
  });
}

TEST_CASE("a ball dropped without spin goes straight back up with the restitution's share") {
  for (const double speed : {0.1, 1.0, 10.0, 25.0}) {
    const Turf<> turf;
    const Touchdown<double> after = bounce(coming_down(speed, 0.0), up, uniform, turf);
    CHECK(after.velocity.x == 0.0);
    CHECK(after.velocity.y == 0.0);
    CHECK(agrees(after.velocity.z, turf_restitution(turf, speed) * speed, 0, 1e-15));
    CHECK(norm(after.spin) == 0.0);
  }
}

TEST_CASE("topspin sends a ball on, backspin holds it, and enough backspin brings it back") {
  const auto forward = [](double backspin) {
    return bounce(coming_down(22.0, 40_deg, backspin), up, uniform, Turf<>{}).velocity.y;
  };
  CHECK(forward(-600.0) > forward(0.0));
  CHECK(forward(0.0) > forward(600.0));
  Turf<> grippy;
  grippy.friction = 1.0;
  CHECK(bounce(coming_down(22.0, 40_deg, 1200.0), up, uniform, grippy).velocity.y < 0.0);
}

TEST_CASE("side spin kicks the ball to its side, spin about the upright axis does nothing") {
  Touchdown<double> ball = coming_down(22.0, 40_deg);
  for (const double side : {-1.0, 1.0}) {
    // A ball that rolls to the right spins positively about the way it flies.
    ball.spin = {0.0, side * 400.0, 0.0};
    CHECK(side * bounce(ball, up, uniform, Turf<>{}).velocity.x > 0.5);
  }
  Turf<> level;
  level.tilt_scale = 0.0;
  ball.spin = {0.0, 0.0, 400.0};
  const Touchdown<double> spinning = bounce(ball, up, uniform, level);
  const Touchdown<double> still = bounce(coming_down(22.0, 40_deg), up, uniform, level);
  CHECK(agrees(spinning.velocity, still.velocity, 1e-14, 0));
  CHECK(spinning.spin.z == 400.0);
}

TEST_CASE("a ball that grips leaves without slip, one that does not still slips the same way, slower") {
  int gripped_cases = 0, sliding_cases = 0;
  in_random_touches([&](const AnyTouch& touch) {
    const Vec3<double> n = leaned(touch.ball, touch.normal, touch.turf);
    const double approach = -dot(touch.ball.velocity, n), r = touch.body.radius;
    const Vec3<double> before = slip(touch.ball, n, r), after = slip(bounced(touch), n, r);
    const double spun = touch.body.mass * square(r) / touch.body.inertia;
    const double most = touch.turf.friction * (1.0 + turf_restitution(touch.turf, approach)) * approach;
    const double left = std::max(0.0, norm(before) - (1.0 + spun) * most);
    (left > 0.0 ? sliding_cases : gripped_cases)++;
    CHECK(agrees(after, left * unit(before), 1e-12, 1e-12));
  });
  CHECK(gripped_cases > 100);
  CHECK(sliding_cases > 100);
}

TEST_CASE("a bounce keeps the angular momentum about the point of contact, whatever the ball's inertia") {
  in_random_touches([](const AnyTouch& touch) {
    const Vec3<double> n = leaned(touch.ball, touch.normal, touch.turf);
    const auto about_contact = [&](const Touchdown<double>& ball) {
      return touch.body.mass * touch.body.radius * cross(n, ball.velocity) + touch.body.inertia * ball.spin;
    };
    CHECK(agrees(about_contact(bounced(touch)), about_contact(touch.ball), 1e-15, 1e-13));
  });
}

TEST_CASE("a thin shell that grips keeps three fifths of its speed, a uniform sphere five sevenths") {
  Turf<> grippy{.restitution_scale = 0.0, .friction = 2.0, .tilt_scale = 0.0};
  Ball<> shell;
  shell.inertia = 2.0 / 3.0 * shell.mass * square(shell.radius);
  const Touchdown<double> ball = coming_down(10.0, 30_deg);
  CHECK(agrees(bounce(ball, up, shell, grippy).velocity.y, 0.6 * ball.velocity.y, 0, 1e-14));
  CHECK(agrees(bounce(ball, up, uniform, grippy).velocity.y, 5.0 / 7.0 * ball.velocity.y, 0, 1e-14));
}

TEST_CASE("a bounce never adds energy") {
  in_random_touches([](const AnyTouch& touch) {
    const double before = energy(touch.ball, touch.body);
    CHECK(energy(bounced(touch), touch.body) <= before * (1 + 1e-14));
  });
}

TEST_CASE("a mirrored touch on a mirrored slope is the mirrored bounce") {
  in_random_touches([](const AnyTouch& touch) {
    AnyTouch image = touch;
    image.ball = mirrored(touch.ball);
    image.normal = mirrored(touch.normal);
    const Touchdown<double> expected = mirrored(bounced(touch)), found = bounced(image);
    CHECK(agrees(found.velocity, expected.velocity, 1e-13, 1e-13));
    CHECK(agrees(found.spin, expected.spin, 1e-10, 1e-13));
  });
}

TEST_CASE("a touch turned about any axis is the turned bounce") {
  in_random_cases(
      [](Random& random) {
        const Vec3<double> axis = direction(random.between(-3, 3), random.between(-1.5, 1.5));
        return std::tuple(any_touch(random), axis, random.between(-3, 3));
      },
      [](const AnyTouch& touch, const Vec3<double>& axis, double angle) {
        const auto about = [&](const Vec3<double>& v) { return turned(v, axis, angle); };
        AnyTouch other = touch;
        other.ball = {about(touch.ball.velocity), about(touch.ball.spin)};
        other.normal = about(touch.normal);
        const Touchdown<double> here = bounced(touch), there = bounced(other);
        CHECK(agrees(there.velocity, about(here.velocity), 1e-12, 1e-12));
        CHECK(agrees(there.spin, about(here.spin), 1e-9, 1e-12));
      });
}

TEST_CASE("turf that leans far back nears the ball's own descent smoothly, and stops there") {
  // By hand: 60 degrees from upright, 30 to go; at 18.6 m/s 15.4 (60 / 44.4) = 20.81 degrees a unit of tilt,
  // a share 0.69369 of the 30. Up to 0.75 as it is, then less the square of what is above, at 1.25 and on 1.
  const auto leans = [](double share) {
    return surface_tilt(Turf<>{.tilt_scale = share / (15.4 * 60 / 44.4 / 30)}, 18.6, 60_deg) / 30_deg;
  };
  CHECK(agrees(leans(0.70), 0.70, 1e-14, 0));
  CHECK(agrees(leans(0.75), 0.75, 1e-14, 0));
  CHECK(agrees(leans(0.95), 0.95 - 0.04, 1e-14, 0));
  CHECK(agrees(leans(1.15), 1.15 - 0.16, 1e-14, 0));
  CHECK(agrees(leans(1.25), 1.0, 1e-14, 0));
  CHECK(agrees(leans(2.0), 1.0, 1e-14, 0));
}

TEST_CASE(
    "the surface leans back at the published angle under a ball that presses, and never more than it "
    "descends") {
  CHECK(agrees(surface_tilt(Turf<>{}, 18.6, 44.4_deg), 15.4_deg, 1e-15, 0));
  const double share_of_speed = 15.4_deg / (18.6 * 44.4_deg);
  in_random_cases(
      [](Random& random) {
        return std::tuple(random.between(bounce_speed_range[0], bounce_speed_range[1]),
                          random.between(30, 50) * units::deg);
      },
      [&](double speed, double angle) {
        const double published = share_of_speed * speed * angle;
        if (speed * std::cos(angle) < presses_fully || published > 0.75 * (90_deg - angle)) return;
        CHECK(agrees(surface_tilt(Turf<>{}, speed, angle), published, 1e-15, 1e-14));
      });
  CHECK(surface_tilt(Turf<>{}, 45.0, 30_deg) == surface_tilt(Turf<>{}, 30.0, 30_deg));
  // Half as hard as a full press: three quarters of the lean.
  const double light = 0.5 * presses_fully / std::cos(60_deg);
  CHECK(agrees(surface_tilt(Turf<>{}, light, 60_deg), 0.75 * share_of_speed * light * 60_deg, 0, 1e-14));
  in_random_touches([](const AnyTouch& touch) {
    const double speed = norm(touch.ball.velocity), angle = bounce_angle(touch.ball.velocity, touch.normal);
    const double lean = surface_tilt(touch.turf, speed, angle);
    CHECK(lean >= 0.0);
    CHECK(lean <= 90_deg - angle + 1e-15);
  });
  for (double angle = 75_deg; angle < 90_deg; angle += 0.1_deg)
    for (const double speed : {5.0, 30.0, 60.0})
      CHECK(bounce(coming_down(speed, angle), up, uniform, Turf<>{}).velocity.y > 0.0);
}

TEST_CASE(
    "turf keeps a rebound that would not lift the ball by its radius, and lets go smoothly of a faster one") {
  const double least = std::sqrt(2 * standard_gravity * uniform.radius);
  CHECK(agrees(least, 0.65, 5e-3, 0));
  for (const double rebound : {-3.0, 0.0, 0.5 * least, least}) CHECK(hop_speed(rebound, uniform) == 0.0);
  for (const double rebound : {2.0 * least, 3.0, 10.0})
    CHECK(agrees(hop_speed(rebound, uniform), rebound, 1e-15, 1e-15));
  CHECK(agrees(hop_speed(1.5 * least, uniform), 0.75 * least, 0, 1e-14));
  for (double rebound = least; rebound < 2.0 * least; rebound += 0.01 * least) {
    const double hop = hop_speed(rebound, uniform), next = hop_speed(rebound + 0.01 * least, uniform);
    CHECK(next > hop);
    CHECK(next - hop < 0.04 * least);  // steepest by 3, at 1.7 of the least
    CHECK(next <= rebound + 0.01 * least);
  }
}

TEST_CASE("the derivatives of a bounce are its differences, sliding and gripping") {
  for (const double friction : {0.05, 0.9}) {  // both far from the switch between them
    const auto after = [&](auto speed, auto from_upright, auto backspin, auto scale) {
      using T = decltype(speed);
      using std::cos, std::sin;
      const Touchdown<T> ball{{T(2.0), speed * sin(from_upright), -speed * cos(from_upright)},
                              {backspin, T(40.0), T(-30.0)}};
      const Turf<T> turf{.restitution_scale = scale, .friction = T(friction)};
      const Vec3<T> n = unit(Vec3<T>{T(0.05), T(-0.1), T(1.0)});
      const Touchdown<T> done = bounce(ball, n, Ball<T>{}, turf);
      return std::array{done.velocity.x, done.velocity.y, done.velocity.z,
                        done.spin.x,     done.spin.y,     done.spin.z};
    };
    const auto same = [](auto like, double x) { return decltype(like)(x); };
    dual::differentiates([&](auto x) { return after(x, same(x, 0.7), same(x, 300.0), same(x, 0.8)); }, 15.0,
                         1.0);
    dual::differentiates([&](auto x) { return after(same(x, 15.0), x, same(x, 300.0), same(x, 0.8)); }, 0.7,
                         1.0);
    dual::differentiates([&](auto x) { return after(same(x, 15.0), same(x, 0.7), x, same(x, 0.8)); }, 300.0,
                         10.0);
    dual::differentiates([&](auto x) { return after(same(x, 15.0), same(x, 0.7), same(x, 300.0), x); }, 0.8,
                         1.0);
  }
}
