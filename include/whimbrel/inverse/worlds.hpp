#pragma once
#include <algorithm>
#include <string_view>
#include <vector>

#include "whimbrel/ground/turf.hpp"
#include "whimbrel/inverse/open_constants.hpp"
#include "whimbrel/swing/club.hpp"

namespace whimbrel {

/// Why a number may differ from its computed value.
enum class DoubtSource : unsigned char { contact, flight_constants, flight_law, ball, turf };

inline constexpr std::size_t doubt_source_count = 5;

constexpr std::string_view describe(DoubtSource source) {
  constexpr std::array<std::string_view, doubt_source_count> words{
      "contact of club and ball", "constants of the flight", "form of its law", "ball to ball", "turf"};
  return words[static_cast<std::size_t>(source)];
}

/// One way in which ball, club and turf may differ from what is assumed: what it multiplies and adds.
struct World {
  DoubtSource source;
  double weight;  ///< of the squared change of a number in the variance from this source
  AnyAeroModel aero;
  std::optional<AnyAeroModel> beside{};  ///< what its flights are compared with, if not the shot's own ball
  double contact_stiffness_factor = 1.0, friction_factor = 1.0, restitution_change = 0.0;
  std::array<double, 4> turf_factors{1.0, 1.0, 1.0, 1.0};  ///< in the order of `Turf::fields()`
};

/// The default model of the flight with each constant multiplied by the exponential of its logarithm.
inline MultiLayer scaled(MultiLayer model, const std::array<double, 8>& logarithms) {
  constexpr auto fields = MultiLayer::fields();
  for (std::size_t i = 0; i < fields.size(); ++i) model.*fields[i].member *= std::exp(logarithms[i]);
  return model;
}

/// All worlds to consider for a ball.
/// @throws InputError for a ball that does not fly by `MultiLayer`: the doubt of other models is not known.
inline std::vector<World> worlds(const AnyAeroModel& any) {
  const MultiLayer* model = std::get_if<MultiLayer>(&any);
  if (model == nullptr)
    throw InputError("aero", static_cast<double>(any.index()),
                     "the doubt of a number is known for balls of the multi-layer model only");
  std::vector<World> all;
  const auto add = [&](World world) -> World& { return all.emplace_back(std::move(world)); };

  constexpr double of_draws = 0.5 / static_cast<double>(constant_draws.size());
  for (const ConstantDraw& draw : constant_draws)
    for (const double side : {-1.0, 1.0}) {
      World& contact = add({DoubtSource::contact, of_draws, *model});
      contact.contact_stiffness_factor = std::exp(side * draw.contact_stiffness);
      contact.friction_factor = std::exp(side * draw.friction);
      contact.restitution_change = side * draw.restitution;
      std::array<double, 8> logarithms = draw.flight;
      for (double& x : logarithms) x *= side;
      add({DoubtSource::flight_constants, of_draws, scaled(*model, logarithms)});
    }

  const AnyAeroModel fitted =
      flight_laws[0].constants;  // how far that is from the shipped: the constants' part
  for (std::size_t i = 1; i < flight_laws.size(); ++i)
    add({DoubtSource::flight_law, flight_laws[i].weight, table_of(flight_laws[i]), fitted});

  for (const double side : {-1.0, 1.0}) {
    const double drag = side * ball_drag_spread;
    add({DoubtSource::ball, 0.5, scaled(*model, {0, 0, drag, drag, 0, drag, 0, 0})});
    for (std::size_t i = 0; i < 4; ++i)
      add({DoubtSource::turf, 0.5, *model}).turf_factors[i] = std::exp(side * turf_spread);
  }
  return all;
}

/// A number of a value held inside its accepted range: a world leads nowhere that is refused.
template <class Value>
void hold(Value& value, std::size_t field) {
  const auto range = Value::fields()[field];
  value.*range.member = std::clamp(value.*range.member, range.lower, range.upper);
}

/// A ball, a club and a turf as they are in that world.
inline Ball<> in_world(const World& world, Ball<> ball) {
  ball.aero = world.aero;
  ball.contact_stiffness_ratio *= world.contact_stiffness_factor;
  ball.face_friction *= world.friction_factor;
  for (std::size_t i = 0; i < Ball<>::fields().size(); ++i) hold(ball, i);
  return ball;
}
inline Club<> in_world(const World& world, Club<> club) {
  club.face_restitution += world.restitution_change;
  for (std::size_t i = 0; i < Club<>::fields().size(); ++i) hold(club, i);
  return club;
}
inline Turf<> in_world(const World& world, Turf<> turf) {
  constexpr auto fields = Turf<>::fields();
  for (std::size_t i = 0; i < fields.size(); ++i) {
    turf.*fields[i].member *= world.turf_factors[i];
    hold(turf, i);
  }
  return turf;
}

}  // namespace whimbrel
