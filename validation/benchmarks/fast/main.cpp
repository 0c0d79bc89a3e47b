// Times the fast path beside the plain one: a program of Google Benchmark, with options of its own for
//
//   --flights=N              how many flights the errors are measured over (200,000)
//   --tolerances=A,B,C       the plain integrator's, where they are known from another run: no errors then
//   --write_shots=FILE,N     nothing but N launches and their winds, for others to time
#include <cstdio>
#include <fstream>
#include <sstream>

#include "timed.hpp"

namespace whimbrel::benchmarks {

namespace {

constexpr std::size_t timed_shots = 4096;

struct Options {
  std::size_t flights = 200'000;
  std::string tolerances, write_shots;
};

Options read(int argc, char** argv) {
  Options options;
  for (int i = 1; i < argc; ++i) {
    const std::string_view word = argv[i];
    const auto take = [&](std::string_view name, auto keep) {
      if (!word.starts_with(name)) return false;
      keep(std::string(word.substr(name.size())));
      return true;
    };
    if (take("--flights=", [&](const std::string& x) { options.flights = std::stoul(x); })) continue;
    if (take("--tolerances=", [&](const std::string& x) { options.tolerances = x; })) continue;
    if (take("--write_shots=", [&](const std::string& x) { options.write_shots = x; })) continue;
    throw std::invalid_argument("unknown option: " + std::string(word));
  }
  return options;
}

/// Launches and winds as rows of numbers, their fields in order.
void write_shots(const std::string& file, std::size_t count) {
  const OrdinaryShots shots(count);
  std::ofstream out(file, std::ios::binary);
  const auto write = [&](const auto& value) {
    for (const auto& field : std::remove_cvref_t<decltype(value)>::fields())
      out.write(reinterpret_cast<const char*>(&(value.*field.member)), sizeof(double));
  };
  for (std::size_t i = 0; i < count; ++i) {
    write(shots.launches[i]);
    write(shots.winds[i]);
  }
  if (!out) throw std::runtime_error("cannot write " + file);
}

void say(const std::string& name, double number) {
  char text[32];
  std::snprintf(text, sizeof text, "%.6g", number);
  std::fprintf(stderr, "%s: %s\n", name.c_str(), text);
  benchmark::AddCustomContext(name, text);
}

void say(const std::string& who, const Errors& errors) {
  say(who + ": worst carry error, mm", 1e3 * errors.worst());
  say(who + ": carry error of 99 in 100 below, mm", 1e3 * errors.below(0.99));
  say(who + ": carry error of half below, mm", 1e3 * errors.below(0.5));
}

/// Measures the errors of the fast path, and finds the plain integrators that are as exact.
std::vector<AsExact> measured(std::size_t flights) {
  const OrdinaryShots shots(flights);
  const std::vector<double> exact = exact_carries(shots);
  FlightBatch batch(shots, shots.launches);
  batch.fly(0u);
  const Errors fast(batch.carries(), exact);
  say("flights measured", static_cast<double>(flights));
  say("fast path", fast);
  std::vector<AsExact> plain = ways_of_being_as_exact();
  for (auto& [name, share, tolerance] : plain) {
    tolerance = tolerance_as_exact(shots, exact, fast, share);
    say("plain Odeint, " + name, errors_of_plain(shots, exact, tolerance));
  }
  return plain;
}

/// The same from numbers between commas.
std::vector<AsExact> known(const std::string& tolerances) {
  std::istringstream numbers(tolerances);
  std::vector<AsExact> plain = ways_of_being_as_exact();
  for (AsExact& one : plain)
    if (std::string number; std::getline(numbers, number, ',')) one.tolerance = std::stod(number);
  return plain;
}

void run(const Options& options) {
  if (const std::size_t comma = options.write_shots.find(','); comma != std::string::npos)
    return write_shots(options.write_shots.substr(0, comma),
                       std::stoul(options.write_shots.substr(comma + 1)));
  const Timed timed{OrdinaryShots(std::min(options.flights, timed_shots)),
                    options.tolerances.empty() ? measured(options.flights) : known(options.tolerances)};
  say("tolerance of the fast path, m", fast_tolerance);
  for (const AsExact& plain : timed.plain) say("tolerance of plain Odeint, " + plain.name, plain.tolerance);
  benchmark::AddCustomContext("kernels", kernels().level);
  count_flops(timed.shots);
  register_peaks();
  register_flights(timed);
  register_shots(timed);
  register_derivatives(timed);
  register_growth(timed);
  if (benchmark::RunSpecifiedBenchmarks() == 0) throw std::invalid_argument("no benchmark has such a name");
}

}  // namespace
}  // namespace whimbrel::benchmarks

int main(int argc, char** argv) {
  benchmark::Initialize(&argc, argv);
  try {
    whimbrel::benchmarks::run(whimbrel::benchmarks::read(argc, argv));
  } catch (const std::exception& error) {
    std::fprintf(stderr, "%s\n", error.what());
    return 1;
  }
  benchmark::Shutdown();
}
