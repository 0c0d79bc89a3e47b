#include "agrees.hpp"
#include "batch/many_strikes.hpp"

using namespace whimbrel;
using namespace whimbrel::test;

namespace {

constexpr std::array hands{Hand::right, Hand::left};
constexpr std::size_t impacts = 50000;  // of each hand

}  // namespace

TEST_CASE("impacts in lanes of every instruction set and single impacts agree") {
  for (const Hand hand : hands) {
    Strikes first(impacts, hand);
    strike(first, kernels().strike);
    for (const Kernels* level : runnable_kernels())
      for (const StrikeKernel kernel : {level->strike, level->strike_alone}) {
        Strikes again(impacts, hand);
        strike(again, kernel);
        CAPTURE(level->level);
        CHECK(apart(first, again, 1e-9) == 0);
      }
  }
}

TEST_CASE("an impact does not depend on the block it is struck in") {
  Strikes whole(impacts);
  strike(whole, kernels().strike);
  for (const std::size_t block : {std::size_t{1}, std::size_t{7}, std::size_t{100}}) {
    Strikes again(impacts);
    strike(again, kernels().strike, block);
    CHECK(identical(whole, again));
  }
}

TEST_CASE("launches in lanes are within 0.02 % of contacts in many more steps" *
          doctest::test_suite("each level")) {
  double compared = 0, at_an_edge = 0;
  for (const Hand hand : hands) {
    Strikes fast(impacts, hand);
    strike(fast);
    for (std::size_t i = 0; i < fast.count(); ++i) {
      if (fast.is_bad(i)) {
        CHECK(std::isnan(fast.launch(i).ball_speed));
        continue;
      }
      const auto in_steps = [&](int steps) {
        return kernel::strike(fast.swings[i], fast.balls[i], steps).launch;
      };
      const Launch<> exact = in_steps(contact_steps);
      if (!(exact.spin_rate > 10.0)) continue;  // the axis of hardly any spin is not sure to 2e-4
      ++compared;
      if (close(exact, fast.launch(i), 2e-4)) continue;
      ++at_an_edge;  // of sticking, where the reference itself is no more exact
      INFO("impact ", i, ": ", described(fast.swings[i]), described(fast.balls[i]));
      CHECK(close(in_steps(1000), fast.launch(i), 2e-4));
    }
  }
  CHECK(compared > 1.8 * impacts);
  CHECK(at_an_edge < 1e-4 * compared);
}

TEST_CASE("the rigid model in lanes is the rigid model") {
  Strikes fast(3000, Hand::right, ImpactModel::rigid);
  for (Swing<>& swing : fast.swings) swing.delivery.strike_toe = swing.delivery.strike_high = 0.0;
  strike(fast, 1);
  for (std::size_t i = 0; i < fast.count(); ++i)
    if (!fast.is_bad(i))
      CHECK(close(kernel::strike(fast.swings[i], fast.balls[i]).launch, fast.launch(i), 1e-12));
}
