#include "rows.hpp"

PYBIND11_MODULE(_core, m) {
  m.doc() = "The compiled half of whimbrel. Private: use the package.";
  using namespace whimbrel::bindings;
  bind_core(m);
  bind_setting(m);
  bind_ball(m);
  bind_swing(m);
  bind_impact(m);
  bind_ground(m);
  bind_shot(m);
  bind_course(m);
  bind_explain(m);
  bind_batch(m);
  bind_derivative(m);
}
