#pragma once
#include "whimbrel/core/lanes.hpp"

namespace whimbrel {

/// A condition on each of two scalars.
template <class Condition>
struct PairedCondition {
  Condition low, high;

  friend PairedCondition operator&&(const PairedCondition& a, const PairedCondition& b) {
    return {a.low && b.low, a.high && b.high};
  }
  friend PairedCondition operator||(const PairedCondition& a, const PairedCondition& b) {
    return {a.low || b.low, a.high || b.high};
  }
  friend PairedCondition operator!(const PairedCondition& a) { return {!a.low, !a.high}; }
};

/// Two registers of lanes as one scalar: while one waits for its arithmetic the other goes on.
template <class Half>
struct Paired {
  using Condition = PairedCondition<typename Half::Condition>;
  static constexpr int width = 2 * Half::width;

  Half low{}, high{};

  Paired() = default;
  explicit Paired(double x) : low(x), high(x) {}
  Paired(const Half& low, const Half& high) : low(low), high(high) {}

  friend Paired operator+(const Paired& a, const Paired& b) { return {a.low + b.low, a.high + b.high}; }
  friend Paired operator-(const Paired& a, const Paired& b) { return {a.low - b.low, a.high - b.high}; }
  friend Paired operator*(const Paired& a, const Paired& b) { return {a.low * b.low, a.high * b.high}; }
  friend Paired operator*(double s, const Paired& a) { return {s * a.low, s * a.high}; }
  friend Paired operator/(const Paired& a, const Paired& b) { return {a.low / b.low, a.high / b.high}; }
  friend Paired operator-(const Paired& a) { return {-a.low, -a.high}; }
  friend Condition operator<(const Paired& a, const Paired& b) { return {a.low < b.low, a.high < b.high}; }
  friend Condition operator>(const Paired& a, const Paired& b) { return {a.low > b.low, a.high > b.high}; }
  friend Condition operator<=(const Paired& a, const Paired& b) { return {a.low <= b.low, a.high <= b.high}; }
  friend Condition operator>=(const Paired& a, const Paired& b) { return {a.low >= b.low, a.high >= b.high}; }
  friend Paired choose(const Condition& c, const Paired& a, const Paired& b) {
    return {choose(c.low, a.low, b.low), choose(c.high, a.high, b.high)};
  }
  friend const Paired& value(const Paired& a) { return a; }

  friend Paired smaller(const Paired& a, const Paired& b) {
    return {smaller(a.low, b.low), smaller(a.high, b.high)};
  }
  friend Paired larger(const Paired& a, const Paired& b) {
    return {larger(a.low, b.low), larger(a.high, b.high)};
  }
  friend Paired abs(const Paired& a) { return {abs(a.low), abs(a.high)}; }
  friend Paired sqrt(const Paired& a) { return {sqrt(a.low), sqrt(a.high)}; }
  friend std::pair<Paired, Paired> reciprocals(const Paired& a, const Paired& b) {
    const auto low = reciprocals(a.low, b.low), high = reciprocals(a.high, b.high);
    return {{low.first, high.first}, {low.second, high.second}};
  }
  friend Paired root(const Paired& a) { return {root(a.low), root(a.high)}; }
  friend Paired exp(const Paired& a) { return {exp(a.low), exp(a.high)}; }
  friend Paired log(const Paired& a) { return {log(a.low), log(a.high)}; }
  friend Paired pow(const Paired& a, const Paired& b) { return {pow(a.low, b.low), pow(a.high, b.high)}; }
  friend Paired rough_power(const Paired& a, double power) {
    return {rough_power(a.low, power), rough_power(a.high, power)};
  }
  friend Paired sin(const Paired& a) { return {sin(a.low), sin(a.high)}; }
  friend Paired cos(const Paired& a) { return {cos(a.low), cos(a.high)}; }
  friend Paired atan2(const Paired& a, const Paired& b) {
    return {atan2(a.low, b.low), atan2(a.high, b.high)};
  }
};

template <class Half>
auto first_of(const Paired<Half>& numbers) {
  return first_of(numbers.low);
}

template <class Condition>
unsigned lanes_where(const PairedCondition<Condition>& c) {
  return lanes_where(c.low) | lanes_where(c.high) << Condition::width;
}
template <class Condition>
bool any(const PairedCondition<Condition>& c) {
  return lanes_where(c) != 0;
}

}  // namespace whimbrel
