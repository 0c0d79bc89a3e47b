#include "rows.hpp"

namespace whimbrel::bindings {

namespace {

void bind_swing_arc(py::module_& m) {
  m.def("at_ball", [](const Table& arcs, bool left_handed) {
    return each<ArcAtBall<>>(Rows<SwingArc<>>(arcs),
                             [&](const SwingArc<>& arc) { return at_ball(arc, hand_of(left_handed)); });
  });
  m.def("arc_mistakes", [](const Table& arcs) {
    const Rows<SwingArc<>> rows(arcs);
    Mistakes mistakes;
    for (std::size_t i = 0; i < rows.size(); ++i)
      if (const auto error = mistake(rows[i])) mistakes.emplace_back(i, error->what());
    return mistakes;
  });
  m.def("arc_of", [](const Table& deliveries, const Table& arcs, const std::vector<double>& heights,
                     bool left_handed, std::size_t rows) {
    const Rows<Delivery<>> delivery(deliveries);
    const Rows<SwingArc<>> arc(arcs);
    return each_or_mistake<SwingArc<>>(rows, [&](std::size_t i) {
      const Delivery<> d = delivery[i];
      const SwingArc<> shape = arc[i];
      return arc_of(d.club_path, d.attack_angle, shape.plane_inclination, shape.radius, heights[i],
                    hand_of(left_handed));
    });
  });
  m.def("carried_along", [](const Table& deliveries, const Table& from, const Table& to, bool left_handed,
                            bool held, std::size_t rows) {
    const Rows<Delivery<>> delivery(deliveries);
    const Rows<SwingArc<>> before(from), after(to);
    return each_or_mistake<Delivery<>>(rows, [&](std::size_t i) {
      return carried_along(delivery[i], before[i], after[i], hand_of(left_handed),
                           held ? FaceOnArc::held : FaceOnArc::turning);
    });
  });
  m.def("on_uphill_stance", [](const Table& deliveries, const std::vector<double>& uphill, std::size_t rows) {
    const Rows<Delivery<>> delivery(deliveries);
    return each_or_mistake<Delivery<>>(
        rows, [&](std::size_t i) { return on_uphill_stance(delivery[i], uphill[i]); });
  });
  m.def("delivered_on",
        [](const Table& arcs, const Table& clubs, bool left_handed, const Table& hands,
           const std::vector<double>& speeds, const Table& places, double ball_radius, std::size_t rows) {
          const Rows<SwingArc<>> arc(arcs);
          const ClubRows club(clubs, left_handed);
          const Rows<Presentation<>> presentation(hands);
          const Rows<BallPlace<>> place(places);
          return each_or_mistake<Delivery<>>(rows, [&](std::size_t i) {
            return delivered_on(arc[i], club[i], presentation[i], speeds[i], place[i], ball_radius);
          });
        });
  m.def("ground_strike", [](const Table& arcs, const Table& clubs, bool left_handed,
                            const std::array<std::vector<double>, 4>& numbers, std::size_t rows) {
    const Rows<SwingArc<>> arc(arcs);
    const ClubRows club(clubs, left_handed);
    Results<GroundStrike<>> results(rows);
    std::vector<int> contacts(rows);
    for (std::size_t i = 0; i < rows; ++i) {
      const auto& [lofts, tees, radii, soles] = numbers;
      const GroundStrike<> strike = ground_strike(arc[i], club[i], lofts[i], tees[i], radii[i], soles[i]);
      results.set(i, strike);
      contacts[i] = static_cast<int>(strike.contact);
    }
    return std::make_pair(results.table, contacts);
  });
}

}  // namespace

void bind_swing(py::module_& m) {
  m.def("club_set", [] { return by_name(club_set()); });
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
    const ClubRows club(clubs, left_handed);
    const Rows<Presentation<>> hands(presentations);
    return each_or_mistake<Delivery<>>(rows, [&](std::size_t i) { return present(club[i], hands[i]); });
  });
  bind_swing_arc(m);
}

}  // namespace whimbrel::bindings
