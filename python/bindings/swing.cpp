#include "rows.hpp"

namespace whimbrel::bindings {

void bind_swing(py::module_& m) {
  m.def("club_set", [] {
    py::dict set;
    for (const Club<>& club : club_set()) {
      py::list numbers;
      for (const auto& field : Club<>::fields()) numbers.append(club.*field.member);
      set[py::str(club.name)] = numbers;
    }
    return set;
  });
  m.def("delivery_mistakes", [](const Table& deliveries) {
    const Rows<Delivery<>> rows(deliveries);
    Mistakes mistakes;
    for (std::size_t i = 0; i < rows.size(); ++i)
      if (const auto error = out_of_bounds(rows[i])) mistakes.emplace_back(i, error->what());
    return mistakes;
  });
  m.def("d_plane", [](const Table& deliveries) {
    return each<DPlane<>>(Rows<Delivery<>>(deliveries), [](const Delivery<>& d) { return d_plane(d); });
  });
  m.def("present", [](const Table& clubs, bool left_handed, const Table& presentations, std::size_t rows) {
    const Rows<Club<>> club(clubs);
    const Rows<Presentation<>> hands(presentations);
    Results<Delivery<>> results(rows);
    Mistakes mistakes;
    for (std::size_t i = 0; i < rows; ++i) try {
        Club<> c = club[i];
        c.hand = left_handed ? Hand::left : Hand::right;
        results.set(i, present(c, hands[i]));
      } catch (const InputError& error) {
        mistakes.emplace_back(i, error.what());
      }
    return std::make_pair(results.table, mistakes);
  });
}

}  // namespace whimbrel::bindings
