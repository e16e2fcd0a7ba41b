// Placing: where the pads of a port lie on its board.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/mark.hpp"
#include "base/units.hpp"

namespace pinfold {

/// A pad by its label, and its centre.
struct PlacedPad {
    std::string label;
    Millimetres x, y;
};

/// A part on its board. In the part's own frame its contact rows lie along x around the origin, and
/// the mouth looks towards -y; `pads` are in that frame.
struct Placing {
    Millimetres x, y;  ///< of the part's origin on the board, seen on the component side
    int angle = 0;     ///< degrees, counter-clockwise, 0 to 359
    bool bottom = false;
    std::optional<Millimetres> drill;                  ///< of plated holes; none: surface pads
    std::optional<Millimetres> pad_width, pad_length;  ///< along the row and across
    std::vector<PlacedPad> pads;
    Mark at;
};

/// The pads on the board, seen on the component side: a part on the other side is turned over about
/// its y axis before it is turned by its angle.
std::vector<PlacedPad> on_board(const Placing& placing);

}  // namespace pinfold
