#pragma once
#include <cmath>
#include <cstdint>

#include "whimbrel/core/polynomials.hpp"
#include "whimbrel/core/scalar.hpp"
#if defined(__SSE2__)
#include <immintrin.h>
#endif

namespace whimbrel {

// Not by a SIMD library: the types and functions of each level have to be its own (``Level``), as the linker
// would else keep one copy of a function for all levels.

/// What W lanes are kept in: one register of the compiler's vector type; for one lane a plain double.
template <int W>
struct Register {
  typedef double Numbers __attribute__((vector_size(W * sizeof(double))));
  typedef std::uint64_t Bits __attribute__((vector_size(W * sizeof(double))));
  typedef std::int64_t Truth __attribute__((vector_size(W * sizeof(double))));
};
template <>
struct Register<1> {
  using Numbers = double;
  using Bits = std::uint64_t;
  using Truth = bool;
};

/// Which lanes a condition holds in.
template <int W, class Level>
struct LaneMask {
  using Truth = typename Register<W>::Truth;
  static constexpr int width = W;
  Truth m{};

  friend LaneMask operator&&(const LaneMask& a, const LaneMask& b) { return {static_cast<Truth>(a.m & b.m)}; }
  friend LaneMask operator||(const LaneMask& a, const LaneMask& b) { return {static_cast<Truth>(a.m | b.m)}; }
  friend LaneMask operator!(const LaneMask& a) { return {static_cast<Truth>(a.m == Truth{})}; }
  /// Of one lane, a condition like any other.
  explicit operator bool() const requires(W == 1) { return m; }
};

/// W shots side by side, one in each lane of a SIMD register: the scalar that batches are computed in.
///
/// `Level` names the instruction set that a translation unit is compiled for. It is part of the type so that
/// the same template compiled for two levels stays two functions, which the linker must not merge.
template <int W, class Level>
struct Lanes {
  using Numbers = typename Register<W>::Numbers;
  using Bits = typename Register<W>::Bits;
  using Condition = LaneMask<W, Level>;
  static constexpr int width = W;

  Numbers v{};

  Lanes() = default;
  explicit Lanes(Numbers numbers) requires(W > 1) : v(numbers) {}
  explicit Lanes(double x) {
    if constexpr (W == 1)
      v = x;
    else
      v = x - Numbers{};
  }

  friend Lanes operator+(const Lanes& a, const Lanes& b) { return Lanes(a.v + b.v); }
  friend Lanes operator-(const Lanes& a, const Lanes& b) { return Lanes(a.v - b.v); }
  friend Lanes operator*(const Lanes& a, const Lanes& b) { return Lanes(a.v * b.v); }
  friend Lanes operator*(double s, const Lanes& a) { return Lanes(s) * a; }
  friend Lanes operator/(const Lanes& a, const Lanes& b) { return Lanes(a.v / b.v); }
  friend Lanes operator-(const Lanes& a) { return Lanes(-a.v); }
  friend Condition operator<(const Lanes& a, const Lanes& b) { return {a.v < b.v}; }
  friend Condition operator>(const Lanes& a, const Lanes& b) { return {a.v > b.v}; }
  friend Condition operator<=(const Lanes& a, const Lanes& b) { return {a.v <= b.v}; }
  friend Condition operator>=(const Lanes& a, const Lanes& b) { return {a.v >= b.v}; }

  friend Lanes choose(const Condition& condition, const Lanes& a, const Lanes& b) {
    return Lanes(condition.m ? a.v : b.v);
  }
  // The instructions for these keep b where a is not a number, as the templates they stand for.
  friend Lanes smaller(const Lanes& a, const Lanes& b) {
#if defined(__AVX512F__)
    if constexpr (W == 8) return Lanes(_mm512_maskz_min_pd(0xff, a.v, b.v));
#endif
#if defined(__AVX__)
    if constexpr (W == 4) return Lanes(_mm256_min_pd(a.v, b.v));
#endif
#if defined(__SSE2__)
    if constexpr (W == 2) return Lanes(_mm_min_pd(a.v, b.v));
#endif
    return choose(a < b, a, b);
  }
  friend Lanes larger(const Lanes& a, const Lanes& b) {
#if defined(__AVX512F__)
    if constexpr (W == 8) return Lanes(_mm512_maskz_max_pd(0xff, b.v, a.v));
#endif
#if defined(__AVX__)
    if constexpr (W == 4) return Lanes(_mm256_max_pd(b.v, a.v));
#endif
#if defined(__SSE2__)
    if constexpr (W == 2) return Lanes(_mm_max_pd(b.v, a.v));
#endif
    return choose(a < b, b, a);
  }
  friend const Lanes& value(const Lanes& a) { return a; }

