#include "rows.hpp"

namespace whimbrel::bindings {

void bind_impact(py::module_& m) {
  m.def("strike", [](const Table& deliveries, const Table& clubs, const Table& balls, std::size_t rows) {
    const Rows<Delivery<>> delivery(deliveries);
    const Rows<Club<>> club(clubs);
    const Rows<Ball<>> ball(balls);
    ImpactResults results(rows);
    Mistakes mistakes;
    for (std::size_t i = 0; i < rows; ++i) try {
        results.set(i, strike(delivery[i], club[i], ball[i]));
      } catch (const InputError& error) {
        mistakes.emplace_back(i, error.what());
      }
    return std::make_pair(results.tables(), mistakes);
  });
}

}  // namespace whimbrel::bindings
