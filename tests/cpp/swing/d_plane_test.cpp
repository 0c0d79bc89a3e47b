#include <doctest/doctest.h>

#include <whimbrel/swing/d_plane.hpp>

#include "agrees.hpp"
#include "dual.hpp"
#include "mirrored.hpp"
#include "random_cases.hpp"

using namespace whimbrel;
using namespace whimbrel::test;

TEST_CASE("spin loft and tilt are the angle and the lean of the plane of path and face") {
  // Derived: path, attack, face, loft -> spin loft, tilt, all in degrees; tolerance: the printed digits.
  const std::array<std::array<double, 6>, 4> table{{{0, 0, 2, 15, 15.130, 7.42},
                                                    {-2, -5, 0, 30, 35.052, 3.01},
                                                    {3, -1, 1, 13, 14.140, -8.00},
                                                    {0, 0, 5, 30, 30.376, 8.58}}};
  for (const auto& [path, attack, face, loft, spin_loft, tilt] : table) {
    const DPlane<> plane = d_plane(Delivery<>{.club_path = path * units::deg,
                                              .attack_angle = attack * units::deg,
                                              .face_angle = face * units::deg,
                                              .dynamic_loft = loft * units::deg});
    CHECK(agrees(plane.spin_loft / units::deg, spin_loft, 5e-4, 0));
    CHECK(agrees(plane.tilt / units::deg, tilt, 5e-3, 0));
  }
}

TEST_CASE("a square face has no tilt, and its spin loft is loft less attack") {
  const DPlane<> plane = d_plane(Delivery<>{.attack_angle = -4_deg, .dynamic_loft = 22_deg});
  CHECK(agrees(plane.spin_loft, 26_deg, 1e-14, 0));
  CHECK(agrees(plane.tilt, 0, 1e-14, 0));
}

TEST_CASE("a face square to its path at no loft spins about nothing") {
  const DPlane<> plane = d_plane(Delivery<>{});
  CHECK(plane.spin_loft == 0.0);
  CHECK(plane.tilt == 0.0);
}

TEST_CASE("spin loft is the angle between path and face, and a mirror turns only the tilt") {
  in_random_cases([](Random& random) { return std::tuple(any_delivery(random)); },
                  [](const Delivery<>& delivery) {
                    const DPlane<> plane = d_plane(delivery), image = d_plane(mirrored(delivery));
                    const double cosine = dot(path_direction(delivery), face_normal(delivery));
                    CHECK(agrees(std::cos(plane.spin_loft), cosine, 1e-14, 0));
                    CHECK(agrees(image.spin_loft, plane.spin_loft, 1e-14, 0));
                    CHECK(agrees(image.tilt, -plane.tilt, 1e-13, 0));
                  });
}

TEST_CASE("the plane has the derivatives of its differences") {
  for (std::size_t i = 1; i < Delivery<>::fields().size(); ++i)
    dual::differentiates(
        [&]<class T>(const T& x) {
          Delivery<T> delivery{T(40.0), T(0.02), T(-0.06), T(-0.03), T(0.4)};
          delivery.*Delivery<T>::fields()[i].member = x;
          const DPlane<T> plane = d_plane(delivery);
          return std::array{plane.spin_loft, plane.tilt};
        },
        0.1, 1.0);
}
