#pragma once
// The batch kernels for programs that use the library header-only: include it in one file, which then takes a
// while to compile. They are those of the instruction set which that file is compiled for.
#include "whimbrel/batch/kernels_of.hpp"

namespace whimbrel {

struct here;

const Kernels& kernels() {
  static constexpr Kernels all = kernels_of<here>("here");
  return all;
}

}  // namespace whimbrel
