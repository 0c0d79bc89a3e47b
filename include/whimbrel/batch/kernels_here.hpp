#pragma once
// The batch kernels for programs that use the library header-only: include it in one file, which then takes a
// while to compile. They are those of the instruction set which that file is compiled for.
#include "whimbrel/batch/kernels_of.hpp"

namespace whimbrel {

struct here;

inline constexpr Kernels here_kernels = kernels_of<here>("here");
inline constexpr const Kernels* all_here = &here_kernels;

const Kernels& kernels() { return here_kernels; }
std::span<const Kernels* const> runnable_kernels() { return {&all_here, 1}; }

}  // namespace whimbrel
