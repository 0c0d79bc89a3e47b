#include <doctest/doctest.h>

#include <whimbrel/flight/launch.hpp>

#include "agrees.hpp"
#include "dual.hpp"
#include "mirrored.hpp"
#include "random_cases.hpp"

using namespace whimbrel;
using namespace whimbrel::test;

TEST_CASE("direction, angle, tilt and axial spin rebuild the spin vector exactly") {
  in_random_cases([](Random& random) { return std::tuple(any_launch(random)); },
                  [](const Launch<>& launch) {
                    const Launch<> back = launch_of(launch_velocity(launch), launch_spin(launch));
                    for (const auto& field : Launch<>::fields())
                      CHECK(agrees(back.*field.member, launch.*field.member, 1e-13, 1e-12));
                    CHECK(agrees(launch_spin(back), launch_spin(launch), 1e-13, 1e-12));
                    CHECK(agrees(norm(launch_spin(launch)), launch.spin_rate, 1e-12, 1e-14));
                    const Vec3<double> u = direction(launch.launch_direction, launch.launch_angle);
                    CHECK(agrees(dot(launch_spin(launch), u), launch.axial_spin_rate, 1e-12, 1e-13));
                  });
}

TEST_CASE("any velocity and spin vector come back from their launch") {
  in_random_cases(
      [](Random& random) {
        const auto any = [&](double size) {
          return Vec3<double>{random.between(-size, size), random.between(-size, size),
                              random.between(-size, size)};
        };
        return std::tuple(any(50), any(800));
      },
      [](const Vec3<double>& velocity, const Vec3<double>& spin) {
        const Launch<> launch = launch_of(velocity, spin);
        CHECK(agrees(launch_velocity(launch), velocity, 0, 1e-13));
        CHECK(agrees(launch_spin(launch), spin, 1e-9, 1e-12));
      });
}

TEST_CASE("backspin turns about the axis to the right, and a positive tilt lifts to the right") {
  CHECK(agrees(launch_spin(Launch<>{.ball_speed = 1, .spin_rate = 100}), {100, 0, 0}, 1e-12, 0));
  const Launch<> tilted{.ball_speed = 1, .spin_rate = 100, .spin_axis_tilt = 30_deg};
  const Vec3<double> side = cross(launch_spin(tilted), launch_velocity(tilted));
  CHECK(side.x > 0);
  CHECK(side.z > 0);
}

TEST_CASE("all spin may be axial: then it lies along the launch direction") {
  const Launch<> bullet{.ball_speed = 60, .launch_angle = 20_deg, .spin_rate = 200, .axial_spin_rate = 200};
  CHECK(agrees(launch_spin(bullet), 200.0 * direction(0.0, 20_deg), 1e-12, 0));
}

TEST_CASE("a ball at rest without spin has a launch of zeros") {
  const Launch<> none = launch_of(Vec3<double>{}, Vec3<double>{});
  for (const auto& field : Launch<>::fields()) CHECK(none.*field.member == 0.0);
}

TEST_CASE("a mirrored launch has the mirrored velocity, and its spin turned round") {
  in_random_cases([](Random& random) { return std::tuple(any_launch(random)); },
                  [](const Launch<>& launch) {
                    const Launch<> other = mirrored(launch);
                    CHECK(agrees(launch_velocity(other), mirrored(launch_velocity(launch)), 1e-12, 0));
                    CHECK(agrees(launch_spin(other), -mirrored(launch_spin(launch)), 1e-12, 0));
                  });
}

TEST_CASE("velocity and spin of a launch, and the way back, have the derivatives of their differences") {
  const auto vectors = []<class T>(const Launch<T>& launch) {
    const Vec3<T> v = launch_velocity(launch), w = launch_spin(launch);
    return std::array{v.x, v.y, v.z, w.x, w.y, w.z};
  };
  const auto there_and_back = []<class T>(const T& x) {
    const Launch<T> launch = launch_of(Vec3<T>{x, T(60.0), T(12.0)}, Vec3<T>{T(250.0), x * x, T(-30.0)});
    return std::array{launch.ball_speed, launch.launch_angle,   launch.launch_direction,
                      launch.spin_rate,  launch.spin_axis_tilt, launch.axial_spin_rate};
  };
  for (std::size_t i = 0; i < Launch<>::fields().size(); ++i)
    dual::differentiates(
        [&]<class T>(const T& x) {
          Launch<T> launch{T(60.0), T(0.2), T(-0.05), T(280.0), T(0.1), T(20.0)};
          launch.*Launch<T>::fields()[i].member = launch.*Launch<T>::fields()[i].member + x;
          return vectors(launch);
        },
        0.1, 1.0);
  dual::differentiates(there_and_back, 5.0, 5.0);
}
