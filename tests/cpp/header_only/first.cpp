#include <cstdio>
#include <whimbrel/whimbrel.hpp>

double carry_of_another_file(const whimbrel::Launch<>& launch);

int main() {
  const whimbrel::Launch<> launch{.ball_speed = 70.0, .launch_angle = 0.2, .spin_rate = 280.0};
  const double here = whimbrel::fly(launch).carry, there = carry_of_another_file(launch);
  std::printf("carry %.3f m in one file, %.3f m in the other\n", here, there);
  return here == there && here > 0.0 ? 0 : 1;
}
