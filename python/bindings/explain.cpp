#include "world.hpp"

namespace whimbrel::bindings {

namespace {

/// One stroke and the reference it is held against.
struct Explained {
  Swing<> swing;
  Ball<> ball;
  Stroke<> shot, reference;

  Explained(const Table& delivery, double uphill, const Table& reference_delivery, const Table& reference_air,
            const Table& clubs, bool left_handed, bool rigid, const World& world)
      : swing(SwingRows(delivery, clubs, left_handed, rigid)[0]),
        ball(world.ball(0)),
        shot(stroke_of(swing.delivery, uphill, swing.club.hand, world.setting(0))),
        reference(stroke_of(Rows<Delivery<>>(reference_delivery)[0], 0.0, swing.club.hand,
                            Setting<>{.air = Rows<Air<>>(reference_air)[0]})) {}
};

py::dict shares(const Shapley<cause_count>& shared) {
  using namespace py::literals;
  return py::dict("share"_a = shared.share, "least"_a = shared.least, "most"_a = shared.most,
                  "interaction"_a = shared.interaction);
}

std::array<double, 4> parts(const Sideways<>& of) {
  return {of.square, of.strike_and_stance, of.face, of.path};
}

py::dict explain(const Table& delivery, double uphill, const Table& reference, const Table& reference_air,
                 const Table& clubs, bool left_handed, bool rigid, const World& world, unsigned threads) {
  const Explained it(delivery, uphill, reference, reference_air, clubs, left_handed, rigid, world);
  const auto& [swing, ball, shot, compared] = it;
  CauseLedger<> causes;
  StartAndCurve<> order;
  {
    py::gil_scoped_release release;
    causes =
        explain_causes(shot, compared, swing.club, ball, swing.impact_model, world.surface ? 1 : threads);
    order = start_and_curve(shot, compared, swing.club, ball, swing.impact_model);
  }
  Results<Delivery<>> level(1);
  level.set(0, shot.level);
  using namespace py::literals;
  return py::dict("reference_carry"_a = causes.reference_carry,
                  "reference_offline"_a = causes.reference_offline, "carry"_a = causes.carry,
                  "offline"_a = causes.offline, "of_carry"_a = shares(causes.of_carry),
                  "of_offline"_a = shares(causes.of_offline), "replays"_a = causes.replays,
                  "grounded"_a = causes.grounded, "start"_a = parts(order.start),
                  "curve"_a = parts(order.curve), "wind"_a = parts(order.wind), "level"_a = level.table);
}

}  // namespace

void bind_explain(py::module_& m) {
  py::list causes;
  for (std::size_t i = 0; i < cause_count; ++i) causes.append(std::string(describe(static_cast<Cause>(i))));
  m.attr("causes") = causes;
  m.def("explain",
        [](const Table& delivery, double uphill, const Table& reference, const Table& reference_air,
           const Table& clubs, bool left_handed, bool rigid, const World& world,
           unsigned threads) -> std::variant<py::dict, std::string> {
          try {
            return explain(delivery, uphill, reference, reference_air, clubs, left_handed, rigid, world,
                           threads);
          } catch (const InputError& error) {
            return std::string(error.what());
          }
        });
}

}  // namespace whimbrel::bindings
