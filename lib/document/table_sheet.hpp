// The wiring table as records of one shape, for spreadsheets and programs.
#pragma once

#include "document/columns.hpp"
#include "document/table.hpp"

namespace pinfold {

/// A head and one record a line, all of the head's fields:
/// kind, part, number, signal, mark, fault, from, to, length_mm, gauge, colour, done, text.
///
/// `kind` is title, warning, promise, first, caution, buy, end-a, end-b, course, conductor, lead
/// or closing; a fact stands in `text` after its label. `done` is left empty, to be filled in.
Rows to_sheet(const WiringTable& table);

}  // namespace pinfold
