#include <doctest/doctest.h>

#include <whimbrel/ball/ball.hpp>

#include "agrees.hpp"
#include "dual.hpp"

using namespace whimbrel;
using test::agrees;

namespace {

const AeroTable table{.spin_ratio = {0.0, 0.1, 0.3, 0.8},
                      .reynolds = {5e4, 1e5, 2e5},
                      .drag = {0.30, 0.24, 0.22, 0.31, 0.26, 0.24, 0.36, 0.32, 0.30, 0.45, 0.42, 0.40},
                      .lift = {0.0, 0.0, 0.0, 0.14, 0.16, 0.17, 0.25, 0.28, 0.29, 0.33, 0.37, 0.38}};

template <class Check>
void for_each_model(const Check& check) {
  check(MultiLayer{});
  check(SmitsSmith{});
  check(SquareRootLift{});
  check(ConstantCoefficients{});
  check(table);
}

}  // namespace

TEST_CASE("outside its stated range a model holds its edge value") {
  for_each_model([](const auto& model) {
    const StatedRange range = model.stated_range();
    const double spin = std::min(range.spin_ratio_upper, 0.5);
    for (const double edge : {range.reynolds_lower, range.reynolds_upper}) {
      if (!std::isfinite(edge) || edge == 0.0) continue;
      const double beyond = edge == range.reynolds_lower ? edge / 2 : edge * 2;
      CHECK(aerodynamics(model, spin, beyond).drag == aerodynamics(model, spin, edge).drag);
      CHECK(aerodynamics(model, spin, beyond).lift_per_spin_ratio ==
            aerodynamics(model, spin, edge).lift_per_spin_ratio);
    }
    if (!std::isfinite(range.spin_ratio_upper)) return;
    const double above = 2 * range.spin_ratio_upper;
    const Aerodynamics<double> edge = aerodynamics(model, range.spin_ratio_upper, 1e5);
    CHECK(aerodynamics(model, above, 1e5).drag == edge.drag);
    CHECK(agrees(aerodynamics(model, above, 1e5).lift_per_spin_ratio * above,
                 edge.lift_per_spin_ratio * range.spin_ratio_upper, 0, 1e-14));
  });
}

TEST_CASE("lift falls linearly to nothing as the spin goes to zero") {
  for_each_model([](const auto& model) {
    const double lowest = std::max(model.stated_range().spin_ratio_lower, linear_lift_below);
    const double slope = aerodynamics(model, lowest, 1e5).lift_per_spin_ratio;
    CHECK(std::isfinite(slope));
    for (const double share : {0.0, 1e-6, 0.5, 1.0})
      CHECK(agrees(aerodynamics(model, share * lowest, 1e5).lift_per_spin_ratio, slope, 0, 1e-14));
  });
}

TEST_CASE("inside its stated range a model gives its own coefficients") {
  for_each_model([](const auto& model) {
    for (const double W : {0.06, 0.2, 0.5}) {
      const Coefficients<double> own = model.coefficients(W, 1.2e5);
      CHECK(aerodynamics(model, W, 1.2e5).drag == own.drag);
      CHECK(agrees(aerodynamics(model, W, 1.2e5).lift_per_spin_ratio * W, own.lift, 0, 1e-14));
    }
  });
}

TEST_CASE("every model has the derivatives of its differences") {
  for_each_model([](const auto& model) {
    const auto both = [&]<class T>(const T& W, const T& Re) {
      const Aerodynamics<T> aero = aerodynamics(model, W, Re);
      return std::array{aero.drag, aero.lift_per_spin_ratio};
    };
    for (const double W : {0.005, 0.07, 0.25, 0.6, 0.9})
      for (const double Re : {4e4, 8e4, 1.5e5}) {
        dual::differentiates([&]<class T>(const T& w) { return both(w, T(Re)); }, W, 0.05);
        dual::differentiates([&]<class T>(const T& re) { return both(T(W), re); }, Re, 1e4);
      }
  });
}
