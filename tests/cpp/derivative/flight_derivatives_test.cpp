#include "differences.hpp"

using namespace whimbrel;
using namespace whimbrel::test;

TEST_SUITE_BEGIN("each level");

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

}  // namespace

TEST_CASE("the derivatives of a flight are the central differences of closer flights") {
  const std::vector<NamedNumber> inputs = inputs_of(measured({}));
  std::vector<std::size_t> by;
  for (const Varied& input : varied) by.push_back(place_of(input.name, inputs));
  Compared compared;
  for (unsigned seed = 0; seed < 200; ++seed) {
    Random random{std::mt19937_64(seed)};
    const Differentiated of{any_measured(random), by};
    INFO("random case ", seed, ": ", described(of.shot.launch), described(of.shot.setting));
    REQUIRE(of.told.status == of.here.status);
    for (std::size_t k = 0; k < by.size(); ++k)
      check_slopes(of, k, varied[k].scale, 1e-3 * varied[k].scale, compared);
  }
  MESSAGE(compared.all, " derivatives, ", compared.doubtful,
          " whose differences are doubtful to more than 1e-6");
  CHECK(compared.doubtful < 0.05 * compared.all);
  CHECK(compared.apart < 1e-4 * compared.all);
}

TEST_SUITE_END();
