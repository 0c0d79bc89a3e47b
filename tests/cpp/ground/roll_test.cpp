#include <doctest/doctest.h>

#include <numbers>

#include "agrees.hpp"
#include "dual.hpp"
#include "mirrored.hpp"
#include "random_cases.hpp"

using namespace whimbrel;
using namespace whimbrel::test;

namespace {

const Ball<> ball;
constexpr double g = standard_gravity;

/// Where a ball on the ground ends, and when.
template <class T>
struct Rest {
  bool rests = false;
  Vec3<T> position{};
  T time{};
};
template <class T>
Rest<T> rolled(const GroundState<T>& start, const Terrain<T>& terrain, const Turf<T>& turf,
               const Ball<T>& body = {}) {
  std::vector<Knot<T>> knots;
  const Status status = roll_out(start, body, terrain, turf, T(0.0), knots);
  return {status == Status::ok, knots.back().state.position, knots.back().time};
}

/// A start along the plane, at an angle to the right of the target as seen from above.
Vec3<double> along_plane(const Terrain<>& plane, double speed, double way) {
  const Vec3<double> n = ground_normal(plane, 0.0, 0.0), level = direction(way, 0.0);
  return speed * unit(level - dot(level, n) * n);
}
GroundState<double> rolling_start(const Terrain<>& plane, double speed, double way = 0.0) {
  return {on_the_ground(ball, plane, 0.0, 0.0), along_plane(plane, speed, way), {}};
}

/// A rolling ball is a block with Coulomb friction on an incline: with u the tangent of half the angle
/// between its way and straight down, the hodograph is v = C u^(k-1) (1 + u^2) / 2, k the braking over the
/// pull of the slope, and time and place are integrals of powers of u from 0.
template <class T>
struct Incline {
  T time, down, across;
};
template <class T>
Incline<T> on_incline(const T& speed, const T& from_down, const T& pull, const T& braking) {
  using std::pow, std::tan;
  const T one(1.0), two(2.0), k = braking / pull, u = tan(from_down / two);
  const T c = two * speed / (pow(u, k - one) * (one + u * u));
  return {c / (two * pull) * (pow(u, k - one) / (k - one) + pow(u, k + one) / (k + one)),
          c * c / (T(8.0) * pull) * (pow(u, two * k - two) / (k - one) - pow(u, two * k + two) / (k + one)),
          c * c / (two * pull) *
              (pow(u, two * k - one) / (two * k - one) + pow(u, two * k + one) / (two * k + one))};
}

/// Slope and braking of a plane: gravity along it, of which a rolling uniform sphere feels 5/7, and into it.
struct Plane {
  double pull, braking;
  Vec3<double> down, across;
};
Plane plane_of(const Terrain<>& terrain, const Turf<>& turf) {
  const double steep = std::hypot(terrain.slope_right, terrain.slope_downrange);
  const double sine = steep / std::hypot(1.0, steep), cosine = 1.0 / std::hypot(1.0, steep);
  const Vec3<double> down{-terrain.slope_right / steep * cosine, -terrain.slope_downrange / steep * cosine,
                          -sine};
  return {5.0 / 7.0 * g * sine, turf.rolling_deceleration * cosine, down,
          cross(ground_normal(terrain, 0.0, 0.0), down)};
}

/// The least rolling deceleration that holds a ball on a slope.
double critical_braking(double steep) { return 5.0 / 7.0 * g * steep; }

/// A skid by the classic fourth-order method, in steps of a thousandth of the time the slip has left.
struct Skid {
  Vec3<double> position, velocity, slip;
  double time = 0.0;
};
Skid skidded(const GroundState<double>& start, const Plane& plane, const Turf<>& turf,
             const Vec3<double>& n) {
  Skid s{start.position, start.velocity, start.slip};
  const Vec3<double> gravity = 7.0 / 5.0 * plane.pull * plane.down;
  const double rubs = turf.friction * g * n.z;
  while (norm(s.slip) > 1e-7) {
    const auto change = [&](const Vec3<double>& slip) { return gravity - 3.5 * rubs * unit(slip); };
    const double h = 1e-3 * norm(s.slip) / rubs;
    const Vec3<double> k1 = change(s.slip), k2 = change(s.slip + h / 2 * k1),
                       k3 = change(s.slip + h / 2 * k2), k4 = change(s.slip + h * k3);
    const Vec3<double> grown = h / 6 * (k1 + 2.0 * k2 + 2.0 * k3 + k4);
    // The friction is 2/7 of what it and gravity do to the slip, less gravity's own.
    const Vec3<double> gained = h * gravity + 2.0 / 7.0 * (grown - h * gravity);
    s = {s.position + h * s.velocity + h / 2 * gained, s.velocity + gained, s.slip + grown, s.time + h};
  }
  return s;
}

}  // namespace