  friend Lanes sqrt(const Lanes& a) {
#if defined(__AVX512F__)
    if constexpr (W == 8) return Lanes(_mm512_maskz_sqrt_pd(0xff, a.v));
#endif
#if defined(__AVX__)
    if constexpr (W == 4) return Lanes(_mm256_sqrt_pd(a.v));
#endif
#if defined(__SSE2__)
    if constexpr (W == 2) return Lanes(_mm_sqrt_pd(a.v));
#endif
    if constexpr (W == 1) return Lanes(__builtin_sqrt(a.v));
    Lanes root;
    if constexpr (W > 1)
      for (int i = 0; i < W; ++i) root.v[i] = __builtin_sqrt(a.v[i]);
    return root;
  }

  friend std::pair<Lanes, Lanes> reciprocals(const Lanes& a, const Lanes& b) requires(W > 1) {
    const Lanes both = Lanes(1.0) / (a * b);
    return {both * b, both * a};
  }
  friend Lanes root(const Lanes& a) { return sqrt(a); }
  friend Lanes exp(const Lanes& x) { return polynomials::exp(x); }
  friend Lanes log(const Lanes& x) { return polynomials::log(x); }
  friend Lanes pow(const Lanes& x, const Lanes& power) {
    return polynomials::exp(power * polynomials::log(x));
  }
  friend Lanes rough_power(const Lanes& x, double power) { return polynomials::rough_power(x, power); }
  friend Lanes sin(const Lanes& x) { return polynomials::sin(x); }
  friend Lanes cos(const Lanes& x) { return polynomials::cos(x); }
  friend Lanes atan2(const Lanes& y, const Lanes& x) { return polynomials::atan2(y, x); }
  friend Lanes abs(const Lanes& x) { return from_bits(x.bits() & all(INT64_MAX)); }

  // What the polynomials ask of a number's bits.
  Bits bits() const { return __builtin_bit_cast(Bits, v); }
  static Lanes from_bits(const Bits& b) { return Lanes(__builtin_bit_cast(Numbers, b)); }
  static Bits all(std::uint64_t x) { return Bits{} + x; }
  static Condition where_set(const Bits& b, std::uint64_t bit) { return {(b & all(bit)) != all(0)}; }
};

/// How many numbers fill a register of the instruction set that the translation unit is compiled for.
template <class Level>
#if defined(__AVX512F__)
inline constexpr int register_width = 8;
#elif defined(__AVX__)
inline constexpr int register_width = 4;
#else
inline constexpr int register_width = 2;
#endif

/// The scalar of one shot on a fast path: the same arithmetic as the lanes', in one lane.
template <class Level>
using Lane = Lanes<1, Level>;

/// The number of a lane.
template <class T>
double& lane(T& numbers, int i) {
  return reinterpret_cast<double*>(&numbers)[i];
}
template <class T>
double lane(const T& numbers, int i) {
  return reinterpret_cast<const double*>(&numbers)[i];
}

/// The number of the first lane.
template <int W, class Level>
Lane<Level> first_of(const Lanes<W, Level>& numbers) {
  if constexpr (W == 1)
    return numbers;
  else
    return Lane<Level>(numbers.v[0]);
}

/// The lanes a condition holds in, one bit each.
template <int W, class Level>
unsigned lanes_where(const LaneMask<W, Level>& condition) {
  if constexpr (W == 1) return condition.m ? 1u : 0u;
#if defined(__AVX512DQ__)
  if constexpr (W == 8) return _mm512_movepi64_mask(__builtin_bit_cast(__m512i, condition.m));
#endif
#if defined(__AVX__)
  if constexpr (W == 4)
    return static_cast<unsigned>(_mm256_movemask_pd(__builtin_bit_cast(__m256d, condition.m)));
#endif
#if defined(__SSE2__)
  if constexpr (W == 2)
    return static_cast<unsigned>(_mm_movemask_pd(__builtin_bit_cast(__m128d, condition.m)));
#endif
  unsigned found = 0;
  if constexpr (W > 1)
    for (int i = 0; i < W; ++i) found |= (condition.m[i] ? 1u : 0u) << i;
  return found;
}

template <int W, class Level>
bool any(const LaneMask<W, Level>& condition) {
  return lanes_where(condition) != 0;
}

}  // namespace whimbrel
