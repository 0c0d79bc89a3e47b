// What a flight takes: the kernel's templates flown by a number that counts.
#include <memory>

#include "batches.hpp"
#include "counted.hpp"
#include "timed.hpp"
#include "whimbrel/batch/fly_block.hpp"

namespace whimbrel::benchmarks {

void count_flops(const OrdinaryShots& shots) {
  FlightBatch batch(shots, shots.launches);
  done = {};
  batch.fly([](const FlightJob& job, const MultiLayer& model) {
    const auto block = std::make_unique<FlightBlock<Counted, MultiLayer>>(job, model);
    block->fly();
  });
  const auto say = [&](const char* name, long count) {
    benchmark::AddCustomContext(
        name, std::to_string(static_cast<double>(count) / static_cast<double>(shots.count())));
  };
  say("flops a flight", done.flops());
  say("sums a flight", done.sums);
  say("products a flight", done.products);
  say("quotients a flight", done.quotients);
  say("roots a flight", done.roots);
  say("choices a flight", done.choices);
}

}  // namespace whimbrel::benchmarks