TEST_CASE("on the level a ball rolls v^2 / 2a in v / a") {
  in_random_cases(
      [](Random& random) {
        return std::tuple(random.between(0.01, quick), random.between(-3, 3), random.between(0.25, 5));
      },
      [](double v, double way, double a) {
        const Turf<> turf{.rolling_deceleration = a};
        const Rest<double> rest = rolled(rolling_start({}, v, way), {}, turf);
        CHECK(rest.rests);
        const Vec3<double> end =
            on_the_ground(ball, Terrain<>{}, 0.0, 0.0) + v * v / (2 * a) * direction(way, 0.0);
        CHECK(agrees(rest.position, end, 1e-12, 1e-12));
        CHECK(agrees(rest.time, v / a, 0, 1e-12));
      });
}

TEST_CASE("a ball released rolling by a Stimpmeter rolls the green's reading") {
  for (const double feet : {7.0, 10.0, 13.0}) {
    const Turf<> turf = turf_of(Green<>{.stimp = feet * units::ft});
    const Landing<> putt{.landing_speed = stimpmeter_release,
                         .landing_spin_rate = stimpmeter_release / ball.radius,
                         .spin_axis_tilt = 180_deg};
    const Run<> run = play(putt, {}, {}, turf).run;
    CHECK(agrees(run.total, feet * units::ft, 1e-9, 0));
    CHECK(run.bounces == 0.0);
    CHECK(agrees(run.run_time, 2 * feet * units::ft / stimpmeter_release, 1e-9, 0));
  }
}

TEST_CASE("a ball that starts without spin rolls once it has lost two sevenths of its speed") {
  in_random_cases([](Random& random) { return std::tuple(random.between(0.5, quick), any_turf(random)); },
                  [](double v, const Turf<>& turf) {
                    const Run<> run = play(Landing<>{.landing_speed = v}, {}, {}, turf).run;
                    const double skids = 12.0 / 49.0 * v * v / (turf.friction * g), rolls = 5.0 / 7.0 * v;
                    const double rest = skids + rolls * rolls / (2 * turf.rolling_deceleration);
                    CHECK(agrees(run.total, rest, 1e-12, 1e-12));
                  });
}

TEST_CASE("backspin ends a skid slower, topspin faster, each by two sevenths of the slip") {
  for (const double spin : {-300.0, -50.0, 100.0, 400.0}) {
    const double v = 3.0, slip = v + ball.radius * spin, rolls = v - 2.0 / 7.0 * slip;
    const Turf<> turf;
    const double time = 2.0 / 7.0 * std::abs(slip) / (turf.friction * g);
    const double rest = 0.5 * (v + rolls) * time + rolls * std::abs(rolls) / (2 * turf.rolling_deceleration);
    const Landing<> landing{.landing_speed = v,
                            .landing_spin_rate = std::abs(spin),
                            .spin_axis_tilt = spin < 0.0 ? 180_deg : 0.0};
    CHECK(agrees(play(landing, {}, {}, turf).run.distance, rest, 1e-5, 0));
  }
}

TEST_CASE("a ball of another inertia keeps another share of its speed") {
  Ball<> shell;
  shell.inertia = 2.0 / 3.0 * shell.mass * square(shell.radius);
  const Turf<> turf;
  const double v = 4.0, rolls = 0.6 * v, time = 0.4 * v / (turf.friction * g);
  const double rest = 0.5 * (v + rolls) * time + rolls * rolls / (2 * turf.rolling_deceleration);
  CHECK(agrees(play(Landing<>{.landing_speed = v}, shell, {}, turf).run.total, rest, 1e-5, 0));
}

