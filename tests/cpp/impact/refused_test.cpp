#include <doctest/doctest.h>

#include "agrees.hpp"
#include "heads.hpp"
#include "random_cases.hpp"

using namespace whimbrel;
using namespace whimbrel::test;

namespace {

const Club<> iron = club_set()[6];
constexpr Delivery<> plain{.clubhead_speed = 40.0, .attack_angle = -4_deg, .dynamic_loft = 25_deg};

/// The mistake a strike is refused with.
InputError refusal(const Delivery<>& delivery, const Club<>& club, const Ball<>& ball = {},
                   ImpactModel model = ImpactModel::compliant) {
  try {
    strike(delivery, club, ball, model);
  } catch (const InputError& error) {
    return error;
  }
  return {"nothing", 0.0, "it was struck"};
}

Delivery<> struck_at(double toe, double high) {
  Delivery<> delivery = plain;
  delivery.strike_toe = toe;
  delivery.strike_high = high;
  return delivery;
}

bool says(const InputError& error, std::string_view words) {
  return std::string_view(error.what()).find(words) != std::string_view::npos;
}

}  // namespace

TEST_CASE("a ball that misses the face is refused with where it went and where the face is") {
  Club<> club = iron;
  club.face_width = 80_mm;
  club.face_height = 50_mm;
  for (const double side : {-1.0, 1.0}) {
    const InputError wide = refusal(struck_at(side * 41_mm, 0), club);
    CHECK(wide.field == "strike_toe");
    CHECK(wide.value == side * 41_mm);
    CHECK(says(wide, "missed the face"));
    CHECK(says(wide, "accepted: -0.04 m (-40 mm) to 0.04 m (40 mm)"));
    const InputError tall = refusal(struck_at(0, side * 26_mm), club);
    CHECK(tall.field == "strike_high");
    CHECK(tall.value == side * 26_mm);
    CHECK(says(tall, "missed the face"));
    CHECK(says(tall, "accepted: -0.025 m (-25 mm) to 0.025 m (25 mm)"));
    CHECK(strike(struck_at(side * 39.9_mm, side * 24.9_mm), club).smash_factor > 0.0);
  }
}

TEST_CASE("a face that does not approach the ball is refused, in the centre and where it is struck") {
  const Delivery<> away{.clubhead_speed = 40.0, .attack_angle = -50_deg, .dynamic_loft = 45_deg};
  CHECK(says(refusal(away, iron), "the face is not approaching the ball"));
  // High on a rolled face the loft is more than in the centre.
  Club<> rolled = iron;
  rolled.roll_radius = 0.1;
  Delivery<> high{.clubhead_speed = 40.0, .attack_angle = -20_deg, .dynamic_loft = 62_deg};
  CHECK(strike(high, rolled).smash_factor > 0.0);
  high.strike_high = 19_mm;
  CHECK(says(refusal(high, rolled), "the face is not approaching the ball"));
}

TEST_CASE("a head without mass or inertia is refused by the name of its field") {
  for (const auto& [name, member] : {std::pair("mass", &Club<>::mass),
                                     {"inertia_target", &Club<>::inertia_target},
                                     {"inertia_vertical", &Club<>::inertia_vertical},
                                     {"inertia_heel_toe", &Club<>::inertia_heel_toe}}) {
    Club<> club = iron;
    club.*member = 0.0;
    CHECK(refusal(plain, club).field == name);
  }
  CHECK(refusal(plain, iron, {.mass = 0.0}).field == "ball mass");
  CHECK(refusal(plain, iron, {.inertia = 0.0}).field == "ball inertia");
}

TEST_CASE("the rigid model refuses a strike off the centre") {
  for (const Delivery<>& off : {struck_at(1_mm, 0), struck_at(0, -1_mm)})
    CHECK(says(refusal(off, iron, {}, ImpactModel::rigid), "the rigid model knows centred strikes only"));
  CHECK(strike(plain, iron, Ball<>{}, ImpactModel::rigid).smash_factor > 0.0);
}

