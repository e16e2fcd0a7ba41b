// Ports whose order of contacts is still to be chosen.
#pragma once

#include "design/design.hpp"

namespace pinfold {

/// One `order-open` for each port that is wired `best`. Nothing else is worth telling before it is.
Findings undecided(const Design& design);

/// Throws InputError with them, if there are any: what is drawn or measured of such a design proves
/// nothing.
void require_decided(const Design& design);

/// The same of one board alone, by its place among the design's.
void require_decided(const Design& design, std::size_t board);

}  // namespace pinfold
