#include <doctest/doctest.h>

#include <whimbrel/compiled.hpp>

#include "agrees.hpp"
#include "random_cases.hpp"
#include "shots.hpp"

using namespace whimbrel;
using namespace whimbrel::test;

namespace {

/// A flight over the whole range of inputs: chips and rockets, topped, straight up, without spin, backwards
/// in a gale, on slopes.
struct Case {
  Launch<> launch;
  Air<> air;
  Wind<> wind;
  Terrain<> terrain;
};

Case any_case(Random& random) {
  Case c;
  c.launch = {.ball_speed = random.between(0, 1) < 0.1 ? random.between(0, 5) : random.between(5, 150),
              .launch_angle = random.between(-90, 90) * units::deg,
              .launch_direction = random.between(-180, 180) * units::deg,
              .spin_rate = random.between(0, 1) < 0.1 ? 0.0 : random.between(0, 3000),
              .spin_axis_tilt = random.between(-180, 180) * units::deg};
  c.launch.axial_spin_rate = random.between(-1, 1) * c.launch.spin_rate;
  c.air = {.density = random.between(0.3, 1.6)};
  c.wind = {.speed = random.between(0, 1) < 0.2 ? 0.0 : random.between(0, 40),
            .from_direction = random.between(-180, 180) * units::deg,
            .roughness_length = random.between(0.001, 1)};
  c.terrain = {.tee_height = random.between(0, 1) < 0.5 ? 0.0 : random.between(0, 0.1),
               .height = random.between(0, 1) < 0.5 ? 0.0 : random.between(-30, 10),
               .slope_right = random.between(-0.3, 0.3),
               .slope_downrange = random.between(-0.3, 0.3)};
  return c;
}

std::vector<Case> cases(std::size_t count) {
  Random random{std::mt19937_64(1)};
  std::vector<Case> all(count);
  for (Case& c : all) c = any_case(random);
  return all;
}

/// The numbers of a member of every case.
template <class Value, std::size_t N>
void set_columns_of(Column (&columns)[N], const std::vector<Case>& all, Value Case::*member) {
  Column* column = columns;
  for (const auto& field : Value::fields())
    *column++ = {&(all.data()->*member.*field.member), sizeof(Case) / sizeof(double)};
}

/// All that the kernels tell of some flights.
struct Told {
  std::vector<std::array<double, 18>> numbers;
  std::vector<unsigned char> statuses;
};

struct Batch {
  FlightColumns columns;
  Ball<> ball;
  Told told;

  Batch(const std::vector<Case>& all, WindProfile profile)
      : told{std::vector<std::array<double, 18>>(all.size()), std::vector<unsigned char>(all.size())} {
    set_columns_of(columns.launch, all, &Case::launch);
    set_columns_of(columns.air, all, &Case::air);
    set_columns_of(columns.wind, all, &Case::wind);
    set_columns_of(columns.terrain, all, &Case::terrain);
    set_columns(columns.ball, ball);
    columns.profile = profile;
    for (std::size_t i = 0; i < 10; ++i) columns.flight[i] = {&told.numbers[0][i], 18};
    for (std::size_t i = 0; i < 6; ++i) columns.landing[i] = {&told.numbers[0][10 + i], 18};
    for (std::size_t i = 0; i < 2; ++i) columns.out_of_range[i] = {&told.numbers[0][16 + i], 18};
    columns.status = told.statuses.data();
  }
};

/// Flies all cases with a kernel, in blocks of some size.
template <class Model>
Told flown(const FlyKernel<Model>& kernel, const std::vector<Case>& all, WindProfile profile,
           const Model& model, std::size_t block = block_size) {
  Batch batch(all, profile);
  std::vector<std::size_t> rows(all.size());
  for (std::size_t i = 0; i < rows.size(); ++i) rows[i] = i;
  for (std::size_t i = 0; i < rows.size(); i += block)
    kernel({batch.columns, fast_tolerance, rows.data() + i, std::min(block, rows.size() - i)}, model);
  return batch.told;
}

bool same_number(double a, double b) { return a == b || (std::isnan(a) && std::isnan(b)); }

/// What a number's differences are measured by: its size, or that of what it is a small part of. The
/// landing's velocity, the slope of the dense output, is ten times less certain than its place; how far a
/// model left its range is looked up at the steps, whose times are thousands of times less certain.
double scale_of(const std::array<double, 18>& numbers, std::size_t i) {
  constexpr std::size_t landing_spin = 13, axial_spin = 15, spin_ratio_excess = 16, reynolds_excess = 17;
  if (i == axial_spin) return 10 * std::max(1.0, numbers[landing_spin]);
  if (i == spin_ratio_excess) return 1e4 * std::max(1.0, std::abs(numbers[i]));
  if (i == reynolds_excess) return 1e3 * 3e4;
  const bool of_velocity = i == 7 || i == 8 || (i >= 10 && i <= 14);
  return (of_velocity ? 10 : 1) * std::max(1.0, std::abs(numbers[i]));
}

/// The rows in which two tellings differ by more than a share of each number's scale.
std::size_t apart(const Told& a, const Told& b, double relative) {
  std::size_t found = 0;
  for (std::size_t row = 0; row < a.numbers.size(); ++row) {
    bool close = a.statuses[row] == b.statuses[row];
    for (std::size_t i = 0; i < 18; ++i) {
      const double x = a.numbers[row][i], y = b.numbers[row][i];
      close = close && (same_number(x, y) || std::abs(x - y) <= relative * scale_of(a.numbers[row], i));
    }
    if (!close) ++found;
  }
  return found;
}

constexpr std::array profiles{WindProfile::uniform, WindProfile::logarithmic, WindProfile::power_law};

}  // namespace

