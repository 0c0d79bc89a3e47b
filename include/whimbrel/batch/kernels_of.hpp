#pragma once
#include "whimbrel/batch/fly_block.hpp"
#include "whimbrel/batch/fly_sloped.hpp"
#include "whimbrel/batch/kernels.hpp"
#include "whimbrel/batch/strike_block.hpp"

namespace whimbrel {

template <class T, AeroModel Model>
void fly_job(const FlightJob& job, const Model& model) {
  if constexpr (has_slopes<T>)
    fly_sloped<T>(job, model);
  else
    FlightBlock<T, Model>(job, model).fly();
}

template <class T, class... Models>
constexpr std::tuple<FlyKernel<Models>...> fly_kernels(std::tuple<FlyKernel<Models>...>*) {
  const auto of = []<class Model>(FlyKernel<Model>) -> FlyKernel<Model> {
    if constexpr (std::same_as<Model, AeroTable>)
      return nullptr;
    else
      return &fly_job<T, Model>;
  };
  return {of(FlyKernel<Models>{})...};
}

/// All kernels, instantiated for the instruction set of this translation unit: two registers interleaved to
/// hide latency.
template <class Level>
constexpr Kernels kernels_of(const char* name) {
  constexpr int width = register_width<Level>;
  using Many = Paired<Lanes<width, Level>>;
  using One = Lane<Level>;
  // A number with slopes fills a register of at most four, where it costs less than in eight.
  constexpr int sloped_width = width < 4 ? width : 4;
  using Sloped = Dual<inputs_a_pass, Lanes<sloped_width, Level>>;
  FlyKernels* const models = nullptr;
  return {name,
          &strike_block<Many>,
          &strike_block<One>,
          fly_kernels<Many>(models),
          fly_kernels<One>(models),
          &strike_block<Sloped>,
          fly_kernels<Sloped>(models)};
}

}  // namespace whimbrel
