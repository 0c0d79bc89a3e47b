#pragma once
#include <cstddef>
#include <span>

#include "whimbrel/core/dual.hpp"
#include "whimbrel/core/vector.hpp"

/// How rows of numbers reach the batch kernels: column by column, wherever the caller keeps them.
namespace whimbrel {

/// One number of every row: `stride` doubles apart, 0 for one number that serves all rows.
struct Column {
  const double* data = nullptr;
  std::ptrdiff_t stride = 0;

  const double& operator[](std::size_t row) const { return data[static_cast<std::ptrdiff_t>(row) * stride]; }
};

struct OutColumn {
  double* data = nullptr;  ///< null: not wanted
  std::ptrdiff_t stride = 0;

  double& operator[](std::size_t row) const { return data[static_cast<std::ptrdiff_t>(row) * stride]; }
};

/// A number alone, or one with its slopes behind it.
template <class T>
Column column_of(const T& number, std::ptrdiff_t stride = 0) {
  return {reinterpret_cast<const double*>(&number), stride};
}
template <class T>
OutColumn column_for(T& number) {
  return {reinterpret_cast<double*>(&number), 0};
}

/// How many columns a value takes.
template <class Value>
inline constexpr std::size_t columns_of = Value::fields().size();

/// The numbers of one value for all rows, or of the first of many, given with their distance in doubles. They
/// must outlive the columns.
template <class Value, std::size_t N>
void set_columns(Column (&columns)[N], const Value& v, std::ptrdiff_t apart = 0) {
  static_assert(N == columns_of<Value>);
  Column* column = columns;
  for (const auto& field : Value::fields()) *column++ = column_of(v.*field.member, apart);
}
template <class Value, std::size_t N>
void set_columns(Column (&columns)[N], std::span<const Value> values) {
  static_assert(sizeof(Value) % sizeof(double) == 0);
  set_columns(columns, *values.data(), sizeof(Value) / sizeof(double));
}
template <class T>
void set_columns(Column (&columns)[3], const Vec3<T>& v) {
  columns[0] = column_of(v.x);
  columns[1] = column_of(v.y);
  columns[2] = column_of(v.z);
}

/// Where the numbers of one value go.
template <class Value, std::size_t N>
void set_columns(OutColumn (&columns)[N], Value& v) {
  static_assert(N == columns_of<Value>);
  OutColumn* column = columns;
  for (const auto& field : Value::fields()) *column++ = column_for(v.*field.member);
}
template <class T>
void set_columns(OutColumn (&columns)[3], Vec3<T>& v) {
  columns[0] = column_for(v.x);
  columns[1] = column_for(v.y);
  columns[2] = column_for(v.z);
}

/// Copies one lane of a record made of lanes alone into a lane of another.
template <class T, class Record>
void copy_lane(const Record& from, int i, Record& to, int k) {
  static_assert(sizeof(Record) % sizeof(T) == 0 && std::is_trivially_copyable_v<Record>);
  const double* source = reinterpret_cast<const double*>(&from) + i;
  double* target = reinterpret_cast<double*>(&to) + k;
  for (std::size_t n = 0; n < sizeof(Record) / sizeof(T); ++n) target[n * T::width] = source[n * T::width];
}

/// How many rows a scalar holds numbers of.
template <class T>
inline constexpr int rows_in = T::width;
template <int N, class T>
inline constexpr int rows_in<Dual<N, T>> = 1;

/// One number of `T::width` rows; a dual, of one row, has its slopes behind it.
template <class T>
T gathered(const Column& column, const std::size_t* rows) {
  if constexpr (has_slopes<T>) {
    const double* number = &column[*rows];
    T dual(*number);
    for (int k = 0; k < T::count; ++k) lane(dual.slopes, k) = number[1 + k];
    return dual;
  } else {
    if (column.stride == 0) return T(*column.data);
    T numbers;
    for (int i = 0; i < T::width; ++i) lane(numbers, i) = column[rows[i]];
    return numbers;
  }
}

template <class T>
Vec3<T> gathered_vector(const Column* columns, const std::size_t* rows) {
  return {gathered<T>(columns[0], rows), gathered<T>(columns[1], rows), gathered<T>(columns[2], rows)};
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
  if (!column.data) return;
  if constexpr (has_slopes<T>) {
    double* number = &column[*rows];
    number[0] = lane(numbers.number, 0);
    for (int k = 0; k < T::count; ++k) number[1 + k] = numbers.slope(k);
  } else {
    for (int i = 0; i < count; ++i) column[rows[i]] = lane(numbers, i);
  }
}

template <class T>
void scatter(const Vec3<T>& v, const OutColumn* columns, const std::size_t* rows, int count) {
  for (const T& x : {v.x, v.y, v.z}) scatter_number(x, *columns++, rows, count);
}

/// Writes the fields of a value for its first `count` rows.
template <class Value>
void scatter(const Value& v, const OutColumn* columns, const std::size_t* rows, int count) {
  for (const auto& field : Value::fields()) scatter_number(v.*field.member, *columns++, rows, count);
}

}  // namespace whimbrel
