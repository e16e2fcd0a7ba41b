// The breakouts of all boards of a design that take a ribbon.
#pragma once

#include "breakout/breakout.hpp"

namespace pinfold {

/// What a board needs, or why that cannot be drawn.
struct BoardBreakout {
    std::string board;
    std::optional<Breakout> made;
    std::string refusal;  ///< empty if it is made
};

/// Of every board we make with a receptacle for a ribbon and another port, in the design's order.
std::vector<BoardBreakout> board_breakouts(const Design& design);

}  // namespace pinfold
