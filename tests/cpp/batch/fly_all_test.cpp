#include "agrees.hpp"
#include "batch/many_flights.hpp"
#include "shots.hpp"

using namespace whimbrel;
using namespace whimbrel::test;

namespace {

FlyKernel<MultiLayer> lanes_of(const Kernels& level) { return std::get<FlyKernel<MultiLayer>>(level.fly); }
FlyKernel<MultiLayer> single_of(const Kernels& level) {
  return std::get<FlyKernel<MultiLayer>>(level.fly_alone);
}

bool goes_backwards(const Case& c, const Flight<>& flight) {
  const double way = c.launch.launch_direction;
  return flight.offline * std::sin(way) + flight.downrange * std::cos(way) < 0.0;
}

/// How many flights are of each special kind.
struct Kinds {
  int grounded = 0, topped = 0, sky_high = 0, backwards_in_a_gale = 0, without_spin = 0, never_down = 0;

  void count(const Case& c, const Flight<>& flight) {
    const bool landed = flight.status == Status::ok, level = c.terrain.height == 0.0;
    grounded += flight.status == Status::not_airborne;
    never_down += flight.status == Status::no_landing;
    topped += landed && level && c.launch.launch_angle < 0.0;
    sky_high += landed && flight.apex > 100.0 && c.launch.launch_angle > 60 * units::deg;
    backwards_in_a_gale +=
        landed && level && c.wind.speed > 20.0 && c.launch.launch_angle > 0.0 && goes_backwards(c, flight);
    without_spin += landed && c.launch.spin_rate == 0.0;
  }
};

}  // namespace

TEST_CASE("the flights over the whole range of inputs are of every special kind") {
  Kinds kinds;
  for (const WindProfile profile : profiles) {
    const std::vector<Case> all = cases_in(profile);
    const Told told = flown(lanes_of(kernels()), all, profile);
    for (std::size_t i = 0; i < all.size(); ++i) kinds.count(all[i], told.flight(i));
  }
  MESSAGE(kinds.grounded, " never left the ground, ", kinds.topped, " topped, ", kinds.sky_high,
          " sky-high, ", kinds.backwards_in_a_gale, " backwards in a gale, ", kinds.without_spin,
          " without spin, ", kinds.never_down, " not down after a minute");
  for (const int many : {kinds.grounded, kinds.topped, kinds.sky_high, kinds.backwards_in_a_gale,
                         kinds.without_spin, kinds.never_down})
    CHECK(many > 1000);
}

TEST_CASE("lanes of every instruction set and single flights agree over the whole range of inputs") {
  for (const WindProfile profile : profiles) {
    const std::vector<Case> all = cases_in(profile);
    const Told first = flown(lanes_of(kernels()), all, profile);
    for (const Kernels* level : runnable_kernels()) {
      CAPTURE(std::string(level->level));
      CHECK(apart(first, flown(lanes_of(*level), all, profile), 1e-9) == 0);
      CHECK(apart(first, flown(single_of(*level), all, profile), 1e-9) == 0);
    }
  }
}

TEST_CASE("a flight does not depend on the block it is flown in") {
  for (const WindProfile profile : profiles) {
    const std::vector<Case> all = cases_in(profile);
    const Told whole = flown(lanes_of(kernels()), all, profile);
    for (const std::size_t block : {std::size_t{1}, std::size_t{7}, std::size_t{100}})
      CHECK(identical(whole, flown(lanes_of(kernels()), all, profile, block)));
  }
}

TEST_CASE("over the whole range of inputs fast flights are as near the reference as stated") {
  std::vector<double> carries, apexes;
  for (const WindProfile profile : profiles) {
    const std::vector<Case> all = cases_in(profile);
    const Told fast = flown_by_all(all, profile);
    const Told reference = flown_by_all(all, profile, Accuracy::reference);
    CHECK(fast.statuses == reference.statuses);
    for (std::size_t i = 0; i < all.size(); ++i) {
      const Flight<> a = fast.flight(i), b = reference.flight(i);
      if (b.status != Status::ok) continue;
      carries.push_back(std::abs(a.carry - b.carry));
      apexes.push_back(std::abs(a.apex - b.apex));
    }
  }
  std::sort(carries.rbegin(), carries.rend());
  std::sort(apexes.rbegin(), apexes.rend());
  const std::size_t hundredth = carries.size() / 100, thousandth = carries.size() / 1000;
  MESSAGE("carries apart, m: 99 % ", carries[hundredth], ", 99.9 % ", carries[thousandth], ", worst ",
          carries.front(), "; apexes: 99 % ", apexes[hundredth], ", worst ", apexes.front());
  CHECK(carries[hundredth] < 4e-3);
  CHECK(carries[thousandth] < 0.02);
  // One ball grazes the ground, where it lands by one and flies on by the other.
  CHECK(carries[1] < 0.3);
  CHECK(apexes[1] < 0.02);
}