TEST_CASE("a slippery face and a slow approach are flagged, by how far they are out of range") {
  const OutOfRange<> none = strike(plain, iron).out_of_range;
  CHECK(none.face_friction == 0.0);
  CHECK(none.approach_speed == 0.0);
  CHECK(agrees(strike(plain, iron, {.face_friction = 0.11}).out_of_range.face_friction, -0.05, 1e-15, 0));
  CHECK(strike(plain, iron, {.face_friction = 0.16}).out_of_range.face_friction == 0.0);
  const Delivery<> chip{.clubhead_speed = 9.0, .dynamic_loft = 60_deg};
  CHECK(agrees(strike(chip, iron).out_of_range.approach_speed, 4.5 - 10.0, 1e-12, 0));
}

TEST_CASE("a ball off a dead face leaves with the face, at rest against it along the normal") {
  Club<> dead = iron;
  dead.face_restitution = 0.0;
  const Delivery<> fast{.clubhead_speed = 60.0, .dynamic_loft = 25_deg};
  const Impact<> impact = strike(fast, dead);
  const Touch<double> at = touch(fast, dead, Ball<>{});
  const Vec3<double> J = Ball<>{}.mass * launch_velocity(impact.launch);
  CHECK(agrees(dot(at.approach - contact_mobility(at, dead, Ball<>{}) * J, at.normal), 0.0, 1e-11, 0));
  CHECK(impact.launch.ball_speed > 40.0);
  CHECK(impact.energy_lost > 0.0);
}

TEST_CASE("a contact that its steps cannot follow fails, and gives no launch that makes energy") {
  // A ball with a four-hundredth of a real one's inertia sticks and slides faster than the steps.
  int failed = 0;
  in_random_cases(
      [](Random& random) {
        return std::tuple{random.between(5, 60) * units::deg, random.between(0.2, 2), random.between(0.1, 2)};
      },
      [&](double loft, double kappa, double mu) {
        Swing<> lofted{struck_at(0, 0), iron};
        lofted.club.face_restitution = 0.05;
        lofted.delivery.dynamic_loft = loft;
        const Ball<> light{
            .mass = 0.2, .inertia = 1e-7, .contact_stiffness_ratio = kappa, .face_friction = mu};
        const Impact<> impact = kernel::strike(lofted, light, fewer_contact_steps);
        if (std::isnan(impact.launch.ball_speed)) {
          ++failed;
          return;
        }
        const Touch<double> at = touch(lofted.delivery, lofted.club, light);
        const double before = 0.5 * moving_mass(lofted.club) * dot(at.head_velocity, at.head_velocity);
        const double ball = 0.5 * light.mass * square(impact.launch.ball_speed) +
                            0.5 * light.inertia * square(impact.launch.spin_rate);
        CHECK(ball < before * (1 + 1e-3));
      });
  CHECK(failed > 0);
  CHECK(failed < 100);
}

TEST_CASE("a head that turns so easily that friction jams the contact is an error, never a made-up launch") {
  // Friction then pushes the face on as fast as the spring slows it. Heads of real size are far from it.
  const auto jams = [](const Club<>& club, double mu, double loft) {
    Swing<> lofted{struck_at(0, 15_mm), club};
    lofted.delivery.dynamic_loft = loft;
    const Ball<> ball{.face_friction = mu};
    try {
      const Impact<> impact = strike(lofted.delivery, club, ball);
      CHECK(impact.energy_lost >= 0.0);
      CHECK(impact.launch.ball_speed > 0.0);
      return false;
    } catch (const std::runtime_error&) {
      CHECK(play_row(lofted, ball, Setting<>{}).shot.flight.status == Status::numerical_failure);
      return true;
    }
  };
  bool ever = false;
  for (const double inertia : {1e-5, 2e-5, 5e-5, 1e-4})
    for (const double depth : {10_mm, 40_mm, 100_mm})
      for (const double mu : {0.5, 1.0, 2.0}) {
        Club<> light = iron;
        light.inertia_target = light.inertia_vertical = light.inertia_heel_toe = inertia;
        light.cg_depth = depth;
        for (const double loft : {5_deg, 30_deg, 60_deg}) ever = jams(light, mu, loft) || ever;
      }
  CHECK(ever);
  for (const Club<>& club : club_set()) CHECK(!jams(club, 2.0, 30_deg));
}