TEST_CASE("lanes of every instruction set and single flights agree over the whole range of inputs") {
  const std::vector<Case> all = cases(34000);
  const MultiLayer model;
  for (const WindProfile profile : profiles) {
    const Told first = flown(std::get<FlyKernel<MultiLayer>>(kernels().fly), all, profile, model);
    for (const Kernels* level : runnable_kernels()) {
      CAPTURE(level->level);
      CHECK(apart(first, flown(std::get<FlyKernel<MultiLayer>>(level->fly), all, profile, model), 1e-9) == 0);
      CHECK(apart(first, flown(std::get<FlyKernel<MultiLayer>>(level->fly_alone), all, profile, model),
                  1e-9) == 0);
    }
  }
}

TEST_CASE("every status is met in the whole range of inputs") {
  const Told told = flown(std::get<FlyKernel<MultiLayer>>(kernels().fly), cases(34000),
                          WindProfile::logarithmic, MultiLayer{});
  for (const Status status : {Status::ok, Status::not_airborne, Status::no_landing})
    CHECK(std::count(told.statuses.begin(), told.statuses.end(), static_cast<unsigned char>(status)) > 20);
}

TEST_CASE("a flight does not depend on the block it is flown in") {
  const std::vector<Case> all = cases(2000);
  const auto kernel = std::get<FlyKernel<MultiLayer>>(kernels().fly);
  const Told whole = flown(kernel, all, WindProfile::logarithmic, MultiLayer{});
  for (const std::size_t block : {std::size_t{1}, std::size_t{7}, std::size_t{100}})
    CHECK(apart(whole, flown(kernel, all, WindProfile::logarithmic, MultiLayer{}, block), 0.0) == 0);
}

TEST_CASE("a row that is no number, or absurd, is told apart and leaves the others as they were") {
  Random random{std::mt19937_64(3)};
  std::vector<Launch<>> launches;
  for (int i = 0; i < 1000; ++i) launches.push_back(any_launch(random));
  const Setting<> windy{.wind = {.speed = 7.0, .from_direction = 1.0}};
  const Flights before = fly_all(launches, {}, windy);
  launches[17].ball_speed = NAN;
  launches[500].spin_rate = 1e9;
  launches[999].launch_angle = INFINITY;
  const Flights after = fly_all(launches, {}, windy);
  for (std::size_t row = 0; row < launches.size(); ++row) {
    const bool bad = row == 17 || row == 500 || row == 999;
    CHECK((after.status(row) == Status::bad_input) == bad);
    for (const auto& field : Flight<>::fields()) {
      const double now = after[row].*field.member, then = before[row].*field.member;
      CHECK((bad ? std::isnan(now) : same_number(now, then)));
    }
  }
}

TEST_CASE("threads do not change a bit") {
  Random random{std::mt19937_64(4)};
  std::vector<Launch<>> launches;
  for (int i = 0; i < 5000; ++i) launches.push_back(any_launch(random));
  const Flights one = fly_all(launches, {}, {}, Accuracy::fast, 1);
  for (const unsigned threads : {2u, 3u, 0u})
    CHECK(fly_all(launches, {}, {}, Accuracy::fast, threads).numbers == one.numbers);
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

TEST_CASE("of chips to rockets, 99 in 100 fast carries are within 4 mm, and all within 3 cm") {
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

TEST_CASE("a model without a kernel takes the reference path") {
  const std::vector<Launch<>> launches(3, drive);
  Ball<> ball;
  ball.aero = AeroTable{};
  CHECK(fly_all(launches, ball)[1].carry == fly(drive, ball).carry);
}

TEST_CASE("a flight alone is a row of a batch, from anywhere") {
  const Setting<> windy{.wind = {.speed = 5.0}};
  const Ball<> ball;
  const Flight<> alone = fly_alone(drive, ball, windy, on_the_tee(ball, windy.terrain));
  const Flight<> row = fly_all(std::vector{drive}, ball, windy)[0];
  for (const auto& field : Flight<>::fields())
    CHECK(agrees(alone.*field.member, row.*field.member, 1e-9, 1e-9));
  const Flight<> moved = fly_alone(drive, ball, {}, {3.0, -2.0, ball.radius});
  CHECK(agrees(moved.offline - fly_alone(drive, ball, {}, {0.0, 0.0, ball.radius}).offline, 3.0, 1e-9, 0));
}
