// How the cost of a call grows with the number of its shots: time, and the memory it takes beside its input.
#include <fstream>
#include <sstream>

#include "timed.hpp"
#include "whimbrel/batch/fly_all.hpp"

namespace whimbrel::benchmarks {

namespace {

constexpr std::size_t most_shots = 10'000'000;
constexpr double wind_speed = 6.0;  // m/s

/// A line of what Linux tells of this process' memory, bytes; 0 elsewhere.
double memory(const std::string& name) {
  std::ifstream lines("/proc/self/status");
  for (std::string line; std::getline(lines, line);)
    if (line.starts_with(name)) return 1024.0 * std::stod(line.substr(name.size() + 1));
  return 0.0;
}

void forget_peak_memory() { std::ofstream("/proc/self/clear_refs") << 5; }

void fly_many(benchmark::State& state, const OrdinaryShots& shots, std::size_t count) {
  std::vector<Launch<>> launches;
  for (std::size_t i = 0; i < count; ++i) launches.push_back(shots.launches[i % shots.count()]);
  const Setting<> setting{.wind = {.speed = wind_speed, .from_direction = 30 * units::deg}};
  forget_peak_memory();
  const double before = memory("VmRSS");
  for (auto _ : state) benchmark::DoNotOptimize(fly_all(launches, shots.ball, setting).numbers.data());
  const auto shots_flown = static_cast<double>(count);
  state.counters["bytes a shot"] = std::max(0.0, memory("VmHWM") - before) / shots_flown;
  state.SetItemsProcessed(state.iterations() * static_cast<std::int64_t>(count));
}

}  // namespace

void register_growth(const Timed& timed) {
  for (std::size_t count = 1; count <= most_shots; count *= 10)
    benchmark::RegisterBenchmark(("growth/" + std::to_string(count)).c_str(), [&, count](
                                                                                  benchmark::State& state) {
      fly_many(state, timed.shots, count);
    })->UseRealTime();
}

}  // namespace whimbrel::benchmarks
