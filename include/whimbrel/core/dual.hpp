#pragma once
#include <bit>
#include <limits>

#include "whimbrel/core/scalar.hpp"

namespace whimbrel {

/// N numbers side by side in the compiler's vector type, padded to a power of two. Its alignment is that of
/// one number, so that a value that holds it is passed the same way by every compiler and instruction set.
template <int N>
struct SideBySide {
  static constexpr std::size_t width = std::bit_ceil(static_cast<unsigned>(N));
  typedef double Numbers __attribute__((vector_size(width * sizeof(double)), aligned(alignof(double))));
};

/// A number with its partial derivatives by N inputs: the scalar of exact sensitivities (forward-mode
/// differentiation). Comparisons, and so every branch, look at the number alone. `T` is the number's own
/// type.
template <int N, class T = double>
struct Dual {
  static_assert(N > 0);
  using Slopes = typename SideBySide<N>::Numbers;

  T number{0.0};
  Slopes slopes{};

  Dual() = default;
  explicit Dual(double x) : number(x) {}
  explicit Dual(const T& x) requires(!std::same_as<T, double>) : number(x) {}
  Dual(const T& x, const Slopes& slopes) : number(x), slopes(slopes) {}

  /// Input k of the N, with the value x: its own derivative by itself is 1.
  static Dual input(double x, int k) {
    Dual dual(x);
    dual.slopes[k] = 1.0;
    return dual;
  }
  /// The partial derivative by input k.
  double slope(int k) const { return slopes[k]; }

  friend Dual operator+(const Dual& a, const Dual& b) { return {a.number + b.number, a.slopes + b.slopes}; }
  friend Dual operator-(const Dual& a, const Dual& b) { return {a.number - b.number, a.slopes - b.slopes}; }
  friend Dual operator-(const Dual& a) { return {-a.number, -a.slopes}; }
  friend Dual operator*(const Dual& a, const Dual& b) {
    return {a.number * b.number, plain(b.number) * a.slopes + plain(a.number) * b.slopes};
  }
  friend Dual operator/(const Dual& a, const Dual& b) {
    const T quotient = a.number / b.number;
    return {quotient, (a.slopes - plain(quotient) * b.slopes) * plain(T(1.0) / b.number)};
  }
  friend auto operator<(const Dual& a, const Dual& b) { return a.number < b.number; }
  friend auto operator>(const Dual& a, const Dual& b) { return a.number > b.number; }
  friend auto operator<=(const Dual& a, const Dual& b) { return a.number <= b.number; }
  friend auto operator>=(const Dual& a, const Dual& b) { return a.number >= b.number; }

  friend const T& value(const Dual& x) { return x.number; }
  template <class Condition>
  friend Dual choose(const Condition& condition, const Dual& a, const Dual& b) {
    return any(condition) ? a : b;
  }

  friend Dual sqrt(const Dual& x) {
    using std::sqrt;
    const T y = sqrt(x.number);
    return along(x, y, T(0.5) / y);
  }
  friend Dual exp(const Dual& x) {
    using std::exp;
    const T y = exp(x.number);
    return along(x, y, y);
  }
  friend Dual log(const Dual& x) {
    using std::log;
    return along(x, log(x.number), T(1.0) / x.number);
  }
  /// x^y; a power that is the same everywhere takes an x of 0 too.
  friend Dual pow(const Dual& x, const Dual& y) {
    using std::log, std::pow;
    const T by_x = y.number * pow(x.number, y.number - T(1.0)), power = pow(x.number, y.number);
    const T by_y = any(x.number > T(0.0)) ? power * log(x.number) : T(0.0);
    return {power, plain(by_x) * x.slopes + plain(by_y) * y.slopes};
  }
  friend Dual sin(const Dual& x) {
    using std::cos, std::sin;
    return along(x, sin(x.number), cos(x.number));
  }
  friend Dual cos(const Dual& x) {
    using std::cos, std::sin;
    return along(x, cos(x.number), -sin(x.number));
  }
  friend Dual tan(const Dual& x) {
    using std::tan;
    const T y = tan(x.number);
    return along(x, y, T(1.0) + y * y);
  }
  friend Dual asin(const Dual& x) {
    using std::asin, std::sqrt;
    return along(x, asin(x.number), T(1.0) / sqrt(T(1.0) - x.number * x.number));
  }
  friend Dual acos(const Dual& x) {
    using std::acos, std::sqrt;
    return along(x, acos(x.number), T(-1.0) / sqrt(T(1.0) - x.number * x.number));
  }
  friend Dual atan(const Dual& x) {
    using std::atan;
    return along(x, atan(x.number), T(1.0) / (T(1.0) + x.number * x.number));
  }
  /// The angle of (x, y); flat at the origin, where there is none.
  friend Dual atan2(const Dual& y, const Dual& x) {
    using std::atan2;
    const T angle = atan2(y.number, x.number), squared = x.number * x.number + y.number * y.number;
    if (!any(squared > T(0.0))) return Dual(angle, Slopes{} * plain(squared));
    return {angle, plain(x.number / squared) * y.slopes - plain(y.number / squared) * x.slopes};
  }
  friend Dual abs(const Dual& x) { return any(x.number < T(0.0)) ? -x : x; }

 private:
  /// f(x), given its value and derivative there.
  static Dual along(const Dual& x, const T& f, const T& derivative) {
    return {f, plain(derivative) * x.slopes};
  }

  static double plain(const T& x) {
    if constexpr (std::same_as<T, double>)
      return x;
    else
      return x.v;
  }
};

static_assert(Scalar<Dual<7>>);

}  // namespace whimbrel
