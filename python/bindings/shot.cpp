#include "world.hpp"

namespace whimbrel::bindings {

namespace {

struct LaunchRows {
  Rows<Launch<>> launches;
  Launch<> operator[](std::size_t row) const { return launches[row]; }
};

/// Plays every row; the mistakes of bad rows come back in words, in row order.
template <class Starts>
py::dict play(const Starts& starts, const World& world, std::size_t rows, unsigned threads) {
  ImpactResults impacts(rows);
  Results<Launch<>> launches(rows);
  Results<Flight<>> flights(rows);
  Results<OutOfRange<>> excesses(rows);
  py::array_t<std::uint8_t> statuses(static_cast<py::ssize_t>(rows));
  std::uint8_t* status = statuses.mutable_data();
  Mistakes mistakes;
  std::mutex writing_mistakes;
  {
    py::gil_scoped_release release;
    parallel_for(rows, world.surface ? 1 : threads, [&](std::size_t i) {
      const Row row = play_row(starts[i], world.ball(i), world.setting(i));
      status[i] = static_cast<std::uint8_t>(row.shot.flight.status);
      if (row.error) {
        const std::scoped_lock lock(writing_mistakes);
        mistakes.emplace_back(i, row.error->what());
        return;
      }
      if (row.shot.impact) impacts.set(i, *row.shot.impact);
      launches.set(i, row.shot.launch);
      flights.set(i, row.shot.flight);
      excesses.set(i, row.shot.flight.out_of_range);
    });
  }
  std::sort(mistakes.begin(), mistakes.end());
  using namespace py::literals;
  py::dict tables("launch"_a = launches.table, "flight"_a = flights.table, "out_of_range"_a = excesses.table,
                  "status"_a = statuses, "mistakes"_a = mistakes);
  if constexpr (std::same_as<Starts, SwingRows>) tables["struck"] = impacts.tables();
  return tables;
}

/// Positions (row, time, xyz) of flights that have been played without mistake; NaN for others.
py::array_t<double> positions(const Table& launch_table, const World& world, std::size_t rows,
                              const std::vector<double>& times, unsigned threads) {
  const Rows<Launch<>> launches(launch_table);
  py::array_t<double> result(std::vector<std::size_t>{rows, times.size(), 3});
  double* out = result.mutable_data();
  py::gil_scoped_release release;
  parallel_for(rows, world.surface ? 1 : threads, [&](std::size_t i) {
    const Row row = play_row(launches[i], world.ball(i), world.setting(i));
    double* xyz = out + i * times.size() * 3;
    for (const double t : times) {
      const Vec3<double> p =
          row.error ? Vec3<double>{NAN, NAN, NAN} : row.shot.flight.trajectory.position_at(t);
      for (const double x : {p.x, p.y, p.z}) *xyz++ = x;
    }
  });
  return result;
}

}  // namespace

void bind_shot(py::module_& m) {
  py::class_<World>(m, "World")
      .def(py::init([](Table balls, AnyAeroModel aero, Table airs, Table winds, int profile, Table terrains,
                       std::optional<std::function<double(double, double)>> surface) {
        return World{
            balls, aero, airs, winds, static_cast<WindProfile>(profile), terrains, surface.value_or(nullptr)};
      }));
  m.def("play_swings", [](const Table& deliveries, const Table& clubs, bool left_handed, bool rigid,
                          const World& world, std::size_t rows, unsigned threads) {
    return play(SwingRows(deliveries, clubs, left_handed, rigid), world, rows, threads);
  });
  m.def("play_launches", [](const Table& launches, const World& world, std::size_t rows, unsigned threads) {
    return play(LaunchRows{Rows<Launch<>>(launches)}, world, rows, threads);
  });
  m.def("positions", &positions);
}

}  // namespace whimbrel::bindings
