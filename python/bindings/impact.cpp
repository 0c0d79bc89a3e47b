#include "rows.hpp"

namespace whimbrel::bindings {

void bind_impact(py::module_& m) {
  m.def("strike", [](const Table& deliveries, const Table& clubs, bool left_handed, bool rigid,
                     const Table& balls, std::size_t rows) {
    const SwingRows swings(deliveries, clubs, left_handed, rigid);
    const Rows<Ball<>> ball(balls);
    ImpactResults results(rows);
    Mistakes mistakes;
    for (std::size_t i = 0; i < rows; ++i) try {
        const Swing<> swing = swings[i];
        results.set(i, strike(swing.delivery, swing.club, ball[i], swing.impact_model));
      } catch (const InputError& error) {
        mistakes.emplace_back(i, error.what());
      }
    return std::make_pair(results.tables(), mistakes);
  });
}

}  // namespace whimbrel::bindings
