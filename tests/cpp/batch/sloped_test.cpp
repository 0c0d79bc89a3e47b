#include <whimbrel/derivative/shot_inputs.hpp>

#include "agrees.hpp"
#include "batch/many_flights.hpp"

using namespace whimbrel;
using namespace whimbrel::test;

namespace {

constexpr std::size_t count = 1000;  // of each wind: at a step's tolerance of 1e-11 they take long

/// What each of the first inputs of a measured launch varies on: its own numbers, the ball's mass and radius.
constexpr std::array<double, inputs_a_pass> sizes{50.0, 0.5, 0.5, 500.0, 0.5, 500.0, 0.05, 0.02};

/// A case whose first inputs are those of the derivatives; or none is, for the values alone.
ShotInputs<Partials> in_partials(const Case& c, WindProfile profile, bool with_slopes) {
  ShotInputs<> inputs;
  inputs.measured = true;
  inputs.launch = c.launch;
  inputs.ball = c.ball;
  inputs.in_weather = false;
  inputs.setting = c.setting(profile);
  return lifted<Partials>(inputs, [&](std::size_t k, double x) {
    return with_slopes && k < sizes.size() ? Partials::input(x, static_cast<int>(k)) : Partials(x);
  });
}

Flight<Partials> flown_with_slopes(const Kernels& level, const ShotInputs<Partials>& inputs) {
  Flight<Partials> flight;
  unsigned char status = 0;
  FlightColumns columns;
  set_columns(columns, inputs.launch, inputs.ball, inputs.setting);
  set_columns(columns.flight, flight);
  columns.status = &status;
  const std::size_t row = 0;
  std::get<FlyKernel<MultiLayer>>(level.fly_sloped)({columns, sloped_tolerance, &row, 1}, MultiLayer{});
  flight.status = static_cast<Status>(status);
  return flight;
}

/// What a number of a flight is measured by: places by how long its way is.
double size_of(const Field<Flight<>, double>& field, const Flight<>& flight) {
  if (field.unit == "m") return 1.0 + flight.carry + std::abs(flight.apex);
  return 1.0 + std::abs(flight.*field.member);
}

/// The numbers of a flight with slopes are those of the flight without.
void are_the_same(const Flight<Partials>& sloped, const Flight<>& plain) {
  for (std::size_t i = 0; i < Flight<>::fields().size(); ++i) {
    const auto field = Flight<>::fields()[i];
    INFO(std::string(field.name));
    CHECK(agrees(value(sloped.*Flight<Partials>::fields()[i].member), plain.*field.member,
                 1e-9 * size_of(field, plain), 0));
  }
}

/// Differences of the slopes, each by the size of what it is a slope of.
void note_slopes_apart(const Flight<Partials>& a, const Flight<Partials>& b, const Flight<>& plain,
                       std::vector<double>& apart) {
  for (std::size_t i = 0; i < Flight<>::fields().size(); ++i)
    for (std::size_t k = 0; k < sizes.size(); ++k) {
      const auto slope = [&](const Flight<Partials>& flight) {
        return (flight.*Flight<Partials>::fields()[i].member).slope(static_cast<int>(k));
      };
      const double size = size_of(Flight<>::fields()[i], plain) / sizes[k] + std::abs(slope(a));
      apart.push_back(std::abs(slope(a) - slope(b)) / size);
    }
}

bool same_values(const Flight<Partials>& a, const Flight<Partials>& b) {
  for (const auto& field : Flight<Partials>::fields())
    if (!same_number(value(a.*field.member), value(b.*field.member))) return false;
  return a.status == b.status;
}

}  // namespace

TEST_CASE("a flight with slopes is the flight without them, by every instruction set") {
  std::vector<double> slopes_apart;
  for (const WindProfile profile : profiles) {
    const std::vector<Case> all = cases_in(profile, count);
    const Told plain = flown(std::get<FlyKernel<MultiLayer>>(kernels().fly_alone), all, profile, block_size,
                             sloped_tolerance);
    for (std::size_t row = 0; row < count; ++row) {
      INFO(described(all[row].launch), described(all[row].setting(profile)));
      const ShotInputs<Partials> inputs = in_partials(all[row], profile, true);
      const Flight<Partials> first = flown_with_slopes(kernels(), inputs);
      CHECK(same_values(first, flown_with_slopes(kernels(), in_partials(all[row], profile, false))));
      for (const Kernels* level : runnable_kernels()) {
        const Flight<Partials> sloped = flown_with_slopes(*level, inputs);
        REQUIRE(sloped.status == plain.status(row));
        if (sloped.status > Status::not_airborne) continue;
        are_the_same(sloped, plain.flight(row));
        note_slopes_apart(first, sloped, plain.flight(row), slopes_apart);
      }
    }
  }
  std::sort(slopes_apart.rbegin(), slopes_apart.rend());
  const double thousandth = slopes_apart[slopes_apart.size() / 1000];
  MESSAGE(slopes_apart.size(), " slopes; between instruction sets 99.9 % are within ", thousandth,
          ", all within ", slopes_apart.front());
  CHECK(thousandth < 1e-6);
  CHECK(slopes_apart.front() < 1e-3);  // at edges, where slopes jump
}

TEST_CASE("an impact alone with slopes is the impact in as many steps without them" *
          doctest::test_suite("each level")) {
  Random random{std::mt19937_64(7)};
  for (std::size_t i = 0; i < count; ++i) {
    ShotInputs<> inputs;
    inputs.swing = any_swing(random);
    inputs.ball = any_ball(random);
    if (first_mistake(inputs.swing, inputs.ball)) continue;
    INFO(described(inputs.swing), described(inputs.ball));
    const auto sloped = lifted<Partials>(inputs, [&](std::size_t k, double x) {
      return k < sizes.size() ? Partials::input(x, static_cast<int>(k)) : Partials(x);
    });
    const Launch<Partials> ours = strike_alone(sloped.swing, sloped.ball).launch;
    const Launch<> theirs = kernel::strike(inputs.swing, inputs.ball).launch;
    for (std::size_t k = 0; k < Launch<>::fields().size(); ++k) {
      const auto field = Launch<>::fields()[k];
      CHECK(agrees(value(ours.*Launch<Partials>::fields()[k].member), theirs.*field.member, 1e-9, 1e-9));
    }
  }
}
