#pragma once
#include <cmath>
#include <concepts>
#include <utility>

/// The number the physics is written in.
///
/// Every formula of the library is a template over one scalar. The same code serves a single shot (`double`),
/// many shots at once (SIMD lanes) and exact derivatives (dual numbers). Branches that depend on data are
/// `choose(condition, a, b)`; decisions of control flow use `value(x)`.
namespace whimbrel {

constexpr double value(double x) { return x; }
constexpr double choose(bool condition, double a, double b) { return condition ? a : b; }
/// Whether a condition holds of any number in it: a loop whose rounds depend on data goes on while it does.
constexpr bool any(bool condition) { return condition; }

/// What comparing two numbers gives: `bool`, or one of a kind for each lane.
template <class T>
using Mask = decltype(T() < T());

/// The number itself, of a scalar that carries more: what lengths of steps and other choices are made in.
template <class T>
using Plain = std::remove_cvref_t<decltype(value(std::declval<T>()))>;

struct Nothing {};

/// Whether a scalar stands for many shots at once.
template <class T>
inline constexpr bool is_lanes = requires {
  T::width;
};

/// Members that are not numbers (a name, a function, a choice), which lanes omit.
template <class T, class Thing>
using UnlessLanes = std::conditional_t<is_lanes<T>, Nothing, Thing>;

/// What a formula may ask of a number. A new scalar brings `value`, `choose` and the functions of
/// `<cmath>` in its own namespace; `double` takes them from `std`.
template <class T>
concept Scalar = std::constructible_from<T, double> && requires(const T a, const T b) {
  { a + b } -> std::convertible_to<T>;
  { a - b } -> std::convertible_to<T>;
  { a* b } -> std::convertible_to<T>;
  { a / b } -> std::convertible_to<T>;
  { -a } -> std::convertible_to<T>;
  { choose(a < b, a, b) } -> std::convertible_to<T>;
  value(a);
  { any(a < b) } -> std::convertible_to<bool>;
};

/// Whether a scalar carries derivatives beside its value.
template <class T>
inline constexpr bool has_slopes = !std::same_as<Plain<T>, T>;

template <Scalar T>
constexpr T square(const T& x) {
  return x * x;
}

/// The square root of a number that is not negative; its derivative at 0 is taken as 0.
inline double root(double x) { return std::sqrt(x); }
template <Scalar T>
T root(const T& x) {
  const auto none = x <= T(0.0);  // false for NaN, which stays NaN
  return choose(none, T(0.0), sqrt(choose(none, T(1.0), x)));
}

/// 1/a and 1/b, of numbers whose product stays in range: lanes, whose slowest arithmetic it is, divide once.
template <Scalar T>
std::pair<T, T> reciprocals(const T& a, const T& b) {
  return {T(1.0) / a, T(1.0) / b};
}

/// A power where a tenth more or less does no harm: lanes have a fast one.
inline double rough_power(double x, double power) { return std::pow(x, power); }

template <Scalar T>
constexpr T smaller(const T& a, const T& b) {
  return choose(a < b, a, b);
}

template <Scalar T>
constexpr T larger(const T& a, const T& b) {
  return choose(a < b, b, a);
}

/// x held between two edges.
template <Scalar T>
constexpr T held(const T& x, double lower, double upper) {
  return smaller(larger(x, T(lower)), T(upper));
}

/// How far x lies outside [lower, upper]: 0 inside, negative below, positive above.
template <Scalar T>
constexpr T excess(const T& x, double lower, double upper) {
  return x - held(x, lower, upper);
}

}  // namespace whimbrel
