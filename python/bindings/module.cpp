#include "rows.hpp"

namespace {

/// A caller's mistake that no row is to blame for reaches Python as the library's own error.
void raise_as_input_error(std::exception_ptr thrown) {
  try {
    if (thrown) std::rethrow_exception(thrown);
  } catch (const whimbrel::InputError& error) {
    const pybind11::object type = pybind11::module_::import("whimbrel.errors").attr("InputError");
    pybind11::set_error(type, error.what());
  }
}

}  // namespace

PYBIND11_MODULE(_core, m) {
  m.doc() = "The compiled half of whimbrel. Private: use the package.";
  using namespace whimbrel::bindings;
  pybind11::register_local_exception_translator(raise_as_input_error);
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
  bind_inverse(m);
}
