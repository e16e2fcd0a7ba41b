// Pad room: whether tracks and vias by the rules go between the pads of a breakout's rows.
#pragma once

#include "breakout/rows.hpp"

namespace pinfold {

/// Throws InputError, at the board's track rules or else at the port, where a track cannot leave
/// every pad straight on, or the loops out of a back row cannot pass the ground vias there; it says
/// what would fit.
void require_room(const PadRows& rows, const Board& board);

}  // namespace pinfold
