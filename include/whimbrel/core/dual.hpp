#pragma once
#include <bit>
#include <limits>

#include "whimbrel/core/paired.hpp"

namespace whimbrel {

/// N numbers side by side in the compiler's vector type, padded to a power of two. It is aligned as one
/// number, so that every compiler and instruction set passes it the same way.
template <int N>
struct SideBySide {
  static constexpr std::size_t width = std::bit_ceil(static_cast<unsigned>(N));
  typedef double Numbers __attribute__((vector_size(width * sizeof(double)), aligned(alignof(double))));
};

/// Storage for the N slopes of a number. If the number is broadcast over the lanes of a register, the slopes
/// are in such registers too, so that each is multiplied in its own lane.
template <int N, class T>
struct SlopesOf {
  using type = Paired<typename SlopesOf<N / 2, T>::type>;
};
template <int N, class T>
requires(T::width == N) struct SlopesOf<N, T> {
  using type = T;
};
template <int N>
struct SlopesOf<N, double> {
  using type = typename SideBySide<N>::Numbers;
};

/// A number beside all the slopes that it multiplies.
template <class Slopes, class T>
Slopes spread(const T& number) {
  if constexpr (std::same_as<Slopes, T>)
    return number;
  else
    return {spread<decltype(Slopes::low)>(number), spread<decltype(Slopes::high)>(number)};
}

inline double first_of(double x) { return x; }

/// A number with its partial derivatives by N inputs: the scalar of exact sensitivities (forward-mode
/// differentiation). Comparisons, and so every branch, look at the number alone. `T` stores the number: once,
/// or repeated in N lanes.
template <int N, class T = double>
struct Dual {
  static_assert(N > 0);
  static constexpr int count = N;
  using Slopes = typename SlopesOf<N, T>::type;
  using Number = decltype(first_of(T{}));  ///< the number alone

  T number{0.0};
  Slopes slopes{};

  Dual() = default;
  explicit Dual(double x) : number(x) {}
  explicit Dual(const Number& x) requires(!std::same_as<T, double>) : number(lane(x, 0)) {}
  Dual(const T& x, const Slopes& slopes) : number(x), slopes(slopes) {}

  /// Input k of the N, with the value x: its own derivative by itself is 1.
  static Dual input(double x, int k) requires(std::same_as<T, double>) {
    Dual dual(x);
    dual.slopes[k] = 1.0;
    return dual;
  }
  /// The partial derivative by input k.
  double slope(int k) const {
    if constexpr (std::same_as<T, double>)
      return slopes[k];
    else
      return lane(slopes, k);
  }

  friend Dual operator+(const Dual& a, const Dual& b) { return {a.number + b.number, a.slopes + b.slopes}; }
  friend Dual operator-(const Dual& a, const Dual& b) { return {a.number - b.number, a.slopes - b.slopes}; }
  friend Dual operator-(const Dual& a) { return {-a.number, -a.slopes}; }
  friend Dual operator*(const Dual& a, const Dual& b) {
    return {a.number * b.number, beside(b.number) * a.slopes + beside(a.number) * b.slopes};
  }
  friend Dual operator/(const Dual& a, const Dual& b) {
    const T per = T(1.0) / b.number, quotient = a.number * per;
    return {quotient, beside(per) * (a.slopes - beside(quotient) * b.slopes)};
  }
  friend Dual operator*(double s, const Dual& a) { return {s * a.number, s * a.slopes}; }
  friend Dual operator*(const Number& s, const Dual& a) requires(!std::same_as<T, double>) {
    return lane(s, 0) * a;
  }
  friend auto operator<(const Dual& a, const Dual& b) { return a.number < b.number; }
  friend auto operator>(const Dual& a, const Dual& b) { return a.number > b.number; }
  friend auto operator<=(const Dual& a, const Dual& b) { return a.number <= b.number; }
  friend auto operator>=(const Dual& a, const Dual& b) { return a.number >= b.number; }

  friend Number value(const Dual& x) { return first_of(x.number); }
  friend Dual choose(const Mask<T>& condition, const Dual& a, const Dual& b) {
    if constexpr (std::same_as<T, double>)
      return condition ? a : b;
    else
      return {choose(condition, a.number, b.number),
              choose(spread<Mask<Slopes>>(condition), a.slopes, b.slopes)};
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
    return {power, beside(by_x) * x.slopes + beside(by_y) * y.slopes};
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
  /// The angle of (x, y); without slope at the origin, where it is undefined.
  friend Dual atan2(const Dual& y, const Dual& x) {
    using std::atan2;
    const T angle = atan2(y.number, x.number), squared = x.number * x.number + y.number * y.number;
    if (!any(squared > T(0.0))) return {angle, beside(squared) * Slopes{}};
    return {angle, beside(x.number / squared) * y.slopes - beside(y.number / squared) * x.slopes};
  }
  friend Dual abs(const Dual& x) { return any(x.number < T(0.0)) ? -x : x; }

 private:
  /// f(x), given its value and derivative there.
  static Dual along(const Dual& x, const T& f, const T& derivative) {
    return {f, beside(derivative) * x.slopes};
  }

  static auto beside(const T& number) {
    if constexpr (std::same_as<T, double>)
      return number;
    else
      return spread<Slopes>(number);
  }
};

/// The largest number of inputs that is worth computing at once.
inline constexpr int inputs_a_pass = 8;
using Partials = Dual<inputs_a_pass>;

static_assert(Scalar<Partials>);

/// A Dual over lanes omits those members too.
template <int N, class T>
inline constexpr bool is_lanes<Dual<N, T>> = is_lanes<T>;

}  // namespace whimbrel