TEST_CASE("a ball rolls across a slope as a block with friction slides down an incline") {
  // Both are closed forms; the block's loses digits where braking and pull, or its powers, nearly cancel.
  in_random_cases(
      [](Random& random) {
        const Terrain<> slope = any_slope(random);
        const double steep = std::hypot(slope.slope_right, slope.slope_downrange);
        const Turf<> turf{.rolling_deceleration = critical_braking(steep) * random.between(1.01, 6)};
        const double from_down = random.between(0.02, 3.0) * (random.below(2) ? 1 : -1);
        return std::tuple(slope, turf, random.between(0.3, 6), from_down);
      },
      [&](const Terrain<>& slope, const Turf<>& turf, double v, double from_down) {
        const Plane plane = plane_of(slope, turf);
        const GroundState<double> start{
            on_the_ground(ball, slope, 0.0, 0.0),
            v * (std::cos(from_down) * plane.down + std::sin(from_down) * plane.across),
            {}};
        const Rest<double> ours = rolled(start, slope, turf);
        const Incline<double> theirs = on_incline(v, std::abs(from_down), plane.pull, plane.braking);
        if (theirs.time > longest_run) return;
        CHECK(ours.rests);
        const double side = from_down > 0.0 ? 1.0 : -1.0, slowing = plane.braking - plane.pull;
        const Vec3<double> end = theirs.down * plane.down + side * theirs.across * plane.across;
        CHECK(agrees(ours.position - start.position, end, 1e-9 + 1e-12 * v * theirs.time / slowing, 0));
        CHECK(agrees(ours.time, theirs.time, 0, 1e-12 + 1e-12 / slowing));
      });
}

TEST_CASE("a ball skids across a slope as another integrator says, then rolls like the block") {
  for (unsigned seed = 0; seed < 50; ++seed) {
    Random random{std::mt19937_64(seed)};
    const Terrain<> slope = any_slope(random);
    const double steep = std::hypot(slope.slope_right, slope.slope_downrange);
    const Turf<> turf{.friction = random.between(0.2, 0.8),
                      .rolling_deceleration = critical_braking(steep) * random.between(1.01, 6)};
    const double speed = random.between(1, 4);
    GroundState<double> start = rolling_start(slope, speed, random.between(-3, 3));
    const Vec3<double> n = ground_normal(slope, 0.0, 0.0);
    start.slip =
        start.velocity +
        cross(Vec3<double>{random.between(-300, 300), random.between(-300, 300), 0.0}, -ball.radius * n);
    start.slip = start.slip - dot(start.slip, n) * n;
    INFO("seed ", seed, ": ", described(std::tuple(slope, turf, start.velocity, start.slip)));
    const Plane plane = plane_of(slope, turf);
    const Skid end = skidded(start, plane, turf, n);
    const double v = norm(end.velocity);
    const double from_down = std::atan2(dot(end.velocity, plane.across), dot(end.velocity, plane.down));
    const Incline<double> rest = on_incline(v, std::abs(from_down), plane.pull, plane.braking);
    const Vec3<double> place =
        end.position + rest.down * plane.down + (from_down > 0.0 ? 1.0 : -1.0) * rest.across * plane.across;
    if (end.time + rest.time > longest_run) continue;
    const Rest<double> ours = rolled(start, slope, turf);
    CHECK(ours.rests);
    // Theirs stops at a slip of 1e-7 m/s, 2/7 of which the ball has yet to lose; its places, by the
    // trapezoidal rule in a thousand steps, are off by (1e-3)^2 / 12 of what the friction turns in 2 s from 6
    // m/s^2.
    CHECK(agrees(ours.position, place, 5e-7 + 1e-7 * v / (plane.braking - plane.pull), 0));
  }
}

TEST_CASE("a ball rolls up a slope and back down to where it came from, slower") {
  // Straight up and down the acceleration only jumps, at the top, so the steps and the path are exact.
  const Terrain<> slope{.slope_downrange = 0.1};
  const Turf<> turf;
  const Plane plane = plane_of(slope, {.rolling_deceleration = 0.4});
  const double v = 3.0, up = plane.pull + plane.braking, down = plane.pull - plane.braking;
  std::vector<Knot<double>> knots;
  const GroundState<double> start = rolling_start(slope, v);
  CHECK(roll_out(start, ball, slope, {.rolling_deceleration = 0.4}, 0.0, knots) == Status::no_rest);
  const Trajectory<> path{knots};
  const double top = v * v / (2 * up), turns = v / up, back = turns + std::sqrt(2 * top / down);
  CHECK(agrees(path.position_at(turns), start.position - top * plane.down, 1e-12, 0));
  CHECK(agrees(path.position_at(back), start.position, 1e-9, 0));
  for (double t = 0.0; t < turns; t += 0.05)
    CHECK(agrees(path.position_at(t), start.position - (v * t - up / 2 * t * t) * plane.down, 1e-12, 0));
  for (double t = 0.0; t < back - turns; t += 0.05)
    CHECK(
        agrees(path.position_at(turns + t), start.position - (top - down / 2 * t * t) * plane.down, 1e-9, 0));
}

