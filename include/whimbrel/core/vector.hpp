#pragma once
#include "whimbrel/core/scalar.hpp"

/// The frame, once for the whole library: x to the right of the target line, y downrange, z up,
/// right-handed; the origin on the ground under the ball. An azimuth is positive to the right of
/// the target line, an elevation is positive up.
namespace whimbrel {

template <Scalar T>
struct Vec3 {
  T x{}, y{}, z{};

  friend constexpr Vec3 operator+(const Vec3& a, const Vec3& b) { return {a.x + b.x, a.y + b.y, a.z + b.z}; }
  friend constexpr Vec3 operator-(const Vec3& a, const Vec3& b) { return {a.x - b.x, a.y - b.y, a.z - b.z}; }
  friend constexpr Vec3 operator-(const Vec3& a) { return {-a.x, -a.y, -a.z}; }
  friend constexpr Vec3 operator*(const T& s, const Vec3& a) { return {s * a.x, s * a.y, s * a.z}; }
  friend constexpr Vec3 operator*(const Vec3& a, const T& s) { return s * a; }
};

template <Scalar T>
Vec3<Plain<T>> value(const Vec3<T>& a) {
  return {value(a.x), value(a.y), value(a.z)};
}

template <Scalar T>
constexpr T dot(const Vec3<T>& a, const Vec3<T>& b) {
  return a.x * b.x + a.y * b.y + a.z * b.z;
}

template <Scalar T>
constexpr Vec3<T> cross(const Vec3<T>& a, const Vec3<T>& b) {
  return {a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x};
}

template <Scalar T>
constexpr Vec3<T> choose(const Mask<T>& condition, const Vec3<T>& a, const Vec3<T>& b) {
  return {choose(condition, a.x, b.x), choose(condition, a.y, b.y), choose(condition, a.z, b.z)};
}

/// Length; its derivative at the zero vector is taken as zero.
template <Scalar T>
T norm(const Vec3<T>& a) {
  return root(dot(a, a));
}

template <Scalar T>
T horizontal_distance(const Vec3<T>& a) {
  return norm(Vec3<T>{a.x, a.y, T(0.0)});
}

/// The unit vector along a; the zero vector stays zero.
template <Scalar T>
Vec3<T> unit(const Vec3<T>& a) {
  const T length = norm(a);
  return a * (T(1.0) / choose(length > T(0.0), length, T(1.0)));
}

/// The unit vector with this azimuth and elevation.
template <Scalar T>
Vec3<T> direction(const T& azimuth, const T& elevation) {
  using std::cos, std::sin;
  return {cos(elevation) * sin(azimuth), cos(elevation) * cos(azimuth), sin(elevation)};
}

/// The horizontal unit vector to the right of an azimuth.
template <Scalar T>
Vec3<T> right_of(const T& azimuth) {
  using std::cos, std::sin;
  return {cos(azimuth), -sin(azimuth), T(0.0)};
}

template <Scalar T>
T azimuth(const Vec3<T>& a) {
  using std::atan2;
  return atan2(a.x, a.y);
}

template <Scalar T>
T elevation(const Vec3<T>& a) {
  using std::atan2;
  return atan2(a.z, horizontal_distance(a));
}

/// a turned about a unit axis by an angle, right-hand rule (Rodrigues' formula).
template <Scalar T>
Vec3<T> turned(const Vec3<T>& a, const Vec3<T>& axis, const T& angle) {
  using std::cos, std::sin;
  return cos(angle) * a + sin(angle) * cross(axis, a) + (T(1.0) - cos(angle)) * dot(axis, a) * axis;
}

}  // namespace whimbrel
