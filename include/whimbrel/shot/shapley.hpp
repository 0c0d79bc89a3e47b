#pragma once
#include <array>
#include <bit>
#include <cstddef>

#include "whimbrel/core/scalar.hpp"

namespace whimbrel {

/// A total shared out among N causes.
template <std::size_t N, Scalar T = double>
struct Shapley {
  std::array<T, N> share{};          ///< of each cause: the mean over all orders of what it adds; they add up
  std::array<T, N> least{}, most{};  ///< what it adds in the orders that have it add least and most
  std::array<std::array<T, N>, N> interaction{};  ///< what two add together beyond each alone, on average
};

constexpr double binomial(std::size_t n, std::size_t k) {
  double ways = 1.0;
  for (std::size_t i = 0; i < k; ++i) ways = ways * static_cast<double>(n - i) / static_cast<double>(i + 1);
  return ways;
}

/// Shares out worth[all] - worth[none]; `worth` is indexed by sets of causes, a bit a cause. A cause that
/// changes no set's worth gets exactly 0; causes that change them alike, alike shares.
/// Sources: Shapley, A value for n-person games, 1953; as a measure of sensitivity: Owen & Prieur, SIAM/ASA
/// J. Uncertainty Quantification 5 (2017) 986; interaction: Grabisch & Roubens, Int. J. Game Theory 28 (1999)
/// 547 (all from memory). Every set is the predecessors of some order: least and most are over all orders.
template <std::size_t N, Scalar T>
Shapley<N, T> shapley(const std::array<T, (std::size_t{1} << N)>& worth) {
  static_assert(N >= 2);
  Shapley<N, T> result;
  for (std::size_t i = 0; i < N; ++i) {
    const std::size_t one = std::size_t{1} << i;
    result.least[i] = result.most[i] = worth[one] - worth[0];
    for (std::size_t set = 0; set < worth.size(); ++set) {
      if (set & one) continue;
      const T added = worth[set | one] - worth[set];
      const std::size_t size = static_cast<std::size_t>(std::popcount(set));
      result.share[i] = result.share[i] + added * T(1.0 / (static_cast<double>(N) * binomial(N - 1, size)));
      result.least[i] = smaller(result.least[i], added);
      result.most[i] = larger(result.most[i], added);
      for (std::size_t j = 0; j < N; ++j) {
        const std::size_t other = std::size_t{1} << j;
        if (j == i || (set & other)) continue;
        const T beyond = worth[set | one | other] - worth[set | other] - added;
        result.interaction[i][j] =
            result.interaction[i][j] + beyond * T(1.0 / (static_cast<double>(N - 1) * binomial(N - 2, size)));
      }
    }
  }
  return result;
}

}  // namespace whimbrel