TEST_CASE(
    "a ball that a slope just holds stops at the top, one it does not quite hold rolls back to no rest") {
  const Terrain<> slope{.slope_right = 0.06, .slope_downrange = 0.08};
  const Vec3<double> n = ground_normal(slope, 0.0, 0.0);
  for (const double share : {0.99, 1.01}) {
    const Turf<> turf{.rolling_deceleration = critical_braking(0.1) * share};
    const Plane plane = plane_of(slope, turf);
    const GroundState<double> start{on_the_ground(ball, slope, 0.0, 0.0), -3.0 * plane.down, {}};
    std::vector<Knot<double>> knots;
    const Status status = roll_out(start, ball, slope, turf, 0.0, knots);
    CHECK(status == (share > 1.0 ? Status::ok : Status::no_rest));
    const double up = plane.pull + plane.braking, down = plane.pull - plane.braking, turns = 3.0 / up;
    const double since = share > 1.0 ? 0.0 : longest_run - turns;
    const double place = -4.5 / up + 0.5 * down * since * since;
    CHECK(agrees(knots.back().state.position - start.position, place * plane.down, 1e-9, 0));
    CHECK(agrees(knots.back().time, turns + since, 1e-12, 0));
    CHECK(knots.size() < 1000);
    CHECK(agrees(dot(knots.back().state.velocity, n), 0.0, 1e-15, 0));
  }
}

TEST_CASE(
    "a chip straight up a green steeper than it holds comes back down, and is followed for half a minute") {
  const Turf<> green = shipped_turf("medium green");
  const Launch<> chip{.ball_speed = 16_mph, .launch_angle = 34_deg, .spin_rate = 4000_rpm};
  for (const double slope : {0.1, 0.12, 0.2, 1.0}) {
    const Run<> run = play(chip, ball, Setting<>{.terrain = {.slope_downrange = slope}}, green).run;
    CHECK(run.status == Status::no_rest);
    CHECK(run.total_downrange < 0.0);
    CHECK(run.total == -run.total_downrange);
    CHECK(run.run_time > longest_run);
    CHECK(run.trajectory.knots.size() < 3000);  // a hundred a second
    const Vec3<double> last = run.trajectory.position_at(run.run_time);
    CHECK(agrees(last.y, run.total_downrange, 1e-12, 0));
  }
}

TEST_CASE(
    "on a plane that does not hold it, a slow ball keeps what a block on the incline keeps, at any angle") {
  // d|w|/dt = p cos - b and d(w.d)/dt = p - b cos, so p w.d + b |w| grows by p^2 - b^2 a second.
  in_random_cases(
      [](Random& random) {
        return std::tuple(any_slope(random), random.between(0.1, 1.0), random.between(0.1, 4.5),
                          random.between(-3.1, 3.1));
      },
      [](const Terrain<>& slope, double share, double v, double way) {
        const double steep = std::hypot(slope.slope_right, slope.slope_downrange);
        const Turf<> turf{.rolling_deceleration = critical_braking(steep) * share};
        const Plane plane = plane_of(slope, turf);
        const double p = plane.pull, b = plane.braking;
        std::vector<Knot<double>> knots;
        CHECK(roll_out(rolling_start(slope, v, way), ball, slope, turf, 0.0, knots) == Status::no_rest);
        CHECK(knots.back().time == longest_run);
        CHECK(knots.size() < 5000);
        const auto kept = [&](const Knot<double>& knot) {
          return p * dot(knot.state.velocity, plane.down) + b * norm(knot.state.velocity);
        };
        for (const Knot<double>& knot : knots) {
          if (norm(knot.state.velocity) > 0.75 * quick) break;  // a step from there may end quick
          CHECK(agrees(kept(knot), kept(knots.front()) + (p * p - b * b) * knot.time, 1e-9, 0));
        }
      });
}

