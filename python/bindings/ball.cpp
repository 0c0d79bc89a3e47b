#include "rows.hpp"

namespace whimbrel::bindings {

using namespace py::literals;

py::dict numbers_by_name(const AnyAeroModel& any) {
  if (const auto* table = std::get_if<AeroTable>(&any))
    return py::dict("spin_ratio"_a = table->spin_ratio, "reynolds"_a = table->reynolds,
                    "drag"_a = table->drag, "lift"_a = table->lift, "spin_decay"_a = table->spin_decay);
  const auto& model = std::get<MultiLayer>(any);
  py::dict constants;
  for (const auto& field : MultiLayer::fields())
    constants[py::str(std::string(field.name))] = model.*field.member;
  return constants;
}

namespace {

/// A model with constants only, made from a table of one row. Models travel as `AnyAeroModel`.
template <class Model>
void bind_model(py::module_& m, const char* name) {
  py::class_<Model>(m, name).def(py::init([](const Table& constants) { return Rows<Model>(constants)[0]; }));
}

}  // namespace

void bind_ball(py::module_& m) {
  bind_model<MultiLayer>(m, "MultiLayer");
  bind_model<SmitsSmith>(m, "SmitsSmith");
  bind_model<SquareRootLift>(m, "SquareRootLift");
  bind_model<ConstantCoefficients>(m, "ConstantCoefficients");
  py::class_<AeroTable>(m, "AeroTable")
      .def(py::init([](std::vector<double> spin_ratio, std::vector<double> reynolds, std::vector<double> drag,
                       std::vector<double> lift, double spin_decay) {
        return AeroTable{std::move(spin_ratio), std::move(reynolds), std::move(drag), std::move(lift),
                         spin_decay};
      }));

  m.def("aero_mistake", [](const AnyAeroModel& model) -> std::optional<std::string> {
    Ball<> ball;
    ball.aero = model;
    if (const auto error = mistake(ball)) return error->what();
    return std::nullopt;
  });
  m.def("stated_range", [](const AnyAeroModel& any) {
    const StatedRange range = std::visit([](const auto& model) { return model.stated_range(); }, any);
    return std::array{range.spin_ratio_lower, range.spin_ratio_upper, range.reynolds_lower,
                      range.reynolds_upper};
  });
  m.def("coefficients", [](const AnyAeroModel& any, double spin_ratio, double reynolds) {
    const auto aero =
        std::visit([&](const auto& model) { return aerodynamics(model, spin_ratio, reynolds); }, any);
    return std::array{aero.drag, aero.lift_per_spin_ratio * spin_ratio};
  });
  m.def("ball_presets", [] {
    py::dict presets;
    for (const NamedBall& preset : ball_presets())
      presets[py::str(std::string(preset.name))] = numbers_by_name(preset.ball.aero);
    return presets;
  });
}

}  // namespace whimbrel::bindings
