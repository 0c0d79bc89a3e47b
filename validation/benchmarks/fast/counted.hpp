#pragma once
#include <cmath>
#include <cstdint>

#include "whimbrel/core/polynomials.hpp"
#include "whimbrel/core/scalar.hpp"

namespace whimbrel::benchmarks {

/// What arithmetic was done.
struct Operations {
  long sums = 0, products = 0, quotients = 0, roots = 0, choices = 0;

  long flops() const { return sums + products + quotients + roots; }
};
inline Operations done;

struct Truth {
  bool m;

  friend Truth operator&&(Truth a, Truth b) { return {a.m && b.m}; }
  friend Truth operator||(Truth a, Truth b) { return {a.m || b.m}; }
  friend Truth operator!(Truth a) { return {!a.m}; }
};
inline bool any(Truth truth) { return truth.m; }
inline unsigned lanes_where(Truth truth) { return truth.m ? 1u : 0u; }

/// A lane of its own that counts what is done with it: the kernels' templates, flown by it, tell what a
/// flight takes. Only arithmetic on floating-point numbers is a flop; comparing and choosing is not.
struct Counted {
  using Bits = std::uint64_t;
  using Condition = Truth;
  static constexpr int width = 1;

  double v;

  Counted() = default;
  explicit Counted(double x) : v(x) {}

  friend Counted operator+(const Counted& a, const Counted& b) { return ++done.sums, Counted(a.v + b.v); }
  friend Counted operator-(const Counted& a, const Counted& b) { return ++done.sums, Counted(a.v - b.v); }
  friend Counted operator*(const Counted& a, const Counted& b) { return ++done.products, Counted(a.v * b.v); }
  friend Counted operator*(double s, const Counted& a) { return Counted(s) * a; }
  friend Counted operator/(const Counted& a, const Counted& b) {
    return ++done.quotients, Counted(a.v / b.v);
  }
  friend Counted operator-(const Counted& a) { return Counted(-a.v); }
  friend Truth operator<(const Counted& a, const Counted& b) { return ++done.choices, Truth{a.v < b.v}; }
  friend Truth operator>(const Counted& a, const Counted& b) { return ++done.choices, Truth{a.v > b.v}; }
  friend Truth operator<=(const Counted& a, const Counted& b) { return ++done.choices, Truth{a.v <= b.v}; }
  friend Truth operator>=(const Counted& a, const Counted& b) { return ++done.choices, Truth{a.v >= b.v}; }
  friend Counted choose(Truth truth, const Counted& a, const Counted& b) {
    return ++done.choices, truth.m ? a : b;
  }
  friend Counted smaller(const Counted& a, const Counted& b) { return choose(a < b, a, b); }
  friend Counted larger(const Counted& a, const Counted& b) { return choose(a < b, b, a); }
  friend const Counted& value(const Counted& a) { return a; }

  friend Counted sqrt(const Counted& a) { return ++done.roots, Counted(std::sqrt(a.v)); }
  friend Counted root(const Counted& a) { return sqrt(a); }
  friend Counted exp(const Counted& x) { return polynomials::exp(x); }
  friend Counted log(const Counted& x) { return polynomials::log(x); }
  friend Counted pow(const Counted& x, const Counted& y) { return polynomials::exp(y * polynomials::log(x)); }
  friend Counted rough_power(const Counted& x, double power) { return polynomials::rough_power(x, power); }
  friend Counted sin(const Counted& x) { return polynomials::sin(x); }
  friend Counted cos(const Counted& x) { return polynomials::cos(x); }
  friend Counted atan2(const Counted& y, const Counted& x) { return polynomials::atan2(y, x); }
  friend Counted abs(const Counted& x) { return Counted(std::abs(x.v)); }

  Bits bits() const { return __builtin_bit_cast(Bits, v); }
  static Counted from_bits(Bits b) { return Counted(__builtin_bit_cast(double, b)); }
  static Bits all(std::uint64_t x) { return x; }
  static Truth where_set(Bits b, std::uint64_t bit) { return {(b & bit) != 0}; }
};

}  // namespace whimbrel::benchmarks