TEST_CASE("the derivatives of a ball that rolls back are its differences, sideways too") {
  const auto run = [](auto v, auto to_right, auto braking, auto slope) {
    using T = decltype(v);
    const Terrain<T> terrain{.slope_downrange = slope};
    const GroundState<T> start{on_the_ground(Ball<T>{}, terrain, T(0.0), T(0.0)),
                               v * unit(Vec3<T>{to_right, T(1.0), slope}),
                               T(0.5) * unit(Vec3<T>{T(0.0), T(1.0), slope})};
    std::vector<Knot<T>> knots;
    roll_out(start, Ball<T>{}, terrain, Turf<T>{.rolling_deceleration = braking}, T(0.0), knots);
    const Vec3<T>& rest = knots.back().state.position;
    return std::array{rest.x, rest.y, knots.back().time};
  };
  const auto c = [](auto like, double x) { return decltype(like)(x); };
  for (const double to_right : {0.0, 0.5})
    for (const double braking : {0.6, 0.8}) {  // the slope holds with 0.8
      CAPTURE(to_right);
      CAPTURE(braking);
      const double s = 0.1;
      dual::differentiates([&](auto x) { return run(x, c(x, to_right), c(x, braking), c(x, s)); }, 3.0, 1.0);
      dual::differentiates([&](auto x) { return run(c(x, 3.0), c(x, to_right), x, c(x, s)); }, braking, 0.1);
      dual::differentiates([&](auto x) { return run(c(x, 3.0), c(x, to_right), c(x, braking), x); }, s, 0.01);
      if (to_right > 0.0 || braking > 0.7)
        dual::differentiates([&](auto x) { return run(c(x, 3.0), x, c(x, braking), c(x, s)); }, to_right,
                             1.0);
    }
}

TEST_CASE("a ball hit along the ground runs on with its speed, but at 100 mph no farther than well struck") {
  double before = 0.0;
  for (const double mph : {10.0, 30.0, 60.0, 100.0, 150.0, 200.0}) {
    const Run<> run = play(Landing<>{.landing_speed = mph * units::mph}).run;
    CHECK(run.status == Status::ok);
    CHECK(run.total > before);
    before = run.total;
  }
  const double topped = play(Landing<>{.landing_speed = 100_mph}).run.total;
  CHECK(topped > 100 * units::yd);
  CHECK(topped < 160 * units::yd);
}

TEST_CASE("turf resists a ball above 6 m/s by the square of what is above in sixes") {
  // The law as it was calibrated (validation/turf_run); doubles of such numbers are exact.
  CHECK(added_resistance(0.0) == 0.0);
  CHECK(added_resistance(6.0) == 0.0);
  CHECK(agrees(added_resistance(9.0), 0.25, 1e-15, 0));
  CHECK(agrees(added_resistance(12.0), 1.0, 1e-15, 0));
}

TEST_CASE("down a slope a quick ball is pulled and dragged as worked by hand, rolling and sliding") {
  // At 12 m/s the turf's drag d is a g_n / g. A roll takes 5/7 of gravity, less a g_n / g and d; a slide of a
  // uniform ball takes it whole, less mu g_n and 7/5 d, and its slip less 7/2 mu g_n and 7/5 d.
  const double slope = 15_deg, g = standard_gravity, down = g * std::sin(slope), into = g * std::cos(slope);
  const Ball<> ball;
  const Terrain<> terrain{.slope_downrange = -std::tan(slope)};
  const Turf<> turf{.friction = 0.3, .rolling_deceleration = 2.0};
  const Vec3<double> way{0.0, std::cos(slope), -std::sin(slope)};
  GroundMotion<double> motion{ball, terrain, turf};
  const GroundState<double> slides = motion({{}, 12.0 * way, 4.0 * way});
  const double drag = 2.0 * into / g;
  CHECK(agrees(slides.velocity, (down - 0.3 * into - 1.4 * drag) * way, 1e-13, 0));
  CHECK(agrees(slides.slip, (down - 3.5 * 0.3 * into - 1.4 * drag) * way, 1e-13, 0));
  motion.rolling = true;
  const GroundState<double> rolls = motion({{}, 12.0 * way, {}});
  CHECK(agrees(rolls.velocity, (5.0 / 7.0 * down - 2.0 * into / g - drag) * way, 1e-13, 0));
}

TEST_CASE("the rates at the end of a step are right to the square of its length, as the path between asks") {
  const Ball<> ball;
  const Terrain<> level;
  const Turf<> turf;
  const GroundMotion<double> motion{ball, level, turf, true};
  const auto off = [&](double h) {
    const GroundStep<double> step = ralston_step(motion, {{}, {0.0, 25.0, 0.0}, {}}, h);
    return norm(step.rate.velocity - motion(step.end).velocity);
  };
  CHECK(agrees(off(0.1) / off(0.05), 4.0, 0.2,
               0));  // half the step, a quarter of the error; the next term: 5 %
}

