#include "rows.hpp"

namespace whimbrel::bindings {

using namespace py::literals;

void bind_inverse(py::module_& m) {
  py::list sources;
  for (std::size_t i = 0; i < doubt_source_count; ++i)
    sources.append(std::string(describe(static_cast<DoubtSource>(i))));
  m.attr("doubt_sources") = sources;

  // Worlds by the place of their source in that list; models as in `ball_presets`.
  m.def("worlds", [](const AnyAeroModel& aero) {
    py::list all;
    for (const World& world : worlds(aero))
      all.append(py::dict("source"_a = static_cast<int>(world.source), "weight"_a = world.weight,
                          "aero"_a = numbers_by_name(world.aero),
                          "beside"_a = world.beside ? py::object(numbers_by_name(*world.beside)) : py::none(),
                          "contact_stiffness_factor"_a = world.contact_stiffness_factor,
                          "friction_factor"_a = world.friction_factor,
                          "restitution_change"_a = world.restitution_change,
                          "turf_factors"_a = world.turf_factors));
    return all;
  });

  // The deviations of a flight by the C++ half, all sources together, which a test holds beside Python's.
  m.def("doubt_of_flight", [](const Table& delivery, const Table& club) {
    Results<Flight<>> results(1);
    results.set(0, doubt(Rows<Delivery<>>(delivery)[0], Rows<Club<>>(club)[0]).all.flight);
    return results.table;
  });

  // For `validation/doubt`, which fits them: the numbers behind the worlds, and a law's table.
  m.def("constant_draws", [] {
    std::vector<std::vector<double>> rows;
    for (const ConstantDraw& draw : constant_draws) {
      rows.emplace_back(draw.flight.begin(), draw.flight.end());
      for (const double x : {draw.contact_stiffness, draw.friction, draw.restitution})
        rows.back().push_back(x);
    }
    return rows;
  });
  m.def("flight_laws", [] {
    py::list laws;
    for (const OtherLaw& law : flight_laws)
      laws.append(py::make_tuple(law.weight, numbers_by_name(law.constants), law.lift_reynolds_power,
                                 law.drag_reynolds_power, law.induced_drag));
    return laws;
  });
  m.attr("ball_drag_spread") = ball_drag_spread;
  m.attr("turf_spread") = turf_spread;
  m.def("law_table", [](const Table& constants, double lift_power, double drag_power, bool induced_drag) {
    return numbers_by_name(
        table_of(OtherLaw{1.0, Rows<MultiLayer>(constants)[0], lift_power, drag_power, induced_drag}));
  });
}

}  // namespace whimbrel::bindings
