#include <map>
#include <mutex>

#include "batch/many_flights.hpp"
#include "batch/many_strikes.hpp"
#include "shots.hpp"

using namespace whimbrel;
using namespace whimbrel::test;

namespace {

constexpr std::size_t rows = 1000;

/// Rows by the field that is wrong in them.
using Wrong = std::map<std::size_t, std::string>;

/// Puts no number, and absurd ones, into every field of a value in turn: each into a row of its own, some
/// rows apart from the one before.
class Spoiler {
 public:
  /// `part(row)` is the value, of that row.
  template <class Part>
  void spoil(const Part& part) {
    using Value = std::remove_reference_t<decltype(part(0))>;
    for (const auto& field : Value::fields())
      for (const double absurd : std::array<double, 3>{NAN, -1e30, 1e30}) {
        if (absurd >= field.lower && absurd <= field.upper) continue;
        next += 5;
        REQUIRE(next < rows);
        part(next).*field.member = absurd;
        wrong[next] = field.name;
      }
  }
  Wrong wrong;

 private:
  std::size_t next = 0;
};

/// Hears of bad rows from any thread.
struct Heard {
  Wrong wrong;
  std::mutex one_at_a_time;

  MistakeSink sink() {
    return [this](std::size_t row, const InputError& error) {
      const std::lock_guard lock(one_at_a_time);
      CHECK(wrong.emplace(row, error.field).second);
    };
  }
};

template <std::size_t N>
bool same_bits(const std::array<double, N>& a, const std::array<double, N>& b) {
  return std::memcmp(a.data(), b.data(), sizeof a) == 0;
}

template <std::size_t N>
bool all_nan(const std::array<double, N>& numbers) {
  return std::all_of(numbers.begin(), numbers.end(), [](double x) { return std::isnan(x); });
}

/// The wrong rows are no numbers, the others as they were.
template <class Numbers>
void only_wrong_rows_differ(const Numbers& before, const Numbers& after, const Wrong& wrong) {
  for (std::size_t row = 0; row < rows; ++row) {
    CAPTURE(row);
    CHECK((wrong.contains(row) ? all_nan(after[row]) : same_bits(after[row], before[row])));
  }
}

/// All that is told of a shot but its trajectory.
std::array<double, 28> numbers_of(const Row& row) {
  std::array<double, 28> numbers{};
  double* number = numbers.data();
  const auto note = [&](const auto& value) {
    for (const auto& field : std::remove_cvref_t<decltype(value)>::fields()) *number++ = value.*field.member;
  };
  note(row.shot.launch);
  note(row.shot.flight);
  note(row.shot.landing);
  note(row.shot.run);
  REQUIRE(number == numbers.data() + numbers.size());
  return numbers;
}

/// Plays starts with and without rows that `spoil(spoiler, starts)` makes wrong.
template <class Start, class Spoil>
void wrong_starts_stay_alone(std::vector<Start> starts, const Spoil& spoil) {
  const std::vector<Row> before = play_all<Start>(starts);
  Spoiler spoiler;
  spoil(spoiler, starts);
  const std::vector<Row> after = play_all<Start>(starts);
  for (std::size_t row = 0; row < rows; ++row) {
    const bool wrong = spoiler.wrong.contains(row);
    CAPTURE(row);
    if (wrong || before[row].error) {
      REQUIRE(after[row].error);
      CHECK(after[row].error->field == (wrong ? spoiler.wrong[row] : before[row].error->field));
      CHECK(after[row].shot.flight.status == Status::bad_input);
      CHECK(after[row].shot.run.status == Status::bad_input);
      CHECK(all_nan(numbers_of(after[row])));
    } else {
      CHECK(!after[row].error);
      CHECK(after[row].shot.flight.status == before[row].shot.flight.status);
      CHECK(same_bits(numbers_of(after[row]), numbers_of(before[row])));
    }
  }
}

template <class Make>
auto many(const Make& make) {
  Random random{std::mt19937_64(1)};
  std::vector<decltype(make(random))> all;
  while (all.size() < rows) all.push_back(make(random));
  return all;
}

}  // namespace

TEST_CASE("a flight with any number missing or absurd is refused by name, and no other changes") {
  std::vector<Case> cases = cases_in(WindProfile::logarithmic, rows);
  const Told before = flown_by_all(cases, WindProfile::logarithmic);
  Spoiler spoiler;
  spoiler.spoil([&](std::size_t row) -> Launch<>& { return cases[row].launch; });
  spoiler.spoil([&](std::size_t row) -> Ball<>& { return cases[row].ball; });
  spoiler.spoil([&](std::size_t row) -> Air<>& { return cases[row].air; });
  spoiler.spoil([&](std::size_t row) -> Wind<>& { return cases[row].wind; });
  spoiler.spoil([&](std::size_t row) -> Terrain<>& { return cases[row].terrain; });
  for (const Accuracy accuracy : {Accuracy::fast, Accuracy::reference}) {
    Heard heard;
    const Told after = flown_by_all(cases, WindProfile::logarithmic, accuracy, 0, heard.sink());
    CHECK(heard.wrong == spoiler.wrong);
    for (std::size_t row = 0; row < rows; ++row)
      CHECK((after.status(row) == Status::bad_input) == spoiler.wrong.contains(row));
    if (accuracy == Accuracy::fast) only_wrong_rows_differ(before.numbers, after.numbers, spoiler.wrong);
  }
}

