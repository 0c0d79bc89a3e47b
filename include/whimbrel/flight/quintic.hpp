#pragma once
#include "whimbrel/core/vector.hpp"

namespace whimbrel {

/// The quintic on [0, 1] with given value, slope and curvature at both ends of a step of width h: dense
/// output of a step whose accelerations are known. P: a number, or a vector of numbers.
template <class P>
struct Quintic {
  P c0, c1, c2, c3, c4, c5;

  template <Scalar T>
  static Quintic through(const T& h, const P& p0, const P& v0, const P& a0, const P& p1, const P& v1,
                         const P& a1) {
    const P c1 = h * v0, c2 = T(0.5) * square(h) * a0;
    const P rise = p1 - p0 - c1 - c2;
    const P slope = h * v1 - c1 - T(2.0) * c2;
    const P bend = T(0.5) * square(h) * a1 - c2;
    return {p0,
            c1,
            c2,
            T(10.0) * rise - T(4.0) * slope + bend,
            T(7.0) * slope - T(15.0) * rise - T(2.0) * bend,
            T(6.0) * rise - T(3.0) * slope + bend};
  }

  template <Scalar T>
  P at(const T& s) const {
    return c0 + s * (c1 + s * (c2 + s * (c3 + s * (c4 + s * c5))));
  }
  /// Its derivative by s.
  template <Scalar T>
  P slope(const T& s) const {
    return c1 + s * (T(2.0) * c2 + s * (T(3.0) * c3 + s * (T(4.0) * c4 + s * (T(5.0) * c5))));
  }
  template <Scalar T>
  P curvature(const T& s) const {
    return T(2.0) * c2 + s * (T(6.0) * c3 + s * (T(12.0) * c4 + s * (T(20.0) * c5)));
  }
};

template <Scalar T>
auto value(const Quintic<T>& q) {
  return Quintic<std::remove_cvref_t<decltype(value(q.c0))>>{value(q.c0), value(q.c1), value(q.c2),
                                                             value(q.c3), value(q.c4), value(q.c5)};
}

/// A number and its rate of change.
template <Scalar T>
struct WithSlope {
  T value, slope;
};
template <class T>
WithSlope(const T&, const T&) -> WithSlope<T>;

/// Where in [low, 1] a falling f crosses zero: Newton's method, held in a bracket that halves where it must.
/// `f(s)` is a `WithSlope`.
template <Scalar T, class F>
T falling_root(const F& f, T low) {
  constexpr int rounds = 12;
  T high(1.0), s = T(0.5) * (low + high);
  for (int i = 0; i < rounds; ++i) {
    const WithSlope<T> here = f(s);
    const auto above = here.value > T(0.0);
    low = choose(above, s, low);
    high = choose(above, high, s);
    const T newton = s - here.value / here.slope, middle = T(0.5) * (low + high);
    s = choose(newton >= low && newton <= high, newton, middle);
  }
  return s;
}

}  // namespace whimbrel
