// The row of the derivatives, behind `whimbrel/compiled.hpp`.
#include "whimbrel/whimbrel.hpp"

namespace whimbrel {

template Shot<double> kernel::play(const ShotInputs<double>&);
template Shot<Partials> kernel::play(const ShotInputs<Partials>&);

}  // namespace whimbrel
