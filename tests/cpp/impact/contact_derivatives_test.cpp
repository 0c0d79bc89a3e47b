#include <doctest/doctest.h>

#include "dual.hpp"
#include "heads.hpp"

using namespace whimbrel;
using namespace whimbrel::test;

namespace {

/// A club or a ball of `double` as one of another number.
template <class T, template <class> class Value>
Value<T> lifted(const Value<double>& v) {
  Value<T> other;
  for (std::size_t i = 0; i < Value<T>::fields().size(); ++i)
    other.*Value<T>::fields()[i].member = T(v.*Value<double>::fields()[i].member);
  return other;
}

/// A ball with the friction of the worked impact, 0.30. With the default ball the driver is close to where
/// sliding a second time sets in: there a launch curves sharply.
template <class T>
Ball<T> gripping(const WorkedImpact& worked) {
  const double approach =
      worked.delivery.clubhead_speed * dot(path_direction(worked.delivery), face_normal(worked.delivery));
  return {.face_friction = T(0.30 / friction_at(1.0, approach))};
}

/// The launch of a worked impact struck off the centre with one number of its delivery changed.
template <class T>
auto launched(const WorkedImpact& worked, std::size_t changed, const T& by) {
  Delivery<double> off = worked.delivery;
  off.club_path = 2_deg;
  off.face_angle = -1_deg;
  off.strike_toe = 6_mm;
  off.strike_high = -4_mm;
  Delivery<T> delivery = lifted<T>(off);
  Club<double> bulged = worked.club;
  if (bulged.cg_depth > 20_mm) bulged.bulge_radius = bulged.roll_radius = 300_mm;
  delivery.*Delivery<T>::fields()[changed].member = delivery.*Delivery<T>::fields()[changed].member + by;
  const Launch<T> launch = compliant_impact(delivery, lifted<T>(bulged), gripping<T>(worked)).launch;
  return std::array{launch.ball_speed, launch.launch_angle, launch.launch_direction, launch.spin_rate};
}

/// What a number of a delivery varies on: m/s, m, rad/s, else rad.
double scale_of(std::size_t field) {
  const std::string_view unit = Delivery<>::fields()[field].unit;
  return unit == "m/s" ? 40.0 : unit == "m" ? 30_mm : unit == "rad/s" ? 50.0 : 0.5;
}

template <class Holds>
void for_each_field_of_each_impact(const Holds& holds) {
  for (const WorkedImpact& worked : worked_impacts)
    for (std::size_t field = 0; field < Delivery<>::fields().size(); ++field) {
      CAPTURE(std::string(worked.name));
      CAPTURE(std::string(Delivery<>::fields()[field].name));
      holds(worked, field);
    }
}

}  // namespace

TEST_CASE("a compliant impact has the derivatives of its smallest differences") {
  // Steps end where sticking goes over to sliding, so the launch is as smooth as the contact. What is left is
  // the difference's rounding, that of some 300 steps: 1e-6 is allowed.
  for_each_field_of_each_impact([](const WorkedImpact& worked, std::size_t field) {
    dual::differentiates([&]<class T>(const T& by) { return launched(worked, field, by); }, 0.0,
                         scale_of(field), 1e-6);
  });
}

TEST_CASE("a compliant impact has the derivatives of its wide differences") {
  // Over 1 % of the scale, a third of a degree or millimetre, only the launch's curvature is left: 1e-4 of
  // it.
  for_each_field_of_each_impact([](const WorkedImpact& worked, std::size_t field) {
    const double h = 0.01 * scale_of(field);
    const auto with_slope = launched(worked, field, dual::moving(0.0));
    const auto here = launched(worked, field, 0.0), before = launched(worked, field, -h),
               after = launched(worked, field, h);
    for (std::size_t i = 0; i < here.size(); ++i) {
      CAPTURE(i);
      CHECK(agrees((after[i] - before[i]) / (2 * h), with_slope[i].slope(0),
                   1e-4 * std::abs(here[i]) / scale_of(field), 1e-4));
    }
  });
}

TEST_CASE("the derivatives of a compliant impact are numbers, everywhere on the face") {
  for_each_field_of_each_impact([](const WorkedImpact& worked, std::size_t field) {
    for (const double toe : {-20_mm, 0.0, 20_mm}) {
      Delivery<dual::Dual> delivery = lifted<dual::Dual>(worked.delivery);
      dual::Dual& changed = delivery.*Delivery<dual::Dual>::fields()[field].member;
      delivery.strike_toe = dual::Dual(toe);
      changed = changed + dual::moving(0.0);
      const auto impact = compliant_impact(delivery, lifted<dual::Dual>(worked.club), Ball<dual::Dual>{});
      for (const dual::Dual& number : every_number(impact)) CHECK(std::isfinite(number.slope(0)));
    }
  });
}
