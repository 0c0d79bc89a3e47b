#include "differences.hpp"

using namespace whimbrel;
using namespace whimbrel::test;

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
  double compared = 0, doubtful = 0, flagged = 0, grounded = 0;
  constexpr unsigned shots = 200;
  for (unsigned seed = 0; seed < shots; ++seed) {
    Random random{std::mt19937_64(seed)};
    const ShotInputs<> shot = any_played(random);
    if (mistake(shot)) continue;
    INFO("random case ", seed, ": ", described(shot.swing), described(shot.setting));
    const std::vector<NamedNumber> inputs = inputs_of(shot), results = results_of(shot);
    std::vector<std::size_t> by;
    for (std::size_t k = 0; k < deciding; ++k)
      if (std::isfinite(number_of(shot, k)) && number_of(shot, k) != 0.0) by.push_back(k);
    const Sensitivity told = sensitivity(shot, by);
    const Flight<> here = closely_flown(shot);
    REQUIRE(told.status == here.status);
    flagged += told.kinks.contact;
    grounded += here.status != Status::ok;
    if (told.kinks.contact || here.status != Status::ok) continue;
    std::size_t carry = 0;
    while (results[carry].name != "carry") ++carry;
    const bool left = here.out_of_range.spin_ratio != 0 || here.out_of_range.reynolds != 0;
    const double accuracy = left ? 1e-5 : 1e-6;
    for (std::size_t k = 0; k < by.size(); ++k) {
      const double size = kernel::size_of(number_of(shot, by[k]), inputs[by[k]].unit);
      const auto flown = [&](double step) { return closely_flown(moved(shot, by[k], step)); };
      const auto wide = around(flown, 0.5 * nearly * size), narrow = around(flown, 0.15 * nearly * size);
      for (std::size_t i = 0; i < Flight<>::fields().size(); ++i) {
        const auto field = Flight<>::fields()[i];
        const double ours = told.slopes[(carry + i) * by.size() + k];
        const double theirs = slope(wide, field.member),
                     doubt = std::abs(theirs - slope(narrow, field.member));
        const double scale = scale_of(field, here) / size + std::abs(theirs);
        INFO(std::string(field.name), " by ", std::string(inputs[by[k]].name));
        CHECK(agrees(ours, theirs, accuracy * scale + 1.5 * doubt, 0));
        ++compared;
        doubtful += doubt > 1e-6 * scale;
      }
    }
  }
  MESSAGE(compared, " derivatives, ", doubtful, " whose differences are doubtful to more than 1e-6; of ",
          shots, " shots ", flagged, " at a kink of the contact, ", grounded, " without a flight");
  CHECK(doubtful < 0.05 * compared);
  CHECK(flagged < 0.1 * shots);
  CHECK(grounded < 0.1 * shots);
}
