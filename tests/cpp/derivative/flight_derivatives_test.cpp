#include "differences.hpp"

using namespace whimbrel;
using namespace whimbrel::test;

namespace {

/// An input and what it varies on, SI.
struct Varied {
  std::string_view name;
  double scale;
};

constexpr std::array varied{
    Varied{"ball_speed", 50.0},    Varied{"launch_angle", 0.5},      Varied{"launch_direction", 0.5},
    Varied{"spin_rate", 500.0},    Varied{"spin_axis_tilt", 0.5},    Varied{"axial_spin_rate", 500.0},
    Varied{"ball mass", 0.05},     Varied{"ball radius", 0.02},      Varied{"temperature", 288.0},
    Varied{"pressure", 1e5},       Varied{"relative_humidity", 1.0}, Varied{"wind speed", 10.0},
    Varied{"from_direction", 0.5}, Varied{"roughness_length", 0.1},  Varied{"tee_height", 1.0},
    Varied{"height", 10.0},        Varied{"slope_right", 0.5},       Varied{"slope_downrange", 0.5}};

ShotInputs<> any_measured(Random& random) {
  ShotInputs<> inputs = measured(any_launch(random));
  inputs.setting = any_setting(random);
  inputs.weather = {random.between(270, 310), random.between(8e4, 1.03e5), random.between(0.1, 0.9)};
  return inputs;
}

std::size_t place_of(std::string_view name, const std::vector<NamedNumber>& among) {
  for (std::size_t k = 0; k < among.size(); ++k)
    if (among[k].name == name) return k;
  FAIL("no number is called ", std::string(name));
  return 0;
}

}  // namespace

TEST_CASE("the derivatives of a flight are the central differences of closer flights") {
  const ShotInputs<> like = measured({});
  const std::vector<NamedNumber> inputs = inputs_of(like), results = results_of(like);
  const std::size_t carry = place_of("carry", results);
  std::vector<std::size_t> by;
  for (const Varied& input : varied) by.push_back(place_of(input.name, inputs));
  double compared = 0, doubtful = 0;
  for (unsigned seed = 0; seed < 200; ++seed) {
    Random random{std::mt19937_64(seed)};
    const ShotInputs<> shot = any_measured(random);
    INFO("random case ", seed, ": ", described(shot.launch), described(shot.setting));
    const Sensitivity told = sensitivity(shot, by);
    const Flight<> here = closely_flown(shot);
    REQUIRE(told.status == here.status);
    // At an edge of the model's range the slopes jump: the method, and the differences, lose an order.
    const bool left = here.out_of_range.spin_ratio != 0 || here.out_of_range.reynolds != 0;
    const double accuracy = left ? 1e-5 : 1e-6;
    // Differences over h and 0.3 h that disagree by d are off by up to d / 0.7, where a kink makes their
    // error go with h.
    for (std::size_t k = 0; k < by.size(); ++k) {
      const auto flown = [&](double step) { return closely_flown(moved(shot, by[k], step)); };
      const auto wide = around(flown, 1e-3 * varied[k].scale), narrow = around(flown, 3e-4 * varied[k].scale);
      for (std::size_t i = 0; i < Flight<>::fields().size(); ++i) {
        const auto field = Flight<>::fields()[i];
        const double ours = told.slopes[(carry + i) * by.size() + k];
        const double theirs = slope(wide, field.member),
                     doubt = std::abs(theirs - slope(narrow, field.member));
        const double size = scale_of(field, here) / varied[k].scale + std::abs(theirs);
        INFO(std::string(field.name), " by ", std::string(varied[k].name));
        CHECK(agrees(ours, theirs, accuracy * size + 1.5 * doubt, 0));
        ++compared;
        doubtful += doubt > 1e-6 * size;
      }
    }
  }
  MESSAGE(compared, " derivatives, ", doubtful, " whose differences are doubtful to more than 1e-6");
  CHECK(doubtful < 0.05 * compared);
}