TEST_CASE("a skidding ball has the spin that its slip says, and in the roll that of its way") {
  // With 100 rad/s of backspin its lowest point goes 100 r faster than its middle. To rounding.
  const Ball<> ball;
  const Terrain<> level;
  std::vector<Knot<double>> knots;
  const Vec3<double> start = on_the_ground(ball, level, 0.0, 0.0);
  CHECK(roll_out({start, {0.0, 5.0, 0.0}, {0.0, 5.0 + 100.0 * ball.radius, 0.0}}, ball, level, Turf<>{}, 0.0,
                 knots) == Status::ok);
  CHECK(agrees(knots.front().state.spin_rate, 100.0, 1e-10, 0));
  const BallState<double>& last_but_rest = knots[knots.size() - 3].state;
  CHECK(agrees(last_but_rest.spin_rate * ball.radius, norm(last_but_rest.velocity), 1e-12, 0));
}

TEST_CASE(
    "above 6 m/s the resistance on the level is a (1 + (v / 6 m/s - 1)^2), and the run smooth in the speed") {
  // From v = 6 (1 + u): the way to 6 m/s is 36/a (ln(1 + u^2) / 2 + atan u), and 18/a from there. The steps
  // are off by 4e-5 of the way.
  const double a = 0.8, v = 15.0, u = v / quick - 1.0;
  const Turf<> turf{.rolling_deceleration = a};
  const double way = square(quick) / a * (0.5 * std::log1p(u * u) + std::atan(u) + 0.5);
  const Rest<double> rest = rolled(rolling_start({}, v), {}, turf);
  CHECK(rest.rests);
  CHECK(agrees(rest.position.y, way, 4e-5 * way, 0));
  const auto run = [](auto speed) {
    using T = decltype(speed);
    const GroundState<T> start{on_the_ground(Ball<T>{}, Terrain<T>{}, T(0.0), T(0.0)),
                               {T(0.0), speed, T(0.0)},
                               {T(0.0), T(0.4) * speed, T(0.0)}};
    const Rest<T> ends = rolled(start, Terrain<T>{}, Turf<T>{});
    return std::array{ends.position.y, ends.time};
  };
  for (const double speed : {5.0, 7.0, 12.0, 30.0}) dual::differentiates(run, speed, 1.0, 1e-6);
}

TEST_CASE("a ball that rolls down into a valley comes to rest at its foot") {
  const Terrain<> valley{
      .surface = [](double, double y) { return 0.1 * std::sqrt(0.04 + (y - 2.0) * (y - 2.0)); }};
  const Turf<> green = shipped_turf("medium green");
  for (const double speed : {0.0, 0.5, 2.0, 4.0}) {
    const Rest<double> rest = rolled(
        GroundState<double>{
            on_the_ground(ball, valley, 0.0, 0.0), speed * unit(Vec3<double>{0.0, 1.0, -0.1}), {}},
        valley, green);
    CHECK(rest.rests);
    CHECK(std::abs(rest.position.y - 2.0) < 0.4);  // where the slope is under what the green holds, 0.078
  }
}

TEST_CASE("the path of a skid and a roll on the level is two parabolas") {
  const Turf<> turf;
  const double v = 4.0, skid_slows = turf.friction * g, a = turf.rolling_deceleration;
  const double skids = 2.0 / 7.0 * v / skid_slows, rolls = 5.0 / 7.0 * v, ends = skids + rolls / a;
  const Run<> run = play(Landing<>{.landing_speed = v}, {}, {}, turf).run;
  CHECK(agrees(run.run_time, ends, 1e-9, 0));
  for (double t = 0.0; t <= ends; t += 0.01) {
    const double slid = std::min(t, skids), rolled = std::max(0.0, t - skids);
    const double y = v * slid - skid_slows / 2 * slid * slid + rolls * rolled - a / 2 * rolled * rolled;
    CHECK(agrees(run.trajectory.position_at(t), {0.0, y, ball.radius}, 1e-9, 0));
  }
}

