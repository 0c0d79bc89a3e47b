#pragma once
#include <functional>
#include <optional>

#include "whimbrel/batch/flight_job.hpp"
#include "whimbrel/core/field.hpp"
#include "whimbrel/core/parallel.hpp"

namespace whimbrel {

/// One row's value from its columns.
template <class Value>
Value read_row(const Column* columns, std::size_t row) {
  Value v{};
  for (const auto& field : Value::fields()) v.*field.member = (*columns++)[row];
  return v;
}

inline void write_number(const OutColumn& column, std::size_t row, double x) {
  if (column.data) column[row] = x;
}

template <class Value>
void write_row(const Value& v, const OutColumn* columns, std::size_t row) {
  for (const auto& field : Value::fields()) write_number(*columns++, row, v.*field.member);
}

template <std::size_t N>
void write_numbers(const OutColumn (&columns)[N], std::size_t row, const double (&numbers)[N]) {
  for (std::size_t i = 0; i < N; ++i) write_number(columns[i], row, numbers[i]);
}

template <std::size_t N>
void write_nothing(const OutColumn (&columns)[N], std::size_t row) {
  for (const OutColumn& column : columns) write_number(column, row, NAN);
}

/// Whether one number serves all rows in each of these columns.
template <std::size_t N>
bool is_shared(const Column (&columns)[N]) {
  for (const Column& column : columns)
    if (column.stride != 0) return false;
  return true;
}

/// Called for every bad row, perhaps by several threads at once.
using MistakeSink = std::function<void(std::size_t row, const InputError& error)>;

/// Takes rows in blocks, on all cores or on `threads`: `work(rows, count)` gets the good rows of a block;
/// `mistake_in(row)` says what is wrong with one, and `refuse(row)` marks the bad ones, which are reported to
/// `note`.
template <class MistakeIn, class Refuse, class Work>
void in_checked_blocks(std::size_t rows, unsigned threads, const MistakeSink& note,
                       const MistakeIn& mistake_in, const Refuse& refuse, const Work& work) {
  const auto one_block = [&](std::size_t block) {
    std::size_t good[block_size], count = 0;
    const std::size_t first = block * block_size;
    for (std::size_t row = first; row < std::min(rows, first + block_size); ++row)
      if (const std::optional<InputError> error = mistake_in(row)) {
        refuse(row);
        note(row, *error);
      } else {
        good[count++] = row;
      }
    if (count > 0) work(good, count);
  };
  parallel_for((rows + block_size - 1) / block_size, threads, one_block, 1);
}

}  // namespace whimbrel
