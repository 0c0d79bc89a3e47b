#include "rows.hpp"

namespace whimbrel::bindings {

void bind_ground(py::module_& m) {
  m.def("turf_set", [] { return by_name(turf_set()); });
  m.def("turf_mistakes", [](const Table& turfs) { return mistakes_of(Rows<Turf<>>(turfs)); });
  m.def("turfs_of_greens", [](const Table& greens, std::size_t rows) {
    const Rows<Green<>> row(greens);
    return each_or_mistake<Turf<>>(rows, [&](std::size_t i) {
      const Green<> green = row[i];
      check(green);
      return turf_of(green);
    });
  });
}

}  // namespace whimbrel::bindings
