#include "world.hpp"

namespace whimbrel::bindings {

namespace {

using Numbers = py::array_t<double>;

/// Columns of numbers as Python keeps them, read where they are: an array of one number serves all rows.
template <std::size_t N>
void read_columns(Column (&columns)[N], const std::vector<Numbers>& arrays, std::size_t rows) {
  if (arrays.size() != N) throw std::invalid_argument("a value has the wrong number of columns");
  for (std::size_t i = 0; i < N; ++i) {
    const Numbers& x = arrays[i];
    const auto size = static_cast<std::size_t>(x.size());
    if (x.ndim() != 1 || (size != 1 && size != rows))
      throw std::invalid_argument("a column has the wrong shape");
    columns[i] = {x.data(), size == 1 ? 0 : x.strides(0) / static_cast<py::ssize_t>(sizeof(double))};
  }
}

/// A table of results whose columns are each in one piece.
using ColumnTable = py::array_t<double, py::array::f_style>;

template <std::size_t N>
ColumnTable write_columns(OutColumn (&columns)[N], std::size_t rows) {
  ColumnTable table({static_cast<py::ssize_t>(rows), static_cast<py::ssize_t>(N)});
  for (std::size_t i = 0; i < N; ++i) columns[i] = {table.mutable_data() + i * rows, 1};
  return table;
}

/// Takes down mistakes told by several threads.
class Notes {
 public:
  MistakeSink sink() {
    return [this](std::size_t row, const InputError& error) {
      const std::scoped_lock lock(writing);
      mistakes.emplace_back(row, error.what());
    };
  }
  Mistakes sorted() {
    std::sort(mistakes.begin(), mistakes.end());
    return std::move(mistakes);
  }

 private:
  std::mutex writing;
  Mistakes mistakes;
};

py::dict fly_columns(const std::vector<Numbers>& launch, const std::vector<Numbers>& ball,
                     const AnyAeroModel& aero, const std::vector<Numbers>& air,
                     const std::vector<Numbers>& wind, int profile, const std::vector<Numbers>& terrain,
                     std::size_t rows, bool reference, unsigned threads) {
  FlightColumns columns;
  read_columns(columns.launch, launch, rows);
  read_columns(columns.ball, ball, rows);
  read_columns(columns.air, air, rows);
  read_columns(columns.wind, wind, rows);
  read_columns(columns.terrain, terrain, rows);
  columns.profile = static_cast<WindProfile>(profile);
  ColumnTable flights = write_columns(columns.flight, rows), landings = write_columns(columns.landing, rows),
              excesses = write_columns(columns.out_of_range, rows);
  py::array_t<std::uint8_t> statuses(static_cast<py::ssize_t>(rows));
  columns.status = statuses.mutable_data();
  Notes notes;
  {
    py::gil_scoped_release release;
    FlyAll(rows, columns, aero, reference ? Accuracy::reference : Accuracy::fast).fly(threads, notes.sink());
  }
  using namespace py::literals;
  return py::dict("flight"_a = flights, "landing"_a = landings, "out_of_range"_a = excesses,
                  "status"_a = statuses, "mistakes"_a = notes.sorted());
}

py::dict strike_columns(const std::vector<Numbers>& delivery, const std::vector<Numbers>& club,
                        bool left_handed, bool rigid, const std::vector<Numbers>& ball, std::size_t rows,
                        unsigned threads) {
  StrikeColumns columns;
  read_columns(columns.delivery, delivery, rows);
  read_columns(columns.club, club, rows);
  read_columns(columns.ball, ball, rows);
  columns.hand = hand_of(left_handed);
  columns.model = rigid ? ImpactModel::rigid : ImpactModel::compliant;
  ColumnTable impacts = write_columns(columns.impact, rows), launches = write_columns(columns.launch, rows),
              excesses = write_columns(columns.out_of_range, rows), heads = write_columns(columns.head, rows);
  Notes notes;
  {
    py::gil_scoped_release release;
    strike_all(rows, columns, threads, notes.sink());
  }
  using namespace py::literals;
  return py::dict("impact"_a = impacts, "launch"_a = launches, "out_of_range"_a = excesses,
                  "head_motion"_a = heads, "mistakes"_a = notes.sorted());
}

/// Runs out the landings of flights that have one, each for itself, their hops in the kernels' arithmetic.
py::dict run_out(const std::vector<Numbers>& landing, const Numbers& offline, const Numbers& downrange,
                 const py::array_t<std::uint8_t>& flight_statuses, const World& world, std::size_t rows,
                 unsigned threads) {
  Column down[6], place[2];
  read_columns(down, landing, rows);
  read_columns(place, {offline, downrange}, rows);
  Results<Run<>> runs(rows);
  Results<OutOfRange<>> excesses(rows);
  py::array_t<std::uint8_t> statuses(static_cast<py::ssize_t>(rows));
  const std::uint8_t* flew = flight_statuses.data();
  std::uint8_t* status = statuses.mutable_data();
  {
    py::gil_scoped_release release;
    parallel_for(rows, threads, [&](std::size_t i) {
      status[i] = flew[i];
      if (static_cast<Status>(flew[i]) > Status::not_airborne) return;
      const Ball<> ball = world.ball(i);
      const Setting<> setting = world.setting(i);
      const Run<> run = kernel::run(on_the_ground(ball, setting.terrain, place[0][i], place[1][i]),
                                    touchdown(read_row<Landing<>>(down, i)), ball, setting, world.turf(i),
                                    on_the_tee(ball, setting.terrain), fly_alone<double>);
      status[i] = static_cast<std::uint8_t>(run.status);
      runs.set(i, run);
      excesses.set(i, run.out_of_range);
    });
  }
  using namespace py::literals;
  return py::dict("run"_a = runs.table, "run_status"_a = statuses, "out_of_range"_a = excesses.table);
}

}  // namespace

void bind_batch(py::module_& m) {
  m.def("strike_columns", &strike_columns);
  m.def("fly_columns", &fly_columns);
  m.def("run_out", &run_out);
  m.def("cpu_level", [] { return std::string(kernels().level); });
}

}  // namespace whimbrel::bindings
