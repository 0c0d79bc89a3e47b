#include "agrees.hpp"
#include "batch/many_strikes.hpp"
#include "shots.hpp"

using namespace whimbrel;
using namespace whimbrel::test;

namespace {

std::vector<Launch<>> many_launches() {
  Random random{std::mt19937_64(1)};
  std::vector<Launch<>> all(random_cases);
  for (Launch<>& launch : all) launch = any_launch(random);
  return all;
}

}  // namespace

TEST_CASE("a row of a batch is the single shot") {
  const std::vector<Launch<>> launches = many_launches();
  const auto rows = play_all<Launch<>>(launches);
  for (std::size_t i = 0; i < rows.size(); ++i) CHECK(rows[i].shot.flight.carry == fly(launches[i]).carry);
}

TEST_CASE("shots onto ground that is a function are the single shots") {
  Setting<> rising;
  rising.terrain.surface = [](double, double y) { return y < 150.0 ? 0.0 : 0.1 * (y - 150.0); };
  const std::vector<Launch<>> launches(club_launches.begin(), club_launches.end());
  const std::vector<Row> rows = play_all<Launch<>>(launches, {}, rising);
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const Shot<> shot = play(launches[i], Ball<>{}, rising);
    CHECK(rows[i].shot.flight.carry == shot.flight.carry);
    CHECK(rows[i].shot.run.total == shot.run.total);
  }
  CHECK(rows[0].shot.flight.carry < play_all<Launch<>>(launches)[0].shot.flight.carry - 1.0);
}

TEST_CASE("a bad row says what is wrong with it") {
  const std::vector<Launch<>> launches{{.ball_speed = 60.0, .launch_angle = 0.2, .spin_rate = -1.0}};
  const Row row = play_all<Launch<>>(launches)[0];
  REQUIRE(row.error);
  CHECK(std::string(row.error->what()) ==
        "spin_rate is -1 rad/s (-9.549 rpm); accepted: 0 rad/s to 3000 rad/s (2.865e+04 rpm)");
}

TEST_CASE("from delivery to landing, lanes are as near the reference as stated") {
  Strikes fast(20000);  // each takes the reference half a millisecond
  for (Ball<>& ball : fast.balls) ball = {};
  strike(fast);
  std::vector<Launch<>> launches;
  for (std::size_t i = 0; i < fast.count(); ++i) launches.push_back(fast.launch(i));
  const Setting<> windy{.wind = {.speed = 6.0, .from_direction = 0.7}};
  const Flights flights = fly_all(launches, {}, windy);
  const std::vector<Row> played = play_all<Swing<>>(fast.swings, {}, windy);
  std::vector<double> carries, sideways;
  for (std::size_t i = 0; i < fast.count(); ++i) {
    const Flight<>&there = played[i].shot.flight, here = flights[i];
    CHECK(here.status == there.status);
    if (here.status != Status::ok || there.status != Status::ok) continue;
    carries.push_back(std::abs(here.carry - there.carry) / there.carry);
    sideways.push_back(std::abs(here.offline - there.offline) / there.carry);
  }
  std::sort(carries.rbegin(), carries.rend());
  std::sort(sideways.rbegin(), sideways.rend());
  MESSAGE("shares of the carry: 99 % ", carries[carries.size() / 100], ", worst ", carries.front(),
          "; sideways 99 % ", sideways[sideways.size() / 100], ", worst ", sideways.front());
  CHECK(carries.size() > fast.count() / 2);
  CHECK(carries[carries.size() / 100] < 1e-4);
  CHECK(carries.front() < 1e-3);
  CHECK(sideways.front() < 2e-4);  // what 0.02 % of a radian comes to
}

TEST_CASE("a bad ball or setting makes every row bad, and throws nothing") {
  const std::vector<Launch<>> launches(3, drive);
  for (const Row& row : play_all<Launch<>>(launches, ball_with(AeroTable{.drag = {}})))
    CHECK(row.shot.flight.status == Status::bad_input);
  for (const Row& row : play_all<Launch<>>(launches, {}, Setting<>{.air = {.density = -1.0}}))
    CHECK(row.error->field == "density");
}

TEST_CASE("a batch of nothing is nothing") { CHECK(play_all<Launch<>>({}).empty()); }
