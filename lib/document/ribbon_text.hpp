// Ribbon types and receptacles for the terminal.
#pragma once

#include <string>

#include "pinmap/ribbon_type.hpp"

namespace pinfold {

/// One ribbon type: its sizes and ratings, a line each, the source, and what rests on memory.
std::string ribbon_text(const RibbonType& ribbon);
std::string receptacle_text(const ReceptacleType& receptacle);

}  // namespace pinfold
