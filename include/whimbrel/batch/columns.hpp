#pragma once
#include <cstddef>

#include "whimbrel/core/paired.hpp"

/// How rows of numbers reach the batch kernels: column by column, wherever the caller keeps them.
namespace whimbrel {

/// One number of every row: `stride` doubles apart, 0 for one number that serves all rows.
struct Column {
  const double* data = nullptr;
  std::ptrdiff_t stride = 0;

  double operator[](std::size_t row) const { return data[static_cast<std::ptrdiff_t>(row) * stride]; }
};

struct OutColumn {
  double* data = nullptr;  ///< null: not wanted
  std::ptrdiff_t stride = 0;

  double& operator[](std::size_t row) const { return data[static_cast<std::ptrdiff_t>(row) * stride]; }
};

/// The number of a lane.
template <class T>
double& lane(T& numbers, int i) {
  return reinterpret_cast<double*>(&numbers)[i];
}
template <class T>
double lane(const T& numbers, int i) {
  return reinterpret_cast<const double*>(&numbers)[i];
}

/// Copies one lane of a record made of lanes alone into a lane of another.
template <class T, class Record>
void copy_lane(const Record& from, int i, Record& to, int k) {
  static_assert(sizeof(Record) % sizeof(T) == 0 && std::is_trivially_copyable_v<Record>);
  const double* source = reinterpret_cast<const double*>(&from) + i;
  double* target = reinterpret_cast<double*>(&to) + k;
  for (std::size_t n = 0; n < sizeof(Record) / sizeof(T); ++n) target[n * T::width] = source[n * T::width];
}

/// One number of `T::width` rows.
template <class T>
T gathered(const Column& column, const std::size_t* rows) {
  if (column.stride == 0) return T(*column.data);
  T numbers;
  for (int i = 0; i < T::width; ++i) lane(numbers, i) = column[rows[i]];
  return numbers;
}

/// A value of `T::width` rows, its fields in the order of `fields()`.
template <class T, class Value>
Value gathered(const Column* columns, const std::size_t* rows) {
  Value v;
  for (const auto& field : Value::fields()) v.*field.member = gathered<T>(*columns++, rows);
  return v;
}

/// Writes one number of the first `count` rows.
template <class T>
void scatter_number(const T& numbers, const OutColumn& column, const std::size_t* rows, int count) {
  if (column.data)
    for (int i = 0; i < count; ++i) column[rows[i]] = lane(numbers, i);
}

/// Writes the fields of a value for its first `count` rows.
template <class Value>
void scatter(const Value& v, const OutColumn* columns, const std::size_t* rows, int count) {
  for (const auto& field : Value::fields()) scatter_number(v.*field.member, *columns++, rows, count);
}

}  // namespace whimbrel
