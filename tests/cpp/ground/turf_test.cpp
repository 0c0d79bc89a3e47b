#include <doctest/doctest.h>

#include <set>

#include "agrees.hpp"
#include "random_cases.hpp"

using namespace whimbrel;
using namespace whimbrel::test;

namespace {

template <class Value>
std::string refusal(const Value& value) {
  const auto error = mistake(value);
  return error ? error->what() : "accepted";
}

}  // namespace

TEST_CASE("the measured turf gives back less of a faster ball, and the same of all from 20 m/s on") {
  // Worked by hand from Penner's parabola, printed to four places.
  const Turf<> turf;
  CHECK(agrees(turf_restitution(turf, 10.0), 0.2253, 5e-5, 0));
  CHECK(agrees(turf_restitution(turf, 18.6), 0.1249, 5e-5, 0));
  CHECK(agrees(turf_restitution(turf, 20.0), 0.1212, 5e-5, 0));
  CHECK(turf_restitution(turf, 0.0) == 0.510);
  for (double v = 0.0; v < 20.0; v += 0.1) CHECK(turf_restitution(turf, v) > turf_restitution(turf, v + 0.1));
  for (const double v : {20.5, 30.0, 60.0})
    CHECK(agrees(turf_restitution(turf, v), turf_restitution(turf, 20.0), 1e-15, 0));
}

TEST_CASE("a scale multiplies the restitution, and no accepted scale reaches 1") {
  for (const auto& field : Turf<>::fields())
    if (field.name == "restitution_scale") {
      const Turf<> liveliest{.restitution_scale = field.upper};
      CHECK(turf_restitution(liveliest, 0.0) < 1.0);
      CHECK(
          agrees(turf_restitution(liveliest, 7.0), field.upper * turf_restitution(Turf<>{}, 7.0), 0, 1e-15));
    }
}

TEST_CASE("the default turf is the first of the set, and every name finds its own") {
  const auto set = turf_set();
  CHECK(set[0].name == Turf<>{}.name);
  std::set<std::string> names;
  for (const Turf<>& turf : set) {
    names.insert(turf.name);
    CHECK(!mistake(turf));
    const Turf<> found = shipped_turf(turf.name);
    for (const auto& field : Turf<>::fields()) CHECK(found.*field.member == turf.*field.member);
  }
  CHECK(names.size() == set.size());
}

TEST_CASE("a name that no turf has is refused with the names there are") {
  try {
    shipped_turf("bunker");
    FAIL("a turf of that name was found");
  } catch (const InputError& error) {
    const std::string said = error.what();
    CHECK(said ==
          "turf: no turf is called \"bunker\"; there are: firm fairway, soft fairway, rough, soft green, "
          "medium green, firm green");
  }
}

TEST_CASE("a green of ten feet slows a rolling ball by 0.549 m/s each second") {
  // v^2 / 2 d of 1.83 m/s and 3.048 m.
  CHECK(agrees(turf_of(Green<>{}).rolling_deceleration, 0.549, 5e-4, 0));
  CHECK(Green<>{}.stimp == 10 * units::ft);
  in_random_cases([](Random& random) { return std::tuple(random.between(1, 6)); },
                  [](double stimp) {
                    const double a = turf_of(Green<>{.stimp = stimp}).rolling_deceleration;
                    CHECK(agrees(stimpmeter_release * stimpmeter_release / (2 * a), stimp, 0, 1e-14));
                  });
}

TEST_CASE("a firmer green gives back more and leans back less") {
  for (double firmness = 0.0; firmness < 0.95; firmness += 0.1) {
    const Turf<> soft = turf_of(Green<>{.firmness = firmness}),
                 firm = turf_of(Green<>{.firmness = firmness + 0.1});
    CHECK(firm.restitution_scale > soft.restitution_scale);
    CHECK(firm.tilt_scale < soft.tilt_scale);
    CHECK(firm.rolling_deceleration == soft.rolling_deceleration);
  }
}

TEST_CASE("turf that cannot be is refused with field, value and range") {
  CHECK(refusal(Turf<>{.restitution_scale = 2.0}) == "restitution_scale is 2; accepted: 0 to 1.9");
  CHECK(refusal(Turf<>{.friction = -0.1}) == "turf friction is -0.1; accepted: 0 to 2");
  CHECK(refusal(Turf<>{.tilt_scale = 3.5}) == "tilt_scale is 3.5; accepted: 0 to 3");
  CHECK(refusal(Turf<>{.rolling_deceleration = -1.0}) ==
        "rolling_deceleration is -1 m/s^2; accepted: 0 m/s^2 to 20 m/s^2");
  CHECK(refusal(Turf<>{.friction = NAN}) == "turf friction is nan; accepted: 0 to 2");
  CHECK(refusal(Green<>{.stimp = 0.5}) == "stimp is 0.5 m; accepted: 1 m to 6 m");
  CHECK(refusal(Green<>{.firmness = 1.1}) == "firmness is 1.1; accepted: 0 to 1");
  CHECK(refusal(Turf<>{}) == "accepted");
  CHECK_THROWS_WITH_AS(play(Landing<>{.landing_speed = 10.0}, {}, {}, Turf<>{.friction = 3.0}),
                       "turf friction is 3; accepted: 0 to 2", InputError);
}
