#include <doctest/doctest.h>

#include <algorithm>
#include <numeric>

#include "agrees.hpp"
#include "random_cases.hpp"

using namespace whimbrel;
using namespace whimbrel::test;

namespace {

constexpr double exact = 1e-9;  // m: what the ledgers promise to add up to

Club<> iron(Hand hand = Hand::right) { return club_set(hand)[6]; }
Club<> driver(Hand hand = Hand::right) { return club_set(hand)[0]; }

const Delivery<> usual{.clubhead_speed = 37.0, .attack_angle = -4_deg, .dynamic_loft = 26_deg};

Stroke<> stroke(const Delivery<>& delivery, const Setting<>& setting = {}, double uphill = 0.0,
                Hand hand = Hand::right) {
  return stroke_of(delivery, uphill, hand, setting);
}

double total(const std::array<double, cause_count>& shares) {
  return std::accumulate(shares.begin(), shares.end(), 0.0);
}

/// A stroke of either hand with every cause, and a reference that is square to some line.
struct AnyShot {
  Club<> club;
  Delivery<> delivery;
  double uphill;
  Setting<> setting;
  Stroke<> reference{};

  explicit AnyShot(Random& random) : club(any_club(random)) {
    const double loft = club.loft + random.between(-9, 1) * units::deg;
    delivery = {.clubhead_speed = random.between(28, 52),
                .club_path = random.between(-8, 8) * units::deg,
                .attack_angle = random.between(-7, 4) * units::deg,
                .face_angle = random.between(-8, 8) * units::deg,
                .dynamic_loft = std::max(loft, 8_deg),
                .strike_toe = random.between(-0.015, 0.015),
                .strike_high = random.between(-0.008, 0.008),
                .lie_tilt = random.below(2) == 0 ? 0.0 : random.between(-5, 5) * units::deg,
                .closure_rate = random.between(0, 45)};
    uphill = random.below(2) == 0 ? 0.0 : random.between(-6, 6) * units::deg;
    setting = any_setting(random);
    const double aim = random.between(-4, 4) * units::deg;
    reference = stroke({.clubhead_speed = 40.0,
                        .club_path = aim,
                        .attack_angle = -2_deg,
                        .face_angle = aim,
                        .dynamic_loft = std::max(club.loft - 4_deg, 12_deg)});
  }
};

}  // namespace

TEST_CASE(
    "both ledgers add up to the shot that is played, and other causes get exactly 0, for 500 random shots") {
  for (unsigned seed = 0; seed < 500; ++seed) {
    Random random{std::mt19937_64(seed)};
    const AnyShot any(random);
    const Causes taken = seed < 25 ? every_cause : static_cast<Causes>(random.below(every_cause + 1));
    const Stroke<> shot = with_causes(
        any.reference, stroke(any.delivery, any.setting, any.uphill, any.club.hand), taken, any.club.hand);
    INFO("random case ", seed, ": ", described(shot.delivery), described(shot.setting));
    const Flight<> played = fly(strike(shot.delivery, any.club).launch, Ball<>{}, shot.setting);
    REQUIRE(played.status == Status::ok);
    const CauseLedger<> ledger = explain_causes(shot, any.reference, any.club);
    CHECK(agrees(ledger.reference_carry + total(ledger.of_carry.share), played.carry, exact, 0));
    CHECK(agrees(ledger.reference_offline + total(ledger.of_offline.share), played.offline, exact, 0));
    const auto [start, curve, wind] = start_and_curve(shot, any.reference, any.club);
    CHECK(agrees(start.total() + curve.total() + wind.total(), played.offline, exact, 0));
    for (const auto* shares : {&ledger.of_carry, &ledger.of_offline})
      for (unsigned i = 0; i < cause_count; ++i) {
        CHECK(shares->least[i] <= shares->share[i] + exact);
        CHECK(shares->share[i] <= shares->most[i] + exact);
        if (!holds(taken, static_cast<Cause>(i))) CHECK(shares->share[i] == 0.0);
      }
  }
}

TEST_CASE("a cause that is the same in both gets exactly 0, and is not replayed") {
  Delivery<> delivery = usual;
  delivery.face_angle = 2_deg;
  delivery.club_path = -1_deg;
  const CauseLedger<> ledger = explain_causes(stroke(delivery), stroke(usual), iron());
  CHECK(ledger.replays == 4);
  CHECK(ledger.grounded == 0);
  for (const auto* shares : {&ledger.of_carry, &ledger.of_offline})
    for (std::size_t i = 2; i < cause_count; ++i) {
      CHECK(shares->share[i] == 0.0);
      CHECK(shares->least[i] == 0.0);
      CHECK(shares->most[i] == 0.0);
    }
  CHECK(ledger.of_offline.share[0] > 5.0);
  CHECK(ledger.of_offline.share[1] != 0.0);
}

