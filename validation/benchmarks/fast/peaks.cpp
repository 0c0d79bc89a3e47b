#include "peaks.hpp"

#include "whimbrel/core/lanes.hpp"

namespace whimbrel::benchmarks {

namespace {

struct Here;  // known to this file alone, so that nothing is merged with another level's
using T = Lanes<register_width<Here>, Here>;

// Enough numbers that do not wait for each other to keep two pipes of 4 or 5 cycles busy, in 16 registers.
constexpr int numbers = 12;

template <class Next>
void again_and_again(long rounds, const Next& next) {
  T x[numbers];
#pragma GCC unroll 12
  for (int i = 0; i < numbers; ++i) x[i] = T(1.5);
  for (long round = 0; round < rounds; ++round)
#pragma GCC unroll 12
    for (int i = 0; i < numbers; ++i) {
      x[i] = next(x[i]);
      asm volatile("" : "+x"(x[i].v));  // to be done in every round, in a register
    }
}

}  // namespace

long WHIMBREL_PEAK(Arithmetic arithmetic, long rounds) {
  const T factor(0.7), term(0.5);
  const long all = static_cast<long>(T::width) * numbers * rounds;
  switch (arithmetic) {
    case Arithmetic::fused_multiply_add:
      again_and_again(rounds, [&](const T& x) { return x * factor + term; });
      return 2 * all;
    case Arithmetic::divide:
      again_and_again(rounds, [&](const T& x) { return factor / x; });
      return all;
    default:
      again_and_again(rounds, [](const T& x) { return sqrt(x); });
      return all;
  }
}

}  // namespace whimbrel::benchmarks
