#pragma once
#include <cmath>
#include <ostream>
#include <whimbrel/core/vector.hpp>

namespace whimbrel::test {

/// Two numbers compared: true where they agree, and readable where they do not. NaN agrees with nothing.
struct Agreement {
  double a, b, allowed;

  explicit operator bool() const { return std::abs(a - b) <= allowed; }

  friend std::ostream& operator<<(std::ostream& out, const Agreement& it) {
    const auto precision = out.precision(15);
    out << it.a << " against " << it.b << ", apart by " << it.a - it.b << ", allowed " << it.allowed;
    out.precision(precision);
    return out;
  }
};

/// a is b to within `absolute` plus `relative` times |b|.
inline Agreement agrees(double a, double b, double absolute, double relative) {
  return {a, b, absolute + relative * std::abs(b)};
}

/// The distance between two vectors is 0, likewise.
inline Agreement agrees(const Vec3<double>& a, const Vec3<double>& b, double absolute, double relative) {
  return {norm(a - b), 0.0, absolute + relative * norm(b)};
}

}  // namespace whimbrel::test
