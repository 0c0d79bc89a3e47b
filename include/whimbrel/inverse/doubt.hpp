#pragma once
#include "whimbrel/inverse/worlds.hpp"
#include "whimbrel/shot/play.hpp"

namespace whimbrel {

/// How sure the numbers of a shot are: one standard deviation of each, by source, and of all together.
/// Not in it: how well the delivery, the launch, the weather and the ground are known; how the covers of
/// balls differ, which a wedge's spin depends on. Of a number that a world leaves without a value it is NaN.
struct Doubt {
  std::array<Shot<>, doubt_source_count> by_source{};
  Shot<> all{};

  const Shot<>& from(DoubtSource source) const { return by_source[static_cast<std::size_t>(source)]; }
};

namespace kernel {

/// Calls f(number of `to`, number of `a`, number of `b`) for every number of a shot.
template <class F>
void each_number(Shot<>& to, const Shot<>& a, const Shot<>& b, const F& f) {
  const auto of = [&]<class Value>(Value& x, const Value& y, const Value& z) {
    for (const auto& field : Value::fields()) f(x.*field.member, y.*field.member, z.*field.member);
  };
  if (a.impact && b.impact) {
    if (!to.impact) {
      to.impact = Impact<>{};
      for (const auto& field : Impact<>::fields()) *to.impact.*field.member = 0.0;
    }
    of(*to.impact, *a.impact, *b.impact);
  }
  of(to.launch, a.launch, b.launch);
  of(to.flight, a.flight, b.flight);
  of(to.landing, a.landing, b.landing);
  of(to.run, a.run, b.run);
}

inline Shot<> no_doubt() {
  Shot<> zero;
  const auto clear = []<class Value>(Value& value) {
    for (const auto& field : Value::fields()) value.*field.member = 0.0;
  };
  clear(zero.launch);
  clear(zero.flight);
  clear(zero.landing);
  clear(zero.run);
  return zero;
}

/// A shot without numbers of its run where it does not come to rest: those of a moment are no place of rest.
inline Shot<> at_rest(Shot<> shot) {
  if (shot.run.status != Status::ok)
    for (const auto& field : Run<>::fields()) shot.run.*field.member = NAN;
  return shot;
}

/// `play(world)` for every world of a ball, beside what is `played`.
template <class Play>
Doubt doubt_of(const Shot<>& played, const Ball<>& ball, const Play& play) {
  const Shot<> shot = at_rest(played);
  Doubt doubt;
  doubt.by_source.fill(no_doubt());
  doubt.all = no_doubt();
  for (const World& world : worlds(ball.aero)) {
    const Shot<> changed = at_rest(play(world));
    Shot<> beside = shot;
    if (world.beside) {
      World other = world;
      other.aero = *world.beside;
      beside = at_rest(play(other));
    }
    for (Shot<>* sum : {&doubt.by_source[static_cast<std::size_t>(world.source)], &doubt.all})
      each_number(*sum, changed, beside,
                  [&](double& x, double a, double b) { x += world.weight * square(a - b); });
  }
  const auto root = [](Shot<>& sum) {
    each_number(sum, sum, sum, [](double& x, double y, double) { x = std::sqrt(y); });
  };
  for (Shot<>& sum : doubt.by_source) root(sum);
  root(doubt.all);
  return doubt;
}

}  // namespace kernel

/// How sure the numbers of a delivery with a club are.
/// @throws as `play` does, and InputError for a ball whose model is not `MultiLayer`, or the rigid impact.
inline Doubt doubt(const Delivery<>& delivery, const Club<>& club, const Ball<>& ball = {},
                   const Setting<>& setting = {}, const Turf<>& turf = {},
                   ImpactModel model = ImpactModel::compliant) {
  if (model == ImpactModel::rigid)
    throw InputError("impact", 0.0, "the doubt of a number is known for the compliant impact only");
  return kernel::doubt_of(play(delivery, club, ball, setting, turf, model), ball, [&](const World& world) {
    const Swing<> swing{delivery, in_world(world, club), model};
    return kernel::play(swing, in_world(world, ball), setting, in_world(world, turf));
  });
}

/// How sure the numbers of a measured launch, or of a landing, are.
/// @throws as above.
template <class Start>
Doubt doubt(const Start& start, const Ball<>& ball = {}, const Setting<>& setting = {},
            const Turf<>& turf = {}) {
  return kernel::doubt_of(play(start, ball, setting, turf), ball, [&](const World& world) {
    return kernel::play(start, in_world(world, ball), setting, in_world(world, turf));
  });
}

}  // namespace whimbrel