TEST_CASE("a ball at rest stays at rest under the critical slope and rolls off above it") {
  in_random_cases(
      [](Random& random) { return std::tuple(random.between(0.2, 2), random.between(-3.1, 3.1)); },
      [](double a, double way) {
        for (const double share : {0.5, 0.999, 1.001, 2.0}) {
          const double steep = share * 7 * a / (5 * g);
          const Terrain<> slope{.slope_right = steep * std::sin(way),
                                .slope_downrange = steep * std::cos(way)};
          const Turf<> turf{.rolling_deceleration = a};
          std::vector<Knot<double>> knots;
          const GroundState<double> start{on_the_ground(ball, slope, 0.0, 0.0), {}, {}};
          CHECK(roll_out(start, ball, slope, turf, 0.0, knots) ==
                (share < 1.0 ? Status::ok : Status::no_rest));
          const auto moved = [&](double time) {
            return Trajectory<>{knots}.position_at(time) - start.position;
          };
          if (share < 1.0) CHECK(norm(moved(longest_run)) == 0.0);
          if (share > 1.0) {
            CHECK(agrees(unit(moved(longest_run)), plane_of(slope, turf).down, 1e-9, 0));
            const double pull = plane_of(slope, turf).pull - plane_of(slope, turf).braking;
            const double slow = std::min(longest_run, 0.99 * quick / pull);
            CHECK(agrees(norm(moved(slow)), 0.5 * pull * square(slow), 1e-9, 1e-9));
          }
        }
      });
}

TEST_CASE("without friction a skid never ends, without braking a roll never does") {
  const Landing<> landing{.landing_speed = 3.0};
  const Run<> skids = play(landing, {}, {}, Turf<>{.friction = 0.0}).run;
  const Run<> rolls = play(landing, {}, {}, Turf<>{.rolling_deceleration = 0.0}).run;
  for (const Run<>& run : {skids, rolls}) {
    CHECK(run.status == Status::no_rest);
    CHECK(run.run_time == longest_run);
  }
  CHECK(agrees(skids.total, 3.0 * longest_run, 1e-9, 0));
  const auto speed = [](const Run<>& run) { return norm(run.trajectory.knots.back().state.velocity); };
  CHECK(agrees(speed(skids), 3.0, 1e-12, 0));
  CHECK(agrees(speed(rolls), 5.0 / 7.0 * 3.0, 1e-12, 0));
}

TEST_CASE("a ball that would rest only after half a minute has no rest") {
  const double v = 3.0;
  const auto status = [&](double seconds) {
    return rolled(rolling_start({}, v), {}, Turf<>{.rolling_deceleration = v / seconds}).rests;
  };
  CHECK(status(29.9));
  CHECK(!status(30.1));
}

TEST_CASE("a mirrored start on a mirrored slope is the mirrored roll") {
  in_random_cases(
      [](Random& random) {
        const Vec3<double> spin{random.between(-500, 500), random.between(-500, 500), 0.0};
        return std::tuple(any_slope(random), any_turf(random), random.between(0, 10), random.between(-3, 3),
                          spin);
      },
      [](const Terrain<>& slope, const Turf<>& turf, double v, double way, const Vec3<double>& spin) {
        GroundState<double> start = rolling_start(slope, v, way);
        start.slip = start.velocity + cross(spin, -ball.radius * ground_normal(slope, 0.0, 0.0));
        const GroundState<double> image{mirrored(start.position), mirrored(start.velocity),
                                        mirrored(start.slip)};
        const Rest<double> one = rolled(start, slope, turf);
        const Rest<double> other = rolled(image, mirrored(Setting<>{.terrain = slope}).terrain, turf);
        CHECK(one.rests == other.rests);
        if (one.rests) CHECK(agrees(other.position, mirrored(one.position), 1e-9, 1e-9));
      });
}

TEST_CASE("the derivatives of a run on the level and up a slope are its differences") {
  const auto run = [](auto v, auto slip_right, auto friction, auto braking, auto slope) {
    using T = decltype(v);
    const Terrain<T> terrain{.slope_downrange = slope};
    const Vec3<T> up = unit(Vec3<T>{T(0.0), T(1.0), slope});
    const GroundState<T> start{on_the_ground(Ball<T>{}, terrain, T(0.0), T(0.0)), v * up,
                               T(2.0) * up + Vec3<T>{slip_right, T(0.0), T(0.0)}};
    const Turf<T> turf{.friction = friction, .rolling_deceleration = braking};
    const Rest<T> rest = rolled(start, terrain, turf);
    return std::array{rest.position.x, rest.position.y, rest.position.z, rest.time};
  };
  const auto c = [](auto like, double x) { return decltype(like)(x); };
  for (const double s : {0.0, 0.03}) {
    dual::differentiates([&](auto x) { return run(x, c(x, 1.0), c(x, 0.4), c(x, 0.8), c(x, s)); }, 4.0, 1.0);
    dual::differentiates([&](auto x) { return run(c(x, 4.0), x, c(x, 0.4), c(x, 0.8), c(x, s)); }, 1.0, 1.0);
    dual::differentiates([&](auto x) { return run(c(x, 4.0), c(x, 1.0), x, c(x, 0.8), c(x, s)); }, 0.4, 0.1);
    dual::differentiates([&](auto x) { return run(c(x, 4.0), c(x, 1.0), c(x, 0.4), x, c(x, s)); }, 0.8, 0.1);
  }
  dual::differentiates([&](auto x) { return run(c(x, 4.0), c(x, 0.0), c(x, 0.4), c(x, 0.8), x); }, 0.03,
                       0.01);
}

