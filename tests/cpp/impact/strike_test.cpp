#include <doctest/doctest.h>

#include <whimbrel/impact/strike.hpp>

#include "agrees.hpp"
#include "dual.hpp"
#include "heads.hpp"

using namespace whimbrel;
using namespace whimbrel::test;

namespace {

const Club<> iron_of_280_g{.loft = 33_deg, .lie_angle = 62_deg, .length = 0.94, .mass = 0.28};

template <class T>
Club<T> some_club(const T& mass, const T& restitution) {
  return {
      .loft = T(0.4), .lie_angle = T(1.1), .length = T(0.95), .mass = mass, .face_restitution = restitution};
}

template <Scalar T>
Impact<T> rigidly(const Delivery<T>& delivery, const Club<T>& club) {
  return strike(delivery, club, Ball<T>{}, ImpactModel::rigid);
}

}  // namespace

TEST_CASE("the rigid model's ball speed is within 1 % of contact calculations, its spin is not") {
  // Bias of its spin against the compliant contact, in per cent, from this library's own two models.
  const std::array bias{4.2, -23.2, -25.0};
  for (std::size_t i = 0; i < bias.size(); ++i) {
    const auto& [name, club, delivery, speed, angle, spin] = worked_impacts[i];
    CAPTURE(i);
    const Launch<> rigid = rigidly(delivery, club).launch, compliant = strike(delivery, club).launch;
    CHECK(agrees(rigid.ball_speed, compliant.ball_speed, 0, 0.01));
    CHECK(agrees(100 * (rigid.spin_rate / compliant.spin_rate - 1), bias[i], 0.5, 0));
  }
}

TEST_CASE("the compliant contact is what a strike is unless another model is asked for") {
  const Swing<> swing;
  CHECK(swing.impact_model == ImpactModel::compliant);
  for (const auto& [name, club, delivery, speed, angle, spin] : worked_impacts) {
    const Impact<> impact = strike(delivery, club);
    CHECK(every_number(impact) == every_number(compliant_impact(delivery, club, Ball<>{})));
    CHECK(impact.contact_time > 0.0);
    CHECK(rigidly(delivery, club).contact_time == 0.0);
  }
}

TEST_CASE("a rigid strike takes the restitution of its own approach speed") {
  const Delivery<> delivery{.clubhead_speed = 50.0, .dynamic_loft = 20_deg};
  const double e = restitution(iron_of_280_g.face_restitution, 50.0 * std::cos(20_deg));
  const Impact<> rigid = rigid_impact(delivery, moving_mass(iron_of_280_g), e, Ball<>{});
  CHECK(agrees(rigidly(delivery, iron_of_280_g).launch.ball_speed, rigid.launch.ball_speed, 0, 1e-14));
}

TEST_CASE("a face open to its path curves the ball right, a closed one left") {
  const auto tilt = [](double face) {
    return strike(Delivery<>{.clubhead_speed = 40.0, .face_angle = face, .dynamic_loft = 20_deg},
                  iron_of_280_g)
        .launch.spin_axis_tilt;
  };
  CHECK(tilt(3_deg) > 0);
  CHECK(tilt(-3_deg) < 0);
}

TEST_CASE("a rigid strike has the derivatives of its differences") {
  constexpr std::size_t of_the_strike =
      5;  // the fields up to where it meets the face: there it knows the centre only
  for (std::size_t i = 0; i < of_the_strike; ++i)
    dual::differentiates(
        [&]<class T>(const T& x) {
          Delivery<T> delivery{T(40.0), T(0.05), T(-0.06), T(-0.03), T(0.4)};
          delivery.*Delivery<T>::fields()[i].member = delivery.*Delivery<T>::fields()[i].member + x;
          return every_number(rigidly(delivery, some_club(T(0.27), T(0.78))));
        },
        0.0, 0.5);
  const auto with_club = []<class T>(const T& mass, const T& restitution) {
    return every_number(
        rigidly(Delivery<T>{T(40.0), T(0.05), T(-0.06), T(-0.03), T(0.4)}, some_club(mass, restitution)));
  };
  dual::differentiates([&]<class T>(const T& x) { return with_club(x, T(0.78)); }, 0.27, 0.2);
  dual::differentiates([&]<class T>(const T& x) { return with_club(T(0.27), x); }, 0.78, 0.2);
}
