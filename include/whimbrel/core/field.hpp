#pragma once
#include <cmath>
#include <limits>
#include <optional>
#include <string_view>

#include "whimbrel/core/error.hpp"
#include "whimbrel/core/scalar.hpp"

namespace whimbrel {

/// One number of a value type: its name, where it lives, its SI unit and the range it accepts.
/// A value type lists its fields once (`static constexpr auto fields()`); checking, the Python
/// bindings and the tables all read that list.
template <class Value, class T>
struct Field {
  std::string_view name;
  T Value::*member;
  std::string_view unit;
  double lower = -std::numeric_limits<double>::infinity();
  double upper = std::numeric_limits<double>::infinity();
};

/// The first field of a value that is NaN or outside its range, if any. (Infinity is inside a range without
/// an end, as for the radius of a flat face.)
template <class Value>
std::optional<InputError> out_of_bounds(const Value& v) {
  for (const auto& field : Value::fields()) {
    const double x = value(v.*field.member);
    if (!(x >= field.lower && x <= field.upper))
      return InputError(field.name, x, field.unit, field.lower, field.upper);
  }
  return std::nullopt;
}

/// What is wrong with a value. A type with a rule that spans two fields overloads this.
template <class Value>
std::optional<InputError> mistake(const Value& v) {
  return out_of_bounds(v);
}

/// The first mistake of several values, if there is one.
template <class First, class... Rest>
std::optional<InputError> first_mistake(const First& first, const Rest&... rest) {
  if (auto error = mistake(first)) return error;
  if constexpr (sizeof...(rest) > 0) return first_mistake(rest...);
  return std::nullopt;
}

/// Throws the first mistake of the values given.
template <class... Values>
void check(const Values&... values) {
  if (auto error = first_mistake(values...)) throw *error;
}

}  // namespace whimbrel