TEST_CASE("the derivatives of a roll across a slope are those of the block on the incline") {
  using dual::Dual;
  const Turf<Dual> turf{.rolling_deceleration = Dual(0.8)};
  for (const double from_down : {0.5, 1.5, 2.5})
    for (const int by : {0, 1}) {  // the speed, or the angle
      const Dual v = dual::moving(3.0, by == 0), angle = dual::moving(from_down, by == 1), steep(0.05);
      const Terrain<Dual> slope{.slope_downrange = -steep};
      const Dual cosine = Dual(1.0) / sqrt(Dual(1.0) + steep * steep), sine = steep * cosine;
      const Vec3<Dual> down{Dual(0.0), cosine, -sine}, right{Dual(1.0), Dual(0.0), Dual(0.0)};
      const GroundState<Dual> start{on_the_ground(Ball<Dual>{}, slope, Dual(0.0), Dual(0.0)),
                                    v * (cos(angle) * down + sin(angle) * right),
                                    {}};
      const Rest<Dual> ours = rolled(start, slope, turf);
      const Incline<Dual> theirs =
          on_incline(v, angle, Dual(5.0 / 7.0 * g) * sine, turf.rolling_deceleration * cosine);
      const double way = 3.0 * value(theirs.time);
      CHECK(agrees(ours.position.x.slope(0), theirs.across.slope(0), 1e-11 * way, 0));
      CHECK(agrees(ours.position.y.slope(0), (theirs.down * cosine).slope(0), 1e-11 * way, 0));
    }
}

TEST_CASE("a quick ball rests side by side with its neighbour, whichever way it slips a little") {
  // The turf drags on the ball's middle: quicker than friction can turn the ball, it slips whatever it did.
  for (const std::string_view name : {"rough", "firm fairway"}) {
    const auto rest = [&](double slip) {
      std::vector<Knot<double>> knots;
      const Ball<> ball;
      const Terrain<> level;
      const Turf<> turf = shipped_turf(name);
      const GroundState<double> start{{0, 0, ball.radius}, {0, 45, 0}, {0, slip, 0}};
      CHECK(roll_out(start, ball, level, turf, 0.0, knots) == Status::ok);
      return knots.back().state.position.y;
    };
    CAPTURE(name);
    // A slip of s is gone within s / (brake - pull), and changes the velocity by less than itself: 45 m/s go
    // as far in every millisecond as 1e-3 m/s of slip take.
    CHECK(agrees(rest(1e-3), rest(-1e-3), 0.01, 0.0));
    CHECK(agrees(rest(1e-5), rest(-1e-5), 1e-4, 0.0));
  }
}

TEST_CASE("a ball on a slope steeper than friction holds slips down it, and does not roll") {
  const Ball<> ball;
  const Turf<> turf{.friction = 0.1, .rolling_deceleration = 0.5};
  const Terrain<> slope{.slope_downrange = -1.0};  // 45 deg; it takes 0.29 to hold
  std::vector<Knot<double>> knots;
  const GroundState<double> start{on_the_ground(ball, slope, 0.0, 0.0), {}, {}};
  CHECK(roll_out(start, ball, slope, turf, 0.0, knots) == Status::no_rest);
  // By hand: until it is quick, at g (sin 45 - 0.1 cos 45) = 6.24 m/s^2.
  const auto quick_at = std::find_if(
      knots.begin(), knots.end(), [](const Knot<double>& knot) { return norm(knot.state.velocity) > 5.0; });
  REQUIRE(quick_at != knots.end());
  CHECK(agrees(norm(quick_at->state.velocity) / quick_at->time,
               standard_gravity * (1 - 0.1) * std::numbers::sqrt2 / 2, 0.0, 1e-9));
}
