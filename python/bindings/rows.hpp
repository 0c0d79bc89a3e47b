#pragma once
#include <pybind11/numpy.h>
#include <pybind11/pybind11.h>
#include <pybind11/stl.h>

#include "whimbrel/compiled.hpp"

/// Arrays of value types cross the border as tables of doubles, a row a value and a column a field,
/// in the order of `fields()`.
namespace whimbrel::bindings {

namespace py = pybind11;
using Table = py::array_t<double, py::array::c_style | py::array::forcecast>;

template <class Value>
constexpr std::size_t width = Value::fields().size();

/// A table read as values. A table of one row stands for as many rows as are asked for.
template <class Value>
class Rows {
 public:
  explicit Rows(const Table& table) : data(table.data()), count(static_cast<std::size_t>(table.shape(0))) {
    if (table.ndim() != 2 || static_cast<std::size_t>(table.shape(1)) != width<Value>)
      throw std::invalid_argument("a table of rows has the wrong shape");
  }

  Value operator[](std::size_t row) const {
    const double* x = data + (count == 1 ? 0 : row) * width<Value>;
    Value v{};
    for (const auto& field : Value::fields()) v.*field.member = *x++;
    return v;
  }

  std::size_t size() const { return count; }

 private:
  const double* data;
  std::size_t count;
};

/// A table being written, a value a row; rows never written stay NaN.
template <class Value>
class Results {
 public:
  explicit Results(std::size_t rows)
      : table({static_cast<py::ssize_t>(rows), static_cast<py::ssize_t>(width<Value>)}),
        data(table.mutable_data()) {
    std::fill_n(data, rows * width<Value>, NAN);
  }

  void set(std::size_t row, const Value& v) {
    double* x = data + row * width<Value>;
    for (const auto& field : Value::fields()) *x++ = v.*field.member;
  }

  Table table;

 private:
  double* data;
};

/// Impacts being written: their numbers, their launches, ranges left, and the heads' velocities and
/// rotations.
class ImpactResults {
 public:
  explicit ImpactResults(std::size_t rows)
      : impacts(rows),
        launches(rows),
        excesses(rows),
        heads({static_cast<py::ssize_t>(rows), py::ssize_t{9}}),
        head(heads.mutable_data()) {
    std::fill_n(head, rows * 9, NAN);
  }

  void set(std::size_t row, const Impact<>& impact) {
    impacts.set(row, impact);
    launches.set(row, impact.launch);
    excesses.set(row, impact.out_of_range);
    double* motion = head + 9 * row;
    for (const Vec3<double>& v :
         {impact.head_velocity_after, impact.head_rotation_after, impact.struck_normal})
      for (const double x : {v.x, v.y, v.z}) *motion++ = x;
  }

  py::dict tables() const {
    using namespace py::literals;
    return py::dict("impact"_a = impacts.table, "launch"_a = launches.table,
                    "out_of_range"_a = excesses.table, "head_motion"_a = heads);
  }

 private:
  Results<Impact<>> impacts;
  Results<Launch<>> launches;
  Results<OutOfRange<>> excesses;
  Table heads;
  double* head;
};

constexpr Hand hand_of(bool left_handed) { return left_handed ? Hand::left : Hand::right; }

/// Clubs of one hand, a row each.
struct ClubRows {
  Rows<Club<>> clubs;
  Hand hand;

  ClubRows(const Table& clubs, bool left_handed) : clubs(clubs), hand(hand_of(left_handed)) {}

  Club<> operator[](std::size_t row) const {
    Club<> club = clubs[row];
    club.hand = hand;
    return club;
  }
};

/// Swings, a row each, with one impact model.
struct SwingRows {
  Rows<Delivery<>> deliveries;
  ClubRows clubs;
  ImpactModel model;

  SwingRows(const Table& deliveries, const Table& clubs, bool left_handed, bool rigid)
      : deliveries(deliveries),
        clubs(clubs, left_handed),
        model(rigid ? ImpactModel::rigid : ImpactModel::compliant) {}

  Swing<> operator[](std::size_t row) const { return {deliveries[row], clubs[row], model}; }
};

/// Bad rows and what is wrong with each.
using Mistakes = std::vector<std::pair<std::size_t, std::string>>;

template <class Value>
Mistakes mistakes_of(const Rows<Value>& rows) {
  Mistakes mistakes;
  for (std::size_t i = 0; i < rows.size(); ++i)
    if (const auto error = mistake(rows[i])) mistakes.emplace_back(i, error->what());
  return mistakes;
}

/// result[i] = f(value i), row by row.
template <class Result, class Value, class F>
Table each(const Rows<Value>& rows, const F& f) {
  Results<Result> results(rows.size());
  for (std::size_t i = 0; i < rows.size(); ++i) results.set(i, f(rows[i]));
  return results.table;
}

/// results[i] = f(i) for rows that may be bad: their mistakes come back beside the results.
template <class Result, class F>
std::pair<Table, Mistakes> each_or_mistake(std::size_t rows, const F& f) {
  Results<Result> results(rows);
  Mistakes mistakes;
  for (std::size_t i = 0; i < rows; ++i) try {
      results.set(i, f(i));
    } catch (const InputError& error) {
      mistakes.emplace_back(i, error.what());
    }
  return {results.table, mistakes};
}

/// The values of a set by name, each as its numbers in the order of `fields()`.
template <class Set>
py::dict by_name(const Set& set) {
  py::dict named;
  for (const auto& value : set) {
    py::list numbers;
    for (const auto& field : value.fields()) numbers.append(value.*field.member);
    named[py::str(value.name)] = numbers;
  }
  return named;
}

/// The constants of the default model, or the numbers of a table, by their names.
py::dict numbers_by_name(const AnyAeroModel&);

void bind_core(py::module_&);
void bind_setting(py::module_&);
void bind_ball(py::module_&);
void bind_swing(py::module_&);
void bind_impact(py::module_&);
void bind_ground(py::module_&);
void bind_course(py::module_&);
void bind_shot(py::module_&);
void bind_explain(py::module_&);
void bind_batch(py::module_&);
void bind_derivative(py::module_&);
void bind_inverse(py::module_&);

}  // namespace whimbrel::bindings
