#pragma once
#include <span>
#include <tuple>

#include "whimbrel/ball/ball.hpp"
#include "whimbrel/batch/flight_job.hpp"
#include "whimbrel/batch/strike_job.hpp"

namespace whimbrel {

/// Flies the flights of a job with one aerodynamic model.
template <class Model>
using FlyKernel = void (*)(const FlightJob&, const Model&);

template <class Models>
struct FlyKernelsOf;
template <class... Models>
struct FlyKernelsOf<std::variant<Models...>> {
  using type = std::tuple<FlyKernel<Models>...>;
};
/// A kernel for every model; null where a model has none and its flights take the reference path
/// (`AeroTable`).
using FlyKernels = typename FlyKernelsOf<AnyAeroModel>::type;

/// Strikes the swings of a job.
using StrikeKernel = void (*)(const StrikeJob&);

/// The batch kernels compiled for one instruction set.
struct Kernels {
  const char* level;          ///< the instruction set's name
  StrikeKernel strike;        ///< many impacts side by side
  StrikeKernel strike_alone;  ///< the same arithmetic in one lane: for single impacts
  FlyKernels fly;             ///< many flights side by side
  FlyKernels fly_alone;
  StrikeKernel strike_sloped;  ///< one impact in `Partials`, which its columns hold
  FlyKernels fly_sloped;       ///< one flight in them
};

/// The kernels of this machine: the best it can run, or the level in the environment variable
/// `WHIMBREL_CPU_LEVEL`. Defined by the compiled target, or by `batch/kernels_here.hpp`.
/// @throws InputError for a level that is unknown or that this machine cannot run.
const Kernels& kernels();

/// The kernels of every level that this machine can run, the best first.
std::span<const Kernels* const> runnable_kernels();

}  // namespace whimbrel