namespace {

/// Differences of the carry between the fast path and the reference, the largest first.
std::vector<double> carries_apart(const std::vector<Launch<>>& launches, const AnyAeroModel& model,
                                  WindProfile profile) {
  Ball<> ball;
  ball.aero = model;
  const Setting<> windy{.wind = {.speed = 8.0, .from_direction = 0.7, .profile = profile}};
  const Flights fast = fly_all(launches, ball, windy);
  const Flights reference = fly_all(launches, ball, windy, Accuracy::reference);
  std::vector<double> apart;
  for (std::size_t row = 0; row < launches.size(); ++row) {
    REQUIRE(fast.status(row) == reference.status(row));
    apart.push_back(std::abs(fast[row].carry - reference[row].carry));
  }
  std::sort(apart.rbegin(), apart.rend());
  return apart;
}

const std::array models{AnyAeroModel(MultiLayer{}), AnyAeroModel(SmitsSmith{}),
                        AnyAeroModel(SquareRootLift{}), AnyAeroModel(ConstantCoefficients{})};

}  // namespace

TEST_CASE("fast carries of full shots are within a millimetre of the reference, by every model and wind") {
  Random random{std::mt19937_64(5)};
  std::vector<Launch<>> launches;
  for (int i = 0; i < 1000; ++i)
    launches.push_back({.ball_speed = random.between(40, 80),
                        .launch_angle = random.between(8, 30) * units::deg,
                        .launch_direction = random.between(-5, 5) * units::deg,
                        .spin_rate = random.between(2000, 10000) * units::rpm,
                        .spin_axis_tilt = random.between(-15, 15) * units::deg});
  for (const AnyAeroModel& model : models)
    for (const WindProfile profile : profiles) {
      CAPTURE(model.index());
      CAPTURE(static_cast<int>(profile));
      CHECK(carries_apart(launches, model, profile).front() < 1e-3);
    }
}

TEST_CASE("of chips to rockets in a breeze, 99 in 100 fast carries are within 4 mm, and all within 3 cm") {
  Random random{std::mt19937_64(6)};
  std::vector<Launch<>> launches;
  for (int i = 0; i < 1000; ++i) launches.push_back(any_launch(random));
  for (const AnyAeroModel& model : models)
    for (const WindProfile profile : profiles) {
      const std::vector<double> apart = carries_apart(launches, model, profile);
      CAPTURE(model.index());
      CAPTURE(static_cast<int>(profile));
      CHECK(apart[10] < 4e-3);
      CHECK(apart.front() < 0.03);
    }
}

TEST_CASE("a flight too stiff for its steps fails, and the rows beside it are none the worse" *
          doctest::test_suite("each level")) {
  // The lightest ball accepted, with the most lift and spin, turns in air some thousand radians a second.
  Ball<> stiff{.mass = 0.005, .radius = 0.0287};
  stiff.aero =
      MultiLayer{.lift = 2.0, .lift_scale = 0.01, .drag = 0.0, .drag_spin = 0.0, .drag_laminar = 0.0};
  const Setting<> high{.air = {.density = 2.0}, .terrain = {.height = -1000.0}};
  const Launch<> whirling{.ball_speed = 150.0, .launch_angle = 1.0, .spin_rate = 3000.0};
  std::vector<Launch<>> launches(64, whirling);
  launches[7] = {.ball_speed = 1.0, .launch_angle = -1.0};
  const Flights flights = fly_all(launches, stiff, high, Accuracy::fast, 1);
  CHECK(flights.status(0) == Status::numerical_failure);
  CHECK(std::isnan(flights[0].carry));
  CHECK(flights.status(7) == fly_all(std::span(launches).subspan(7, 1), stiff, high).status(0));
}

TEST_CASE("a model without a kernel takes the reference path") {
  const std::vector<Launch<>> launches(3, drive);
  Ball<> ball;
  ball.aero = AeroTable{};
  CHECK(fly_all(launches, ball)[1].carry == fly(drive, ball).carry);
}

