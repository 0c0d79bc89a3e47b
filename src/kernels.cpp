// The batch kernels of one instruction set. Compiled once for each, with WHIMBREL_LEVEL its name: the tag
// that keeps the copies of every template apart, where the linker would otherwise keep only one.
#include "whimbrel/batch/kernels_of.hpp"

#define WHIMBREL_TEXT(x) #x
#define WHIMBREL_TEXT_OF(x) WHIMBREL_TEXT(x)
#define WHIMBREL_JOINED(a, b) a##b
#define WHIMBREL_JOINED_OF(a, b) WHIMBREL_JOINED(a, b)

namespace whimbrel::levels {

struct WHIMBREL_LEVEL;
extern const Kernels WHIMBREL_JOINED_OF(kernels_, WHIMBREL_LEVEL);
constinit const Kernels WHIMBREL_JOINED_OF(kernels_, WHIMBREL_LEVEL) =
    kernels_of<WHIMBREL_LEVEL>(WHIMBREL_TEXT_OF(WHIMBREL_LEVEL));

}  // namespace whimbrel::levels
