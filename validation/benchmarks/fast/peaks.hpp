#pragma once
#include <string_view>

/// What one core can do at most: one kind of arithmetic, in registers alone, none waiting for another.
namespace whimbrel::benchmarks {

enum class Arithmetic { fused_multiply_add, divide, square_root };

/// Does so many rounds of it by one instruction set, and returns the number of floating-point operations.
/// Compiled once for each.
long peak_v2(Arithmetic arithmetic, long rounds);
long peak_v3(Arithmetic arithmetic, long rounds);
long peak_v4(Arithmetic arithmetic, long rounds);

inline auto peak(std::string_view level) {
  return level == "v4" ? peak_v4 : level == "v3" ? peak_v3 : peak_v2;
}

}  // namespace whimbrel::benchmarks