TEST_CASE("ground that is a function is flown over by a batch as by single flights, at either accuracy") {
  const std::vector<Launch<>> launches(club_launches.begin(), club_launches.end());
  Setting<> rising;
  rising.terrain.surface = [](double, double y) { return y < 150.0 ? 0.0 : 0.1 * (y - 150.0); };
  for (const Accuracy accuracy : {Accuracy::fast, Accuracy::reference}) {
    const Flights flights = fly_all(launches, {}, rising, accuracy);
    for (std::size_t row = 0; row < launches.size(); ++row)
      CHECK(flights[row].carry == fly(launches[row], {}, rising).carry);
  }
  CHECK(fly_all(launches, {}, rising)[0].carry < fly_all(launches)[0].carry - 1.0);
}

TEST_CASE("the velocity of a landing, and how far out of range a ball was, are told by either accuracy" *
          doctest::test_suite("each level")) {
  std::vector<Case> all = cases_in(WindProfile::logarithmic, 1000);
  all[0].launch.ball_speed = NAN;
  for (const Accuracy accuracy : {Accuracy::fast, Accuracy::reference}) {
    const Told told = flown_by_all(all, WindProfile::logarithmic, accuracy);
    int never_down = 0;
    for (std::size_t row = 0; row < all.size(); ++row) {
      INFO("row ", row, ": ", described(all[row].launch));
      const double* excess = &told.numbers[row][Told::out_of_range];
      const double* v = &told.numbers[row][Told::landing_velocity];
      const Vec3<double> velocity{v[0], v[1], v[2]};
      const Flight<> flight = told.flight(row);
      never_down += flight.status == Status::no_landing;
      CHECK(std::isfinite(excess[0] + excess[1]) == (row != 0));
      if (flight.status <= Status::not_airborne) {
        CHECK(agrees(norm(velocity), flight.landing_speed, 0, 1e-12));
        CHECK(agrees(-elevation(velocity), flight.descent_angle, 1e-12, 0));
      } else {
        CHECK((std::isnan(v[0]) && std::isnan(v[1]) && std::isnan(v[2])));
      }
    }
    CHECK(never_down > 10);
  }
}

TEST_CASE("a flight alone is a row of a batch, from anywhere" * doctest::test_suite("each level")) {
  const Setting<> windy{.wind = {.speed = 5.0}};
  const Ball<> ball;
  const Flight<> alone = fly_alone(drive, ball, windy, on_the_tee(ball, windy.terrain));
  const Flight<> row = fly_all(std::vector{drive}, ball, windy)[0];
  for (const auto& field : Flight<>::fields())
    CHECK(agrees(alone.*field.member, row.*field.member, 1e-9, 1e-9));
  const Flight<> moved = fly_alone(drive, ball, {}, {3.0, -2.0, ball.radius});
  CHECK(agrees(moved.offline - fly_alone(drive, ball, {}, {0.0, 0.0, ball.radius}).offline, 3.0, 1e-9, 0));
}

TEST_CASE("the apex of a ball that dives off a hill and lifts again is where it started") {
  const Launch<> diving{.ball_speed = 85.0, .launch_angle = -15_deg, .spin_rate = 600.0};
  const Setting<> off_a_hill{.terrain = {.height = -30.0}};
  for (const Accuracy accuracy : {Accuracy::fast, Accuracy::reference}) {
    const Flight<> flight = fly_all(std::vector{diving}, {}, off_a_hill, accuracy)[0];
    CHECK(flight.status == Status::ok);
    CHECK(flight.carry > 100.0);
    CHECK(agrees(flight.apex, 0.0, 1e-12, 0));
    CHECK(agrees(flight.apex_distance, 0.0, 1e-12, 0));
  }
}

TEST_CASE(
    "a topped ball comes down where it meets the ground, though its spin would lift it out again,"
    " within a millimetre of the reference") {
  const Setting<> on_a_tee{.terrain = {.tee_height = 0.07}};
  for (double speed = 60.0; speed <= 140.0; speed += 10.0)
    for (double spin = 200.0; spin <= 1000.0; spin += 200.0)
      for (double down = 0.4; down < 6.0; down += 0.1) {
        const std::vector<Launch<>> topped{
            {.ball_speed = speed, .launch_angle = -down * units::deg, .spin_rate = spin}};
        INFO(described(topped[0]));
        const Flight<> fast = fly_all(topped, {}, on_a_tee)[0],
                       reference = fly_all(topped, {}, on_a_tee, Accuracy::reference)[0];
        CHECK(fast.status == reference.status);
        CHECK(agrees(fast.carry, reference.carry, 1e-3, 0));
      }
}
