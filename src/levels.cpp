// Chooses the batch kernels for the machine the program runs on.
#include <algorithm>
#include <array>
#include <cstdlib>
#include <string>
#include <vector>

#include "whimbrel/batch/kernels.hpp"
#include "whimbrel/core/error.hpp"

namespace whimbrel {

namespace levels {

#if defined(__x86_64__)
extern const Kernels kernels_v2, kernels_v3, kernels_v4;
#else
extern const Kernels kernels_native;
#endif

namespace {

/// All that were compiled, the best first.
#if defined(__x86_64__)
constexpr std::array compiled{&kernels_v4, &kernels_v3, &kernels_v2};
#else
constexpr std::array compiled{&kernels_native};
#endif

std::vector<const Kernels*> runnable() {
  std::vector<const Kernels*> all(compiled.begin(), compiled.end());
#if defined(__x86_64__)
  __builtin_cpu_init();
  const bool v2 = __builtin_cpu_supports("sse4.2") && __builtin_cpu_supports("popcnt"),
             v3 = v2 && __builtin_cpu_supports("avx2") && __builtin_cpu_supports("fma") &&
                  __builtin_cpu_supports("bmi") && __builtin_cpu_supports("bmi2"),
             v4 = v3 && __builtin_cpu_supports("avx512f") && __builtin_cpu_supports("avx512dq") &&
                  __builtin_cpu_supports("avx512vl");
  all.erase(all.begin(), all.begin() + (v4 ? 0 : v3 ? 1 : v2 ? 2 : 3));
#endif
  return all;
}

std::string names(std::span<const Kernels* const> levels) {
  std::string all;
  for (const Kernels* level : levels) (all += all.empty() ? "" : ", ") += level->level;
  return all;
}

const Kernels& chosen() {
  const char* named = std::getenv("WHIMBREL_CPU_LEVEL");
  const std::string wanted = named ? named : "";
  const auto is_wanted = [&](const Kernels* level) { return wanted.empty() || wanted == level->level; };
  const auto can_run = runnable_kernels();
  if (const auto found = std::ranges::find_if(can_run, is_wanted); found != can_run.end()) return **found;
  const bool known = std::ranges::any_of(compiled, is_wanted);
  throw InputError(
      "WHIMBREL_CPU_LEVEL", 0.0,
      wanted.empty() ? "this processor is older than the batch kernels can use (SSE4.2)"
      : known ? "it is \"" + wanted + "\", which this processor cannot run; it can run " + names(can_run)
              : "it is \"" + wanted + "\"; the levels are " + names(compiled));
}

}  // namespace
}  // namespace levels

std::span<const Kernels* const> runnable_kernels() {
  static const std::vector<const Kernels*> all = levels::runnable();
  return all;
}

const Kernels& kernels() {
  static const Kernels& best = levels::chosen();
  return best;
}

}  // namespace whimbrel
