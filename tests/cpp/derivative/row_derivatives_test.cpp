#include "differences.hpp"

using namespace whimbrel;
using namespace whimbrel::test;

TEST_SUITE_BEGIN("each level");

namespace {

constexpr std::size_t deciding =
    Delivery<>::fields().size() + Club<>::fields().size() + Ball<>::fields().size();

/// A swing struck anywhere on the face, in wind and weather, onto a slope.
ShotInputs<> any_played(Random& random) {
  ShotInputs<> inputs;
  inputs.swing = any_swing(random);
  inputs.ball = any_ball(random);
  inputs.setting = any_setting(random);
  inputs.weather = {random.between(270, 310), random.between(8e4, 1.03e5), random.between(0.1, 0.9)};
  return inputs;
}

double number_of(const ShotInputs<>& inputs, std::size_t k) {
  double number = NAN;
  lifted<double>(inputs, [&](std::size_t i, double x) { return i == k ? number = x : x; });
  return number;
}

}  // namespace

TEST_CASE("derivatives by delivery, club and ball reach through impact and flight to the landing") {
  Compared compared;
  double flagged = 0, grounded = 0;
  constexpr unsigned shots = 200;
  for (unsigned seed = 0; seed < shots; ++seed) {
    Random random{std::mt19937_64(seed)};
    const ShotInputs<> shot = any_played(random);
    if (mistake(shot)) continue;
    INFO("random case ", seed, ": ", described(shot.swing), described(shot.setting));
    std::vector<std::size_t> by;
    for (std::size_t k = 0; k < deciding; ++k)
      if (std::isfinite(number_of(shot, k)) && number_of(shot, k) != 0.0) by.push_back(k);
    const Differentiated of{shot, by};
    REQUIRE(of.told.status == of.here.status);
    flagged += of.told.kinks.contact;
    grounded += of.here.status != Status::ok;
    if (of.told.kinks.contact || of.here.status != Status::ok) continue;
    for (std::size_t k = 0; k < by.size(); ++k) {
      const double size = kernel::size_of(number_of(shot, by[k]), inputs_of(shot)[by[k]].unit);
      check_slopes(of, k, size, 0.5 * nearly * size, compared);
    }
  }
  MESSAGE(compared.all, " derivatives, ", compared.doubtful,
          " whose differences are doubtful to more than 1e-6; of ", shots, " shots ", flagged,
          " at a kink of the contact, ", grounded, " without a flight");
  CHECK(compared.doubtful < 0.05 * compared.all);
  CHECK(compared.apart < 1e-4 * compared.all);
  CHECK(flagged < 0.1 * shots);
  CHECK(grounded < 0.1 * shots);
}

TEST_SUITE_END();
