#pragma once
#include "whimbrel/batch/checked_blocks.hpp"
#include "whimbrel/batch/kernels.hpp"

namespace whimbrel {

/// Strikes many swings in lanes, on all cores or on `threads`. A bad row gets NaN and is reported to `note`;
/// an impact that jams is NaN. Against contacts in more steps the launches differ by less than 0.02 %; flown
/// from there, 99 in 100 carries differ by less than 0.01 %, all by less than 0.1 % (20,000 random swings).
inline void strike_all(std::size_t rows, const StrikeColumns& columns, unsigned threads,
                       const MistakeSink& note) {
  in_checked_blocks(
      rows, threads, note,
      [&](std::size_t row) {
        Swing<> swing{read_row<Delivery<>>(columns.delivery, row), read_row<Club<>>(columns.club, row),
                      columns.model};
        swing.club.hand = columns.hand;
        return first_mistake(swing, read_row<Ball<>>(columns.ball, row));
      },
      [&](std::size_t row) {
        write_nothing(columns.impact, row);
        write_number(columns.friction_changes, row, NAN);
        write_nothing(columns.launch, row);
        write_nothing(columns.out_of_range, row);
        write_nothing(columns.head, row);
      },
      [&](const std::size_t* good, std::size_t count) {
        kernels().strike({columns, good, count});
      });
}

}  // namespace whimbrel
