// A delivery, played: a whole program, to copy from.
#include <cstdio>
#include <whimbrel/whimbrel.hpp>

int main() {
  using namespace whimbrel;
  using namespace whimbrel::literals;
  const Club<> iron = shipped_club("7 iron");
  const Delivery<> hit{.clubhead_speed = 84_mph,
                       .club_path = 4_deg,
                       .attack_angle = -6_deg,
                       .face_angle = -1_deg,
                       .dynamic_loft = 24_deg};
  const Shot<> shot = play(hit, iron, {}, Setting<>{.wind = head_wind(4.0)});
  std::printf("%s: carry %.1f yd, offline %.1f yd\n", iron.name.c_str(), shot.flight.carry / units::yd,
              shot.flight.offline / units::yd);
}
