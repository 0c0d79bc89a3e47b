#include <doctest/doctest.h>

#include <algorithm>
#include <numeric>
#include <vector>

#include "agrees.hpp"
#include "random_cases.hpp"

using namespace whimbrel;
using namespace whimbrel::test;

namespace {

constexpr std::size_t count = 5;
using Worth = std::array<double, 1 << count>;

Worth any_worth(Random& random) {
  Worth worth;
  for (double& x : worth) x = random.between(-100, 100);
  return worth;
}

}  // namespace

TEST_CASE("three causes share as the mean of the six orders worked by hand") {
  // Sets 0, A, B, AB, C, AC, BC, ABC.
  const std::array<double, 8> worth{10, 14, 11, 20, 9, 15, 12, 30};
  // A joins: first 4, after B 9, after C 6, after both 18; orders 2, 1, 1, 2.
  // B joins: first 1, after A 6, after C 3, after both 15. C joins: -1, 1, 1, 10.
  const auto [share, least, most, interaction] = shapley<3>(worth);
  CHECK(agrees(share[0], (2 * 4 + 9 + 6 + 2 * 18) / 6.0, 1e-12, 0));
  CHECK(agrees(share[1], (2 * 1 + 6 + 3 + 2 * 15) / 6.0, 1e-12, 0));
  CHECK(agrees(share[2], (2 * -1 + 1 + 1 + 2 * 10) / 6.0, 1e-12, 0));
  CHECK(least == std::array{4.0, 1.0, -1.0});
  CHECK(most == std::array{18.0, 15.0, 10.0});
  // A and B beyond each alone: 5 without C, 12 with it.
  CHECK(agrees(interaction[0][1], (5 + 12) / 2.0, 1e-12, 0));
  CHECK(interaction[0][1] == interaction[1][0]);
}

TEST_CASE("shares are the mean over all orders, and their range is that of the orders") {
  for (unsigned seed = 0; seed < 100; ++seed) {
    Random random{std::mt19937_64(seed)};
    const Worth worth = any_worth(random);
    std::array<double, count> mean{}, least, most;
    least.fill(1e9);
    most.fill(-1e9);
    std::array<std::size_t, count> order;
    std::iota(order.begin(), order.end(), std::size_t{0});
    do {
      std::size_t set = 0;
      for (const std::size_t i : order) {
        const double added = worth[set | std::size_t{1} << i] - worth[set];
        mean[i] += added / 120;
        least[i] = std::min(least[i], added);
        most[i] = std::max(most[i], added);
        set |= std::size_t{1} << i;
      }
    } while (std::next_permutation(order.begin(), order.end()));
    const auto shared = shapley<count>(worth);
    for (std::size_t i = 0; i < count; ++i) CHECK(agrees(shared.share[i], mean[i], 1e-10, 0));
    CHECK(shared.least == least);
    CHECK(shared.most == most);
    CHECK(agrees(std::accumulate(shared.share.begin(), shared.share.end(), 0.0), worth.back() - worth[0],
                 1e-10, 0));
  }
}

TEST_CASE("a cause that changes nothing gets exactly nothing, causes that change alike get alike") {
  for (unsigned seed = 0; seed < 100; ++seed) {
    Random random{std::mt19937_64(seed)};
    Worth worth = any_worth(random);
    for (std::size_t set = 0; set < worth.size(); ++set) {
      if (set & 1) worth[set] = worth[set & ~std::size_t{1}];               // cause 0 changes nothing
      if ((set & 6) == 4) worth[set] = worth[(set & ~std::size_t{6}) | 2];  // causes 1 and 2 are alike
    }
    for (std::size_t set = 0; set < worth.size(); ++set)
      if (set & 1) worth[set] = worth[set & ~std::size_t{1}];
    const auto shared = shapley<count>(worth);
    CHECK(shared.share[0] == 0.0);
    CHECK(shared.least[0] == 0.0);
    CHECK(shared.most[0] == 0.0);
    CHECK(agrees(shared.share[1], shared.share[2], 1e-12, 0));
    for (std::size_t j = 0; j < count; ++j) CHECK(shared.interaction[0][j] == 0.0);
  }
}
