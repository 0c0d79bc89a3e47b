#include <doctest/doctest.h>

#include <bit>
#include <limits>

#include "agrees.hpp"
#include "random_cases.hpp"
#include "shots.hpp"

using namespace whimbrel;
using namespace whimbrel::test;

namespace {

template <class Make>
auto many(const Make& make) {
  std::vector<decltype(make(std::declval<Random&>()))> all;
  Random random{std::mt19937_64(1)};
  for (unsigned i = 0; i < random_cases; ++i) all.push_back(make(random));
  return all;
}

std::vector<Launch<>> many_launches() { return many(any_launch); }
std::vector<Swing<>> many_swings() {
  return many([](Random& random) { return Swing<>{any_delivery(random), any_club(random)}; });
}

/// Two rows are the same to the last bit.
void are_the_same(const Row& a, const Row& b) {
  CHECK(a.shot.flight.status == b.shot.flight.status);
  CHECK(a.error.has_value() == b.error.has_value());
  for (const auto& field : Flight<>::fields())
    CHECK(std::bit_cast<std::uint64_t>(a.shot.flight.*field.member) ==
          std::bit_cast<std::uint64_t>(b.shot.flight.*field.member));
  for (const auto& field : Launch<>::fields())
    CHECK(std::bit_cast<std::uint64_t>(a.shot.launch.*field.member) ==
          std::bit_cast<std::uint64_t>(b.shot.launch.*field.member));
}

template <class Start>
void rows_do_not_depend_on_threads(const std::vector<Start>& starts) {
  const Setting<> setting{.wind = wind_from_left(4.0)};
  const auto one = play_all<Start>(starts, {}, setting, {}, 1);
  REQUIRE(one.size() == starts.size());
  for (const unsigned threads : {0u, 2u, 3u, 7u}) {
    const auto others = play_all<Start>(starts, {}, setting, {}, threads);
    for (std::size_t i = 0; i < starts.size(); ++i) are_the_same(one[i], others[i]);
  }
  for (std::size_t i = 0; i < starts.size(); i += 100) are_the_same(one[i], play_row(starts[i], {}, setting));
}

}  // namespace

TEST_CASE("rows of a batch are the same on any number of threads, to the last bit") {
  rows_do_not_depend_on_threads(many_launches());
  rows_do_not_depend_on_threads(many_swings());
}

TEST_CASE("a row of a batch is the single shot") {
  const std::vector<Launch<>> launches = many_launches();
  const auto rows = play_all<Launch<>>(launches);
  for (std::size_t i = 0; i < rows.size(); ++i) CHECK(rows[i].shot.flight.carry == fly(launches[i]).carry);
}

TEST_CASE("a bad row says what is wrong with it and leaves the others alone") {
  std::vector<Launch<>> launches = many_launches();
  const auto good = play_all<Launch<>>(launches);
  launches[17].ball_speed = std::numeric_limits<double>::quiet_NaN();
  launches[500].spin_rate = -1.0;
  const auto rows = play_all<Launch<>>(launches);
  for (std::size_t i = 0; i < rows.size(); ++i) {
    if (i == 17 || i == 500) continue;
    are_the_same(rows[i], good[i]);
  }
  for (const std::size_t bad : {17u, 500u}) {
    CHECK(rows[bad].shot.flight.status == Status::bad_input);
    for (const auto& field : Flight<>::fields()) CHECK(std::isnan(rows[bad].shot.flight.*field.member));
    for (const auto& field : Launch<>::fields()) CHECK(std::isnan(rows[bad].shot.launch.*field.member));
  }
  REQUIRE(rows[17].error);
  CHECK(rows[17].error->field == "ball_speed");
  REQUIRE(rows[500].error);
  CHECK(std::string(rows[500].error->what()) ==
        "spin_rate is -1 rad/s (-9.549 rpm); accepted: 0 rad/s to 3000 rad/s (2.865e+04 rpm)");
}

TEST_CASE("a bad ball or setting makes every row bad, and throws nothing") {
  const std::vector<Launch<>> launches(3, drive);
  for (const Row& row : play_all<Launch<>>(launches, ball_with(AeroTable{.drag = {}})))
    CHECK(row.shot.flight.status == Status::bad_input);
  for (const Row& row : play_all<Launch<>>(launches, {}, Setting<>{.air = {.density = -1.0}}))
    CHECK(row.error->field == "density");
}

TEST_CASE("a batch of nothing is nothing") { CHECK(play_all<Launch<>>({}).empty()); }

TEST_CASE("work in parallel is done once for every index, and its first failure comes back") {
  std::vector<int> times(1000, 0);
  parallel_for(times.size(), 4, [&](std::size_t i) { ++times[i]; });
  for (const int n : times) CHECK(n == 1);
  CHECK_THROWS_AS(parallel_for(1000, 4,
                               [](std::size_t i) {
                                 if (i == 700) throw std::runtime_error("700");
                               }),
                  std::runtime_error);
}
