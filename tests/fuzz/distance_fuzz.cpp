// What any shot to any target plays like: where it takes a share of the speed and an aim, a ball hit so comes
// down on the target.
#include "promises.hpp"

namespace {

using namespace whimbrel;
using namespace whimbrel::fuzz;

Target<> any_target(Bytes& bytes, Reach reach) {
  Target<> target{.distance = 150.0};
  scatter(bytes, target, reach);
  if (bytes.coin()) target.rise = 0.0;
  return target;
}

template <class Start>
void keep_distance(const Start& usual, const Target<>& target, const Case& c) {
  const LevelDistance<> told = kernel::level_distance(usual, target, c.ball, c.setting);
  if (told.status != Status::ok) {
    keep(told.status == Status::out_of_reach && none_finite(told), "what is out of reach has no numbers", c);
    return;
  }
  keep(all_finite(told), "a distance has all of its numbers", c);
  keep(told.speed_share > 0.0 && told.speed_share < most_share && told.level_distance >= 0.0,
       "a shot takes some of the speed", c);
  Setting<> there = c.setting;
  there.terrain = terrain_at(target, c.setting.terrain.tee_height);
  const Start hit = swung(usual, told.speed_share, told.aim);
  const Flight<> flight = kernel::fly(kernel::launched(hit, c.ball), c.ball, there);
  keep(std::hypot(flight.downrange - target.distance, flight.offline) < 1e-4,
       "a ball hit as told comes down on the target", c);
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  Bytes bytes{data, size};
  const Reach reach = bytes.reach();
  Case c;
  if (bytes.coin())
    c.start = any_launch(bytes, reach);
  else
    c.start = any_swing(bytes, reach);
  const Target<> target = any_target(bytes, reach);
  c.ball = any_ball(bytes, reach);
  c.setting = any_setting(bytes, reach);
  tell_if_asked(c);
  const auto play = [&](const auto& usual) {
    if (!first_mistake(usual, target, c.ball, c.setting)) keep_distance(usual, target, c);
  };
  if (const auto* launch = std::get_if<Launch<>>(&c.start))
    play(*launch);
  else
    play(std::get<Swing<>>(c.start));
  return 0;
}
