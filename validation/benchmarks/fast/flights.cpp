// Flights on one core: by the plain integrator, by the reference path, in lanes; and the peak they may reach.
#include <memory>

#include "peaks.hpp"
#include "timed.hpp"
#include "whimbrel/batch/fly_alone.hpp"

namespace whimbrel::benchmarks {

namespace {

constexpr std::size_t flights_for_threads = 1 << 16;

FlyKernel<MultiLayer> of_default_model(const FlyKernels& kernels) {
  return std::get<FlyKernel<MultiLayer>>(kernels);
}

void register_kernels(const Timed& timed) {
  const auto batch = std::make_shared<FlightBatch>(timed.shots, timed.shots.launches);
  for (const Kernels* level : runnable_kernels())
    for (const auto& [name, kernel] : {std::pair{"flight/lanes/", of_default_model(level->fly)},
                                       std::pair{"flight/one lane/", of_default_model(level->fly_alone)}})
      add(name + std::string(level->level), timed.shots.count(),
          [batch, kernel = kernel] { batch->fly(kernel); });
}

void register_threads() {
  const auto shots = std::make_shared<OrdinaryShots>(flights_for_threads);
  const auto batch = std::make_shared<FlightBatch>(*shots, shots->launches);
  for (const unsigned threads : {1u, 2u})
    add("flight/threads/" + std::to_string(threads), flights_for_threads, [shots, batch, threads] {
      batch->fly(threads);
    })->UseRealTime();
}

}  // namespace

void register_flights(const Timed& timed) {
  const OrdinaryShots& shots = timed.shots;
  for (const AsExact& plain : timed.plain)
    add_one_by_one("flight/plain Odeint/" + plain.name, shots.count(),
                   [&](std::size_t i) { return fly_plain(shots, i, plain.tolerance).carry; });
  add_one_by_one("flight/reference", shots.count(), [&](std::size_t i) {
    return kernel::fly(shots.launches[i], shots.ball, shots.setting(i)).carry;
  });
  add_one_by_one("flight/alone", shots.count(), [&](std::size_t i) {
    const Setting<> setting = shots.setting(i);
    return fly_alone(shots.launches[i], shots.ball, setting, on_the_tee(shots.ball, setting.terrain)).carry;
  });
  register_kernels(timed);
  register_threads();
}

void register_peaks() {
#if defined(__x86_64__)
  constexpr long rounds = 100'000;
  for (const Kernels* level : runnable_kernels())
    for (const auto& [name, arithmetic] : {std::pair{"peak/multiply-add/", Arithmetic::fused_multiply_add},
                                           std::pair{"peak/divide/", Arithmetic::divide},
                                           std::pair{"peak/square root/", Arithmetic::square_root}}) {
      const auto work = peak(level->level);
      add(name + std::string(level->level), static_cast<std::size_t>(work(arithmetic, rounds)),
          [work, arithmetic = arithmetic] { work(arithmetic, rounds); });
    }
#endif
}

}  // namespace whimbrel::benchmarks
