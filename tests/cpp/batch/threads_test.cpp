#include "batch/many_flights.hpp"
#include "batch/many_strikes.hpp"

using namespace whimbrel;
using namespace whimbrel::test;

TEST_SUITE_BEGIN("each level");

namespace {

constexpr std::array<unsigned, 3> more_threads{2, 3, 0};  // 0: all cores

/// Whether two shots are the same to the last bit, as far as they went.
bool same_shot(const Row& a, const Row& b) {
  const auto same = [](const auto& x, const auto& y) {
    for (const auto& field : std::remove_cvref_t<decltype(x)>::fields())
      if (std::bit_cast<std::uint64_t>(x.*field.member) != std::bit_cast<std::uint64_t>(y.*field.member))
        return false;
    return true;
  };
  return a.error.has_value() == b.error.has_value() && a.shot.flight.status == b.shot.flight.status &&
         a.shot.run.status == b.shot.run.status && same(a.shot.launch, b.shot.launch) &&
         same(a.shot.flight, b.shot.flight) && same(a.shot.landing, b.shot.landing) &&
         same(a.shot.run, b.shot.run);
}

}  // namespace

TEST_CASE("flights do not depend on the number of threads") {
  for (const WindProfile profile : profiles) {
    const std::vector<Case> all = cases_in(profile);
    const Told one = flown_by_all(all, profile, Accuracy::fast, 1);
    for (const unsigned threads : more_threads)
      CHECK(identical(one, flown_by_all(all, profile, Accuracy::fast, threads)));
  }
}

TEST_CASE("impacts do not depend on the number of threads") {
  Strikes one(100000);
  strike(one, 1);
  for (const unsigned threads : more_threads) {
    Strikes more(one.count());
    strike(more, threads);
    CHECK(identical(one, more));
  }
}

TEST_CASE("flights by the reference and whole shots do not depend on the number of threads") {
  const std::vector<Case> all = cases_in(WindProfile::logarithmic, 500);
  const Told one = flown_by_all(all, WindProfile::logarithmic, Accuracy::reference, 1);
  const Strikes strikes(500);
  const std::vector<Row> played = play_all<Swing<>>(strikes.swings, {}, {}, {}, 1);
  for (const unsigned threads : more_threads) {
    CHECK(identical(one, flown_by_all(all, WindProfile::logarithmic, Accuracy::reference, threads)));
    const std::vector<Row> again = play_all<Swing<>>(strikes.swings, {}, {}, {}, threads);
    for (std::size_t row = 0; row < played.size(); ++row) CHECK(same_shot(played[row], again[row]));
  }
}

TEST_CASE("every bad row is told of once, by whichever thread meets it") {
  std::vector<Case> all = cases_in(WindProfile::uniform, 10000);
  for (std::size_t row = 0; row < all.size(); row += 3) all[row].launch.ball_speed = NAN;
  std::vector<std::atomic<int>> told(all.size());
  flown_by_all(all, WindProfile::uniform, Accuracy::fast, 4,
               [&](std::size_t row, const InputError&) { ++told[row]; });
  for (std::size_t row = 0; row < all.size(); ++row) CHECK(told[row] == (row % 3 == 0));
}

TEST_CASE("work in parallel is done once for every index, in chunks of any size") {
  for (const std::size_t chunk : std::array<std::size_t, 5>{1, 7, 64, 999, 5000}) {
    std::vector<int> times(1000, 0);
    parallel_for(
        times.size(), 4, [&](std::size_t i) { ++times[i]; }, chunk);
    for (const int n : times) CHECK(n == 1);
  }
}

TEST_CASE("the first failure of work in parallel comes back") {
  CHECK_THROWS_AS(parallel_for(1000, 4,
                               [](std::size_t i) {
                                 if (i == 700) throw std::runtime_error("700");
                               }),
                  std::runtime_error);
}

TEST_SUITE_END();
