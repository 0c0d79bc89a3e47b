#include <doctest/doctest.h>

#include <limits>

#include "agrees.hpp"
#include "random_cases.hpp"
#include "shots.hpp"

using namespace whimbrel;
using namespace whimbrel::test;

namespace {

/// Rising along both axes, with random steps.
AeroTable rising_table(std::mt19937_64::result_type seed) {
  Random random{std::mt19937_64(seed)};
  AeroTable table{.spin_ratio = {0.0, 0.08, 0.2, 0.5}, .reynolds = {4e4, 8e4, 1.1e5, 2e5}};
  const std::size_t columns = table.reynolds.size();
  table.drag.assign(table.spin_ratio.size() * columns, 0.2);
  for (std::size_t i = 0; i < table.drag.size(); ++i) {
    const double below = i >= columns ? table.drag[i - columns] : 0.2;
    const double before = i % columns > 0 ? table.drag[i - 1] : 0.2;
    table.drag[i] = std::max(below, before) + random.between(0, 0.1);
  }
  table.lift = table.drag;
  return table;
}

std::string message(const AeroTable& table) {
  const auto error = mistake(table);
  return error ? error->what() : "no mistake";
}

}  // namespace

TEST_CASE("a table gives back its own values at its knots") {
  const AeroTable table = rising_table(7);
  for (std::size_t i = 0; i < table.spin_ratio.size(); ++i)
    for (std::size_t j = 0; j < table.reynolds.size(); ++j) {
      const auto at = table.coefficients(table.spin_ratio[i], table.reynolds[j]);
      CHECK(agrees(at.drag, table.drag[i * table.reynolds.size() + j], 1e-14, 0));
      CHECK(agrees(at.lift, table.lift[i * table.reynolds.size() + j], 1e-14, 0));
    }
}

TEST_CASE("a table that rises along its knots rises between them") {
  in_random_cases([](Random& random) { return std::tuple(random.engine()); },
                  [](auto seed) {
                    const AeroTable table = rising_table(seed);
                    const auto drag = [&](double W, double Re) { return table.coefficients(W, Re).drag; };
                    for (const double Re : table.reynolds)
                      for (double W = 0; W < 0.5; W += 0.02) CHECK(drag(W + 0.02, Re) >= drag(W, Re) - 1e-14);
                    for (const double W : table.spin_ratio)
                      for (double Re = 4e4; Re < 2e5; Re += 4e3)
                        CHECK(drag(W, Re + 4e3) >= drag(W, Re) - 1e-14);
                  });
}

TEST_CASE("a table of constants flies as the constants do") {
  const AeroTable table{.drag = {0.25, 0.25}, .lift = {0.15, 0.15}, .spin_decay = 0.0};
  const double expected = fly(drive, ball_with(ConstantCoefficients{})).carry;
  CHECK(agrees(fly(drive, ball_with(table)).carry, expected, 1e-9, 0));
}

TEST_CASE("a table with one Reynolds number is the same at every speed") {
  const AeroTable table;
  CHECK(table.coefficients(0.4, 3e4).drag == table.coefficients(0.4, 2e5).drag);
  CHECK(table.coefficients(0.4, 3e4).lift == table.coefficients(0.4, 2e5).lift);
  CHECK(fly(mid_iron, ball_with(table)).out_of_range.reynolds == 0.0);
}

TEST_CASE("a table sampled from the default ball flies like it") {
  AeroTable table{.spin_ratio = {}, .reynolds = {}, .drag = {}, .lift = {}};
  for (int i = 0; i <= 78; ++i) table.spin_ratio.push_back(0.02 + 0.01 * i);
  for (int i = 0; i <= 42; ++i) table.reynolds.push_back(3e4 + 5e3 * i);
  for (const double W : table.spin_ratio)
    for (const double Re : table.reynolds) {
      table.drag.push_back(MultiLayer{}.coefficients(W, Re).drag);
      table.lift.push_back(MultiLayer{}.coefficients(W, Re).lift);
    }
  for (const Launch<>& launch : club_launches)
    CHECK(agrees(fly(launch, ball_with(table)).carry, fly(launch).carry, 0.05, 0));
}

TEST_CASE("a bad table is refused") {
  constexpr double nan_ = std::numeric_limits<double>::quiet_NaN();
  CHECK(message(AeroTable{}) == "no mistake");
  const std::string axis = "spin_ratio of the table: needs two or more increasing values from 0 up";
  CHECK(message(AeroTable{.spin_ratio = {0.0}, .drag = {0.2}, .lift = {0.1}}) == axis);
  CHECK(message(AeroTable{.spin_ratio = {1.0, 0.0}}) == axis);
  CHECK(message(AeroTable{.spin_ratio = {0.5, 0.5}}) == axis);
  CHECK(message(AeroTable{.spin_ratio = {-0.1, 0.5}}) == axis);
  CHECK(message(AeroTable{.spin_ratio = {0.0, nan_}}) == axis);
  CHECK(message(AeroTable{.spin_ratio = {}, .drag = {}, .lift = {}}) == axis);
  CHECK(message(AeroTable{.reynolds = {}, .drag = {}, .lift = {}}) ==
        "reynolds of the table: needs increasing values from 0 up");
  CHECK(message(AeroTable{.drag = {0.2}}) ==
        "drag and lift of the table: need one value for each spin ratio and Reynolds number (2)");
  CHECK(message(AeroTable{.drag = {0.2, nan_}}) == "drag of the table is nan; accepted: 0 to 2");
  CHECK(message(AeroTable{.drag = {0.2, -0.01}}) == "drag of the table is -0.01; accepted: 0 to 2");
  CHECK(message(AeroTable{.lift = {0.2, 11.0}}) == "lift of the table is 11; accepted: -2 to 2");
  CHECK(message(AeroTable{.lift = {0.2, -2.01}}) == "lift of the table is -2.01; accepted: -2 to 2");
  CHECK(message(AeroTable{.lift = {0.2, 2.01}}) == "lift of the table is 2.01; accepted: -2 to 2");
  CHECK(message(AeroTable{.drag = {0.0, 2.0}, .lift = {-2.0, 2.0}}) == "no mistake");
  CHECK(message(AeroTable{.drag = {0.2, 2.01}}) == "drag of the table is 2.01; accepted: 0 to 2");
  CHECK(message(AeroTable{.spin_decay = nan_}) == "spin_decay is nan; accepted: 0 to 0.0001");
  CHECK_THROWS_AS(fly(drive, ball_with(AeroTable{.drag = {0.2}})), InputError);
}
