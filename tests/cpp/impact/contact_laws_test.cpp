#include <doctest/doctest.h>

#include "agrees.hpp"
#include "random_cases.hpp"

using namespace whimbrel;
using namespace whimbrel::test;

namespace {

/// One contact with all that is known of it.
struct Struck {
  const Swing<>& swing;
  const Ball<>& ball;
  Touch<double> at = touch(swing.delivery, swing.club, ball);
  Matrix3<double> mobility = contact_mobility(at, swing.club, ball);
  double approach_speed = dot(at.approach, at.normal);
  ContactConstants<double> constants = contact_constants(swing.club, ball, approach_speed);
  ContactEnd<double> done = contact(at, mobility, constants);
  Impact<> impact = compliant_impact(swing.delivery, swing.club, ball);

  Vec3<double> sliding(const Vec3<double>& J) const {
    const Vec3<double> u = at.approach - mobility * J;
    return u - dot(u, at.normal) * at.normal;
  }
  double final_closing_speed() const { return dot(at.approach - mobility * done.impulse, at.normal); }
  Vec3<double> ball_velocity() const { return launch_velocity(impact.launch); }
  Vec3<double> ball_spin() const { return launch_spin(impact.launch); }
};

/// `holds` on impacts with every club, of either hand, all over the face.
template <class Holds>
void in_random_impacts(const Holds& holds) {
  in_random_cases(
      [](Random& random) {
        return std::tuple{any_swing(random), any_ball(random)};
      },
      [&](const Swing<>& swing, const Ball<>& ball) {
        REQUIRE(!first_mistake(swing, ball));
        holds(Struck{swing, ball});
      });
}

}  // namespace

TEST_CASE("head and ball keep their momentum and, about the origin, their angular momentum") {
  in_random_impacts([](const Struck& s) {
    const double M = moving_mass(s.swing.club), m = s.ball.mass;
    const Vec3<double> ball_at{0, 0, s.ball.radius}, head_at = ball_at + s.at.ball_arm - s.at.head_arm;
    const auto momentum = [&](const Vec3<double>& head, const Vec3<double>& ball) {
      return M * head + m * ball;
    };
    const Vec3<double> before = M * s.at.head_velocity;
    CHECK(agrees(momentum(s.impact.head_velocity_after, s.ball_velocity()), before, 0, 1e-9));
    const Vec3<double> turning =
        cross(head_at, before) + angular_momentum(s.at.head_rotation, s.at, s.swing.club);
    const Vec3<double> turning_after = cross(head_at, M * s.impact.head_velocity_after) +
                                       angular_momentum(s.impact.head_rotation_after, s.at, s.swing.club) +
                                       cross(ball_at, m * s.ball_velocity()) + s.ball.inertia * s.ball_spin();
    CHECK(agrees(turning_after, turning, 1e-9 * norm(before) * s.ball.radius, 1e-9));
  });
}

TEST_CASE("a contact makes no energy, as a whole or on its tangential side") {
  in_random_impacts([](const Struck& s) {
    CHECK(s.impact.energy_lost >= 0.0);
    CHECK(s.done.least_tangential_work >= -1e-12);
    CHECK(s.impact.slip_time >= 0.0);
    CHECK(s.impact.slip_time <= s.impact.contact_time);
  });
}

TEST_CASE("a ball leaves the face without spin about its own path") {
  in_random_impacts([](const Struck& s) {
    CHECK(agrees(s.impact.launch.axial_spin_rate, 0.0, 1e-13 * s.impact.launch.spin_rate, 0));
  });
}

TEST_CASE("friction is never more than mu times the normal impulse") {
  in_random_impacts([](const Struck& s) {
    const double normal = dot(s.done.impulse, s.at.normal);
    CHECK(normal > 0.0);
    CHECK(norm(s.done.impulse - normal * s.at.normal) <= s.constants.mu * normal * (1 + 1e-12));
  });
}

TEST_CASE("a ball struck in line with the centre of mass separates at e times the approach") {
  // There the head's turning does not couple friction to the normal: whatever friction does, that holds to
  // the error of the steps, 3e-10 at most over 20,000 impacts.
  in_random_cases(
      [](Random& random) {
        Swing<> swing = any_swing(random);
        swing.delivery.strike_toe = swing.delivery.strike_high = 0.0;
        return std::tuple{swing, any_ball(random)};
      },
      [](const Swing<>& swing, const Ball<>& ball) {
        const Struck s{swing, ball};
        CHECK(agrees(s.final_closing_speed(), -s.constants.restitution * s.approach_speed, 0, 1e-9));
        // What is lost is what the normal spring keeps and what friction takes, to the error of a step.
        const double most = 0.5 * square(s.approach_speed) / dot(s.at.normal, s.mobility * s.at.normal);
        CHECK(agrees(s.impact.energy_lost,
                     (1 - square(s.constants.restitution)) * most + s.done.tangential_work, 1e-7 * most, 0));
      });
}

TEST_CASE("struck elsewhere a ball separates at nearly e times the approach") {
  // e is the root of the energy the normal spring gives back; through the turning head friction too moves the
  // face along the normal. Over these impacts that is 3.2 % of the speed at most: 5 % is allowed.
  in_random_impacts([](const Struck& s) {
    CHECK(agrees(s.final_closing_speed(), -s.constants.restitution * s.approach_speed, 0, 0.05));
  });
}

TEST_CASE("halving the step moves the velocity and the spin by less than 2e-6 of themselves") {
  // The error falls as the fourth power of the step: a halving is 15/16 of it.
  in_random_impacts([](const Struck& s) {
    const auto& [delivery, club, model] = s.swing;
    const Launch<> finer = compliant_impact(delivery, club, s.ball, 2 * contact_steps).launch;
    CHECK(agrees(s.ball_velocity(), launch_velocity(finer), 0, 2e-6));
    CHECK(agrees(s.ball_spin(), launch_spin(finer), 0, 2e-6));
  });
}

TEST_CASE("with fewer steps every number of the launch is within 0.02 % of converged") {
  // The limit is what `fewer_contact_steps` was chosen for; an angle's is of a radian.
  in_random_impacts([](const Struck& s) {
    const auto& [delivery, club, model] = s.swing;
    const Launch<> rough = compliant_impact(delivery, club, s.ball, fewer_contact_steps).launch;
    for (const auto& field : Launch<>::fields())
      CHECK(agrees(rough.*field.member, s.impact.launch.*field.member,
                   std::string_view(field.unit) == "rad" ? 2e-4 : 1e-12, 2e-4));
  });
}
