// Placed rows: where two facing rows of pads lie by the placing in their board's file.
#pragma once

#include "breakout/rows.hpp"

namespace pinfold {

/// A contact's pad in its row's own frame, as RowPad has it.
struct PlacedContact {
    std::size_t contact = 0;  ///< in its port
    double along_mm = 0.0;
    double behind_mm = 0.0;
    double pitch_mm = 0.5;  ///< the least distance along a row of its port
};

struct PlacedRows {
    const char* why_not = nullptr;  ///< what keeps the placing from being drawn; then all is empty
    std::vector<PlacedContact> near, far;
    Course course = Course::in_line;
    double front_mm = 0.0;            ///< as PadRows::placed_front_mm
    std::vector<std::string> shells;  ///< shield pads, which have a place and no part in the wires
};

/// The rows of two ports of one board, of which one at least has a placing.
PlacedRows placed_rows(const Design& design, const Port& near, const Port& far);

}  // namespace pinfold
