// River routing: traces on one layer that run side by side and keep their order.
// Each goes straight from one line to another, but for one run at 45 degrees.
#pragma once

#include <vector>

#include "breakout/rows.hpp"

namespace pinfold {

/// One trace of a river: where it begins and ends along the two lines.
struct Current {
    double from_mm = 0.0;
    double to_mm = 0.0;
    std::size_t net = 0;  ///< those of one net need no gap between them
};

/// A river: how far from the first line each trace begins to run aside, and the least distance
/// between the lines.
struct River {
    std::vector<double> begins_mm;
    double height_mm = 0.0;
};

/// Lays a river, each trace turning aside as soon as its neighbour is out of its way.
///
/// `currents` are in order on both lines, those of different nets `spacing_mm` apart or more. Two
/// parallel runs at 45 degrees are then that far apart too, corners included: the edge of the
/// room a trace takes on its left is the trace itself moved left by the spacing and along by
/// tan(22.5 degrees) of it.
River lay_river(const std::vector<Current>& currents, double spacing_mm);

}  // namespace pinfold
