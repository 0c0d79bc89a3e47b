#include <cstdio>
#include <whimbrel/whimbrel.hpp>

int main() {
  const whimbrel::Launch<> launch{.ball_speed = 70.0, .launch_angle = 0.2, .spin_rate = 280.0};
  const double alone = whimbrel::fly(launch).carry;
  const double in_batch = whimbrel::fly_all(std::vector(100, launch))[99].carry;
  std::printf("carry %.6f m alone, %.6f m in a batch\n", alone, in_batch);
  return alone > 0.0 && std::abs(in_batch - alone) < 1e-3 ? 0 : 1;
}
