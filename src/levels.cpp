// Chooses the batch kernels for the machine the program runs on.
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

std::vector<const Kernels*> found() {
#if defined(__x86_64__)
  __builtin_cpu_init();
  std::vector<const Kernels*> all;
  if (!__builtin_cpu_supports("sse4.2") || !__builtin_cpu_supports("popcnt")) return all;
  all.insert(all.begin(), &kernels_v2);
  if (!__builtin_cpu_supports("avx2") || !__builtin_cpu_supports("fma") || !__builtin_cpu_supports("bmi") ||
      !__builtin_cpu_supports("bmi2"))
    return all;
  all.insert(all.begin(), &kernels_v3);
  if (!__builtin_cpu_supports("avx512f") || !__builtin_cpu_supports("avx512dq") ||
      !__builtin_cpu_supports("avx512vl"))
    return all;
  all.insert(all.begin(), &kernels_v4);
  return all;
#else
  return {&kernels_native};
#endif
}

const Kernels& chosen() {
  const char* wanted = std::getenv("WHIMBREL_CPU_LEVEL");
  std::string there;
  for (const Kernels* kernels : runnable_kernels()) {
    if (!wanted || !*wanted || std::string_view(wanted) == kernels->level) return *kernels;
    (there += there.empty() ? "" : ", ") += kernels->level;
  }
  throw InputError("WHIMBREL_CPU_LEVEL", 0.0,
                   wanted
                       ? "it is \"" + std::string(wanted) + "\"; this machine can run: " + there
                       : std::string("this processor is older than the batch kernels can use (x86-64-v2)"));
}

}  // namespace
}  // namespace levels

std::span<const Kernels* const> runnable_kernels() {
  static const std::vector<const Kernels*> all = levels::found();
  return all;
}

const Kernels& kernels() {
  static const Kernels& best = levels::chosen();
  return best;
}

}  // namespace whimbrel
