#include <cstdio>
#include <whimbrel/whimbrel.hpp>

double carry_of_another_file(const whimbrel::Launch<>& launch);

int main() {
  const whimbrel::Launch<> launch{.ball_speed = 70.0, .launch_angle = 0.2, .spin_rate = 280.0};
  const double here = whimbrel::fly(launch).carry, there = carry_of_another_file(launch);
  const double in_batch = whimbrel::fly_all(std::vector(100, launch))[99].carry;
  std::printf("carry %.6f m in one file, %.6f m in the other, %.6f m in a batch\n", here, there, in_batch);
  return here == there && here > 0.0 && std::abs(in_batch - here) < 1e-3 ? 0 : 1;
}
