#pragma once
#include <benchmark/benchmark.h>

#include "accuracy.hpp"

/// What is timed: each function below registers benchmarks of one stage, which take the same shots in turn.
namespace whimbrel::benchmarks {

/// What the benchmarks share. It must outlive them.
struct Timed {
  OrdinaryShots shots;
  std::vector<AsExact> plain;
};

void register_peaks();
void register_flights(const Timed& timed);
void register_shots(const Timed& timed);
void register_derivatives(const Timed& timed);
void register_growth(const Timed& timed);
/// Counts the arithmetic of a flight and writes it into the context of the results.
void count_flops(const OrdinaryShots& shots);

/// Work that does `items` things each time it is called, timed by what its thread spends on it.
template <class Work>
benchmark::internal::Benchmark* add(const std::string& name, std::size_t items, Work work) {
  return benchmark::RegisterBenchmark(name.c_str(), [items, work](benchmark::State& state) {
    for (auto _ : state) work();
    state.SetItemsProcessed(state.iterations() * static_cast<std::int64_t>(items));
  });
}

/// The same of work on one shot after the other.
template <class Work>
void add_one_by_one(const std::string& name, std::size_t items, Work work) {
  add(name, items, [items, work] {
    for (std::size_t i = 0; i < items; ++i) benchmark::DoNotOptimize(work(i));
  });
}

}  // namespace whimbrel::benchmarks
