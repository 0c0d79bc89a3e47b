#include <doctest/doctest.h>

#include "agrees.hpp"

using namespace whimbrel;
using namespace whimbrel::test;
using namespace whimbrel::literals;

namespace {

const Launch<> drive{.ball_speed = 167_mph, .launch_angle = 11_deg, .spin_rate = 2700_rpm};

const Club<> driver = club_set()[0];
const Delivery<> driven = usual_delivery(driver, Pace<>{113_mph});

}  // namespace

TEST_CASE("the weights of a source add up to 1 a constant, so that they make a variance of squared changes") {
  std::array<double, doubt_source_count> weights{};
  for (const World& world : worlds(MultiLayer{}))
    weights[static_cast<std::size_t>(world.source)] += world.weight;
  for (const DoubtSource source : {DoubtSource::contact, DoubtSource::flight_constants, DoubtSource::ball})
    CHECK(agrees(weights[static_cast<std::size_t>(source)], 1.0, 1e-12, 0.0));
  const double of_laws = weights[static_cast<std::size_t>(DoubtSource::flight_law)];
  CHECK(agrees(of_laws + flight_laws[0].weight, 1.0, 2e-3, 0.0));  // to the digits printed
  CHECK(agrees(weights[static_cast<std::size_t>(DoubtSource::turf)], 4.0, 1e-12, 0.0));  // of four constants
}

TEST_CASE("a world leads nowhere that is refused") {
  Ball<> ball;
  ball.contact_stiffness_ratio = 2.0;
  Club<> club = driver;
  club.face_restitution = 1.0;
  Turf<> turf;
  turf.restitution_scale = 1.9;
  for (const World& world : worlds(MultiLayer{}))
    CHECK_FALSE(first_mistake(in_world(world, ball), in_world(world, club), in_world(world, turf)));
}

TEST_CASE("where a world has no place of rest, or no landing, how sure a number is is not known") {
  const Launch<> high{.ball_speed = 120_mph, .launch_angle = 16.5_deg, .spin_rate = 7100_rpm};
  Setting<> uphill;
  uphill.terrain.height = 33_yd;  // as high as the ball climbs, or nearly
  const Doubt doubt = whimbrel::doubt(high, Ball<>{}, uphill);
  CHECK(std::isnan(doubt.all.flight.carry));
}

TEST_CASE("each draw of the constants has its opposite, a standard deviation to either side") {
  // Mean 0 and as large to either side, to rounding: of the logarithm of a factor, of a restitution as it is.
  std::array<double, 3> mean{}, most{}, least{};
  double turf_mean = 0.0;
  std::array<double, 8> flight_mean{};
  constexpr auto fields = MultiLayer::fields();
  const MultiLayer usual;
  for (const World& world : worlds(usual)) {
    const std::array contact{std::log(world.contact_stiffness_factor), std::log(world.friction_factor),
                             world.restitution_change};
    for (std::size_t i = 0; i < 3; ++i) {
      mean[i] += world.weight * contact[i];
      most[i] = std::max(most[i], contact[i]);
      least[i] = std::min(least[i], contact[i]);
    }
    for (const double factor : world.turf_factors) turf_mean += world.weight * std::log(factor);
    if (world.source != DoubtSource::flight_constants && world.source != DoubtSource::ball) continue;
    const auto& model = std::get<MultiLayer>(world.aero);
    for (std::size_t i = 0; i < fields.size(); ++i)
      flight_mean[i] += world.weight * std::log(model.*fields[i].member / (usual.*fields[i].member));
  }
  for (std::size_t i = 0; i < 3; ++i) {
    CHECK(most[i] > 0.0);
    CHECK(agrees(most[i], -least[i], 1e-15, 0));
    CHECK(agrees(mean[i], 0.0, 1e-15, 0));
  }
  CHECK(agrees(turf_mean, 0.0, 1e-15, 0));
  for (const double x : flight_mean) CHECK(agrees(x, 0.0, 1e-14, 0));
}

TEST_CASE("a drive's carry spreads by 5.4 m from ball to ball, its run by 5 yd from turf to turf") {
  const Doubt doubt = whimbrel::doubt(drive);
  CHECK(agrees(doubt.from(DoubtSource::ball).flight.carry, 18.0 / 3.336, 0.02, 0.0));
  CHECK(agrees(doubt.from(DoubtSource::turf).run.distance, 5_yd, 0.0, 0.02));
  CHECK(doubt.from(DoubtSource::turf).flight.carry == 0.0);
}

TEST_CASE("the sources are independent: their squares add up") {
  const Doubt doubt = whimbrel::doubt(driven, driver);
  double squares = 0.0;
  for (const Shot<>& part : doubt.by_source) squares += square(part.flight.carry);
  CHECK(agrees(square(doubt.all.flight.carry), squares, 0.0, 1e-12));
  CHECK(doubt.from(DoubtSource::contact).launch.spin_rate > 100_rpm);
  CHECK(doubt.from(DoubtSource::contact).impact->smash_factor > 0.005);
  CHECK(doubt.from(DoubtSource::flight_constants).launch.spin_rate == 0.0);
}

TEST_CASE(
    "a measured launch leaves the contact out; of a landing it is nearly all the turf, as hops fly too") {
  CHECK(whimbrel::doubt(drive).from(DoubtSource::contact).flight.carry == 0.0);
  const Doubt landed = whimbrel::doubt(Landing<>{.landing_speed = 30, .descent_angle = 40_deg});
  CHECK(landed.from(DoubtSource::contact).run.distance == 0.0);
  CHECK(landed.from(DoubtSource::turf).run.distance > 0.99 * landed.all.run.distance);
  CHECK(landed.all.run.distance > 1.0);
}

TEST_CASE("the doubt of a ball by another model, or of a rigid impact, is not known") {
  CHECK_THROWS_AS(whimbrel::doubt(driven, driver, Ball<>{}, Setting<>{}, Turf<>{}, ImpactModel::rigid),
                  InputError);
  Ball<> ball;
  ball.aero = SmitsSmith{};
  CHECK_THROWS_WITH_AS(whimbrel::doubt(drive, ball),
                       "aero: the doubt of a number is known for balls of the multi-layer model only",
                       InputError);
}

TEST_CASE("a law of another form is the default's where nothing is other") {
  const AeroTable table = table_of(OtherLaw{1.0, MultiLayer{}, 0.0, 0.0, false});
  for (const double W : {0.03, 0.1, 0.25, 0.5})
    for (const double Re : {4e4, 8e4, 2e5}) {
      const auto ours = table.coefficients(W, Re), theirs = MultiLayer{}.coefficients(W, Re);
      CHECK(agrees(ours.drag, theirs.drag, 2e-4, 0.0));  // between the points of the grid
      CHECK(agrees(ours.lift, theirs.lift, 2e-4, 0.0));
    }
}
