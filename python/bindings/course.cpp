#include "world.hpp"

namespace whimbrel::bindings {

namespace {

template <class Starts>
py::tuple level_distances(const Starts& starts, const Table& targets, const World& world, std::size_t rows,
                          unsigned threads) {
  const Rows<Target<>> target(targets);
  Results<LevelDistance<>> results(rows);
  py::array_t<std::uint8_t> statuses(static_cast<py::ssize_t>(rows));
  std::uint8_t* status = statuses.mutable_data();
  const Mistakes mistakes = for_rows(rows, threads, [&](std::size_t i) {
    status[i] = static_cast<std::uint8_t>(Status::bad_input);
    const auto start = starts[i];
    const auto error = first_mistake(start, target[i], world.ball(i), world.setting(i));
    if (error) return error;
    const LevelDistance<> level = kernel::level_distance(start, target[i], world.ball(i), world.setting(i));
    results.set(i, level);
    status[i] = static_cast<std::uint8_t>(level.status);
    return error;
  });
  return py::make_tuple(results.table, statuses, mistakes);
}

/// What holds each landing in its room, by `least`.
template <class Least>
py::tuple to_hold(const Table& landings, const Table& rooms, const World& world, std::size_t rows,
                  unsigned threads, const Least& least) {
  const Rows<Landing<>> landing(landings);
  const Rows<Room<>> room(rooms);
  py::array_t<double> results(static_cast<py::ssize_t>(rows));
  double* result = results.mutable_data();
  std::fill_n(result, rows, NAN);
  const Mistakes mistakes = for_rows(rows, threads, [&](std::size_t i) {
    const Setting<> setting = world.setting(i);
    const auto error = first_mistake(landing[i], room[i], world.ball(i), setting, world.turf(i));
    if (!error) result[i] = least(landing[i], room[i], world.ball(i), setting, world.turf(i));
    return error;
  });
  return py::make_tuple(results, mistakes);
}

}  // namespace

void bind_course(py::module_& m) {
  m.attr("usual_loft_range") = py::make_tuple(least_usual_loft, greatest_usual_loft);
  m.def("usual_deliveries", [](const Table& clubs, bool left_handed, const Table& paces, std::size_t rows) {
    const ClubRows club(clubs, left_handed);
    const Rows<Pace<>> pace(paces);
    return each_or_mistake<Delivery<>>(rows, [&](std::size_t i) {
      check(club[i], pace[i]);
      if (const auto error = no_usual_delivery(club[i])) throw *error;
      return usual_delivery(club[i], pace[i]);
    });
  });
  m.def("level_distances_of_swings", [](const Table& deliveries, const Table& clubs, bool left_handed,
                                        bool rigid, const Table& targets, const World& world,
                                        std::size_t rows, unsigned threads) {
    return level_distances(SwingRows(deliveries, clubs, left_handed, rigid), targets, world, rows, threads);
  });
  m.def("level_distances_of_launches", [](const Table& launches, const Table& targets, const World& world,
                                          std::size_t rows, unsigned threads) {
    return level_distances(Rows<Launch<>>(launches), targets, world, rows, threads);
  });
  m.def("spin_to_hold", [](const Table& landings, const Table& rooms, const World& world, std::size_t rows,
                           unsigned threads) {
    return to_hold(landings, rooms, world, rows, threads,
                   [](const auto&... values) { return spin_to_hold(values...); });
  });
  m.def("descent_to_hold", [](const Table& landings, const Table& rooms, const World& world, std::size_t rows,
                              unsigned threads) {
    return to_hold(landings, rooms, world, rows, threads,
                   [](const auto&... values) { return descent_to_hold(values...); });
  });
}

}  // namespace whimbrel::bindings
