// From delivery to landing, and the impact alone: in lanes, in one lane, and as plainly as it can be written.
#include <memory>

#include "timed.hpp"

namespace whimbrel::benchmarks {

namespace {

Impact<> strike_plainly(const OrdinaryShots& shots, std::size_t i) {
  return kernel::strike(shots.swing(i), shots.ball, fewer_contact_steps);
}

}  // namespace

void register_shots(const Timed& timed) {
  const OrdinaryShots& shots = timed.shots;
  const std::size_t count = shots.count();
  const auto row = std::make_shared<RowBatch>(shots);
  for (const Kernels* level : runnable_kernels()) {
    const std::string name = level->level;
    add("impact/lanes/" + name, count, [row, level] { row->strikes.strike(level->strike); });
    add("impact/one lane/" + name, count, [row, level] { row->strikes.strike(level->strike_alone); });
    add("delivery to landing/lanes/" + name, count, [row, level] { row->play(level->strike, level->fly); });
    add("delivery to landing/one lane/" + name, count,
        [row, level] { row->play(level->strike_alone, level->fly_alone); });
  }
  add_one_by_one("impact/plain", count,
                 [&](std::size_t i) { return strike_plainly(shots, i).launch.ball_speed; });
  add_one_by_one("delivery to landing/plain Odeint", count, [&](std::size_t i) {
    const Launch<> launch = strike_plainly(shots, i).launch;
    return PlainOdeint(shots.model, launch, shots.ball, shots.setting(i), timed.plain.front().tolerance)
        .fly()
        .carry;
  });
}

}  // namespace whimbrel::benchmarks