TEST_CASE("a shot that is its own reference has nothing to explain") {
  const CauseLedger<> ledger = explain_causes(stroke(usual), stroke(usual), iron());
  CHECK(ledger.replays == 1);
  CHECK(ledger.carry == ledger.reference_carry);
  CHECK(total(ledger.of_carry.share) == 0.0);
  const auto [start, curve, wind] = start_and_curve(stroke(usual), stroke(usual), iron());
  CHECK(agrees(start.total(), 0.0, 1e-12, 0));
  CHECK(agrees(curve.total(), 0.0, 1e-12, 0));
  CHECK(wind.total() == 0.0);
}

TEST_CASE("calm winds from different sides are the same wind, and a stance taken back the same swing") {
  Setting<> calm;
  calm.wind.from_direction = 1.0;
  const Stance<> slope{4_deg, 3_deg};
  const Stroke<> stood = stroke(standing(usual, slope, Hand::right), calm, slope.uphill);
  CHECK(differing(stood, stroke(usual)) == set_of(Cause::stance_and_lie));
}

TEST_CASE("three causes share as the mean of six orders of playing them") {
  Delivery<> delivery = usual;
  delivery.face_angle = 3_deg;
  delivery.club_path = -2_deg;
  const Setting<> windy{.wind = wind_from_right(6.0)};
  const CauseLedger<> ledger = explain_causes(stroke(delivery, windy), stroke(usual), iron());
  const auto played = [&](bool face, bool path, bool wind) {
    Delivery<> d = usual;
    if (face) d.face_angle = delivery.face_angle;
    if (path) d.club_path = delivery.club_path;
    return fly(strike(d, iron()).launch, Ball<>{}, wind ? windy : Setting<>{});
  };
  std::array<int, 3> order{0, 1, 2};
  std::array<double, 3> carry{}, offline{};
  do {
    std::array<bool, 3> there{};
    for (const int i : order) {
      const Flight<> before = played(there[0], there[1], there[2]);
      there[static_cast<std::size_t>(i)] = true;
      const Flight<> after = played(there[0], there[1], there[2]);
      carry[static_cast<std::size_t>(i)] += (after.carry - before.carry) / 6;
      offline[static_cast<std::size_t>(i)] += (after.offline - before.offline) / 6;
    }
  } while (std::next_permutation(order.begin(), order.end()));
  const std::array<std::size_t, 3> places{0, 1, 6};  // face angle, path, wind
  for (std::size_t i = 0; i < 3; ++i) {
    CHECK(agrees(ledger.of_carry.share[places[i]], carry[i], exact, 0));
    CHECK(agrees(ledger.of_offline.share[places[i]], offline[i], exact, 0));
  }
}

TEST_CASE("for small changes a share is the derivative times the change") {
  // What is left is of second order, a share times another step's relative change (0.5 %, the face's 0.01 of
  // 2 degrees), and the flight's own tolerance, seen through differences of ten steps.
  Delivery<> base = usual;  // away from the square shot, where carry turns over
  base.face_angle = 2_deg;
  base.club_path = -3_deg;
  base.strike_toe = 6_mm;
  Delivery<> moved = base;
  struct Step {
    Cause cause;
    double Delivery<>::*member;
    double size;
  };
  const std::array<Step, 4> steps{{{Cause::face_angle, &Delivery<>::face_angle, 0.01_deg},
                                   {Cause::path, &Delivery<>::club_path, -0.01_deg},
                                   {Cause::clubhead_speed, &Delivery<>::clubhead_speed, 0.005},
                                   {Cause::strike_point, &Delivery<>::strike_toe, 0.02_mm}}};
  for (const Step& step : steps) moved.*step.member += step.size;
  const CauseLedger<> ledger = explain_causes(stroke(moved), stroke(base), iron());
  for (const Step& step : steps) {
    const auto nudged = [&](double times) {
      Delivery<> d = base;
      d.*step.member += times * step.size;
      return fly(strike(d, iron()).launch);
    };
    const Flight<> more = nudged(10), less = nudged(-10);
    const auto i = static_cast<std::size_t>(step.cause);
    INFO(describe(step.cause));
    CHECK(agrees(ledger.of_carry.share[i], (more.carry - less.carry) / 20, 1e-5, 5e-3));
    CHECK(agrees(ledger.of_offline.share[i], (more.offline - less.offline) / 20, 1e-5, 5e-3));
  }
}

