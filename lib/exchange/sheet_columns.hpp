// Columns of a filled-in sheet: where its points, its reading and what is plugged in stand.
#pragma once

#include "exchange/sheet_lines.hpp"

namespace pinfold {

constexpr std::size_t no_column = static_cast<std::size_t>(-1);

struct SheetColumns {
    std::size_t no = no_column, from = no_column, to = no_column, reading = no_column,
                with = no_column;
    bool is_head() const { return from != no_column && to != no_column && reading != no_column; }
};

/// What a heading names, in any order; not a heading if a point or the reading is missing.
SheetColumns columns_by_head(const SheetLine& line);

/// Without a heading: a number in front is the row's; three cells are two points and a reading; of
/// more the last is the reading, but what stands behind the sheet's own five is what is plugged in.
SheetColumns columns_by_shape(const SheetLine& line);

}  // namespace pinfold
