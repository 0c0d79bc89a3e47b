// The batch kernels as programs compile them that use the library header-only: here with sanitizers.
#include <whimbrel/batch/kernels_here.hpp>
