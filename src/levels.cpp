// Chooses the batch kernels for the machine the program runs on.
#include <cstdlib>
#include <span>
#include <string>

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

/// A level's kernels, and whether this machine has every feature that they are compiled with.
struct Level {
  const Kernels* kernels;
  bool here;
};

std::span<const Level> levels() {
#if defined(__x86_64__)
  __builtin_cpu_init();
  static const bool v2 = __builtin_cpu_supports("sse4.2") && __builtin_cpu_supports("popcnt"),
                    v3 = v2 && __builtin_cpu_supports("avx2") && __builtin_cpu_supports("fma") &&
                         __builtin_cpu_supports("bmi") && __builtin_cpu_supports("bmi2"),
                    v4 = v3 && __builtin_cpu_supports("avx512f") && __builtin_cpu_supports("avx512dq") &&
                         __builtin_cpu_supports("avx512vl");
  static const Level all[] = {{&kernels_v4, v4}, {&kernels_v3, v3}, {&kernels_v2, v2}};
#else
  static const Level all[] = {{&kernels_native, true}};
#endif
  return all;
}

const Kernels& chosen() {
  const char* wanted = std::getenv("WHIMBREL_CPU_LEVEL");
  std::string there;
  for (const Level& level : levels()) {
    if (!level.here) continue;
    if (!wanted || !*wanted || std::string_view(wanted) == level.kernels->level) return *level.kernels;
    (there += there.empty() ? "" : ", ") += level.kernels->level;
  }
  throw InputError("WHIMBREL_CPU_LEVEL", 0.0,
                   wanted
                       ? "it is \"" + std::string(wanted) + "\"; this machine can run: " + there
                       : std::string("this processor is older than the batch kernels can use (x86-64-v2)"));
}

}  // namespace
}  // namespace levels

const Kernels& kernels() {
  static const Kernels& best = levels::chosen();
  return best;
}

}  // namespace whimbrel
