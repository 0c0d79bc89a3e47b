// The explicit instantiations behind `whimbrel/compiled.hpp`.
#include "whimbrel/whimbrel.hpp"

namespace whimbrel {

template Flight<double> kernel::fly(const Launch<double>&, const Ball<double>&, const Setting<double>&,
                                    const Vec3<double>&);
template Flight<double> fly(const Launch<double>&, const Ball<double>&, const Setting<double>&);
template Impact<double> strike(const Delivery<double>&, const Club<double>&, const Ball<double>&,
                               ImpactModel);
template Shot<double> play(const Delivery<double>&, const Club<double>&, const Ball<double>&,
                           const Setting<double>&, const Turf<double>&, ImpactModel);
template Shot<double> play(const Launch<double>&, const Ball<double>&, const Setting<double>&,
                           const Turf<double>&);
template Shot<double> play(const Landing<double>&, const Ball<double>&, const Setting<double>&,
                           const Turf<double>&);
template Delivery<double> present(const Club<double>&, const Presentation<double>&, Delivery<double>);

}  // namespace whimbrel