TEST_CASE("a left-hander's mirrored shot has the mirrored ledger") {
  Delivery<> right{.clubhead_speed = 42.0,
                   .club_path = 3_deg,
                   .attack_angle = -2_deg,
                   .face_angle = -1_deg,
                   .dynamic_loft = 14_deg,
                   .strike_toe = 9_mm,
                   .lie_tilt = 2_deg};
  Delivery<> left = right;
  left.club_path = -right.club_path;
  left.face_angle = -right.face_angle;
  const Delivery<> reference{.clubhead_speed = 44.0, .dynamic_loft = 13_deg};
  const Setting<> from_right{.wind = wind_from_right(4.0)}, from_left{.wind = wind_from_left(4.0)};
  const auto a = explain_causes(stroke(right, from_right), stroke(reference), driver());
  const auto b = explain_causes(stroke(left, from_left, 0.0, Hand::left),
                                stroke(reference, {}, 0.0, Hand::left), driver(Hand::left));
  for (std::size_t i = 0; i < cause_count; ++i) {
    CHECK(agrees(a.of_carry.share[i], b.of_carry.share[i], 1e-7, 0));
    CHECK(agrees(a.of_offline.share[i], -b.of_offline.share[i], 1e-7, 0));
  }
}

TEST_CASE("face and path shares are the mean of their two orders, start, curve and wind in their fixed one") {
  Delivery<> delivery = usual;
  delivery.face_angle = -1_deg;
  delivery.club_path = 4_deg;
  delivery.strike_toe = 8_mm;
  const Setting<> windy{.wind = wind_from_left(5.0)};
  const auto [start, curve, wind] = start_and_curve(stroke(delivery, windy), stroke(usual), iron());
  const auto offline = [&](bool face, bool path, bool tilted, bool blown) {
    Delivery<> d = delivery;
    if (!face) d.face_angle = 0.0;
    if (!path) d.club_path = 0.0;
    Launch<> launch = strike(d, iron()).launch;
    if (!tilted) launch.spin_axis_tilt = 0.0;
    return fly(launch, Ball<>{}, blown ? windy : Setting<>{}).offline;
  };
  const auto face_share = [&](const auto& of) {
    return 0.5 * (of(true, false) - of(false, false) + of(true, true) - of(false, true));
  };
  CHECK(
      agrees(start.face, face_share([&](bool f, bool p) { return offline(f, p, false, false); }), exact, 0));
  CHECK(agrees(curve.face, face_share([&](bool f, bool p) {
                 return offline(f, p, true, false) - offline(f, p, false, false);
               }),
               exact, 0));
  CHECK(agrees(wind.total(), offline(true, true, true, true) - offline(true, true, true, false), exact, 0));
  CHECK(start.face < 0.0);
  CHECK(curve.face < 0.0);
  CHECK(curve.path < 0.0);
  CHECK(wind.total() > 0.0);
}

TEST_CASE("a swing square to a body aimed left has no face and no path share, only the aim's") {
  Delivery<> aimed = usual;
  aimed.face_angle = aimed.club_path = -4_deg;
  const Stroke<> reference = stroke(aimed);
  Delivery<> off_centre = aimed;
  off_centre.strike_toe = 5_mm;
  const CauseLedger<> ledger = explain_causes(stroke(off_centre), reference, iron());
  CHECK(ledger.reference_offline < -5.0);
  CHECK(ledger.of_offline.share[0] == 0.0);
  CHECK(ledger.of_offline.share[1] == 0.0);
  const auto sideways = start_and_curve(stroke(off_centre), reference, iron());
  CHECK(agrees(sideways.start.square, ledger.reference_offline, 0.05, 0));
  CHECK(sideways.start.face == 0.0);
}

TEST_CASE("a mixed replay that is no shot is named, with the causes it took from the shot") {
  Delivery<> sideways = usual;  // square to a line far off the target: its face and the reference's path miss
  sideways.face_angle = sideways.club_path = 89_deg;
  CHECK_NOTHROW(strike(sideways, iron()));
  CHECK_THROWS_WITH_AS(explain_causes(stroke(sideways), stroke(usual), iron()),
                       doctest::Contains("replayed with the shot's"), InputError);
  CHECK_THROWS_AS(stroke_of(Delivery<>{.clubhead_speed = 40, .dynamic_loft = 80_deg, .lie_tilt = 20_deg}, 0.0,
                            Hand::right, Setting<>{}),
                  InputError);
}

TEST_CASE("a replay that never leaves the ground counts as no carry, and is counted") {
  Delivery<> topped = usual;
  topped.dynamic_loft = -3_deg;
  topped.attack_angle = -6_deg;
  const CauseLedger<> ledger = explain_causes(stroke(topped), stroke(usual), iron());
  CHECK(ledger.replays == 2);
  CHECK(ledger.grounded == 1);
  CHECK(ledger.carry == 0.0);
  CHECK(agrees(ledger.of_carry.share[2], -ledger.reference_carry, 1e-12, 0));
}
