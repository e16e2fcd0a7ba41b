// One ribbon of the wiring table: what to buy, how both ends go in, and what the drawing shows.
#pragma once

#include "document/table.hpp"
#include "document/table_rows.hpp"

namespace pinfold {

/// Everything the sheet says of one ribbon.
TableRibbon table_ribbon(const Design& design, const RowReader& reader, std::size_t ribbon,
                         const RibbonEnds& ends);

/// What is wrong with the seats of a ribbon, or left to the assembler; empty if nothing is.
std::vector<std::string> seat_warnings(const Design& design, std::size_t ribbon,
                                       const RibbonEnds& ends);

/// The seating with the rows of contacts that touch, where the design leaves them open settled so
/// that the order is straight, which is how a ribbon is then traced.
std::optional<Seating> settled_seating(const Design& design, std::size_t ribbon,
                                       const RibbonEnds& ends);

/// The drawing: conductor 1 at the upper edge, end a on the left.
///
/// Looking into the mouth with the side that faces the copper below, contact 1 is on the left for
/// handedness +1. End a lies left, so one looks into its mouth leftwards and the lower edge is on
/// one's left: conductor 1 at the upper edge means copper upwards for +1, downwards for -1.
RibbonView view_of(const Design& design, std::size_t ribbon, const RibbonEnds& ends);

}  // namespace pinfold
