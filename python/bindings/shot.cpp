#include <pybind11/functional.h>

#include "world.hpp"

namespace whimbrel::bindings {

namespace {

/// How far flight and run went outside their models' ranges: each fills fields of its own.
OutOfRange<> excess_of(const Shot<>& shot) {
  OutOfRange<> all = shot.flight.out_of_range;
  all.bounce_speed = shot.run.out_of_range.bounce_speed;
  all.bounce_angle = shot.run.out_of_range.bounce_angle;
  return all;
}

/// Plays every row; the mistakes of bad rows come back in words, in row order.
template <class Starts>
py::dict play(const Starts& starts, const World& world, std::size_t rows, unsigned threads) {
  ImpactResults impacts(rows);
  Results<Launch<>> launches(rows);
  Results<Flight<>> flights(rows);
  Results<Landing<>> landings(rows);
  Results<Run<>> runs(rows);
  Results<OutOfRange<>> excesses(rows);
  py::array_t<std::uint8_t> statuses(static_cast<py::ssize_t>(rows));
  py::array_t<std::uint8_t> run_statuses(static_cast<py::ssize_t>(rows));
  std::uint8_t *status = statuses.mutable_data(), *run_status = run_statuses.mutable_data();
  const Mistakes mistakes = for_rows(rows, world.surface ? 1 : threads, [&](std::size_t i) {
    const auto [shot, error] = play_row(starts[i], world.ball(i), world.setting(i), world.turf(i));
    status[i] = static_cast<std::uint8_t>(shot.flight.status);
    run_status[i] = static_cast<std::uint8_t>(shot.run.status);
    if (error) return error;
    if (shot.impact) impacts.set(i, *shot.impact);
    launches.set(i, shot.launch);
    flights.set(i, shot.flight);
    landings.set(i, shot.landing);
    runs.set(i, shot.run);
    excesses.set(i, excess_of(shot));
    return error;
  });
  using namespace py::literals;
  py::dict tables("launch"_a = launches.table, "flight"_a = flights.table, "landing"_a = landings.table,
                  "run"_a = runs.table, "out_of_range"_a = excesses.table, "status"_a = statuses,
                  "run_status"_a = run_statuses, "mistakes"_a = mistakes);
  if constexpr (std::same_as<Starts, SwingRows>) tables["struck"] = impacts.tables();
  return tables;
}

/// Positions (row, time, xyz), in the flight or in the run, of shots that have been played without mistake;
/// NaN for others.
template <class Start>
py::array_t<double> positions(const Table& start_table, const World& world, std::size_t rows,
                              const std::vector<double>& times, bool in_run, unsigned threads) {
  const Rows<Start> starts(start_table);
  py::array_t<double> result(std::vector<std::size_t>{rows, times.size(), 3});
  double* out = result.mutable_data();
  py::gil_scoped_release release;
  parallel_for(rows, world.surface ? 1 : threads, [&](std::size_t i) {
    const Shot<> shot = play_row(starts[i], world.ball(i), world.setting(i), world.turf(i)).shot;
    const Trajectory<>& trajectory = in_run ? shot.run.trajectory : shot.flight.trajectory;
    double* xyz = out + i * times.size() * 3;
    for (const double t : times) {
      const Vec3<double> p = trajectory.position_at(t);
      for (const double x : {p.x, p.y, p.z}) *xyz++ = x;
    }
  });
  return result;
}

}  // namespace

void bind_shot(py::module_& m) {
  py::class_<World>(m, "World")
      .def(py::init([](Table balls, AnyAeroModel aero, Table airs, Table winds, int profile, Table terrains,
                       std::optional<std::function<double(double, double)>> surface, Table turfs) {
        return World{
            balls, aero, airs, winds, static_cast<WindProfile>(profile), terrains, surface.value_or(nullptr),
            turfs};
      }));
  m.def("play_swings", [](const Table& deliveries, const Table& clubs, bool left_handed, bool rigid,
                          const World& world, std::size_t rows, unsigned threads) {
    return play(SwingRows(deliveries, clubs, left_handed, rigid), world, rows, threads);
  });
  m.def("play_launches", [](const Table& launches, const World& world, std::size_t rows, unsigned threads) {
    return play(Rows<Launch<>>(launches), world, rows, threads);
  });
  m.def("play_landings", [](const Table& landings, const World& world, std::size_t rows, unsigned threads) {
    return play(Rows<Landing<>>(landings), world, rows, threads);
  });
  m.def("positions_of_launches", &positions<Launch<>>);
  m.def("positions_of_landings", &positions<Landing<>>);
}

}  // namespace whimbrel::bindings