TEST_CASE("an impact with any number missing or absurd is refused by name, and no other changes") {
  Strikes strikes(rows);
  Heard before;
  strike(strikes, 0, before.sink());
  const auto as_they_were = strikes.told;
  Spoiler spoiler;
  spoiler.spoil([&](std::size_t row) -> Delivery<>& { return strikes.swings[row].delivery; });
  spoiler.spoil([&](std::size_t row) -> Club<>& { return strikes.swings[row].club; });
  spoiler.spoil([&](std::size_t row) -> Ball<>& { return strikes.balls[row]; });
  Heard after;
  strike(strikes, 0, after.sink());
  Wrong wrong = spoiler.wrong;
  wrong.merge(Wrong(before.wrong));
  CHECK(after.wrong == wrong);
  only_wrong_rows_differ(as_they_were, strikes.told, wrong);
}

TEST_CASE("a shot with any number missing or absurd is refused by name, and no other changes") {
  wrong_starts_stay_alone(many(any_launch), [](Spoiler& spoiler, std::vector<Launch<>>& launches) {
    spoiler.spoil([&](std::size_t row) -> Launch<>& { return launches[row]; });
  });
  wrong_starts_stay_alone(many(any_landing), [](Spoiler& spoiler, std::vector<Landing<>>& landings) {
    spoiler.spoil([&](std::size_t row) -> Landing<>& { return landings[row]; });
  });
  wrong_starts_stay_alone(many(any_swing), [](Spoiler& spoiler, std::vector<Swing<>>& swings) {
    spoiler.spoil([&](std::size_t row) -> Delivery<>& { return swings[row].delivery; });
    spoiler.spoil([&](std::size_t row) -> Club<>& { return swings[row].club; });
  });
}

TEST_CASE("any wrong number of the ball, the setting or the turf is refused by name in every row") {
  struct World {
    Ball<> ball;
    Setting<> setting;
    Turf<> turf;
  };
  std::vector<World> worlds(rows);
  Spoiler spoiler;
  spoiler.spoil([&](std::size_t k) -> Ball<>& { return worlds[k].ball; });
  spoiler.spoil([&](std::size_t k) -> Air<>& { return worlds[k].setting.air; });
  spoiler.spoil([&](std::size_t k) -> Wind<>& { return worlds[k].setting.wind; });
  spoiler.spoil([&](std::size_t k) -> Terrain<>& { return worlds[k].setting.terrain; });
  spoiler.spoil([&](std::size_t k) -> Turf<>& { return worlds[k].turf; });
  const std::vector<Launch<>> launches(3, drive);
  for (const auto& [k, field] : spoiler.wrong) {
    const World& world = worlds[k];
    for (const Row& row : play_all<Launch<>>(launches, world.ball, world.setting, world.turf, 1)) {
      REQUIRE(row.error);
      CHECK(row.error->field == field);
    }
  }
}

TEST_CASE("a flight at the end of any accepted range has a status of its own, and no other changes") {
  std::vector<Case> cases = cases_in(WindProfile::power_law, rows);
  const Told before = flown_by_all(cases, WindProfile::power_law);
  std::vector<bool> extreme(rows);
  std::size_t next = 0;
  const auto push = [&]<class Value>(Value Case::*part) {
    for (const auto& field : Value::fields())
      for (const double end : {field.lower, field.upper}) {
        (cases[next].*part).*field.member = end;
        cases[next].launch.axial_spin_rate = 0.0;
        extreme[next] = true;
        next += 7;
      }
  };
  push(&Case::launch);
  push(&Case::ball);
  push(&Case::air);
  push(&Case::wind);
  push(&Case::terrain);
  const Told after = flown_by_all(cases, WindProfile::power_law);
  for (std::size_t row = 0; row < rows; ++row) {
    INFO(row, ": ", described(cases[row].launch), described(cases[row].setting(WindProfile::power_law)));
    if (!extreme[row]) {
      CHECK(same_bits(after.numbers[row], before.numbers[row]));
      continue;
    }
    const Flight<> flight = after.flight(row);
    CHECK(flight.status != Status::bad_input);
    for (const auto& field : Flight<>::fields())
      CHECK(std::isfinite(flight.*field.member) == (flight.status <= Status::not_airborne));
  }
}
