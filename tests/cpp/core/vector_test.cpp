#include <doctest/doctest.h>

#include <whimbrel/core/vector.hpp>

#include "agrees.hpp"
#include "random_cases.hpp"

using namespace whimbrel;
using namespace whimbrel::test;

namespace {
using Vector = Vec3<double>;
Vector any_vector(Random& random) {
  return {random.between(-5, 5), random.between(-5, 5), random.between(-5, 5)};
}
}  // namespace

TEST_CASE("right, downrange and up are right-handed in that order") {
  const Vector x{1, 0, 0}, y{0, 1, 0}, z{0, 0, 1};
  CHECK(agrees(cross(x, y), z, 0, 0));
  CHECK(agrees(direction(0.0, 0.0), y, 0, 0));
  CHECK(agrees(direction(90_deg, 0.0), x, 1e-15, 0));
  CHECK(agrees(direction(0.0, 90_deg), z, 1e-15, 0));
  CHECK(agrees(right_of(0.0), x, 0, 0));
}

TEST_CASE("a direction gives back its azimuth and elevation") {
  in_random_cases([](Random& r) { return std::tuple(r.between(-3.1, 3.1), r.between(-1.5, 1.5)); },
                  [](double heading, double climb) {
                    const Vector u = direction(heading, climb);
                    CHECK(agrees(norm(u), 1, 1e-15, 0));
                    CHECK(agrees(azimuth(u), heading, 1e-13, 0));
                    CHECK(agrees(elevation(u), climb, 1e-13, 0));
                    CHECK(agrees(dot(u, right_of(heading)), 0, 1e-15, 0));
                  });
}

TEST_CASE("a cross product is perpendicular to both, and a unit vector is one long") {
  in_random_cases([](Random& r) { return std::tuple(any_vector(r), any_vector(r)); },
                  [](const Vector& a, const Vector& b) {
                    CHECK(agrees(dot(cross(a, b), a), 0, 1e-12, 0));
                    CHECK(agrees(dot(cross(a, b), b), 0, 1e-12, 0));
                    CHECK(agrees(norm(unit(a)), 1, 1e-14, 0));
                    CHECK(agrees(a * 2.0 - (a + a), Vector{}, 0, 0));
                    CHECK(agrees(-a + a, Vector{}, 0, 0));
                  });
}

TEST_CASE("a turn keeps lengths and the axis, and a quarter turn is the cross product") {
  const Vector axis = unit(Vector{1, -2, 3}), a{0.3, 4, -1};
  CHECK(agrees(norm(turned(a, axis, 0.7)), norm(a), 0, 1e-15));
  CHECK(agrees(turned(axis, axis, 0.7), axis, 1e-15, 0));
  CHECK(agrees(turned(turned(a, axis, 0.7), axis, -0.7), a, 1e-14, 0));
  CHECK(agrees(turned(Vector{0, 1, 0}, Vector{1, 0, 0}, 90_deg), Vector{0, 0, 1}, 1e-15, 0));
}

TEST_CASE("the zero vector has no length, no direction, and no NaN") {
  CHECK(norm(Vector{}) == 0.0);
  CHECK(norm(unit(Vector{})) == 0.0);
  CHECK(elevation(Vector{}) == 0.0);
}
