// The batch kernels of a header-only program: the one file that compiles them.
#include <whimbrel/batch/kernels_here.hpp>
