#pragma once
#include <vector>

#include "batches.hpp"
#include "plain_odeint.hpp"

namespace whimbrel::benchmarks {

/// How far carries are from exact ones, m, sorted.
class Errors {
 public:
  Errors(std::span<const double> carries, std::span<const double> exact) {
    for (std::size_t i = 0; i < exact.size(); ++i) {
      const double error = std::abs(carries[i] - exact[i]);
      sorted.push_back(std::isnan(error) ? INFINITY : error);
    }
    std::sort(sorted.begin(), sorted.end());
  }

  double worst() const { return sorted.back(); }
  /// What this share of the flights stays below.
  double below(double share) const {
    return sorted[static_cast<std::size_t>(share * static_cast<double>(sorted.size() - 1))];
  }

 private:
  std::vector<double> sorted;
};

/// Carries of flights on all cores; `carry_of(i)` is that of one.
template <class CarryOf>
std::vector<double> carries_of(std::size_t count, const CarryOf& carry_of) {
  std::vector<double> carries(count);
  parallel_for(count, 0, [&](std::size_t i) { carries[i] = carry_of(i); });
  return carries;
}

inline std::vector<double> exact_carries(const OrdinaryShots& shots) {
  constexpr double tolerance = 1e-12;
  return carries_of(shots.count(), [&](std::size_t i) {
    const Setting<> setting = shots.setting(i);
    return kernel::OdeintFlight(shots.model, shots.launches[i], shots.ball, setting,
                                on_the_tee(shots.ball, setting.terrain), tolerance)
        .fly()
        .carry;
  });
}

inline Flight<> fly_plain(const OrdinaryShots& shots, std::size_t i, double tolerance) {
  return PlainOdeint(shots.model, shots.launches[i], shots.ball, shots.setting(i), tolerance).fly();
}

inline Errors errors_of_plain(const OrdinaryShots& shots, std::span<const double> exact, double tolerance) {
  return {carries_of(shots.count(), [&](std::size_t i) { return fly_plain(shots, i, tolerance).carry; }),
          exact};
}

/// A plain integrator that is as exact as something else: this share of its flights has no larger errors.
struct AsExact {
  std::string name;
  double share;
  double tolerance = 0.0;
};

/// The tolerances at which the plain integrator is as exact as the fast path are not the same for the worst
/// flights and for most of them.
inline std::vector<AsExact> ways_of_being_as_exact() {
  return {{"same worst", 1.0}, {"same 99 in 100", 0.99}, {"same half", 0.5}};
}

/// The loosest tolerance that is as exact as these errors.
inline double tolerance_as_exact(const OrdinaryShots& shots, std::span<const double> exact, const Errors& as,
                                 double share) {
  double strict = 1e-9, loose = 1e-3;
  while (loose > 1.05 * strict) {
    const double middle = std::sqrt(strict * loose);
    const bool good = errors_of_plain(shots, exact, middle).below(share) <= as.below(share);
    (good ? strict : loose) = middle;
  }
  return strict;
}

}  // namespace whimbrel::benchmarks
