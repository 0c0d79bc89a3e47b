#pragma once
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdio>
#include <stdexcept>
#include <string>
#include <string_view>

#include "whimbrel/core/units.hpp"

namespace whimbrel {

/// A number as a person reads it: its SI value and, where the trade uses another unit, that too.
inline std::string readable(double x, std::string_view unit) {
  struct Trade {
    std::string_view si;
    double factor;
    const char* name;
  };
  constexpr std::array<Trade, 4> trade{{{"rad", units::deg, "deg"},
                                        {"rad/s", units::rpm, "rpm"},
                                        {"m/s", units::mph, "mph"},
                                        {"m", units::mm, "mm"}}};
  char text[96];
  std::snprintf(text, sizeof text, "%.6g", x);
  std::string words = text;
  if (!unit.empty() && unit != "1") (words += ' ') += unit;
  for (const Trade& other : trade)
    if (other.si == unit && x == x && x != 0.0 && (unit != "m" || std::abs(x) < 0.3)) {
      std::snprintf(text, sizeof text, " (%.4g %s)", x / other.factor, other.name);
      words += text;
    }
  return words;
}

/// A caller's mistake, thrown at the edge before any physics: which field, what it was, what is
/// accepted (from `lower` to `upper`, both included, in the SI `unit`).
class InputError : public std::invalid_argument {
 public:
  InputError(std::string_view field, double value, std::string_view unit, double lower, double upper)
      : std::invalid_argument(std::string(field) + " is " + readable(value, unit) +
                              "; accepted: " + readable(lower, unit) + " to " + readable(upper, unit)),
        field(field),
        value(value),
        lower(lower),
        upper(upper) {}

  /// The same with words of its own for what is wrong.
  InputError(std::string_view field, double value, double lower, double upper, std::string_view words)
      : std::invalid_argument(std::string(field) + " " + std::string(words)),
        field(field),
        value(value),
        lower(lower),
        upper(upper) {}

  /// A mistake that is not one number outside one range; `accepted` says what is accepted.
  InputError(std::string_view field, double value, std::string_view accepted)
      : std::invalid_argument(std::string(field) + ": " + std::string(accepted)),
        field(field),
        value(value) {}

  std::string field;
  double value = 0.0, lower = 0.0, upper = 0.0;
};

/// The status of a result. A flight that is `ok` or `not_airborne` has a landing. A run that is `ok` has a
/// place of rest; one that is `no_rest` has the ball's place when its time was up. All others are NaN from
/// the stage that failed.
enum class Status : unsigned char {
  ok,
  not_airborne,
  no_landing,
  numerical_failure,
  bad_input,
  no_rest,
  out_of_reach
};

constexpr std::size_t status_count = 7;

constexpr std::string_view describe(Status status) {
  constexpr std::array<std::string_view, status_count> words{
      "ok",
      "the ball never left the ground",
      "the ball had not come down on the ground after 60 s",
      "the integration failed",
      "bad input",
      "the ball had not come to rest after 30 s on the ground",
      "no speed of this swing carries to the target"};
  return words[static_cast<std::size_t>(status)];
}

}  // namespace whimbrel
