#include "rows.hpp"

namespace whimbrel::bindings {

namespace {

template <class Value>
void list_fields(py::dict& types, const char* name) {
  py::list fields;
  for (const auto& field : Value::fields())
    fields.append(py::make_tuple(std::string(field.name), std::string(field.unit), field.lower, field.upper));
  types[name] = fields;
}

}  // namespace

void bind_core(py::module_& m) {
  py::dict types;
  list_fields<Weather<>>(types, "Weather");
  list_fields<Air<>>(types, "Air");
  list_fields<Wind<>>(types, "Wind");
  list_fields<Terrain<>>(types, "Terrain");
  list_fields<Ball<>>(types, "Ball");
  list_fields<MultiLayer>(types, "MultiLayer");
  list_fields<SmitsSmith>(types, "SmitsSmith");
  list_fields<SquareRootLift>(types, "SquareRootLift");
  list_fields<ConstantCoefficients>(types, "ConstantCoefficients");
  list_fields<Club<>>(types, "Club");
  list_fields<Delivery<>>(types, "Delivery");
  list_fields<Presentation<>>(types, "Presentation");
  list_fields<DPlane<>>(types, "DPlane");
  list_fields<SwingArc<>>(types, "SwingArc");
  list_fields<ArcAtBall<>>(types, "ArcAtBall");
  list_fields<GroundStrike<>>(types, "GroundStrike");
  list_fields<BallPlace<>>(types, "BallPlace");
  list_fields<Impact<>>(types, "Impact");
  list_fields<Launch<>>(types, "Launch");
  list_fields<Flight<>>(types, "Flight");
  list_fields<OutOfRange<>>(types, "OutOfRange");
  list_fields<Turf<>>(types, "Turf");
  list_fields<Green<>>(types, "Green");
  list_fields<Landing<>>(types, "Landing");
  list_fields<Run<>>(types, "Run");
  list_fields<Room<>>(types, "Room");
  list_fields<Pace<>>(types, "Pace");
  list_fields<Target<>>(types, "Target");
  list_fields<LevelDistance<>>(types, "LevelDistance");
  m.attr("fields") = types;

  m.attr("least_face_friction") = least_face_friction;
  m.attr("least_approach_speed") = least_approach_speed;
  m.attr("bounce_speed_range") = py::make_tuple(bounce_speed_range[0], bounce_speed_range[1]);
  m.attr("bounce_angle_range") = py::make_tuple(bounce_angle_range[0], bounce_angle_range[1]);

  py::list words;
  for (std::size_t i = 0; i < status_count; ++i) words.append(std::string(describe(static_cast<Status>(i))));
  m.attr("status_words") = words;

  py::dict factors;
  namespace u = units;
  for (const auto& [name, factor] :
       std::initializer_list<std::pair<const char*, double>>{{"mm", u::mm},
                                                             {"cm", u::cm},
                                                             {"inch", u::inch},
                                                             {"ft", u::ft},
                                                             {"yd", u::yd},
                                                             {"mile", u::mile},
                                                             {"mph", u::mph},
                                                             {"kmh", u::kmh},
                                                             {"knot", u::knot},
                                                             {"fps", u::fps},
                                                             {"deg", u::deg},
                                                             {"rpm", u::rpm},
                                                             {"gram", u::gram},
                                                             {"lb", u::lb},
                                                             {"hPa", u::hPa},
                                                             {"mmHg", u::mmHg},
                                                             {"inHg", u::inHg},
                                                             {"percent", u::percent}})
    factors[name] = factor;
  m.attr("units") = factors;
}

}  // namespace whimbrel::bindings
